import { describe, expect, it } from 'vitest';
import { rename } from '../../server/src/language/rename.ts';
import { splitPieceActions } from '../../server/src/language/refactor/split-piece.ts';
import { marked } from '../support/marked.ts';
import { snapshotOfText } from '../support/samples.ts';
import type { FoundProblem } from '../../server/src/model/query/variants.ts';

const head = 'pattern "T"\nrevision 1\nallowance none\nmaterial cloth {\n  width 58\n}\n';
const problemsIn = (text: string): readonly FoundProblem[] => snapshotOfText(text).pattern.problems;
const codesIn = (text: string): readonly string[] => problemsIn(text).map(({ code }) => code);
const only = (text: string, code: string): FoundProblem => {
  const [first, ...more] = problemsIn(text).filter((one) => one.code === code);
  if (first === undefined || more.length > 0) throw new Error(`not one ${code}: ${JSON.stringify(problemsIn(text).map(({ message }) => message))}`);
  return first;
};

describe('figures that mean nothing are refused', () => {
  const material = (price: string): string => `material silk "Silk" {\n  width 40\n  price ${price} per yd\n}\npiece a {\n  outline rectangle 3 by 3\n  grain up\n  cut 1 silk\n}`;

  it.each([
    ['-1', 'too-small', 'A price must be nothing or more, but this is -1.'],
    ['1000001', 'wrong-kind', 'This is a price of more than 1,000,000, but a smaller one is needed here.'],
    [`1${'0'.repeat(400)}`, 'wrong-kind', 'This is a number of more than 100 digits, but a simpler one is needed here.'],
  ] as const)('a price of %s', (price, code, message) => {
    expect(only(head + material(price), code).message).toBe(message);
  });

  it.each(['0', '0.01', '1000000'])('but not a price of %s', (price) => {
    expect(codesIn(head + material(price)).filter((code) => code === 'too-small' || code === 'wrong-kind')).toEqual([]);
  });

  it.each([['1/0'], ['1/2'], ['2 1/2'], ['9'.repeat(30)]])('revision %s', (number) => {
    expect(codesIn(`pattern "T"\nrevision ${number}\n`)).toContain('not-whole');
  });

  it.each(['0', '12', '1.2'])('but not revision %s', (number) => {
    expect(codesIn(`pattern "T"\nrevision ${number}\n`)).not.toContain('not-whole');
  });

  it('a tolerance below nothing', () => {
    const check = (within: string): readonly string[] => problemsIn(`${head}length a = 1\nlength b = 1\ncheck a matches b within ${within}\n`).filter(({ severity }) => severity === 'error').map((one) => `${one.code}: ${one.place.chunk.text.slice(one.place.start, one.place.end)}`);
    expect(check('-1/8')).toEqual(['too-small: -1/8']);
    expect(check('0')).toEqual([]);
  });
});

describe('a name that would change what is made is refused', () => {
  const refusedFor = (text: string, name: string): string | undefined => {
    const { snapshot, offset } = marked(text);
    const result = rename(snapshot, [], offset, name);
    return result !== undefined && 'refused' in result ? result.refused : undefined;
  };

  it('an option as one of another choice', () => {
    const text = 'choice tab is fab|ric, cork\nchoice strap is long, short\nlength a = 1 for fabric, 2 for cork\nlength b = 1 for long, 2 otherwise\n';
    expect(refusedFor(text, 'long')).toBe('“long” is already an option of “strap”.');
    expect(refusedFor(text, 'cork')).toBe('“cork” is already an option of “tab”.');
    expect(refusedFor(text, 'linen')).toBeUndefined();
  });

  it('a value as pi', () => {
    expect(refusedFor('length wi|de = 1\nlength round = wide * pi\n', 'pi')).toBe('“pi” is the number 3.14159…');
  });
});

describe('a mistyped name', () => {
  const fixOf = (text: string): readonly string[] => only(head + text, 'unknown-name').fixes.map((fix) => fix.title);

  it('of a material is never a number, nor the name of something else', () => {
    const piece = (material: string): string => `length quarters = 1\npiece clot {\n  outline rectangle quarters by 3\n  grain up\n  cut 1 ${material}\n}`;
    expect(fixOf(piece('quarter'))).toEqual([]);
    expect(fixOf(piece('clotj'))).toEqual(['Change to “cloth”']);
  });

  it('of a value may be a number', () => {
    expect(fixOf('length a = quarter')).toEqual(['Change to “1/4”']);
  });
});

describe('a piece that can’t be parted straight across', () => {
  const offered = (outline: string): number => {
    const { snapshot, offset } = marked(`allowance none\nmaterial cloth {\n  width 58\n}\npie|ce a {\n  outline ${outline}\n  grain up\n  cut 1 cloth\n}\n`);
    return splitPieceActions(snapshot, offset).length;
  };

  it('is not offered to be, and others are', () => {
    // At half its height this one is two legs.
    expect(offered('polygon from 0, 0 to 1, 0 to 1, 5 to 4, 5 to 4, 0 to 5, 0 to 5, 6 to 0, 6')).toBe(0);
    expect(offered('rectangle 4 by 6')).toBe(1);
  });
});
