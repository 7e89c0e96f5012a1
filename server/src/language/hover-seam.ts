import { combinationsToShow } from '../table/combinations.ts';
import { escapeMarkdown } from '../formats/escape.ts';
import { seamEnds } from '../model/seams/corners.ts';
import { sewingRows } from '../table/sewing.ts';
import { showLength } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import type { Snapshot } from '../workspace/snapshot.ts';

const degrees = (angle: number): string => `${Math.round(angle * 10) / 10}°`;

/** What is sewn to what, how long both are, and what the seam needs, once for each way in which it differs. */
export function aboutSeam({ pattern }: Snapshot, name: string): string {
  const { display } = pattern;
  const texts = new Set<string>();
  for (const combination of combinationsToShow(pattern).combinations) {
    const resolved = pattern.resolve(combination);
    const seam = resolved.seams.find((one) => one.name === name);
    const row = seam && sewingRows({ ...resolved, seams: [seam] }, display)[0];
    if (seam === undefined || row === undefined) continue;
    const long = (length: number): string => showLength(measured(length), display);
    const smooth = seam.smooth === undefined || seam.way === 'onto' ? [] : seamEnds(seam).filter(({ end }) => seam.smooth?.ends.includes(end) === true).map(({ end, first, second }) => `smooth at its ${end}: ${degrees(first.angle)} and ${degrees(second.angle)}`);
    const more = [...smooth, row.ease, row.allowance === '' ? '' : `allowance ${row.allowance}`, row.notches, row.open].filter((text) => text !== '');
    texts.add([`- ${escapeMarkdown(row.first)}, ${long(seam.first.length)}`, `- ${row.how} ${escapeMarkdown(row.second)}, ${long(seam.second.length)}`, ...more.map((text) => `- ${escapeMarkdown(text)}`)].join('\n'));
  }
  return `**${name}**, a seam${texts.size === 0 ? ' that isn’t there, or can’t be worked out' : ''}\n\n${[...texts].join('\n\n')}`.trim();
}
