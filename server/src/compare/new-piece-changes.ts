import type { ResolvedPiece } from '../model/pattern.ts';
import { dartRows } from '../table/darts.ts';
import { fusingRows } from '../table/layers.ts';
import { markRows } from '../table/marks.ts';
import { stitchingRows } from '../table/stitches.ts';
import { together } from './causes.ts';
import type { Raw } from './change.ts';
import { bothUnits } from './lengths.ts';
import type { Pair } from './pair.ts';
import { markText, rowText, rowTitle, told } from './sewing-changes.ts';

/** What is sewn, fused and marked on pieces that only the new pattern has: that they are cut is told with their cut lines. */
export const newPieceChanges = (pair: Pair): readonly Raw[] => pair.pieces.come.flatMap((piece) => onPiece(pair, piece));

function onPiece({ now, fresh: { pattern }, causes }: Pair, piece: ResolvedPiece): readonly Raw[] {
  const { shape, cuts } = piece;
  const display = bothUnits(pattern.display);
  const alone = { ...now, pieces: [piece] };
  const common = { kind: 'added', subject: shape.title, was: '' } as const;
  const layers = fusingRows(alone, display, 1).map((row) => told(row, (title) => title).text);
  return [
    ...[...dartRows(alone, display), ...stitchingRows(alone, display)].map((row): Raw => ({ ...common, group: 'sew', what: rowTitle(row, shape), now: rowText(row), causes: causes.at('new', row.place) })),
    ...(layers.length === 0 ? [] : [{ ...common, group: 'sew', what: 'layers', now: layers.join('; then '), causes: together(cuts.filter(({ layer }) => layer !== undefined).map(({ place }) => causes.at('new', place))) } satisfies Raw]),
    ...markRows({ ...pattern, display }, now).filter(({ pieceName }) => pieceName === shape.name).map((row): Raw => ({ ...common, group: 'mark', what: row.mark, now: markText(row), causes: causes.at('new', row.place) })),
  ];
}
