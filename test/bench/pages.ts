import { handOver } from '../../server/src/formats/pages.ts';
import { KeptLays } from '../../server/src/buying/lay-out.ts';
import { libraryOf } from '../../server/src/model/names/files.ts';
import { Analyst, type Pattern } from '../../server/src/model/pattern.ts';
import { paperNamed } from '../../server/src/pages/paper.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';

/**
 * How long a booklet takes: 60 pieces once warm, and 200 pieces in three sizes, lays planned anew or as they were before.
 * Prints milliseconds, those of the processor since the machine may be shared, bytes, and the most memory used.
 */
const materials = `material main "Canvas" {
  role main
  width 150 cm
  bought in lengths of 10 cm
}
material inner "Fusible" {
  role fusible
  width 90 cm
  bought in lengths of 10 cm
}
`;

function spec(pieces: number, sizes: readonly string[]): string {
  const sized = sizes.length === 0 ? '' : `sizes ${sizes.join(', ')}\nlength grow = ${sizes.map((size, index) => `${index * 8} for ${size}`).join(', ')}\n`;
  const add = sizes.length === 0 ? '' : ' + grow';
  const one = (index: number): string => `piece part${index} "Part ${index}" {
  outline rectangle ${80 + ((index * 37) % 120)}${add} by ${60 + ((index * 53) % 160)}
  corner ${index % 2 === 0 ? 'all' : 'bottom'} round ${8 + (index % 10)}
  placement patch = rectangle 30 by 20 at 20, 20
  mark hole at 40, 30
  notch top at 50%
  grain up
  cut ${1 + (index % 3)} main
  cut 1 inner
}
`;
  return `pattern "Bench"\nrevision 1\nunit mm\nallowance 10\n${sized}${materials}${Array.from({ length: pieces }, (_, index) => one(index)).join('')}`;
}

const patternOf = (text: string): Pattern => new Analyst().analyse(parseFile('bench.piece', text), libraryOf(new Map()));

function timed(name: string, pattern: Pattern, lays: KeptLays): void {
  const errors = pattern.problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new Error(errors[0]?.message);
  const [started, used] = [performance.now(), process.cpuUsage()];
  const { files } = handOver({ pattern, combination: new Map(), options: { paper: paperNamed('a4')!, orientation: 'auto', margin: 10, templates: 'all' } }, 'pdf', lays);
  const took = performance.now() - started;
  const { user, system } = process.cpuUsage(used);
  console.log(`${name.padEnd(52)} ${took.toFixed(0).padStart(6)} ms  ${((user + system) / 1000).toFixed(0).padStart(6)} ms of processor  ${String(Math.round((files[0]?.content.length ?? 0) / 1024)).padStart(6)} KB  ${String(Math.round(process.resourceUsage().maxRSS / 1024)).padStart(5)} MB at most`);
}

for (const [pieces, sizes] of ([[60, []], [200, ['S', 'M', 'L']]] as const).slice(0, process.argv.includes('--few') ? 1 : 2)) {
  const name = `${pieces} pieces${sizes.length === 0 ? '' : ` in ${sizes.length} sizes`}`;
  const pattern = patternOf(spec(pieces, sizes));
  const lays = new KeptLays();
  timed(`${name}, cold`, pattern, lays);
  timed(`${name}, warm, lays planned anew`, pattern, new KeptLays());
  timed(`${name}, warm, lays as before`, pattern, lays);
}
