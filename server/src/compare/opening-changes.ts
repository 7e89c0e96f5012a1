import type { Resolved } from '../model/pattern.ts';
import type { ArticleRim } from '../model/seams/rims.ts';
import { openingRows, type OpeningRow } from '../table/openings.ts';
import { roundText } from '../table/round-text.ts';
import type { Display } from '../units/length.ts';
import { together } from './causes.ts';
import { differing, type Raw } from './change.ts';
import { bothUnits } from './lengths.ts';
import type { Pair } from './pair.ts';
import { cutLines } from './piece-changes.ts';

/**
 * Openings of the same edges that are longer or shorter, or more or fewer. One that is gone or new is so because of a seam
 * or an edge, of which that is told.
 */
export function openingChanges(pair: Pair): readonly Raw[] {
  const display = bothUnits(pair.fresh.pattern.display);
  const names = new Map(pair.pieces.both.map(([was, now]) => [was.shape.name, now.shape.name]));
  const earlier = new Map(told(pair.was, display).map(({ rim, row }) => [keyOf(rim, (name) => names.get(name) ?? name), { rim, row }]));
  return told(pair.now, display).flatMap(({ rim, row }) => {
    const was = earlier.get(keyOf(rim, (name) => name));
    const changes: Raw[] = [];
    if (was === undefined) return changes;
    const causes = together(pair.pieces.both.filter(([, now]) => rim.stretches.some(({ piece }) => piece.name === now.shape.name)).flatMap(([before, now]) => [
      pair.causes.ofOutline(now.shape.name, before.shape.name), ...cutLines(pair, before, now).both.filter(([a, b]) => !a.count.equals(b.count)).map(([a, b]) => pair.causes.ofCut(b, a)),
    ]));
    differing(changes, { group: 'sew', subject: row.edges, what: row.opening.toLowerCase(), causes }, text(was.row), text(row));
    return changes;
  });
}

const told = (resolved: Resolved, display: Display): readonly { readonly rim: ArticleRim; readonly row: OpeningRow }[] =>
  openingRows(resolved, display).flatMap((row, index) => {
    const rim = resolved.rims[index];
    return rim === undefined ? [] : [{ rim, row }];
  });

const keyOf = ({ stretches, layer }: ArticleRim, nameOf: (piece: string) => string): string => `${layer} ${stretches.map(({ piece, edge }) => `${nameOf(piece.name)}.${edge}`).sort().join(' ')}`;

const text = (row: OpeningRow): string => `${row.count === 1 ? '' : `${row.count} of `}${roundText(row)}`;
