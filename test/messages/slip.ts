import type { Code } from '../../server/src/problems/catalogue.ts';

/** A slip that a newcomer makes, with what must be told of it. All of them are invented. */
export interface Slip {
  /** What was done, in a few words. */
  readonly slip: string;
  /** The spec, with `«` and `»` round the place that must be marked; where one slip is told in two places, round both. */
  readonly text: string;
  readonly code: Code;
  /** What the message must hold: what to write, or what is missing. */
  readonly says: readonly string[];
  /** What it must not hold, since it would mislead. */
  readonly not?: readonly string[];
  /** The spec as it was meant, which is read without any problem. */
  readonly right: string;
  /** The title of the fix that leads there; left out where no fix is certain. */
  readonly fix?: string;
  /** Whether a newcomer who reads the message, and nothing else, can mend the line at once. */
  readonly mended: boolean;
  /** Why so; read as the one who has made the slip would read it. */
  readonly why: string;
}

const head = `pattern "Slip"
revision 1
unit in
allowance 1/4
material canvas "Canvas" {
  width 58
}
material cork "Cork" {
  role non-fray
  width 36
}
choice tab is single or double
`;

const indented = (lines: string): string => lines.split('\n').map((line) => `  ${line}`).join('\n');

/** A whole spec round lines of a file. */
export const file = (lines: string): string => `${head}${lines}\n`;
/** … round lines of a piece that is whole without them. */
export const piece = (lines: string): string => file(`piece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n${indented(lines)}\n}`);
/** … round a piece’s outline. */
export const outlined = (lines: string): string => file(`piece front "Front" {\n${indented(lines)}\n  cut 2 canvas\n}`);
/** … round lines of a material that has a width. */
export const material = (lines: string): string => file(`material felt "Felt" {\n  width 40\n${indented(lines)}\n}`);
/** … round lines of a supply. */
export const supply = (lines: string): string => file(`supply zip "Zip" {\n${indented(lines)}\n}`);
