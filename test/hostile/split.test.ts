import { expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

/** A line across ends on the outline as flattened, a hair inside the curve itself. */
it.each([
  ['ellipse 4 3/8 by 6', 'level at 1 5/8'],
  ['ellipse 4 3/8 by 6', 'upright at 3'],
  ['circle across 5', 'level at 4 7/8'],
  ['path from 0, 0 {\n    line to 9, 0\n    arc to 9, 6 1/4 radius 6 1/4 left\n    line to 0, 6 1/4\n    close\n  }', 'level at 5 1/2'],
  ['path from 0, 0 {\n    line to 6, 0\n    curve to 6, 5 by 8, 1 and 9, 4\n    line to 0, 5\n    close\n  }', 'level at 2'],
])('%s is parted by a line %s into parts that add up', (outline, line) => {
  const found = pattern(`piece p {\n  outline ${outline}\n  line parting = ${line}\n}
piece one from p ${line.startsWith('level') ? 'above' : 'left of'} parting {\n}
piece other from p ${line.startsWith('level') ? 'below' : 'right of'} parting {\n}
area whole = p.area
area both = one.area + other.area`);
  expect(found.faults).toEqual([]);
  const [whole, both] = [found.value('whole').amount.valueOf(), found.value('both').amount.valueOf()];
  // A chord of the flattening is off by at most 0.01 mm over the length of the cut.
  expect(Math.abs(whole - both)).toBeLessThan(0.05 * Math.sqrt(whole));
  expect(found.value('both').from[0]?.from[0]?.amount.valueOf()).toBeGreaterThan(0);
});
