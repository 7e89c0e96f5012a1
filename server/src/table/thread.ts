import { millimetresIn, type Display } from '../units/length.ts';
import { figure } from './figures.ts';
import type { SewingRow } from './sewing.ts';

/** Thread of needle and bobbin together that a lockstitch takes, in lengths of its seam (common practice, from memory; no source). */
const lockstitch = 2.5;

/** How much thread the seams take, for whoever looks whether the spool is enough; nothing where the spec says no seams. */
export function threadSentences(sewing: readonly Pick<SewingRow, 'length' | 'times' | 'unsewn'>[], display: Display): readonly string[] {
  const millimetres = sewing.reduce((sum, { length: { value, unit }, times, unsewn }) => sum + times * (value * millimetresIn[unit].valueOf() - unsewn), 0);
  if (millimetres === 0) return [];
  const show = (length: number): string => figure(Math.round(length / 10) * 10, { ...display, step: display.unit === 'in' ? millimetresIn.in : millimetresIn.cm });
  return [`All these seams are ${show(millimetres)} long together, each counted as often as it is sewn, without what is left open. A lockstitch takes about ${lockstitch} times as much thread, needle and bobbin together (common practice): ${show(millimetres * lockstitch)}. Hems, zips and ends come on top.`];
}
