import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Copy } from './copy.ts';
import type { Mutant } from './mutant.ts';

/** A test for each fault, that holds where the tests of the product fail with it, and hold without it. */
export function noticed(mutants: readonly Mutant[]): void {
  let copy: Copy;
  beforeAll(() => { copy = new Copy(); });
  afterAll(() => { copy.remove(); });

  it('the tests hold while nothing is spoilt', () => {
    expect(copy.test([...new Set(mutants.flatMap(({ tests }) => tests))])).toEqual({ failed: [], broken: [] });
  });

  describe('is noticed:', () => {
    it.each(mutants)('$what', ({ file, before, after, tests }) => {
      const { failed, broken } = copy.while(file, before, after, () => copy.test(tests));
      expect(broken).toEqual([]);
      expect(failed).not.toEqual([]);
      console.log(`noticed by “${failed[0] ?? ''}”`);
    });
  });
}
