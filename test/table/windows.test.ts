import { describe, expect, it } from 'vitest';
import { narrowestStrip } from '../../server/src/model/checks/windows.ts';
import { pattern } from '../support/spec.ts';

const found = (window: string, material = 'board'): ReturnType<typeof pattern> => pattern(`piece a "A" {
  outline rectangle 8 by 6
  line core = rectangle 6 by 4 at 1, 1
  window gap = ${window}
  cut 1 cloth
  cut 1 ${material} along core without gap
}`);
const notes = (window: string): readonly string[] => found(window).rows()[1]?.notes ?? [];

describe('windows', () => {
  it('say what to cut out and exactly where', () => {
    // 1 1/16 − 1 from the left of the core, which is less than a step.
    expect(notes('rectangle 2 by 1 at 1 1/16, 2')).toEqual(['cut out gap: 2 in × 1 in, about 1/8 in (exactly 1/16 in) from the left, 1 in from below']);
    expect(notes('rectangle 2 by 1 at 2, 2')).toEqual(['cut out gap: 2 in × 1 in, 1 in from the left, 1 in from below']);
  });

  it('tell only what lies on the layer, and whether it falls apart', () => {
    expect(notes('rectangle 2 by 1 at 1/2, 2')).toEqual(['cut out gap: 1 1/2 in × 1 in, 0 in from the left, 1 in from below']);
    expect(notes('rectangle 8 by 1 at 0, 2')).toEqual(['cut out gap: 6 in × 1 in, 0 in from the left, 1 in from below', 'in 2 parts']);
    expect(notes('polygon from 0, 0 to 4, 3 to 8, 0 to 8, 1/2 to 4, 7/2 to 8, 6 to 0, 6 to 4, 7/2 to 0, 1/2').at(-1)).toMatch(/^in \d parts$/);
  });

  it('warn of a strip that is narrower than a quarter of an inch', () => {
    expect(found('rectangle 2 by 1 at 1 1/16, 2').faults).toEqual(['thin-strip: without gap']);
    expect(found('rectangle 2 by 1 at 1 1/16, 2').only('thin-strip').message).toBe('The window leaves a strip of only 1/16 in of “board”, which tears easily. Move the window, or let it run out over the edge.');
    expect(found('rectangle 2 by 1 at 1 1/4, 2').faults).toEqual([]);
    expect(found('rectangle 2 by 1 at 2, 1 1/8').faults).toEqual(['thin-strip: without gap']);
    // It runs out over the edge, with 2 in left on its sides.
    expect(found('rectangle 2 by 1 at 3, 0').faults).toEqual([]);
    expect(found('circle across 3 centred at 4, 3').faults).toEqual([]);
    expect(found('circle across 3 3/4 centred at 4, 3').faults).toEqual(['thin-strip: without gap']);
  });

  it('measure the strip to the next border, be it the edge or another window', () => {
    const rectangle = (x: number, y: number, width: number, height: number) => [{ x, y }, { x: x + width, y }, { x: x + width, y: y + height }, { x, y: y + height }];
    const sheet = rectangle(0, 0, 100, 60);
    expect(narrowestStrip(sheet, [rectangle(10, 20, 30, 10)])).toBeCloseTo(10, 3);
    expect(narrowestStrip(sheet, [rectangle(10, 20, 30, 10), rectangle(43, 20, 30, 10)])).toBeCloseTo(3, 3);
    expect(narrowestStrip(sheet, [rectangle(30, 50, 30, 20)])).toBeCloseTo(30, 3);
    expect(narrowestStrip(sheet, [rectangle(-10, -10, 200, 200)])).toBe(Infinity);
  });
});
