import { edgeLength } from '../geometry/measure.ts';
import type { Outline } from '../geometry/shape.ts';
import { turnOf } from '../geometry/vector.ts';
import type { CutLine, WayUp } from '../model/piece/cut-line.ts';
import { isHandFree } from '../model/seams/hand-free.ts';
import { sizeOfCut } from '../model/piece/size.ts';
import type { Place } from '../problems/place.ts';
import { showLength, type Display } from '../units/length.ts';
import { measured, type Rational } from '../units/rational.ts';
import { figure, measure, measureSize, measureUp, sizeText, type MeasuredSize } from './figures.ts';
import { alongText, nameText } from './names.ts';
import { keptFor } from './per-display.ts';
import { windowNotes } from './window-notes.ts';
import { intoSeam, sameBothWays, sameEndUp } from './words.ts';

/** One line to cut. */
export interface CutRow {
  readonly piece: string;
  readonly material: string;
  readonly count: number;
  /** `9 1/2 in × 7 in`, or where there is a template `within 9 1/2 in × 7 in`, or `circle, 11 in across`. */
  readonly size: string;
  readonly measured: MeasuredSize;
  /** The number of its template; undefined of a plain rectangle. */
  readonly template: number | undefined;
  /** Whether that is the template of what it is a part of, folded. */
  readonly templateFolded: boolean;
  /** `cutting line`, `stitching line`, the name of an inner line, or empty for a size of its own. */
  readonly along: string;
  readonly onFold: boolean;
  /** Whether it is cut larger than its line, to be trimmed. */
  readonly isLarge: boolean;
  readonly twins: boolean;
  readonly wayUp: string;
  /** `its height`, `its 7 in side`; empty where it makes no difference. */
  readonly grain: string;
  readonly notes: readonly string[];
  /** Where it is written, for whoever wants to go there. */
  readonly place: Place;
  readonly pieceName: string;
  readonly materialName: string;
}

/** @param template the number of its template, where there is one */
export function cutRow(line: CutLine, display: Display, articles: number, template: number | undefined, said: readonly string[] = []): CutRow {
  const row = ownRow(line, display);
  if (template === undefined && articles === 1 && said.length === 0) return row;
  return { ...row, notes: said.length === 0 ? row.notes : [...row.notes, ...said], count: row.count * articles, template };
}

const ownRow: (line: CutLine, display: Display) => CutRow = keptFor((line, display) => {
  const measured = measuredCut(line, display);
  return {
    piece: line.piece.title,
    material: line.material.title,
    count: Number(line.count.n),
    size: cutSizeText(line, measured),
    measured,
    template: undefined,
    templateFolded: line.foldedFrom !== undefined,
    along: alongText(line),
    onFold: line.onFold,
    isLarge: line.large !== undefined,
    twins: line.hand === 'twins',
    wayUp: wayUpWords[wayUpOf(line)],
    grain: grainWords(line, display),
    notes: notesOf(line, display),
    place: line.place,
    pieceName: line.piece.name,
    materialName: line.material.name,
  };
});

/** Twins with the same outline both ways are a pair all the same where what is marked on them isn't. */
const wayUpOf = (line: CutLine): WayUp => (line.hand === 'twins' && line.wayUp === 'either' && !isHandFree(line) ? 'half each way' : line.wayUp);

const wayUpWords: Readonly<Record<WayUp, string>> = {
  either: sameBothWays,
  'right side up': 'right side up',
  'wrong side up': 'wrong side up (flipped)',
  'half each way': 'as many flipped as drawn',
  'glue up': 'as drawn, glue side up (or flipped, glue side down)',
  'glue down': 'as drawn, glue side down (or flipped, glue side up)',
};

/** Whether it is cut by a template: a size of its own is a plain rectangle, windows or not. */
export const isShaped = (line: CutLine): boolean => line.rectangle === undefined && line.along !== undefined;

/** Whether it needs a template of its own, and not another’s that is folded. */
export const needsTemplate = (line: CutLine): boolean => isShaped(line) && line.foldedFrom === undefined;

/** How large something is cut; of what is no rectangle and no circle, what it fits within. */
export function measuredCut(line: CutLine, display: Display): MeasuredSize {
  const size = sizeOfCut(line);
  return measureSize(size, display, isShaped(line) && !size.circle ? measureUp : measure);
}

export const cutSizeText = (line: CutLine, measured: MeasuredSize): string => `${isShaped(line) && !measured.circle ? 'within ' : ''}${sizeText(measured)}`;

function notesOf(line: CutLine, display: Display): readonly string[] {
  const notes = [...cornerNotes(line, display)];
  if (isOpenedOut(line)) notes.push(line.onFold || line.rectangle !== undefined ? 'size unfolded' : 'drawn as half: unfold the template');
  if (line.foldedFrom?.ofHalf === true) notes.push('its template is a half: draw round it, flip it along the fold, draw round it again');
  notes.push(...windowNotes(line, display));
  if (line.large !== undefined) notes.push(`${figure(line.large, display)} of it all round is to spare, trimmed later`);
  if (isIntoSeam(line)) notes.push(intoSeam);
  if (line.thisWayUp) notes.push('this way up');
  if (liesOneWay(line)) notes.push(`one way: ${sameEndUp}`);
  return notes;
}

/** Whether a stiff layer is meant to be caught in the seams round it. */
export const isIntoSeam = ({ statement }: CutLine): boolean => statement.clauses.some(({ kind }) => kind === 'into the seam');

/** Whether all of it must lie with the same end up, since its cloth runs one way. */
export function liesOneWay({ piece: { grain }, material }: CutLine): boolean {
  return material.direction === 'one way' && grain.angle !== undefined && !grain.orAcross;
}

const cornerWords = { round: 'rounded', chamfer: 'chamfered', box: 'boxed out' } as const;

/** What was made of a rectangle's corners: as it is said on the line that the piece is drawn to, and on the other one as wide as a box is there. */
export function cornerNotes({ piece, along, rectangle }: CutLine, display: Display): readonly string[] {
  if (rectangle !== undefined || (along !== 'cutting' && along !== 'stitching')) return [];
  return piece.corners.map(({ which, treatment, across, up }) => {
    const [wide, high] = along === piece.drawnTo ? [across, up] : treatment === 'box' ? boxOn(piece[along], which) : [];
    const size = wide === undefined || high === undefined ? '' : ` ${figure(wide, display)}${wide.equals(high) ? '' : ` × ${figure(high, display)}`}`;
    const corners = which === 'all' ? 'all corners' : which.includes('_') ? `${nameText(which)} corner` : `both ${which} corners`;
    return `${corners} ${cornerWords[treatment]}${size}`;
  });
}

/** How far a box reaches along both sides of its corner, on a line round the piece; nothing where its edges have other names, or several corners differ. */
function boxOn({ edges }: Outline, which: string): readonly Rational[] {
  const corners = ['bottom_left', 'bottom_right', 'top_left', 'top_right'].filter((corner) => which === 'all' || which === corner || corner.split('_').includes(which));
  const sides = ['level', 'upright'].map((side) => corners.map((corner) => {
    const edge = edges.find(({ name }) => name === `${corner}_${side}`);
    return edge && measured(edgeLength(edge));
  }));
  return sides.flatMap(([first, ...others]) => (first !== undefined && others.every((one) => one?.equals(first) === true) ? [first] : []));
}

/** Whether what is cut lies across the fold; a line beside the fold, or a size of its own, is cut as it is. */
export function isOpenedOut({ fold, along, outline }: CutLine): boolean {
  if (fold === undefined || along === undefined) return false;
  const [from, to] = fold;
  return [1, -1].every((side) => outline.some((point) => side * turnOf(from, to, point) > 1));
}

/** Whether it matters how it lies on its material: foam and felt have no grain. */
export const hasGrain = ({ piece, material }: CutLine): boolean => material.direction !== 'any' && piece.grain.angle !== undefined;

/**
 * Along which side of the piece the lengthwise grain runs. The spec's words `up` and `across` speak of the drawing; to
 * whoever cuts, “across” means from selvedge to selvedge.
 */
function grainWords(line: CutLine, display: Display): string {
  const { angle, given, orAcross } = line.piece.grain;
  if (!hasGrain(line) || angle === undefined) return '';
  return `${grainSide(line, angle, orAcross, display)}${given ? '' : ', as is usual'}`;
}

function grainSide(line: CutLine, angle: number, orAcross: boolean, display: Display): string {
  const turn = ((angle % 180) + 180) % 180;
  if (turn % 90 === 0) {
    if (orAcross) return 'its width or its height';
    const [side, other] = turn === 0 ? (['height', 'width'] as const) : (['width', 'height'] as const);
    if (line.rectangle === undefined) return `its ${side}`;
    const length = showLength(line.rectangle[side], display);
    return length === showLength(line.rectangle[other], display) ? `its ${side}` : `its ${length} side`;
  }
  if (turn === 45 || turn === 135) return orAcross ? 'the bias, either way' : `the bias, leaning to the ${turn === 45 ? 'left' : 'right'}`;
  return turn < 90 ? `a line ${turn}° to the left of its height` : `a line ${180 - turn}° to the right of its height`;
}

