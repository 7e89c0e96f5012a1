import { describe, expect, it } from 'vitest';
import { cardsOf } from '../../client/preview/cards.ts';
import { bySize, largestAmong, largestWords } from '../../client/preview/size-list.ts';
import { finishedWords, isFinishedAsCut } from '../../client/preview/size-words.ts';
import { Draft } from './specs.ts';

/** The sash fills half of its box, and the panel all of a smaller one: 15 × 15 / 2 = 112.5 cm² against 12 × 11 = 132 cm². */
const data = new Draft().data(`pattern "Areas"
revision 1
unit cm
allowance none
material cloth {
  width 150
}
piece sash "Sash" {
  outline path from 0, 0 {
    line to 15, 0 as foot
    line to 0, 15 as slope
    close as side
  }
  cut 1 cloth
}
piece panel "Panel" {
  outline rectangle 12 by 11
  cut 1 cloth
}
piece patch "Patch" {
  outline rectangle 11 by 12
  cut 1 cloth
}
`);
const cards = cardsOf(data, []);

describe('the largest piece', () => {
  it('is the one of the largest area, not of the largest box, and that is said', () => {
    expect(largestAmong(cards)?.name).toBe('panel');
    expect(largestWords(data.pieces)).toBe('Largest piece by area: Panel, cut and finished 12 cm × 11 cm');
    expect(data.pieces.map(({ area }) => area)).toEqual([11250, 13200, 13200]);
  });

  it.each([[2, 'A and B'], [3, 'A, B and C'], [4, 'A, B, C and D'], [6, 'A, B, C and 3 more']])('is said of %i that are as large: %s', (count, words) => {
    const pieces = Array.from('ABCDEF').slice(0, count).map((name) => `piece ${name.toLowerCase()} "${name}" {\n  outline rectangle 12 by 11\n  cut 1 cloth\n}\n`);
    expect(largestWords(new Draft().data(`pattern "Alike"\nrevision 1\nunit cm\nallowance none\nmaterial cloth {\n  width 150\n}\n${pieces.join('')}`).pieces)).toBe(`Largest pieces by area: ${words}, each cut and finished 12 cm × 11 cm`);
  });

  it('is said to be the one where there is no other', () => {
    expect(largestWords(data.pieces.slice(0, 1))).toMatch(/^One piece: Sash, cut and finished 15 cm × 15 cm$/);
    expect(largestWords([])).toBe('');
  });

  it('stands first, those as large in the order of the text', () => {
    expect(bySize(cards).map(({ card }) => card.name)).toEqual(['panel', 'patch', 'sash']);
  });

  it('is measured within the stitching lines, opened out', () => {
    const [half] = new Draft().data('pattern "Half"\nrevision 1\nunit cm\nallowance 1\nmaterial cloth {\n  width 150\n}\npiece half {\n  outline rectangle 11 by 12\n  on fold left\n  cut 1 cloth\n}\n').pieces;
    // 20 cm × 10 cm.
    expect(half?.area).toBe(20_000);
  });
});

describe('the finished size of a piece', () => {
  const told = (allowance: string, more = ''): string => {
    const [piece] = new Draft().data(`pattern "Told"\nrevision 1\nunit cm\nallowance ${allowance}\nmaterial cloth {\n  width 150\n}\npiece one {\n  outline rectangle 8 by 6\n${more}  cut 1 cloth\n}\n`).pieces;
    if (piece === undefined) throw new Error('nothing was drawn');
    return `${isFinishedAsCut(piece) ? 'as cut: ' : ''}${finishedWords(piece)}`;
  };

  it('is told of every piece, and where nothing is allowed for, that it is the cut one', () => {
    expect(told('1')).toBe('finished 6 cm × 4 cm');
    expect(told('none')).toBe('as cut: cut and finished 8 cm × 6 cm');
    expect(told('none', '  allowance left 1\n')).toBe('finished 7 cm × 6 cm');
    // Too little to show is an allowance all the same.
    expect(told('0.01')).toBe('finished 8 cm × 6 cm');
  });

  it('is told with its pleats and darts open, which take of it when they are closed', () => {
    expect(told('none', '  pleat one on top at 4 deep 1 towards end\n')).toBe('as cut: cut and finished 8 cm × 6 cm, its pleats open');
    expect(told('1', '  dart one on top at 3 wide 1 deep 2\n')).toBe('finished 6 cm × 4 cm, its darts open');
    expect(told('1', '  dart one on top at 3 wide 1 deep 2\n  pleat two on bottom at 3 deep 1/2 towards end\n')).toBe('finished 6 cm × 4 cm, its darts and pleats open');
  });

  it('is told with what it is once it is folded', () => {
    expect(told('none', '  foldline middle = upright at 4\n  folded middle\n')).toBe('as cut: cut and finished 8 cm × 6 cm, folded 4 cm × 6 cm');
  });
});
