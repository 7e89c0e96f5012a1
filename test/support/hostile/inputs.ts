import { generateSpec } from '../generate.ts';
import { materials, pouch } from '../pouch.ts';
import type { Random } from './random.ts';

/** A spec that may go wrong: its files by path, and the texts that its main file takes one after the other. */
export interface HostileInput {
  readonly name: string;
  readonly others: ReadonlyMap<string, string>;
  readonly texts: readonly string[];
}

export const mainPath = 'main.piece';

export const head = 'pattern "E"\nrevision 1\nunit in\nallowance 1/4\nmaterial canvas "Canvas" {\n  width 58\n}\n';

const alone = (name: string, ...texts: readonly string[]): HostileInput => ({ name, others: new Map(), texts });

const times = (count: number, line: (index: number) => string): string => Array.from({ length: count }, (_, index) => line(index)).join('');

/** What a generator makes stays under a million characters. */
const cut = (text: string): string => text.slice(0, 999_000);

export type Generator = (random: Random) => HostileInput;

const piece = (name: string, outline = 'rectangle 4 by 4', more = ''): string => `piece ${name} {\n  outline ${outline}\n${more}  grain up\n  cut 1 canvas\n}\n`;

// ------------------------------------------------------------------------------------------------ numbers

/** Fractions whose sums, products and quotients need ever more digits. */
export const sumOfFractions = (values: number, terms: number, operator: string): string => {
  let next = 10_087;
  const value = (index: number): string => `ratio v${index + 1} = v${index}${Array.from({ length: terms }, () => ` ${operator} ${operator === '*' ? '1.0' : '1/'}${(next += 2)}`).join('')}\n`;
  return `${head}ratio v0 = 1\n${times(values, value)}`;
};

const longNumbers: Generator = (random) => {
  const digits = '7'.repeat(random.size(20, 200_000));
  const number = random.of([digits, `1/${digits}`, `0.${digits}`, `${digits} 1/${digits}`, `1${'0'.repeat(digits.length)}`]);
  const line = random.of([
    `length w = around(${number})`, `angle a = ${number} deg`, `length w = ${number} mm`, `ratio r = sqrt(${number})`, `length w = round(${number}, 1/${digits})`, `count n = ${number}`, `revision ${number}`,
    `ratio r = 1/${digits} * ${number}`, `area a = ${number} * ${number}`, `length w = 1 in * pi * ${number}`,
  ]);
  const statement = random.of([`grain ${number} deg`, `outline rectangle ${number} by 3`, `cut ${number} canvas`, `notch top at ${number}`, `allowance ${number}`, `corner all round ${number}`, `outline circle across ${number} from ${number} to 3`]);
  return alone('long numbers', cut(`${head}${line}\npiece a {\n  outline polygon from 0, 0 to 4, 0 to 2, 5\n  ${statement}\n  cut 1 canvas\n}\n`));
};

const fractions: Generator = (random) => alone('sums of fractions', cut(sumOfFractions(random.size(2, 3000), random.size(2, 300), random.of(['+', '-', '*', '/']))));

// ------------------------------------------------------------------------------------------------ names

export const unknownNames = (known: number, unknown: number, stem: string): string =>
  `${head}${times(known, (index) => `length ${stem}_${index} = 1\n`)}${times(unknown, (index) => `length u${index} = ${stem}x${index}\n`)}`;

const manyNames: Generator = (random) => alone('many names', cut(unknownNames(random.size(2, 5000), random.size(2, 5000), random.of(['v', 'front_panel', 'n'.repeat(random.size(2, 200))]))));

const longNames: Generator = (random) => {
  const long = random.of(['n', 'ab', 'é', 'nm']).repeat(random.size(10, 100_000));
  return alone('long names', cut(`${head}length ${long} = 1\nlength b = ${long}x\nchoice ${long}c is ${long}o, two\n${piece(`${long}p`, `rectangle ${long} by 3`)}check ${long}p.${long} >= 1\n`));
};

export const circle = (count: number): string => `${head}${times(count, (index) => `length v${index} = v${(index + 1) % count} + 1\n`)}`;

const circles: Generator = (random) => {
  const count = random.size(2, 20_000);
  return alone('circles', cut(random.of([
    circle(count),
    `${head}${times(count, (index) => `length v${index} = v${random.whole(0, count - 1)} + v${random.whole(0, count - 1)}\n`)}`,
    `${head}${times(count, (index) => `piece p${index} from p${(index + 1) % count} {\n}\n`)}`,
  ])));
};

const chains: Generator = (random) => {
  const count = random.size(2, 20_000);
  const [first, next] = random.of<readonly [string, (index: number) => string]>([
    ['length v0 = 1\n', (index) => `length v${index + 1} = v${index} + 1/8\n`],
    [piece('v0'), (index) => `piece v${index + 1} from v${index}${random.of(['', ' mirrored'])} {\n  cut 1 canvas\n}\n`],
    ['sizes S, M\nlength v0 = 1 for S, 2 for M\n', (index) => `length v${index + 1} = v${index} + 1/8\n`],
  ]);
  const text = `${head}${first}`;
  const links = Array.from({ length: count }, (_, index) => next(index));
  const whole = cut(text + links.join(''));
  return alone('chains', whole, whole.replace('v0 = 1', 'v0 = 2'), cut(text + links.reverse().join('')));
};

/** One character again and again where a text may have it: between words, before line ends, in comments, texts and names. */
const longRuns: Generator = (random) => {
  const run = (): string => random.of([' ', '\t', '\n', '\r', '\r\n', '-', "'", '#', '{', '}', '(', 'a', '0', '"', '\\', '_', '.', ',']).repeat(random.size(2, 300_000));
  const lines = [
    ...head.trimEnd().split('\n'), 'note "a"', 'length v0 = 1 # one', 'piece a "A" {', '  outline rectangle 4 by 4 # drawn', '  line core = inset 1/2', '  nothing here', '  cut 1 canvas', '}', 'check v0 is 1',
  ];
  for (let times = random.size(1, 3); times > 0; times--) {
    const at = Math.floor(random.next() * lines.length);
    const line = lines[at] ?? '';
    const within = Math.floor(random.next() * (line.length + 1));
    lines[at] = `${line.slice(0, within)}${run()}${line.slice(within)}`;
  }
  return alone('long runs', cut(`${lines.join('\n')}\n`));
};

// ------------------------------------------------------------------------------------------------ choices

export const choosing = (choices: number, options: number, pieces: number): string => {
  const names = Array.from({ length: choices }, (_, index) => `c${index}`);
  return [
    head,
    times(choices, (index) => `choice c${index} is ${Array.from({ length: options }, (_, option) => `o${index}_${option}`).join(', ')}\n`),
    times(choices, (index) => `length e${index} = ${Array.from({ length: options - 1 }, (_, option) => `1/${option + 2} for o${index}_${option}, `).join('')}1 otherwise\n`),
    times(pieces, (index) => piece(`p${index}`, `rectangle 4 + ${names.map((_, choice) => `e${choice}`).join(' + ')} by 5 + ${index}`, '  corner all round 1/2\n  line core = inset 1/2\n')),
  ].join('');
};

const manyChoices: Generator = (random) => alone('many choices', cut(choosing(random.size(1, 40), random.size(2, 20), random.size(1, 300))));

/** Thirty pieces on four choices while one option’s name is typed. */
export const typedOption = (length: number, pieces = 30): string =>
  `${choosing(3, 3, pieces)}choice strap is short, ${'a_long_name_for_an_option_'.repeat(Math.ceil(length / 26)).slice(0, length)}\nlength st = 1 for short, 2 otherwise\n`.replaceAll('rectangle 4 ', 'rectangle st + 4 ');

const optionLetters: Generator = (random) => {
  const [length, pieces] = [random.size(3, 40), random.size(1, 30)];
  return alone('an option letter by letter', ...Array.from({ length }, (_, index) => typedOption(index + 1, pieces)));
};

// ------------------------------------------------------------------------------------------------ shape of the text

const nesting: Generator = (random) => {
  const depth = random.size(10, 100_000);
  const formula = random.of([
    `${'('.repeat(depth)}1${')'.repeat(depth)}`, `${'-'.repeat(depth)}1`, `1${' + 1'.repeat(depth)}`, `1${' * 1'.repeat(depth)}`, `${'max(1, '.repeat(depth)}1${')'.repeat(depth)}`, '('.repeat(depth),
    `min(${'1, '.repeat(depth)}1)`, `${'1 for S, '.repeat(depth)}2 otherwise`, `a${'.a'.repeat(depth)}`, `${'(1 + '.repeat(depth)}1${')'.repeat(depth)}`, `${'- ('.repeat(depth)}1`,
  ]);
  const condition = random.of([`${'not '.repeat(depth)}size is S`, `${'not ('.repeat(depth)}size is S${')'.repeat(depth)}`, `size is S${' and size is S'.repeat(depth)}`, `size is S${' or S'.repeat(depth)}`, `(((${formula}))) > 1`]);
  const text = `${head}sizes S, M\nlength a = 1\nlength w = ${formula}\n${piece('p', `rectangle ${random.of([formula, '4'])} by 4`).replace('cut 1 canvas', `cut 1 canvas when ${condition}`)}`;
  return alone('nesting', cut(text), cut(text.replace('a = 1', 'a = 2')));
};

export const brokenLines = (line: string, length: number): string => line.repeat(Math.floor(length / line.length));

const manyLines: Generator = (random) => {
  const length = random.size(1000, 990_000);
  const lines = brokenLines(random.of(['x\n', 'x {\n', '}\n', '"\n', 'piece p {\n', '  cutt 1 canvas\n', '\n', '# x\n', 'note "x"\n', 'lenght w = 1\n', 'length w = 1\n', 'use "x"\n', 'x\r', '{\n', 'pattern "x"\n', 'corner\n', 'check 1 = 1\n', 'cut 1 canvas\n']), length);
  return alone('many lines', cut(random.of([lines, `${head}${lines}`, `${head}piece a {\n  outline rectangle 3 by 3\n${lines}`, `${head}${piece('a')}${lines}${piece('b')}`, `${head}piece a {\n  outline path from 0, 0 {\n${lines}\n}\n}\n`])));
};

const statements: Generator = (random) => {
  const count = random.size(10, 20_000);
  const line = random.of<(index: number) => string>([
    (index) => `  notch top at ${index % 4}\n`, (index) => `  mark m${index} at 1, 1\n`, (index) => `  line l${index} = inset 1/${index + 2}\n`, () => '  cut 1 canvas\n', () => '  corner all round 1/2\n',
    (index) => `  window w${index} = rectangle 1 by 1 at 1, 1\n`, (index) => `  line q${index} = level at 1\n`, () => '  note "x"\n', (index) => `  line s${index} = circle across 2\n`, () => '  cut 1 canvas along core\n',
    (index) => `  cut 1 canvas without core note "${index}"\n`, () => '  allowance top 1/8\n', () => '  edge top as top\n', (index) => `  line n${index} = inset 1/8 from stitching\n`,
  ]);
  return alone('many statements', cut(`${head}${piece('a', 'rectangle 4 by 4', `  line core = inset 1\n${times(count, line)}`)}${piece('b from a')}`));
};

const manyPoints: Generator = (random) => {
  const count = random.size(10, 20_000);
  const at = (index: number): string => random.of([`${index % 90}, ${(index * 7) % 50}`, `${Math.round(5000 * Math.cos(index / count * 6.28)) / 100}, ${Math.round(5000 * Math.sin(index / count * 6.28)) / 100}`]);
  const outline = random.of([
    `polygon from 0, 0${times(count, (index) => ` to ${at(index)}`)}`,
    `path from 0, 0 {\n${times(count, (index) => `    line to ${at(index)}\n`)}    close\n  }`,
    `path from 0, 0 {\n${times(count, (index) => `    arc to ${index + 1}, 0 radius 1 left\n`)}    line to 0, 9\n    close\n  }`,
    `path from 0, 0 {\n${times(count, (index) => `    curve to ${index + 1}, 0 by ${index}, 1 and ${index}, 2\n`)}    line to 0, 9\n    close\n  }`,
  ]);
  return alone('many points', cut(`${head}${piece('a', outline, random.of(['', '  line core = inset 1/2\n', '  allowance 1/8 rounded\n']))}`));
};

const manyPieces: Generator = (random) => {
  const count = random.size(10, 20_000);
  return alone('many pieces', cut(`${head}sizes S, M, L\nlength w = 4 for S, 5 otherwise\n${times(count, (index) => piece(`p${index}`, random.of(['rectangle 4 by 4', 'rectangle w by 3', 'circle across w', `rectangle ${index % 30} by 3`])))}`));
};

const hugeCounts: Generator = (random) => {
  const number = random.of(['1000000000', '999999', '100000000000000000000', '0', '-1', '1/3', '1000000']);
  return alone('huge counts', `${head}count n = ${number}\n${piece('a', `rectangle ${random.of(['3', '1/1000', '90 m'])} by 2`).replace('cut 1', `cut ${random.of([number, 'n', 'n * n'])}`)}supply s {\n  kind snap\n  across 14 mm\n  count n\n  price ${number} per each\n}\ncheck a.width >= n within ${number}\n`);
};

// ------------------------------------------------------------------------------------------------ files

export const chainOfFiles = (count: number): HostileInput => ({
  name: 'a chain of files',
  others: new Map(Array.from({ length: count }, (_, index) => [`f${index}.piece`, `length v${index} = 1\nuse "f${index + 1}.piece"\n`])),
  texts: [`${head}use "f0.piece"\n${piece('a')}`],
});

const files: Generator = (random) => {
  const count = random.size(1, 3000);
  return random.of<() => HostileInput>([
    () => chainOfFiles(count),
    () => ({ ...chainOfFiles(count), name: 'files in a circle', others: new Map([...chainOfFiles(count).others, [`f${count}.piece`, 'use "f0.piece"\n']]) }),
    () => alone('many missing files', cut(`${head}${times(count * 5, (index) => `use "m${index}.piece"\n`)}`)),
    () => alone('odd paths', `${head}use "${random.of(['\uD800', 'a/\uDFFF.piece', '..', '/', 'C:\\x', 'a\\b', ' ', '%2e', 'x'.repeat(random.size(1, 100_000)), '../'.repeat(random.size(1, 10_000)), '\u0007', './main.piece', 'main.piece'])}"\n`),
  ])();
};

// ------------------------------------------------------------------------------------------------ mutations

const tokens = /"(?:[^"\\\n]|\\.)*"|[\p{L}_][\p{L}\p{N}_]*|\d+(?:\.\d+)?|\s+|./gu;

const seeds = [pouch, generateSpec(120), generateSpec(60).replaceAll('\n', '\r\n')] as const;

const strange = ['\uFFFF', '\u202E', '\u0007', '\u001B', '\uD800', '\0', '𝒜', 'é', '½', '"', '{', '}', '#', '\r', '\t', '9'.repeat(50), '-', '(', ')', '1/0', '1e9', '%', 'deg', '$&', '__proto__', 'constructor', 'toString'];

const mutations: Generator = (random) => {
  let parts: string[] = random.of(seeds).match(tokens) ?? [];
  const texts: string[] = [];
  for (let step = random.size(1, 30); step > 0; step--) {
    const changes = random.size(1, 60);
    parts = [...parts];
    for (let change = 0; change < changes; change++) {
      const [at, from] = [random.whole(0, parts.length - 1), random.whole(0, parts.length - 1)];
      switch (random.whole(0, 5)) {
        case 0:
          parts.splice(at, random.size(1, 20));
          break;
        case 1:
          parts[at] = parts[from] ?? '';
          break;
        case 2:
          parts.splice(at, 0, ...parts.slice(from, from + random.size(1, 60)));
          break;
        case 3:
          parts[at] = random.of(strange);
          break;
        case 4:
          [parts[at], parts[from]] = [parts[from] ?? '', parts[at] ?? ''];
          break;
        default:
          if (/^\d/.test(parts[at] ?? '')) parts[at] = random.of(['0', '1', '-1', '1000000', '1/3', '0.0001', '99', '1/0', '.5']);
      }
    }
    texts.push(cut(parts.join('')));
  }
  return { name: 'mutations', others: new Map([['materials.piece', materials]]), texts };
};

export const generators: Readonly<Record<string, Generator>> = {
  mutations, nesting, manyNames, longNames, manyChoices, optionLetters, longNumbers, fractions, circles, chains, longRuns, manyLines, statements, manyPoints, manyPieces, hugeCounts, files,
};
