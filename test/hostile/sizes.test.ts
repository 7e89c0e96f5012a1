import { describe, expect, it } from 'vitest';
import { selectionSteps } from '../../server/src/language/selection.ts';
import { snapshotOfText } from '../support/samples.ts';
import { pattern } from '../support/spec.ts';

const piece = (outline: string, more = ''): string => `piece a {\n  outline ${outline}\n${more}  grain up\n  cut 1 cloth\n}`;
const curve = (control: string): string => `path from 0, 0 {\n    line to 9, 0\n    curve to 7, 9 by 11, 3 and 10, ${control}\n    line to 0, 9\n    close\n  }`;

describe('sizes far beyond anything sewn are told, and cost no wait', () => {
  it.each([
    [curve('9000000'), '9000000'],
    ['circle across 1000000000000', '1000000000000'],
    [`rectangle 3 by ${'9'.repeat(90)}`, '9'.repeat(90)],
    ['polygon from 0, 0 to 200 m, 0 to 0, 3', '200 m'],
  ])('%s', (outline, marked) => {
    const found = pattern(piece(outline));
    expect(found.faults).toEqual([`wrong-kind: ${marked}`]);
    expect(found.only('wrong-kind').message).toBe('This is a length of more than 100 m, but a shorter one is needed here.');
  });

  it('an allowance', () => {
    expect(pattern(piece('polygon from 0, 0 to 3, 0 to 2, 1 to 3, 2 to 0, 2', '  allowance 100000 rounded\n')).faults).toContain('wrong-kind: 100000');
  });

  it('a width of cloth', () => {
    expect(pattern('material wide "Wide" {\n  role main\n  width 2000 m\n}').only('wrong-kind').message).toContain('1 km');
  });

  it('but a piece of 90 m and a cone of 5000 m thread are fine', () => {
    expect(pattern(`${piece('rectangle 90 m by 3')}\nsupply t "Thread" {\n  kind thread\n  count 1\n  length 5000 m\n}`).faults.filter((one) => one.startsWith('wrong-kind'))).toEqual([]);
  });
});

describe('sizes next to nothing', () => {
  it.each([`1/${'9'.repeat(50)}`, '0.00000000001'])('%s', (size) => {
    expect(pattern(piece(`rectangle ${size} by ${size}`)).codes).toContain('too-small');
  });
});

describe('numbers that outgrow every use', () => {
  it('products of products', () => {
    const growing = Array.from({ length: 40 }, (_, index) => `ratio a${index + 1} = a${index} * a${index}`).join('\n');
    expect(pattern(`ratio a0 = 1.1\n${growing}`).only('wrong-kind').message).toBe('This is a number of more than 100 digits, but a simpler one is needed here.');
  });

  it.each([`ratio r = sqrt(${'9'.repeat(700)})`, `length l = around(${'9'.repeat(400)})`])('%s', (text) => {
    expect(pattern(text).only('wrong-kind').message).toContain('more than 100 digits');
  });
});

it('finds the word in a very long text at once', () => {
  const text = `note "${'n'.repeat(200_000)}"\n`;
  const started = performance.now();
  expect(selectionSteps(snapshotOfText(text), 199_000).at(-1)).toEqual({ start: 0, end: text.length });
  // It took half a minute while every start of the word was tried.
  expect(performance.now() - started).toBeLessThan(3000);
});
