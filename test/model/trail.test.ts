import { describe, expect, it } from 'vitest';
import type { Value } from '../../server/src/model/formulas/value.ts';
import { showValue, exactValue } from '../../server/src/model/formulas/value.ts';
import { pattern } from '../support/spec.ts';

const written = (value: Value): string => value.place.chunk.text.slice(value.place.start, value.place.end);
const leaves = (value: Value): readonly Value[] => (value.from.length === 0 ? [value] : value.from.flatMap(leaves));

describe('the trail of a value', () => {
  const found = pattern(`sizes S, L
count rows = 2
length step_h = 1 for S, 1 1/2 for L
length pocket_h = 3 + step_h * (rows - 1)
length twice = max(pocket_h, 2) * 2`);

  it('reaches the numbers that it was written with', () => {
    expect(leaves(found.value('twice', { size: 'L' })).map(written)).toEqual(['3', '1 1/2', '2', '1', '2', '2']);
    expect(leaves(found.value('twice', { size: 'S' })).map(written)).toEqual(['3', '1', '2', '1', '2', '2']);
  });

  it('names the values on the way', () => {
    const names = new Set<string>();
    const walk = (value: Value): void => {
      if (value.name !== undefined) names.add(value.name);
      value.from.forEach(walk);
    };
    walk(found.value('twice'));
    expect([...names]).toEqual(['twice', 'pocket_h', 'step_h', 'rows']);
  });

  it('adds up at every step', () => {
    const walk = (value: Value): void => {
      const [a, b] = value.from;
      const operator = /^[^+*-]+ ([+*-]) /.exec(written(value))?.[1];
      if (value.name === undefined && a !== undefined && b !== undefined && operator !== undefined && !written(value).startsWith('max(pocket_h, 2)')) {
        const expected = operator === '+' ? a.amount.add(b.amount) : operator === '-' ? a.amount.sub(b.amount) : a.amount.mul(b.amount);
        expect(value.amount.equals(expected)).toBe(true);
      }
      value.from.forEach(walk);
    };
    walk(found.value('pocket_h', { size: 'L' }));
    expect(found.inches('pocket_h', { size: 'L' })).toBe('4 1/2');
  });
});

describe('values as people read them', () => {
  const found = pattern('length l = 3 1/3\ncount n = 3\nratio r = 1/3\nratio h = 150%\nratio f = 1.6\nratio e = 1.125\nratio t = 0.0001\nratio c = pi\nangle g = 12.345 deg\narea q = 2 in * 3 in');
  const display = found.pattern.display;
  it.each([['l', '3 3/8 in', '3 1/3 in'], ['n', '3', '3'], ['r', '1/3', '1/3'], ['h', '1 1/2', '1 1/2'], ['f', '1.6', '1.6'], ['e', '1 1/8', '1 1/8'], ['t', '1/10000', '1/10000'], ['c', '3.142', '3.142'], ['g', '12.35°', '12.35°'], ['q', '6 sq in', '6 sq in']])('%s: %s', (name, shown, exact) => {
    expect(showValue(found.value(name), display)).toBe(shown);
    expect(exactValue(found.value(name), display)).toBe(exact);
  });
});
