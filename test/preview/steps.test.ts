import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findAt, onStep } from '../../client/preview/cursor.ts';
import { joinedWords } from '../../client/preview/steps.ts';
import { Draft } from './specs.ts';

const text = readFileSync(new URL('../../samples/tidal-crossbody.piece', import.meta.url), 'utf8');
const data = new Draft().data(text);
const step = (number: number) => {
  const found = data.steps.find((one) => one.number === number);
  if (found === undefined) throw new Error('No such step');
  return found;
};
const at = (line: string) => findAt(data, 'draft.piece', text.indexOf(line) + 1);

describe('a step', () => {
  it('lights what it works on: edges of seams, lines that are sewn on to, edges and marks that take a supply', () => {
    expect(step(3).lights).toEqual({ base_panel: ['edge'], gusset: ['base_at'] });
    expect(step(10).lights).toEqual({ slip_pocket: ['bottom_left_level', 'bottom_left_upright', 'bottom_right_level', 'bottom_right_upright', 'top'] });
    expect(step(12).lights).toEqual({ lining: ['clasp'] });
    expect(step(8).lights).toEqual({ front: ['zip_gap'], front_pocket: ['top', 'bottom', 'left', 'right'], facing: [] });
    const { lit } = onStep(data, step(3));
    const gusset = data.pieces.find(({ name }) => name === 'gusset');
    expect(lit.get('gusset')?.map((part) => gusset?.drawing.parts[part]?.name)).toEqual(['base_at']);
  });
  it('tells what hangs together once it is done', () => {
    expect(step(2).joined).toEqual([]);
    expect(step(3).joined).toEqual([['base_panel', 'gusset']]);
    expect(step(11).joined).toEqual([['base_panel', 'gusset'], ['slip_pocket', 'lining']]);
    expect(step(13).joined.map((group) => [...group].sort())).toEqual([['lining', 'slip_pocket'], ['back', 'base_panel', 'front', 'gusset']]);
    expect(step(15).joined).toHaveLength(1);
    expect(joinedWords(data, step(3))).toBe('Joined: Base panel, Gusset');
  });
  it('is found at the cursor', () => {
    expect(at('step "Lay the base panel').step?.number).toBe(3);
  });
});

describe('a seam', () => {
  it('is laid along itself, with corners and notches where they are come by', () => {
    const { walk } = at('seam front_seam');
    const [first, second] = walk?.runs ?? [];
    expect([first?.says, second?.says, walk?.ease]).toEqual(['Gusset: left', 'Front: side left, base and side right', expect.stringContaining('eased in')]);
    expect([first?.corners.length, second?.corners.length]).toEqual([0, 2]);
    expect([first?.notches.length, second?.notches.length]).toEqual([3, 3]);
    // The notch of each side is 8 cm above or below the base; the gusset is longer by one in a hundred.
    expect(second?.notches[1]).toBeCloseTo(((second?.corners[0] ?? 0) + (second?.corners[1] ?? 0)) / 2, 1);
    expect((first?.notches[1] ?? 0) / (second?.notches[1] ?? 1)).toBeCloseTo(1.01, 3);
  });
  it('that lies on a line is not', () => {
    expect(at('seam base_seam').walk).toBeUndefined();
  });
});
