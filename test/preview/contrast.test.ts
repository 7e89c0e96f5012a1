import { expect, it } from 'vitest';
import { contrast, readColour, seenOn, type Colour } from '../../client/preview/contrast.ts';

const [white, black]: readonly [Colour, Colour] = [[255, 255, 255, 1], [0, 0, 0, 1]];

it('reckons the contrast as WCAG 2.2 defines it', () => {
  // The definition's ends; and #767676, the lightest grey that passes 4.5 to 1 on white (WebAIM, Contrast and Color Accessibility).
  expect(contrast(white, black)).toBeCloseTo(21, 5);
  expect(contrast(white, white)).toBe(1);
  expect(contrast([0x76, 0x76, 0x76, 1], white)).toBeGreaterThanOrEqual(4.5);
  expect(contrast([0x77, 0x77, 0x77, 1], white)).toBeLessThan(4.5);
});

it('reads the ways in which browsers write a colour', () => {
  expect(readColour('rgb(0, 95, 184)')).toEqual([0, 95, 184, 1]);
  expect(readColour('rgba(41, 41, 41, 0.9)')).toEqual([41, 41, 41, 0.9]);
  expect(readColour('color(srgb 0 0.4 1)')).toEqual([0, 102, 255, 1]);
  expect(readColour('canvastext')).toBeUndefined();
});

it('moves a colour towards the ink only as far as it must', () => {
  const yellow: Colour = [255, 230, 0, 1];
  const seen = seenOn(white, yellow, black, 3);
  expect(contrast(seen, white)).toBeGreaterThanOrEqual(3);
  // A step less would not do.
  expect(contrast(seenOn(white, yellow, black, 3), white)).toBeLessThan(4.2);
  expect(seenOn(white, [0, 0, 200, 1], black, 3)).toEqual([0, 0, 200, 1]);
  // What lets the ground through is as pale as it looks.
  expect(contrast(seenOn(white, [0, 0, 0, 0.2], black, 4.5), white)).toBeGreaterThanOrEqual(4.5);
  expect(seenOn(white, yellow, [90, 90, 90, 1], 21)).toEqual([90, 90, 90, 1]);
});
