/**
 * Sets the lengths that we find in several widths of cloth beside the trade's width conversion table.
 *
 *   node widths.mjs [--effort N] [--articles N,N,…]
 *
 * The table gives yards for equal cover. Two public copies agree but for headings; they say to add 1/4 yd for a large
 * width difference or one-way cloth. It is no oracle for layouts: its own areas against the first column run from 0.89
 * to 1.10 (status P: seen on public pages of no authority). So nothing is forced to agree; differences are shown, with
 * what explains them.
 */
import { parseArgs } from 'node:util';
import { planMaterial, usualOptions } from '../../server/src/buying/plan.ts';
import { needsOf } from '../../server/src/buying/requirements.ts';
import { verifyLay } from '../../server/src/lay/verify/verify.ts';
import { Analyst } from '../../server/src/model/pattern.ts';
import { libraryOf } from '../../server/src/model/names/files.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { millimetresIn } from '../../server/src/units/length.ts';

/** Headings of the table, and the width in inches that we take for each: the wider of the two named. */
const columns = [['35–36', 36], ['39', 39], ['41–42', 42], ['44–45', 45], ['50', 50], ['52–54', 54], ['58–60', 60], ['66', 66]] as const;

/** Yards for equal cover, row by row, as in the public copies (status P). */
const table: readonly (readonly number[])[] = [
  [1.75, 1.5, 1.5, 1.375, 1.25, 1.125, 1, 0.875],
  [2, 1.75, 1.75, 1.625, 1.5, 1.375, 1.25, 1.125],
  [2.25, 2, 2, 1.75, 1.625, 1.5, 1.375, 1.25],
  [2.5, 2.25, 2.25, 2.125, 1.75, 1.75, 1.625, 1.5],
  [2.875, 2.5, 2.5, 2.25, 2, 1.875, 1.75, 1.625],
  [3.125, 2.75, 2.75, 2.5, 2.25, 2, 1.875, 1.75],
  [3.375, 3, 2.875, 2.75, 2.375, 2.25, 2, 1.875],
  [3.75, 3.25, 3.125, 2.875, 2.625, 2.375, 2.25, 2.125],
  [4.25, 3.5, 3.375, 3.125, 2.75, 2.625, 2.375, 2.25],
  [4.5, 3.75, 3.625, 3.375, 3, 2.75, 2.625, 2.5],
  [4.75, 4, 3.875, 3.625, 3.25, 2.875, 2.75, 2.625],
  [5, 4.25, 4.125, 3.875, 3.375, 3.125, 2.875, 2.75],
];

/** An invented set of apron pieces, of the sizes that such tables were made for. */
const pieces = `
piece body "Body" {
  outline path from 0, 0 {
    line to 13, 0 as hem
    line to 13, 21 as side
    arc to 5, 32 through 10, 26 as armhole
    line to 0, 32 as top
    close as centre
  }
  on fold centre
  grain up
  cut 1 cloth
}
piece yoke "Yoke" {
  outline polygon from 0, 0 to 15, 0 to 13, 8 to 2, 8
  grain up
  cut 2 cloth
}
piece pocket "Pocket" {
  outline rectangle 9 by 10
  grain up
  cut 2 cloth
}
piece tie "Tie" {
  outline rectangle 3 by 30
  grain up
  cut 3 cloth
}
`;

const spec = (width: number): string => `pattern "Apron"
revision 1
unit in
allowance none
material cloth "Cloth" {
  role main
  width ${width}
  faces differ
  bought in lengths of 1/8 yd
}
${pieces}`;

function yardsIn(width: number, articles: number, effort: number): { readonly found: number; readonly under: number; readonly right: boolean } {
  const pattern = new Analyst().analyse(parseFile('apron.piece', spec(width)), libraryOf(new Map()));
  const [need] = needsOf(pattern.resolve(new Map()), articles);
  if (need === undefined) throw new Error('Nothing is cut');
  const { best } = planMaterial(need, { ...usualOptions, effort, lay: 'open' });
  if (best === undefined) throw new Error('Nothing was planned');
  return {
    found: best.shortest.div(millimetresIn.yd).valueOf(),
    under: best.noneUnder.div(millimetresIn.yd).valueOf(),
    right: best.unplaced.length === 0 && best.lays.every((found) => verifyLay(found.problem, found.lay).length === 0),
  };
}

const { values } = parseArgs({ options: { effort: { type: 'string', default: '0.5' }, articles: { type: 'string', default: '1,2,3' } } });
const cells = (some: readonly string[]): string => some.map((cell, index) => (index === 0 ? cell.padEnd(20) : cell.padStart(8))).join('');
const shares = (row: readonly number[]): readonly string[] => row.map((yards) => (yards / (row[0] ?? 1)).toFixed(2));
let [off, count, worst] = [0, 0, 0];

console.log(cells(['width, in', ...columns.map(([heading]) => heading)]));
for (const articles of values.articles.split(',').map(Number)) {
  const found = columns.map(([, width]) => yardsIn(width, articles, Number(values.effort)));
  const ours = found.map((one) => one.found);
  const row = table.reduce((best, one) => (Math.abs((one[0] ?? 0) - (ours[0] ?? 0)) < Math.abs((best[0] ?? 0) - (ours[0] ?? 0)) ? one : best));
  console.log(`\n${articles} aprons; the table’s row for ${row[0]} yd of the narrowest`);
  console.log(cells(['found, yd', ...ours.map((yards) => yards.toFixed(2))]));
  console.log(cells(['none under, yd', ...found.map((one) => one.under.toFixed(2))]));
  console.log(cells(['ours, of narrowest', ...shares(ours)]));
  console.log(cells(['table, of narrowest', ...shares(row)]));
  const usable = columns.map(([, width]) => width - 2);
  console.log(cells(['equal area', ...usable.map((width) => ((usable[0] ?? 1) / width).toFixed(2))]));
  ours.forEach((yards, index) => {
    const difference = yards / (ours[0] ?? 1) - (row[index] ?? 0) / (row[0] ?? 1);
    if (index === 0) return;
    off += Math.abs(difference);
    count++;
    worst = Math.max(worst, Math.abs(difference));
  });
  if (found.some((one) => !one.right)) {
    console.log('A lay is wrong.');
    process.exitCode = 1;
  }
}
console.log(`\nMean difference from the table ${(off / count).toFixed(3)}, greatest ${worst.toFixed(3)}, as shares of the narrowest width’s length.`);
console.log('What explains differences: a width helps only where another piece fits beside the others, so lengths fall in steps');
console.log('that the table smooths, and never below the longest piece; the table is rounded to 1/8 yd; it counts whole widths, we count two inches less for selvedges.');
