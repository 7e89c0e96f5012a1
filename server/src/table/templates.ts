import { intersection } from '../geometry/boolean.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import type { Polygon } from '../geometry/shape.ts';
import type { Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { polygonOf } from '../model/piece/polygons.ts';
import type { Size } from '../model/piece/size.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import { isOpenedOut, measuredCut, needsTemplate } from './cut-rows.ts';
import { measureSize, measureUp, type MeasuredSize } from './figures.ts';
import { alongText, largerText, lineText } from './names.ts';
import { keptFor } from './per-display.ts';

/** A template to print: one for each line of a piece that something is cut along. */
export interface TemplateRow {
  /** From 1, in the order of the spec. */
  readonly number: number;
  readonly pieceName: string;
  readonly piece: string;
  readonly line: string;
  /** Of what is printed: of a piece that is drawn as half, the half. */
  readonly size: MeasuredSize;
  /** `half, on the fold` where the piece is drawn as half. */
  readonly note: string;
  readonly forMaterials: readonly string[];
  /** Whether it is of the whole cutting line, so that parts may be cut from it folded. */
  readonly isWhole: boolean;
  /** What is printed, in millimetres, and what is cut out of it; for whoever draws it. */
  readonly outline: Polygon;
  readonly holes: readonly Polygon[];
  readonly place: Place;
}

export interface Templates {
  readonly rows: readonly TemplateRow[];
  readonly numberOf: (line: CutLine) => number | undefined;
}

export function templatesOf(resolved: Resolved, display: Display): Templates {
  const rows: TemplateRow[] = [];
  const numbers = new Map<CutLine, number>();
  for (const { shape, cuts } of resolved.pieces) {
    for (const lines of alikeByLine(cuts, 'needed').values()) {
      const [first] = lines;
      if (first === undefined) continue;
      const number = rows.length + 1;
      const half = halfOf(first);
      for (const line of lines) numbers.set(line, number);
      rows.push({
        number,
        pieceName: shape.name,
        piece: shape.title,
        line: [alongText(first), ...first.windows.map((window) => `without ${lineText(shape, window)}`), ...(first.large === undefined ? [] : [largerText(first.large, display)])].join(', '),
        size: sizeOf(first, display),
        note: half === undefined ? '' : 'half, on the fold',
        isWhole: first.along === 'cutting' && first.windows.length === 0 && first.large === undefined,
        forMaterials: [...new Set(lines.map((line) => line.material.title))],
        outline: half ?? first.outline,
        holes: half === undefined ? first.holes : first.holes.flatMap((hole) => intersection([hole], [half])),
        place: first.place,
      });
    }
  }
  const folded = resolved.pieces.flatMap(({ cuts }) => cuts).filter(({ foldedFrom }) => foldedFrom !== undefined);
  const foldedIn = (row: TemplateRow): readonly string[] => folded.filter(({ foldedFrom }) => row.isWhole && foldedFrom?.parentName === row.pieceName).map(({ material, piece }) => `${material.title} (folded, for ${piece.title})`);
  return { rows: rows.map((row) => ({ ...row, forMaterials: [...row.forMaterials, ...new Set(foldedIn(row))] })), numberOf: (line) => numbers.get(line) ?? (line.foldedFrom && numberOfFolded(rows, line.foldedFrom.parentName)) };
}

/** The template of a whole piece that a part is cut from. */
const numberOfFolded = (rows: readonly TemplateRow[], pieceName: string): number | undefined =>
  rows.find((row) => row.pieceName === pieceName && row.isWhole)?.number;

const sizeOf = keptFor((line: CutLine, display: Display): MeasuredSize => {
  const half = halfOf(line);
  return half === undefined ? measuredCut(line, display) : measureSize(sizeOfHalf(half), display, measureUp);
});

/** What is drawn of a piece that is drawn as half; undefined where its template is whole, as that of what is cut large is. */
function halfOf(line: CutLine): Polygon | undefined {
  const { piece, along, large } = line;
  if (large !== undefined || !isOpenedOut(line)) return undefined;
  if (along === 'cutting' || along === 'stitching') return polygonOf(piece[along]);
  return piece.lines.find(({ name }) => name === along)?.points;
}

function sizeOfHalf(half: Polygon): Size {
  const { minX, minY, maxX, maxY } = boundsOfPoints(half);
  return { width: measured(maxX - minX), height: measured(maxY - minY), exact: false, plain: false, circle: false };
}

/** Which pieces get a template: all that are cut along a line, or only those that can’t be cut to measure. */
export type TemplateChoice = 'all' | 'needed';

/** Cut lines that one template serves, by what it is of: the same line, with the same windows and as large. */
export function alikeByLine(cuts: readonly CutLine[], choice: TemplateChoice): ReadonlyMap<string, readonly CutLine[]> {
  const byLine = new Map<string, CutLine[]>();
  for (const line of cuts) {
    if (line.along === undefined || line.foldedFrom !== undefined || (choice === 'needed' && !needsTemplate(line))) continue;
    const key = [line.along, line.large?.toFraction() ?? '', ...line.windows].join(' ');
    const same = byLine.get(key);
    if (same === undefined) byLine.set(key, [line]);
    else same.push(line);
  }
  return byLine;
}
