import { fixesOf, problemsOfFile } from '../../server/src/language/fixes.ts';
import { edited } from '../../server/src/language/results.ts';
import type { Code } from '../../server/src/problems/catalogue.ts';
import { marked, type Marked } from '../support/marked.ts';
import type { Slip } from './slip.ts';

/** What parts of a spec can't help: names that nothing uses. */
const ofParts: readonly Code[] = ['unused-name', 'never-cut'];

const told = (one: Marked): ReturnType<typeof problemsOfFile> => problemsOfFile(one.snapshot).filter(({ problem }) => !ofParts.includes(problem.code));

const bare = (text: string): string => text.replace(/[«»]/gu, '');

/** Where a slip is marked, in the bare text. */
function places(text: string): readonly string[] {
  const [at, ranges]: [number[], string[]] = [[], []];
  for (const [before, { 0: mark, index }] of [...text.matchAll(/[«»]/gu)].entries()) {
    if (mark === '«') at.push(index - before);
    else ranges.push(`${at.pop() ?? -1} to ${index - before}`);
  }
  return ranges;
}

/** All that is not told of a slip as it should be; nothing where all is. */
export function outcome(slip: Slip): readonly string[] {
  const one = marked(bare(slip.text));
  const problems = told(one);
  const faults: string[] = [];
  const where = problems.map(({ start, end, problem }) => `${start} to ${end} ${problem.code}`);
  const expected = places(slip.text).map((place) => `${place} ${slip.code}`);
  const all = problems.map(({ start, end, problem }) => `    ${problem.code} at “${one.text.slice(start, end)}”: ${problem.message}`).join('\n');
  if (where.join() !== expected.join()) faults.push(`expected ${expected.join()}, but it is ${where.join()}:\n${all}`);
  for (const { problem } of problems) {
    for (const words of slip.says) if (!problem.message.includes(words)) faults.push(`doesn’t say “${words}”: ${problem.message}`);
    for (const words of slip.not ?? []) if (problem.message.includes(words)) faults.push(`says “${words}”: ${problem.message}`);
  }
  const right = told(marked(slip.right)).map(({ problem }) => `as meant, still told: ${problem.message}`);
  const offered = problems.flatMap(({ problem }) => fixesOf(one.snapshot, problem));
  return [...faults, ...right, ...fixFaults(slip, one, offered)];
}

function fixFaults(slip: Slip, one: Marked, offered: ReturnType<typeof fixesOf>): readonly string[] {
  if (slip.fix === undefined) return [];
  const fix = offered.find(({ title }) => title === slip.fix);
  if (fix === undefined) return [`no fix “${slip.fix}”, but ${offered.map(({ title }) => title).join(', ')}`];
  const text = edited(one.text, fix.edits);
  return text === slip.right ? [] : [`the fix gives\n${text}\nand not\n${slip.right}`];
}
