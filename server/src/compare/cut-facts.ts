import type { CutLine } from '../model/piece/cut-line.ts';
import { cutRow, isIntoSeam } from '../table/cut-rows.ts';
import { sameBothWays } from '../table/words.ts';
import type { Display } from '../units/length.ts';

/** What is told of a cut line besides its size, its number and its material. */
export interface CutFact {
  readonly name: string;
  readonly was: string;
  readonly now: string;
  /** Whether what was cut so serves all the same. */
  readonly serves: boolean;
}

interface Kind {
  readonly name: string;
  readonly text: (line: CutLine, display: Display) => string;
  readonly serves: (was: string, now: string, wayUp: string) => boolean;
}

const wayUp = (line: CutLine, display: Display): string => cutRow(line, display, 1, undefined).wayUp;

const always = (): boolean => true;

const kinds: readonly Kind[] = [
  { name: 'on the fold', text: ({ onFold }) => (onFold ? 'yes' : 'no'), serves: always },
  { name: 'twins', text: ({ hand }) => (hand === 'twins' ? 'as mirrored pairs' : 'all alike'), serves: (_, __, way) => way === sameBothWays },
  { name: 'which way up', text: wayUp, serves: (_, now) => now === sameBothWays },
  { name: 'way of the print', text: ({ thisWayUp }) => (thisWayUp ? 'this way up' : 'either end up'), serves: (_, now) => now === 'either end up' },
  { name: 'grain', text: grainText, serves: (was, now) => now === 'any' || (now === eitherWay && (was === upright || was === level)) },
  { name: 'into the seam', text: (line) => (isIntoSeam(line) ? 'yes' : 'no'), serves: always },
  { name: 'cut large', text: ({ large }) => (large === undefined ? 'no' : 'trim later'), serves: always },
];

/** The facts that are others. */
export const factsOtherwise = (was: CutLine, now: CutLine, display: Display): readonly CutFact[] => kinds.flatMap(({ name, text, serves }) => {
  const [before, after] = [text(was, display), text(now, display)];
  return before === after ? [] : [{ name, was: before, now: after, serves: serves(before, after, wayUp(now, display)) }];
});

const [upright, level, eitherWay] = ['along its height', 'along its width', 'along its height or its width'] as const;

/** How the grain runs; not how long that side is, which is told as the size. */
function grainText({ piece: { grain: { angle, orAcross } }, material: { direction } }: CutLine): string {
  if (direction === 'any' || angle === undefined) return 'any';
  const turn = ((angle % 360) + 360) % 360;
  if (turn % 90 !== 0) return `${angle}° to the left of its height${orAcross ? ', or across that' : ''}`;
  const along = orAcross ? eitherWay : turn % 180 === 0 ? upright : level;
  return direction === 'one way' && turn >= 180 ? `${along}, the other end up` : along;
}
