import type { Polygon } from '../geometry/shape.ts';
import type { Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { sizeOfCut } from '../model/piece/size.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { isOpenedOut, needsTemplate } from './cut-rows.ts';
import { measureSize, measureUp, type MeasuredSize } from './figures.ts';
import { alongText, lineText } from './names.ts';

/** A template to print: one for each line of a piece that something is cut along. */
export interface TemplateRow {
  /** From 1, in the order of the spec. */
  readonly number: number;
  readonly pieceName: string;
  readonly piece: string;
  readonly line: string;
  readonly size: MeasuredSize;
  /** `half, on the fold` where the piece is drawn as half. */
  readonly note: string;
  readonly forMaterials: readonly string[];
  /** What is cut, in millimetres, opened out, and what is cut out of it; for whoever draws it. */
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
    for (const lines of alike(cuts)) {
      const [first] = lines;
      if (first === undefined) continue;
      const number = rows.length + 1;
      for (const line of lines) numbers.set(line, number);
      rows.push({
        number,
        pieceName: shape.name,
        piece: shape.title,
        line: [alongText(first), ...first.windows.map((window) => `without ${lineText(shape, window)}`), ...(first.large === undefined ? [] : ['large'])].join(', '),
        size: measureSize(sizeOfCut(first), display, measureUp),
        note: isOpenedOut(first) ? 'half, on the fold' : '',
        forMaterials: [...new Set(lines.map((line) => line.material.title))],
        outline: first.outline,
        holes: first.holes,
        place: first.place,
      });
    }
  }
  return { rows, numberOf: (line) => numbers.get(line) };
}

/** Cut lines that one template serves: of the same line, with the same windows and as large. */
function alike(cuts: readonly CutLine[]): readonly (readonly CutLine[])[] {
  const byLine = new Map<string, CutLine[]>();
  for (const line of cuts) {
    if (!needsTemplate(line)) continue;
    const key = [line.along, line.large?.toFraction() ?? '', ...line.windows].join(' ');
    const same = byLine.get(key);
    if (same === undefined) byLine.set(key, [line]);
    else same.push(line);
  }
  return [...byLine.values()];
}
