import { stretchLength, type Run, type Seam, type Stretch } from './seam.ts';

/** Two stretches that lie on each other somewhere along a seam. */
export interface Meeting {
  readonly first: Stretch;
  readonly second: Stretch;
}

/**
 * Which stretches of two runs meet, from their beginnings on; where the runs differ in length, in proportion.
 */
export function meetingsOf({ first, second }: Seam): readonly Meeting[] {
  const [a, b] = [shares(first), shares(second)];
  // What overlaps by less than this share is a rounding error, or a corner that the ease carries over another.
  const least = 0.02;
  return a.flatMap((one) => b.filter((other) => Math.min(one.to, other.to) - Math.max(one.from, other.from) > least).map((other) => ({ first: one.stretch, second: other.stretch })));
}

/** Where each stretch begins and ends, as shares of its run. */
function shares({ stretches, length }: Run): readonly { readonly stretch: Stretch; readonly from: number; readonly to: number }[] {
  let behind = 0;
  return stretches.map((stretch) => {
    const from = behind / length;
    behind += stretchLength(stretch);
    return { stretch, from, to: behind / length };
  });
}
