import { millimetresIn } from '../units/length.ts';

/** What a booklet is printed on. Millimetres, upright. */
export interface Paper {
  readonly name: string;
  readonly width: number;
  /** Undefined on a roll, which is cut off where the pattern ends. */
  readonly height: number | undefined;
}

/** ISO 216 sizes; Letter is 8 1/2 in × 11 in (ASME Y14.1, size A). */
const sheets: Readonly<Record<string, readonly [number, number]>> = {
  a4: [210, 297],
  a3: [297, 420],
  a0: [841, 1189],
  letter: [215.9, 279.4],
};

export const paperNames = ['a4', 'letter', 'a3', 'a0', 'roll-WIDTH'] as const;

const narrowestRoll = 200;
const widestRoll = 2000;

/**
 * A paper by its name: `a4`, `letter`, `a3`, `a0`, or a roll by its width, as in `roll-36in`, `roll-914mm` or `roll-90cm`.
 *
 * @returns undefined where there is no such paper
 */
export function paperNamed(name: string): Paper | undefined {
  const lower = name.trim().toLowerCase();
  const sheet = Object.hasOwn(sheets, lower) ? sheets[lower] : undefined;
  if (sheet !== undefined) return { name: lower, width: sheet[0], height: sheet[1] };
  const roll = /^roll-(\d+(?:\.\d+)?)(mm|cm|in)$/.exec(lower);
  if (roll === null) return undefined;
  const width = Number(roll[1]) * millimetresIn[roll[2] as 'mm' | 'cm' | 'in'].valueOf();
  return width >= narrowestRoll && width <= widestRoll ? { name: lower, width, height: undefined } : undefined;
}
