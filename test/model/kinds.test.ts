import { describe, expect, it } from 'vitest';
import { analyse, pattern } from '../support/spec.ts';

const values = (body: string, unit = 'in'): ReturnType<typeof analyse> => analyse(`pattern "Test"\nrevision 1\nunit ${unit}\n${body}\n`);

describe('kinds of values', () => {
  it.each([
    ['length a = 1 + 2 * 3', '7'],
    ['length a = (1 + 2) * 3', '9'],
    ['length a = 10 - 2 - 3', '5'],
    ['length a = 12 / 2 / 3', '2'],
    ['length a = -(2 - 5)', '3'],
    ['length a = 7 1/2 - 1/4', '7 1/4'],
    ['length a = 1 ft + 1 yd', '48'],
    ['length a = 25.4 mm + 2.54 cm + 0.0254 m', '3'],
    ['length a = 50% * 7 in', '3 1/2'],
    ['length a = (2 in * 3 in) / 4 in', '1 1/2'],
    ['length a = sqrt(2 in * 8 in)', '4'],
    ['length a = 3 in / 2 in * 1 in', '1 1/2'],
    ['length a = min(3, 5 in, 4)', '3'],
    ['length a = max(3 in, 5, 4)', '5'],
    ['length a = round(1.3, 1/4)', '1 1/4'],
    ['length a = round(1 1/8, 1/4)', '1 1/4'], // a half goes up
    ['length a = round_up(1.01, 1/4)', '1 1/4'],
    ['length a = round_down(1.49, 1/4)', '1 1/4'],
    ['length a = round_up(1 1/4, 1/4)', '1 1/4'],
  ])('%s', (text, result) => {
    const found = values(text);
    expect(found.codes).toEqual(['unused-name']);
    expect(found.inches('a')).toBe(result);
  });

  it('takes the unit of its file for a bare number', () => {
    for (const [unit, millimetres] of [['in', '25.4'], ['cm', '10'], ['mm', '1']] as const) {
      expect(values('length a = 3', unit).value('a').amount.equals(3 * Number(millimetres))).toBe(true);
      expect(values('area a = 3', unit).value('a').amount.equals(3 * Number(millimetres) ** 2)).toBe(true);
    }
  });

  it('takes the unit of the file it stands in, not of the file that uses it', () => {
    const found = analyse('pattern "T"\nrevision 1\nunit in\nuse "b.piece"\nlength a = theirs + 1', { 'b.piece': 'unit cm\nlength theirs = 2.54' });
    expect(found.inches('a')).toBe('2');
  });

  it('keeps a bare number bare until it meets a length', () => {
    const found = values('count n = 3\nlength a = n * 2\nlength b = 2 + 1 in * n');
    expect(found.problems.filter((one) => one.code !== 'unused-name').map((one) => [one.code, one.marked])).toEqual([['wrong-kind', 'n * 2']]);
    expect(found.inches('b')).toBe('5');
  });

  it('refuses what has no meaning, at its own place', () => {
    const cases: readonly (readonly [string, string, string])[] = [
      ['length a = 2 in + n', 'mixed-kinds', '2 in + n'],
      ['length a = n - 2 in', 'mixed-kinds', 'n - 2 in'],
      ['length a = 2 in * 3 in * 4 in', 'mixed-kinds', '2 in * 3 in * 4 in'],
      ['length a = 2 in * 3 in', 'wrong-kind', '2 in * 3 in'],
      ['length a = n / 2 in', 'mixed-kinds', 'n / 2 in'],
      ['length a = 45 deg', 'wrong-kind', '45 deg'],
      ['length a = 50%', 'wrong-kind', '50%'],
      ['length a = 2 in + (1 in * 1 in)', 'mixed-kinds', '2 in + (1 in * 1 in)'],
      ['count a = 2 in', 'wrong-kind', '2 in'],
      ['count a = 2 1/2', 'not-whole', '2 1/2'],
      ['angle a = 3 in', 'wrong-kind', '3 in'],
      ['area a = 3 in', 'wrong-kind', '3 in'],
      ['length a = 3 / 0', 'division-by-zero', '0'],
      ['length a = 3 / (n - 3)', 'division-by-zero', '(n - 3)'],
      ['length a = 1/0', 'division-by-zero', '1/0'],
      ['length a = sqrt(4 in)', 'wrong-arguments', 'sqrt(4 in)'],
      ['length a = round(4 in)', 'wrong-arguments', 'round(4 in)'],
      ['length a = round(4 in, 0 in)', 'wrong-arguments', 'round(4 in, 0 in)'],
      ['length a = min(4 in)', 'wrong-arguments', 'min(4 in)'],
      ['length a = max(4 in, n)', 'wrong-arguments', 'max(4 in, n)'],
      ['length a = nosuch + 1 in', 'unknown-name', 'nosuch'],
      ['length a = rond(4, 1)', 'unknown-name', 'rond'],
    ];
    for (const [line, code, marked] of cases) {
      const found = values(`count n = 3\n${line}`).problems.filter((one) => one.code !== 'unused-name');
      expect(found.map((one) => [one.code, one.marked]), line).toEqual([[code, marked]]);
      expect(found[0]?.severity).toBe('error');
    }
  });

  it('tells a fault once, not again in what needs the value', () => {
    const found = values('count n = 3\nlength a = 2 in + n\nlength b = a * 2\nlength c = b + a');
    expect(found.codes.filter((code) => code !== 'unused-name')).toEqual(['mixed-kinds']);
  });

  it('keeps a third exact all the way', () => {
    const found = values('length third = 1/3\nlength whole = third + third + third\ncheck whole = 1');
    expect(found.codes).toEqual([]);
    expect(found.value('whole').exact).toBe(true);
  });

  it('knows pi and the way round a circle to a millionth', () => {
    const found = values('length a = around(10 mm)\nlength b = pi * 10 mm\nratio c = pi');
    expect(found.value('a').amount.valueOf()).toBeCloseTo(10 * Math.PI, 6);
    expect(found.value('b').amount.valueOf()).toBeCloseTo(10 * Math.PI, 5);
    expect(found.value('a').exact).toBe(false);
  });

  it('names those that go round in a circle, once each', () => {
    const found = values('length a = b + 1\nlength b = c\nlength c = a\nlength d = a');
    const cycles = found.problems.filter((one) => one.code === 'cycle');
    expect(cycles.map((one) => one.marked)).toEqual(['a', 'b', 'c']);
    expect(cycles[0]?.message).toBe('This goes round in a circle: “a” needs “b” needs “c” needs “a”.');
    expect(found.codes).not.toContain('unknown-name');
  });

  it('sees a circle that goes through a piece', () => {
    const found = pattern('length w = front.width + 1\npiece front {\n  outline rectangle w by 2\n  cut 1 cloth\n}');
    expect(found.codes.filter((code) => code === 'cycle')).toHaveLength(2);
  });

  it('computes a long chain without running out of room', () => {
    const lines = Array.from({ length: 3000 }, (_, index) => `length v${index} = ${index === 0 ? '1' : `v${index - 1} + 1/8`}`);
    const found = values(lines.join('\n'));
    expect(found.inches('v800')).toBe('101');
  });
});

describe('what formulas may ask', () => {
  const bag = `
piece front {
  outline rectangle 8 by 6
  allowance 1/2
  line core = inset 1/4
  foldline half = upright at 4
  cut 1 cloth
}
thing card = 3 in by 2 in
supply zip {
  kind zip
  finished 5
}
supply strap {
  kind webbing
  across 1
  length 30
  count 2
}`;
  it.each([
    ['front.width', '7'], ['front.height', '5'], ['front.cut_width', '8'], ['front.cut_height', '6'],
    ['front.top', '7'], ['front.left', '5'], ['front.perimeter', '24'],
    ['front.core.width', '7 1/2'], ['front.core.height', '5 1/2'], ['front.core', '26'], ['front.core.length', '26'],
    ['front.half', '6'], ['sqrt(front.area * 3)', '12'], ['card.width', '3'], ['card.height', '2'],
    ['zip.finished', '5'], ['strap.length', '30'], ['strap.across', '1'], ['strap.length * strap.count', '60'],
    ['cloth.width', '60'], ['cloth.usable', '58'],
  ])('%s', (formula, result) => {
    const found = pattern(`${bag}\nlength a = ${formula}`);
    expect(found.faults).toEqual([]);
    expect(found.value('a').amount.div('25.4').valueOf()).toBeCloseTo(Number(result.split(' ')[0]) + (result.includes(' ') ? 0.5 : 0), 5);
  });

  it('says what a piece has instead', () => {
    expect(pattern(`${bag}\nlength a = front.tp`).only('unknown-part').message).toBe('“front” has no part called “tp”. Did you mean “top”?');
    expect(pattern(`${bag}\nlength a = front`).only('wrong-thing').marked).toBe('front');
    expect(pattern(`${bag}\nlength a = zip.across`).only('unknown-part').marked).toBe('across');
  });
});
