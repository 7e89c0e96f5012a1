import type { CutRow } from '../../server/src/table/cut-rows.ts';
import { cuttingTable, type CuttingTable } from '../../server/src/table/table.ts';
import { bounds } from '../../server/src/geometry/measure.ts';
import type { Outline } from '../../server/src/geometry/shape.ts';
import { Analyst, type Pattern } from '../../server/src/model/pattern.ts';
import type { CutLine } from '../../server/src/model/piece/cut-line.ts';
import type { PieceShape } from '../../server/src/model/piece/piece.ts';
import type { Value } from '../../server/src/model/formulas/value.ts';
import { libraryOf } from '../../server/src/model/names/files.ts';
import type { Code } from '../../server/src/problems/catalogue.ts';
import type { Severity } from '../../server/src/problems/problem.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';

/** A problem as tests look at it: with the text that it marks instead of offsets. */
export interface Found {
  readonly code: Code;
  readonly severity: Severity;
  readonly marked: string;
  readonly message: string;
  readonly file: string;
  readonly when: string | undefined;
}

export type Options = Readonly<Record<string, string>>;

/** A pattern computed from texts, with short ways to ask it. Lengths are in millimetres. */
export interface Analysed {
  readonly pattern: Pattern;
  readonly problems: readonly Found[];
  /** Codes of the problems, in their order. */
  readonly codes: readonly Code[];
  /** Code and marked text of each problem, but for names that a test has no use for. */
  readonly faults: readonly string[];
  readonly only: (code: Code) => Found;
  readonly value: (name: string, options?: Options) => Value;
  /** A value as a mixed number of the unit: `7 1/2`. */
  readonly inches: (name: string, options?: Options) => string;
  readonly shape: (name: string, options?: Options) => PieceShape;
  readonly table: (options?: Options) => CuttingTable;
  readonly rows: (options?: Options) => readonly CutRow[];
  /** The cut lines of a piece. */
  readonly cuts: (piece: string, options?: Options) => readonly CutLine[];
}

/** Computes a spec that may use other files, given by their paths. */
export function analyse(text: string, files: Readonly<Record<string, string>> = {}, path = 'test.piece'): Analysed {
  const pattern = new Analyst().analyse(parseFile(path, text), libraryOf(new Map(Object.entries(files))));
  const problems = pattern.problems.map(({ code, severity, message, place, when }) => ({
    code, severity, message, when, file: place.chunk.file, marked: place.chunk.text.slice(place.start, place.end),
  }));
  const combination = (options: Options): ReadonlyMap<string, string> => new Map(Object.entries(options));
  const value = (name: string, options: Options = {}): Value => must(pattern.value(name, combination(options)), `no value ${name}`);
  const table = (options: Options = {}): CuttingTable => cuttingTable(pattern, combination(options));
  return {
    pattern, problems, value, table,
    codes: problems.map((one) => one.code),
    faults: problems.filter((one) => one.code !== 'unused-name' && one.code !== 'never-cut').map((one) => `${one.code}: ${one.marked}`),
    only: (code) => {
      const found = problems.filter((one) => one.code === code);
      if (found.length !== 1) throw new Error(`${found.length} of ${code} among ${problems.map((one) => `${one.code}: ${one.message}`).join('\n')}`);
      return found[0] as Found;
    },
    inches: (name, options) => value(name, options).amount.div('25.4').toFraction(true),
    shape: (name, options = {}) => must(pattern.shape(name, combination(options)), `no shape ${name}`),
    rows: (options) => table(options).cuts,
    cuts: (piece, options = {}) => must(pattern.resolve(combination(options)).pieces.find((one) => one.shape.name === piece), `no piece ${piece}`).cuts,
  };
}

function must<T>(value: T | undefined, message: string): T {
  if (value === undefined) throw new Error(message);
  return value;
}

/** Invented materials, one of each nature, that tests cut from. */
export const stock = `unit in
material cloth "Cloth" {
  role main
  width 60
}
material nap "Nap" {
  role accent
  width 60
  direction one way
}
material lining "Lining" {
  role lining
  width 60
}
material fuse "Fusible" {
  role fusible
  width 60
}
material board "Board" {
  role stabiliser
  faces glued
  width 60
}
material foam "Foam" {
  role foam
  width 60
}
material cork "Cork" {
  role non-fray
  width 60
}
`;

/** Computes a pattern with its title, revision, inches, no allowance and the {@link stock}, so that only `body` can be at fault. */
export function pattern(body: string, facts = 'unit in\nallowance none'): Analysed {
  return analyse(`pattern "Test"\nrevision 1\n${facts}\nuse "stock.piece"\n${body}\n`, { 'stock.piece': stock });
}

/** Width and height of an outline in the unit given by its millimetres, rounded to a ten-thousandth of it. */
export function sizeOf(outline: Outline, unit = 25.4): readonly [number, number] {
  const box = bounds(outline);
  const round = (length: number): number => Math.round((length / unit) * 1e4) / 1e4;
  return [round(box.maxX - box.minX), round(box.maxY - box.minY)];
}
