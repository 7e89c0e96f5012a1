import { describe, expect, it } from 'vitest';
import { cardsOf } from '../../client/preview/cards.ts';
import { bySize, largestAmong, largestWords } from '../../client/preview/size-list.ts';
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
    expect(largestWords(data.pieces)).toBe('Largest piece by area: Panel, finished 12 cm × 11 cm');
    expect(data.pieces.map(({ area }) => area)).toEqual([11250, 13200, 13200]);
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
