import { describe, expect, it } from 'vitest';
import { pattern } from '../../support/spec.ts';

/** An invented case with a flap or a cord. */
const spec = (steps: string, more = ''): ReturnType<typeof pattern> => pattern(`choice lid is flap or plain
piece case "Case" {
  outline rectangle 9 by 7
  mark hole at 3, 3
  edge all raw
  cut 1 cloth
}
piece flap "Flap" when lid is flap {
  outline rectangle 9 by 3
  edge all raw
  cut 1 cloth
  cut 1 fuse along stitching
}
supply clasp "Clasp" when lid is flap {
  kind other
  at case.hole
}
seam hinge "Hinge" = case.top with flap.bottom
${more}step "Make the case." does case
${steps}`, 'unit in\nallowance none');
const told = (found: ReturnType<typeof pattern>): readonly string[] => found.problems.filter(({ code }) => code === 'step-idle').map(({ marked, when, severity }) => `${severity} ${marked} ${when ?? 'always'}`);

describe('a step of which nothing is there', () => {
  it.each([
    ['a seam of a piece that isn’t wanted', 'step "Sew." does hinge\n'],
    ['a supply', 'step "Sew." does clasp\n'],
    ['a piece', 'step "Sew." does flap\n'],
    ['layers', 'step "Sew." does flap.layers\n'],
    ['several of them', 'step "Sew." does flap, clasp, hinge\n'],
  ])('is told: %s', (_, steps) => expect(told(spec(steps))).toEqual(['warning "Sew." lid is plain']));

  it('with what it names', () => {
    expect(spec('step "Sew." does hinge\n').problems.find(({ code }) => code === 'step-idle')?.message).toBe('“hinge”, which this step does, isn’t there, and the step is told all the same. Say “when” it is done.');
    expect(spec('step "Sew." does flap, clasp\n').problems.find(({ code }) => code === 'step-idle')?.message).toContain('neither “flap” nor “clasp”');
  });

  it.each([
    ['where it says when', 'step "Sew." does hinge when lid is flap\n'],
    ['where something of it is there', 'step "Sew." does hinge, other\n', 'piece band "Band" {\n  outline rectangle 9 by 2\n  edge all raw\n  cut 1 cloth\n}\nseam other = case.left from 0 to 7 with band.left within 9\n'],
    ['where it does nothing that has a name', 'step "Press."\n'],
    ['where it names what a fault stands in the way of', 'step "Sew." does broken\n', 'seam broken = case.left with case.rigt\n'],
  ])('is not told %s', (_, steps, more = '') => expect(told(spec(steps, more))).toEqual([]));
});
