import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearestName } from '../../server/src/problems/near.ts';

describe('nearestName', () => {
  it.each([
    ['cavnas', 'canvas'], // two letters swapped
    ['canva', 'canvas'], // one missing
    ['canvass', 'canvas'], // one too many
    ['conves', 'canvas'], // two changed, in six letters
    ['CANVAS', 'canvas'], // capitals
  ])('takes %s for %s', (typed, meant) => {
    expect(nearestName(typed, ['poplin', 'canvas', 'cork'])).toBe(meant);
  });

  it('finds nothing where nothing is near', () => {
    expect(nearestName('velvet', ['poplin', 'canvas', 'cork'])).toBeUndefined();
    expect(nearestName('x', ['zip'])).toBeUndefined();
    expect(nearestName('cork', [])).toBeUndefined();
  });

  it('takes the nearer of two, and of two alike the first in the alphabet', () => {
    expect(nearestName('fronts', ['frond', 'front'])).toBe('front');
    expect(nearestName('lin', ['lint', 'line'])).toBe('line');
    expect(nearestName('lin', ['line', 'lint'])).toBe('line');
  });

  it('forgives any one slip in a word of three letters or more', () => {
    const word = fc.stringMatching(/^[a-z]{3,12}$/);
    fc.assert(fc.property(word, fc.nat(), fc.constantFrom('drop', 'double', 'swap', 'change'), (name, at, slip) => {
      const i = at % name.length;
      const rest = name.slice(i + 1);
      const typed = slip === 'drop' ? name.slice(0, i) + rest
        : slip === 'double' ? name.slice(0, i + 1) + name.slice(i)
        : slip === 'change' ? `${name.slice(0, i)}_${rest}`
        : name.slice(0, i) + (rest[0] ?? '') + (name[i] ?? '') + rest.slice(1);
      expect(nearestName(typed, ['0123456789', name])).toBe(name);
    }));
  });

  it('finds a name if and only if it is within a third of the letters, as counted by a plain recursion', () => {
    const word = fc.stringMatching(/^[ab]{3,9}$/);
    fc.assert(fc.property(word, word, (typed, name) => {
      const near = distance(typed, name) <= Math.max(1, Math.floor(typed.length / 3));
      expect(nearestName(typed, [name])).toBe(near ? name : undefined);
    }), { numRuns: 500 });
  });
});

/** Letters added, dropped, changed or swapped with their neighbour, after the definition: no table, nothing left out. */
function distance(a: string, b: string): number {
  if (a === '' || b === '') return a.length + b.length;
  const [restA, restB] = [a.slice(1), b.slice(1)];
  const ways = [distance(restA, b) + 1, distance(a, restB) + 1, distance(restA, restB) + (a[0] === b[0] ? 0 : 1)];
  if (a.length > 1 && b.length > 1 && a[0] === b[1] && a[1] === b[0]) ways.push(distance(a.slice(2), b.slice(2)) + 1);
  return Math.min(...ways);
}
