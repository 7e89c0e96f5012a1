import type { ResolvedPiece } from '../model/pattern.ts';
import { fusingRows, type FusingRow } from '../table/layers.ts';
import { markRows, type MarkRow } from '../table/marks.ts';
import { dartRows } from '../table/darts.ts';
import { stitchingRows } from '../table/stitches.ts';
import { seamRows } from '../table/seams.ts';
import type { SewingRow } from '../table/sewing.ts';
import { listed, sizeText } from '../table/figures.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { together } from './causes.ts';
import { differing, type Raw } from './change.ts';
import { bothUnits } from './lengths.ts';
import { matched } from './matched.ts';
import { withNamesNow } from './called-now.ts';
import type { Pair } from './pair.ts';
import { cutCauses, cutLines } from './piece-changes.ts';
import { cutsTheSame } from './same-outline.ts';
import { notesIn } from './said.ts';

/** What is sewn, fused or marked otherwise on pieces that both have. */
export function sewingChanges(pair: Pair): readonly Raw[] {
  const { old, fresh, pieces, materials } = pair;
  const display = bothUnits(fresh.pattern.display);
  const titles = new Map(materials.both.map(([was, now]) => [was.title, now.title]));
  return pieces.both.flatMap(([was, now]) => {
    const changes: Raw[] = [];
    const causes = pair.causes.ofShape(now.shape.name, was.shape.name);
    const subject = now.shape.title;
    const [before, after] = [only(pair.was, was), only(pair.now, now)];
    const [seams, seamsNow] = [seamTexts(only(pair.was, withNamesNow(was, now)), display), seamTexts(after, display)];
    const ofOutline = pair.causes.ofOutline(now.shape.name, was.shape.name);
    for (const [what, text] of seamsNow) differing(changes, { group: 'sew', subject, what, causes: what === 'size as folded' ? causes : ofOutline }, seams.get(what) ?? '', text);
    changes.push(...rowChanges(pair, was, now, dartRows(before, display), dartRows(after, display)), ...rowChanges(pair, was, now, stitchingRows(before, display), stitchingRows(after, display)));
    const [layers, layersNow] = layersOtherwise(fusingRows(before, display, 1).map((row) => told(row, (title) => titles.get(title) ?? title)), fusingRows(after, display, 1).map((row) => told(row, (title) => title)));
    differing(changes, { group: 'sew', subject, what: 'layers', causes: layerCauses(pair, was, now, causes) }, layers, layersNow);
    const marks = (rows: readonly MarkRow[], { shape }: ResolvedPiece): readonly MarkRow[] => rows.filter((row) => row.pieceName === shape.name);
    changes.push(...markChanges(marks(markRows({ ...old.pattern, display }, pair.was), was), marks(markRows({ ...fresh.pattern, display }, pair.now), now), subject, keepsCloth(pair, was, now), (places) => markCauses(pair, was, now, places)));
    differing(changes, { group: 'words', subject, what: 'notes', causes: pair.causes.ofNotes(now.shape.notes, was.shape.notes) }, notesIn(was.shape.notes, pair.was, display).join(' '), notesIn(now.shape.notes, pair.now, display).join(' '));
    return changes;
  });
}

const only = (resolved: Pair['was'], piece: ResolvedPiece): Pair['was'] => ({ ...resolved, pieces: [piece] });

export const rowText = ({ first, how, second, length }: SewingRow): string => `${first} ${how} ${second}, ${length.text}`;

/** What a dart or the like is called, without its piece. */
export const rowTitle = ({ seam }: SewingRow, { title }: ResolvedPiece['shape']): string => seam.slice(title.length + 2);

/** Darts, pleats, topstitching and quilting, each by itself; one that is the same under another name is the same. */
function rowChanges({ causes }: Pair, { shape: earlier }: ResolvedPiece, { shape }: ResolvedPiece, was: readonly SewingRow[], now: readonly SewingRow[]): readonly Raw[] {
  const isCalledSo = (a: SewingRow, b: SewingRow): boolean => rowTitle(a, earlier) === rowTitle(b, shape);
  const { both, gone, come } = matched(was, now, [(a, b) => isCalledSo(a, b) && rowText(a) === rowText(b), isCalledSo, (a, b) => rowText(a) === rowText(b)]);
  const changes: Raw[] = [];
  const tell = (a: SewingRow | undefined, b: SewingRow | undefined): void => differing(changes, {
    group: 'sew', subject: shape.title, what: b === undefined ? a === undefined ? '' : rowTitle(a, earlier) : rowTitle(b, shape), causes: causes.ofMark(shape.name, earlier.name, [a, b].flatMap((row) => (row === undefined ? [] : [row.place]))),
  }, a === undefined ? '' : rowText(a), b === undefined ? '' : rowText(b));
  for (const [a, b] of both) tell(a, b);
  for (const b of come) tell(undefined, b);
  for (const a of gone) tell(a, undefined);
  return changes;
}

function seamTexts(resolved: Pair['was'], display: Display): ReadonlyMap<string, string> {
  const rows = seamRows(resolved, display);
  return new Map([
    ['finished size', [...new Set(rows.map((row) => sizeText(row.finished)))].join(' or ')],
    ['size as folded', [...new Set(rows.flatMap((row) => (row.folded === undefined ? [] : [sizeText(row.folded)])))].join(' or ')],
    ['seam allowance', [...new Set(rows.map((row) => row.allowance))].join(' or ')],
  ]);
}

/** A layer in words, and what of it says which one it is. */
interface ToldLayer {
  readonly which: string;
  readonly text: string;
}

export function told({ how, layer, onto, over, side, where, care }: FusingRow, titleOf: (title: string) => string): ToldLayer {
  const which = `${how} ${titleOf(layer)} on the ${side} side of ${titleOf(onto)}`;
  return { which, text: `${which}${over.length === 0 ? '' : ` over ${listed(over.map(titleOf))}`}, ${where}${care.length === 0 ? '' : `, ${care.join(', ')}`}` };
}

/** Where the same layers go on in the same order, only those that go on otherwise; else all. */
function layersOtherwise(was: readonly ToldLayer[], now: readonly ToldLayer[]): readonly [was: string, now: string] {
  const isSameOrder = was.length === now.length && was.every(({ which }, index) => which === now[index]?.which);
  const text = (layers: readonly ToldLayer[], others: readonly ToldLayer[]): string => layers.filter((layer, index) => !isSameOrder || layer.text !== others[index]?.text).map((layer) => layer.text).join('; then ');
  return [text(was, now), text(now, was)];
}

/** The cut lines, then the shape; a layer whose care is another has that from its material. */
function layerCauses(pair: Pair, was: ResolvedPiece, now: ResolvedPiece, ofShape: Raw['causes']): Raw['causes'] {
  const { causes } = pair;
  const own = cutCauses(pair, was, now);
  if (own.length > 0 || ofShape.length > 0) return own.length > 0 ? own : ofShape;
  return together(cutLines(pair, was, now).both.map(([a, b]) => causes.ofNamed(b.material.name, a.material.name)));
}

/** How a piece is cut says which of its marks are told, and with which side up. */
function markCauses(pair: Pair, was: ResolvedPiece, now: ResolvedPiece, places: readonly Place[]): Raw['causes'] {
  const found = pair.causes.ofMark(now.shape.name, was.shape.name, places);
  return found.length > 0 ? found : cutCauses(pair, was, now);
}

/** Whether some of its cloth, which marks are made on, may be kept. */
const keepsCloth = (pair: Pair, was: ResolvedPiece, now: ResolvedPiece): boolean =>
  cutLines(pair, was, now).both.some(([a, b]) => b.layer === undefined && pair.sameMaterial(a.material, b.material) && cutsTheSame(a, b));

export const markText = ({ kind, fromLeft, fromBelow, facing }: MarkRow): string =>
  [kind, fromLeft === undefined ? '' : `${fromLeft.text} from the left`, fromBelow === undefined ? '' : `${fromBelow.text} from below`, facing === 'right side' ? '' : `with its ${facing} facing you`].filter((text) => text !== '').join(', ');

function markChanges(was: readonly MarkRow[], now: readonly MarkRow[], subject: string, serves: boolean, causesOf: (places: readonly Place[]) => Raw['causes']): readonly Raw[] {
  const kept = serves ? { serves } : {};
  // A mark that is at its place under another name is the same mark.
  const { both, gone, come } = matched(was, now, [
    (a, b) => a.mark === b.mark && markText(a) === markText(b),
    (a, b) => a.mark === b.mark,
    (a, b) => markText(a) === markText(b),
  ]);
  return [
    ...both.flatMap(([a, b]): readonly Raw[] => (markText(a) === markText(b) ? [] : [{ group: 'mark', kind: 'changed', subject, ...kept, causes: causesOf([a.place, b.place]), what: b.mark, was: markText(a), now: markText(b) }])),
    ...come.map((row): Raw => ({ group: 'mark', kind: 'added', subject, ...kept, causes: causesOf([row.place]), what: row.mark, was: '', now: markText(row) })),
    ...gone.map((row): Raw => ({ group: 'mark', kind: 'removed', subject, ...kept, causes: causesOf([row.place]), what: row.mark, was: markText(row), now: '' })),
  ];
}
