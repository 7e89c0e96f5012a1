import type { Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import type { PlaceRef, PreviewCut, PreviewTable } from './drawing-data.ts';
import type { Asking, Kept } from './kept.ts';
import { trailsOf, type Trails } from './trail.ts';
import type { CutRow } from '../table/cut-rows.ts';
import type { CuttingTable } from '../table/table.ts';

/** A name for each cut line, by what it is of and from, that no other has. */
export function cutKeys(resolved: Resolved): ReadonlyMap<CutLine, string> {
  const keys = new Map<CutLine, string>();
  const taken = new Set<string>();
  for (const line of resolved.pieces.flatMap((piece) => piece.cuts)) {
    let key = `${line.piece.name} ${line.material.name} ${line.along ?? ''}`;
    while (taken.has(key)) key += '+';
    taken.add(key);
    keys.set(line, key);
  }
  return keys;
}

/** The cutting table with its places and trails, for the preview: the rows of the first pieces where the others aren’t shown. */
export function previewTable(resolved: Resolved, table: CuttingTable, kept: Kept, asking: Asking, display: Display): PreviewTable {
  const lines = resolved.pieces.flatMap((piece) => piece.cuts);
  const keys = cutKeys(resolved);
  const shown = <Row extends { readonly place: Place }>(rows: readonly Row[]): readonly (Omit<Row, 'place'> & { readonly place: PlaceRef | null })[] =>
    rows.map((row) => kept.of(row, [], asking, ({ ref }) => ({ ...row, place: ref(row.place) })));
  return {
    notes: table.notes,
    cautions: table.cautions,
    cuts: lines.flatMap((line, index) => {
      const row = table.cuts[index];
      const key = keys.get(line) ?? '';
      // Its measures are made together with all else that a row says of a line alone.
      return row === undefined ? [] : [kept.of(line, [key, row.measured, row.count, ...row.notes], asking, (asked) => previewCut(row, line, key, asked, display))];
    }),
    seams: shown(table.seams),
    fusing: shown(table.fusing),
    marks: shown(table.marks),
    pieceNotes: shown(table.pieceNotes),
    templates: table.templates.map(({ place, outline: _, holes: __, number: ___, ...row }) => ({ ...row, place: asking.ref(place) })),
    materials: shown(table.materials),
  };
}

function previewCut({ place, ...row }: CutRow, line: CutLine, key: string, asked: Asking, display: Display): PreviewCut {
  const { ref } = asked;
  const trails = trailsOf(asked, display);
  const { start, end } = line.statement.count;
  return {
    ...row,
    template: undefined,
    key,
    piecePlace: ref(line.piece.place),
    materialPlace: ref(line.material.place),
    countFigure: { text: String(row.count), trail: trails.count(line), place: ref({ ...place, start, end }) },
    sizeFigure: { text: row.size, trail: trails.cutSize(line), place: ref(sizePlace(line, trails)) },
    place: ref(place),
  };
}

/** Where a cut’s size is written: its own clause, the inner line, or the piece’s outline. */
function sizePlace(line: CutLine, trails: Trails): CutLine['place'] {
  const sized = line.statement.clauses.find((clause) => clause.kind === 'sized');
  if (sized !== undefined) return { ...line.place, start: sized.start, end: sized.end };
  const inner = line.piece.lines.find((one) => one.name === line.along);
  return inner?.place ?? trails.sizePlace(line.piece, 'width') ?? line.place;
}
