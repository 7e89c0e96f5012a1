import { describe, expect, it } from 'vitest';
import { nameForm, smaller, widthInTwo } from '../../client/preview/board-names.ts';

/** Seven pixels a letter. */
const widthOf = (words: string): number => 7 * words.length;
const [whole, size, count] = [{ text: 'cut 2, 4 in × 6 in', isSized: true }, { text: '4 in × 6 in', isSized: true }, { text: 'cut 2', isSized: false }];
const formOf = (title: string, across: number, high: number): ReturnType<typeof nameForm> => nameForm({ title, details: [whole, size, count] }, { across, high }, widthOf);

/** All ways to break a text between words, each as its lines. */
function* broken(words: readonly string[]): Generator<readonly string[]> {
  if (words.length === 0) return yield [];
  for (let count = 1; count <= words.length; count++) for (const rest of broken(words.slice(count))) yield [words.slice(0, count).join(' '), ...rest];
}

/** How few lines a text takes where none is longer than that; undefined where some word is. */
function fewestLines(text: string, width: number, letters: number): number | undefined {
  const counts = [...broken(text.split(' '))].filter((lines) => lines.every((line) => widthOf(line) * letters <= width)).map(({ length }) => length);
  return counts.length === 0 ? undefined : Math.min(...counts);
}

const rooms = Array.from({ length: 40 }, (_, index) => 6 * (index + 1));

describe('a name within its piece', () => {
  it.each(['Wrap', 'Back panel', 'Leaf under the buckle', 'Interlinings'])('%s: level, no line is longer than its room, nor are all of them higher', (title) => {
    let [level, detailed] = [0, 0];
    for (const across of rooms) {
      for (const high of rooms) {
        const form = formOf(title, across, high);
        if (form?.way !== 'level') continue;
        level++;
        const letters = form.small ? smaller : 1;
        const lines = fewestLines(title, across - 8, letters);
        expect(lines, `${across} by ${high}`).toBeDefined();
        const more = form.details === undefined ? 0 : fewestLines(form.details.text, across - 8, letters);
        expect(more, `${across} by ${high}`).toBeDefined();
        if (form.details !== undefined) detailed++;
        expect(((lines ?? 99) + (more ?? 99)) * 16 * letters).toBeLessThanOrEqual(high);
      }
    }
    expect(Math.min(level, detailed)).toBeGreaterThan(100);
  });

  it('has its count and its finished size wherever there is room for them', () => {
    for (const across of rooms.filter((one) => one >= 8 + widthOf('buckle'))) {
      const [name = 99, below = 99] = [fewestLines('Leaf under the buckle', across - 8, 1), fewestLines(whole.text, across - 8, 1)];
      if (below < 99) expect(formOf('Leaf under the buckle', across, 16 * (name + below)), String(across)).toMatchObject({ way: 'level', small: false, details: whole });
      expect(formOf('Leaf under the buckle', across, 16 * name - 1), String(across)).not.toMatchObject({ small: false, way: 'level' });
    }
  });

  it('stands upright where it is too long for its room, and nowhere where it is too long for either', () => {
    expect(formOf('Interlinings', 40, 200)?.way).toBe('upright');
    expect(formOf('Interlinings', 40, 60)).toBeUndefined();
  });

  it('has its size rather than its count where there is room for one of them alone, and stands upright for that', () => {
    expect(formOf('Leaf', 90, 32)).toMatchObject({ way: 'level', small: false, details: size, box: { height: 32 } });
    expect(formOf('Leaflet', 34, 100)).toMatchObject({ way: 'upright', small: false, details: size, box: { width: 32 } });
    expect(formOf('Leaflet', 34, 200)).toMatchObject({ way: 'upright', small: false, details: whole, box: { width: 32 } });
    expect(formOf('Leaf', 90, 17)).toMatchObject({ way: 'level', details: undefined });
  });

  it('has its count where only the size is too long', () => {
    expect(formOf('Leaf', 44, 34)).toMatchObject({ way: 'level', details: count });
  });

  it('may be broken in two, where both lines are about as long', () => {
    expect(widthInTwo('Cork on the strap end', widthOf)).toBe(widthOf('Cork on the'));
    expect(widthInTwo('Interlinings', widthOf)).toBeUndefined();
  });
});
