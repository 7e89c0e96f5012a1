import type { Pattern, Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { PlaceWriter } from './places.ts';
import type { Figure, PreviewTable } from './drawing-data.ts';
import type { Trails } from './trail.ts';
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
export function previewTable(pattern: Pattern, resolved: Resolved, table: CuttingTable, { ref }: PlaceWriter, trails: Trails): PreviewTable {
  const lines = resolved.pieces.flatMap((piece) => piece.cuts);
  const keys = cutKeys(resolved);
  return {
    notes: table.notes,
    cautions: table.cautions,
    cuts: table.cuts.slice(0, lines.length).map(({ place, ...row }, index) => {
      const line = lines[index];
      return {
        ...row,
        template: undefined,
        key: (line && keys.get(line)) ?? '',
        piecePlace: ref(line?.piece.place),
        materialPlace: ref(line?.material.place),
        countFigure: countFigure({ ...row, place }, line, ref, trails),
        sizeFigure: sizeFigure({ ...row, place }, line, ref, trails),
        place: ref(place),
      };
    }),
    seams: table.seams.map(({ place, ...row }) => ({ ...row, place: ref(place) })),
    fusing: table.fusing.map(({ place, ...row }) => ({ ...row, place: ref(place) })),
    marks: table.marks.map(({ place, ...row }) => ({ ...row, place: ref(place) })),
    pieceNotes: table.pieceNotes.map(({ place, ...row }) => ({ ...row, place: ref(place) })),
    templates: table.templates.map(({ place, outline: _, holes: __, number: ___, ...row }) => ({ ...row, place: ref(place) })),
    materials: table.materials.map(({ place, ...row }) => ({ ...row, place: ref(place) })),
  };
}

function countFigure(row: CutRow, line: CutLine | undefined, ref: PlaceWriter['ref'], trails: Trails): Figure {
  const node = line?.statement.count;
  return {
    text: String(row.count),
    trail: line === undefined ? [] : trails.count(line),
    place: node === undefined ? ref(row.place) : ref({ ...row.place, start: node.start, end: node.end }),
  };
}

function sizeFigure(row: CutRow, line: CutLine | undefined, ref: PlaceWriter['ref'], trails: Trails): Figure {
  return { text: row.size, trail: line === undefined ? [] : trails.cutSize(line), place: ref(line === undefined ? row.place : sizePlace(line, trails)) };
}

/** Where a cut’s size is written: its own clause, the inner line, or the piece’s outline. */
function sizePlace(line: CutLine, trails: Trails): CutLine['place'] {
  const sized = line.statement.clauses.find((clause) => clause.kind === 'sized');
  if (sized !== undefined) return { ...line.place, start: sized.start, end: sized.end };
  const inner = line.piece.lines.find((one) => one.name === line.along);
  return inner?.place ?? trails.sizePlace(line.piece, 'width') ?? line.place;
}
