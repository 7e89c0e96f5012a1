import type { BuyingList } from '../buying/list.ts';
import { countsOf } from '../buying/lays.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { CutRow } from './cut-rows.ts';
import { listed } from './figures.ts';

/**
 * A row of what is drawn as half as it lies in the lays that are bought for: what the table tells to cut on the fold is what
 * the lays count. Nothing changes where nothing was laid out.
 */
export function asLaid(row: CutRow, line: CutLine, buying: BuyingList | undefined): CutRow {
  if (line.fold === undefined) return row;
  const plan = buying?.materials.find(({ need }) => need.material.name === line.material.name);
  const requirement = plan?.need.requirements.findIndex((one) => one.line.statement === line.statement && one.line.piece.name === line.piece.name) ?? -1;
  if (plan?.best === undefined || requirement < 0) return row;
  const { onFold, throughBoth, single } = countsOf(plan.best, requirement);
  if (onFold + throughBoth + single === 0) return row;
  // Cloth in a single layer has room for it unfolded, so it may be folded there.
  if (onFold + throughBoth === 0) return line.onFold ? { ...row, notes: [...row.notes, 'in the lay it is shown unfolded: fold the cloth along the middle of its place before you cut'] } : row;
  if (throughBoth + single === 0) return { ...row, onFold: true };
  const ways = [
    ...(onFold > 0 ? [`${onFold} on the fold`] : []),
    ...(throughBoth > 0 ? [`${throughBoth} unfolded through both layers, which makes ${2 * throughBoth}`] : []),
    ...(single > 0 ? [`${single} unfolded in the single layer`] : []),
  ];
  return { ...row, onFold: false, notes: [...row.notes, listed(ways)] };
}
