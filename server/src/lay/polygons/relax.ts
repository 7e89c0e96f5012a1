import type { Field } from './field.ts';
import { shiftWithin } from './strip.ts';

/** Rounds after which the overlap must have shrunk by a fifth for relaxing to go on. */
const checkEvery = 20;

/**
 * Pushes all overlapping pairs apart, little by little and all together, each half the depth along its shortest way out;
 * a piece held by a border leaves the whole push to the other. True when no overlap is left within `rounds` and before `spent`. It mends
 * small overlaps that no single piece can leave alone, and it is what squeezes a finished lay tight.
 */
export function relax(field: Field, length: number, rounds: number, spent: () => boolean): boolean {
  const near: number[] = [];
  let before = Infinity;
  for (let round = 1; round <= rounds && !spent(); round++) {
    let overlap = 0;
    for (let a = 0; a < field.count; a++) {
      near.length = 0;
      field.eachNearItem(a, (b) => {
        if (b > a) near.push(b);
      });
      for (const b of near) overlap += part(field, a, b, length);
    }
    if (overlap === 0) return true;
    if (round % checkEvery === 0) {
      if (overlap > 0.8 * before) return false;
      before = overlap;
    }
  }
  return false;
}

/** Parts one pair as far as the borders let it; gives the depth it had, millimetres. */
function part(field: Field, a: number, b: number, length: number): number {
  const depth = field.depth(a, b);
  if (depth === 0) return 0;
  shiftWithin(field, a, (field.outX * depth) / 2, (field.outY * depth) / 2, length);
  const half = field.depth(a, b);
  if (half > 0) shiftWithin(field, b, -field.outX * half, -field.outY * half, length);
  const rest = field.depth(a, b);
  if (rest > 0) shiftWithin(field, a, field.outX * rest, field.outY * rest, length);
  return depth;
}
