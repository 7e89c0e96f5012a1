import { describe, expect, it } from 'vitest';
import { wordWidths } from '../../client/preview/board-names.ts';

/** Letters of one width, and how often any were measured. */
function measuring(): { readonly words: ReturnType<typeof wordWidths>; readonly count: () => number; readonly letter: { wide: number } } {
  let count = 0;
  const letter = { wide: 6 };
  const words = wordWidths(() => {
    const { wide } = letter;
    return (text) => {
      count++;
      return text.length * wide;
    };
  });
  return { words, count: () => count, letter };
}

describe('how wide words are', () => {
  it('is measured once', () => {
    const { words, count } = measuring();
    expect([words.widthOf('Wrap'), words.widthOf('Wrap'), words.widthOf('Leaf')]).toEqual([24, 24, 24]);
    expect(count()).toBe(2);
  });
  it('is measured again in other letters', () => {
    const { words, letter } = measuring();
    words.widthOf('Wrap');
    letter.wide = 7;
    expect(words.widthOf('Wrap')).toBe(24);
    words.forget();
    expect(words.widthOf('Wrap')).toBe(28);
  });
  it('is not kept for ever: all that was typed in a title would be', () => {
    const { words, count } = measuring();
    for (let typed = 0; typed < 20_100; typed++) words.widthOf(`Title ${typed}`);
    words.widthOf('Title 0');
    expect(count()).toBe(20_101);
    words.widthOf('Title 20099');
    expect(count()).toBe(20_101);
  });
});
