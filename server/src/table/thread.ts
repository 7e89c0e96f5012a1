import { millimetresIn, type Display } from '../units/length.ts';
import { figure } from './figures.ts';
import type { SewingRow } from './sewing.ts';

/** Thread of needle and bobbin together that a lockstitch takes, in lengths of its seam (common practice, from memory; no source). */
const lockstitch = 2.5;

/** How much thread the seams take, for whoever looks whether the spool is enough; nothing where the spec says no seams. */
export function threadSentences(sewing: readonly Pick<SewingRow, 'length' | 'times' | 'unsewn' | 'how'>[], display: Display): readonly string[] {
  const millimetres = sewing.reduce((sum, { length: { value, unit }, times, unsewn }) => sum + times * (value * millimetresIn[unit].valueOf() - unsewn), 0);
  if (millimetres === 0) return [];
  const unit = millimetresIn[display.unit === 'in' ? 'in' : 'cm'];
  // Up to a whole inch or centimetre: whoever has as much has enough.
  const up = (units: number): number => Math.ceil(units - 0.01);
  const show = (units: number): string => `about ${figure(unit.mul(units), { ...display, step: unit })}`;
  const sewn = up(millimetres / unit.valueOf());
  const [rows, seams] = [sewing.filter(isRow), sewing.filter((row) => !isRow(row))];
  const what = [...(seams.length > 0 ? ['seams'] : []), ...(rows.length > 0 ? ['rows of stitches'] : [])].join(' and ');
  const more = [...(seams.length > 0 ? [] : ['seams']), 'hems', 'zips', 'bindings', ...(rows.length > 0 ? [] : ['topstitching'])].join(', ');
  return [`All these ${what} are ${show(sewn)} long together, each counted as often as it is sewn, without what is left open. A lockstitch takes about ${lockstitch} times as much thread, needle and bobbin together (common practice): ${show(up(sewn * lockstitch))}. Whatever else you sew comes on top, such as ${more} and ends.`];
}

const isRow = ({ how }: Pick<SewingRow, 'how'>): boolean => how === 'topstitched' || how === 'quilted';
