import { arc as flatArc, point as flatPoint } from '@flatten-js/core';
import { Bezier } from 'bezier-js';
import { describe, expect, it } from 'vitest';
import { edgeLength, outlineArea, perimeter } from '../../server/src/geometry/measure.ts';
import { pattern, sizeOf } from '../support/spec.ts';

const piece = (outline: string, more = ''): ReturnType<typeof pattern> => pattern(`piece a {\n  outline ${outline}\n${more}\n  cut 1 cloth\n}`, 'unit mm\nallowance none');
const measures = (found: ReturnType<typeof pattern>): { area: number; around: number; edges: readonly string[] } => {
  const { drawn } = found.shape('a');
  return { area: outlineArea(drawn), around: perimeter(drawn), edges: drawn.edges.map((edge) => edge.name) };
};
const edge = (found: ReturnType<typeof pattern>, name: string): number => {
  const one = found.shape('a').drawn.edges.find((other) => other.name === name);
  if (one === undefined) throw new Error(`no edge ${name}`);
  return edgeLength(one);
};

describe('rectangles', () => {
  it('have four sides in the usual names', () => {
    expect(measures(piece('rectangle 80 by 60'))).toEqual({ area: 4800, around: 280, edges: ['bottom', 'right', 'top', 'left'] });
  });

  it('lose (4 - π) r² to round corners, and 2 r - π r / 2 of edge at each', () => {
    const { area, around, edges } = measures(piece('rectangle 80 by 60', '  corner all round 10'));
    expect(area).toBeCloseTo(4800 - (4 - Math.PI) * 100, 6);
    expect(around).toBeCloseTo(280 - 4 * (20 - 5 * Math.PI), 6);
    expect(edges).toHaveLength(8);
  });

  it('may have some corners treated, each its own way', () => {
    const found = piece('rectangle 80 by 60', '  corner top round 10\n  corner bottom_left chamfer 5\n  corner bottom_right chamfer 6 by 8');
    const { area } = measures(found);
    expect(area).toBeCloseTo(4800 - (2 - Math.PI / 2) * 100 - 12.5 - 24, 6);
    expect(edge(found, 'bottom_right')).toBeCloseTo(10, 9);
    expect(edge(found, 'top')).toBeCloseTo(60, 9);
    expect(edge(found, 'bottom')).toBeCloseTo(69, 9);
  });

  it('are boxed out without a change of their way round', () => {
    const found = piece('rectangle 160 by 130', '  corner bottom box 20 by 15');
    const { area, around, edges } = measures(found);
    expect(area).toBeCloseTo(160 * 130 - 2 * 20 * 15, 6);
    expect(around).toBeCloseTo(580, 6);
    expect(edges).toContain('bottom_left_level');
    expect(edge(found, 'bottom_right_upright')).toBeCloseTo(15, 9);
    expect(edge(found, 'bottom')).toBeCloseTo(120, 9);
  });

  it('say where corners are too large, unknown or crossing', () => {
    expect(piece('rectangle 80 by 60', '  corner all round 31').only('corner-too-large').message).toBe('The corners take 2 mm more than the right side has.');
    expect(piece('rectangle 80 by 60', '  corner tip round 3').only('unknown-corner').marked).toBe('tip');
    expect(piece('rectangle 80 by 60', '  corner top_left box 50 by 40\n  corner bottom_right box 50 by 40').only('self-crossing').severity).toBe('error');
    expect(piece('circle across 5', '  corner all round 1').only('corner-needs-rectangle').marked).toBe('corner all round 1');
    expect(piece('rectangle 0 by 60').only('too-small').marked).toBe('0');
  });
});

/** Way round an ellipse by the arithmetic-geometric mean (NIST Digital Library of Mathematical Functions, 19.8). */
function aroundEllipse(a: number, b: number): number {
  let [x, y, sum, power] = [a, b, (a * a + b * b) / 2, 0.5];
  for (let step = 0; step < 8; step++) {
    [x, y] = [(x + y) / 2, Math.sqrt(x * y)];
    power *= 2;
    sum -= power * (x * x - y * y);
  }
  return (2 * Math.PI * sum) / x;
}

describe('circles and ellipses', () => {
  it('check the formula used here on a circle', () => {
    expect(aroundEllipse(5, 5)).toBeCloseTo(10 * Math.PI, 9);
  });

  it('have the area and the way round that they should', () => {
    const circle = measures(piece('circle across 100'));
    expect(circle.area).toBeCloseTo(2500 * Math.PI, 6);
    expect(circle.around).toBeCloseTo(100 * Math.PI, 6);
    const oval = measures(piece('ellipse 180 by 60'));
    expect(oval.area).toBeCloseTo(90 * 30 * Math.PI, 4);
    expect(oval.around).toBeCloseTo(aroundEllipse(90, 30), 4);
  });

  it('have parts closed by a chord or through the middle', () => {
    const half = piece('circle across 100 from 0 deg to 180 deg');
    expect(measures(half).area).toBeCloseTo(1250 * Math.PI, 6);
    expect(edge(half, 'arc')).toBeCloseTo(50 * Math.PI, 6);
    expect(edge(half, 'chord')).toBeCloseTo(100, 9);
    expect(sizeOf(half.shape('a').drawn, 1)).toEqual([100, 50]);
    const slice = piece('circle across 100 from 0 deg to 60 deg through middle');
    expect(measures(slice).area).toBeCloseTo((2500 * Math.PI) / 6, 6);
    expect(edge(slice, 'start')).toBeCloseTo(50, 9);
    expect(edge(slice, 'end')).toBeCloseTo(50, 9);
  });

  it('are drawn where they are put', () => {
    expect(piece('circle across 10 centred at 0, 0').shape('a').drawn.edges[0]?.start).toEqual({ x: 5, y: 0 });
    const found = piece('rectangle 4 by 2 at 10, 20').shape('a').drawn.edges[0];
    expect(found?.start).toEqual({ x: 10, y: 20 });
  });
});

describe('polygons and paths', () => {
  it('run the same way however they are written', () => {
    const there = piece('polygon from 0, 0 to 60, 0 to 60, 30 to 10, 50');
    const back = piece('polygon from 10, 50 to 60, 30 to 60, 0 to 0, 0');
    // Shoelace: (0·0-60·0 + 60·30-60·0 + 60·50-10·30 + 10·0-0·50) / 2 = (1800 + 2700) / 2.
    expect(measures(there).area).toBeCloseTo(2250, 9);
    expect(measures(back).area).toBeCloseTo(2250, 9);
  });

  it('measure arcs as @flatten-js/core does', () => {
    const found = piece('path from 0, 0 {\n    line to 30, 0 as lower\n    arc to 30, 12 through 37, 5 as nose\n    line to 0, 12 as upper\n    arc to 0, 0 radius 20 right as hollow\n  }');
    expect(found.faults).toEqual([]);
    // Circle through (30, 0), (37, 5), (30, 12): its centre lies on y = 6.
    const x = (37 ** 2 + 25 - 900 - 2 * 6 * 5) / (2 * 7);
    const radius = Math.hypot(30 - x, 6);
    const turn = Math.atan2(6, 30 - x);
    expect(edge(found, 'nose')).toBeCloseTo(flatArc(flatPoint(x, 6), radius, -turn, turn, true).length, 6);
    expect(edge(found, 'hollow')).toBeCloseTo(2 * 20 * Math.asin(6 / 20), 6);
  });

  it('measure curves as bezier-js does', () => {
    const found = piece('path from 0, 0 {\n    curve to 260, 0 by 90, -25 and 170, -25 as base\n    line to 240, 190\n    curve to 0, 0 by 200, 260 and -40, 100 as side\n  }');
    const length = (...points: readonly [number, number, number, number, number, number, number, number]): number => {
      const whole = new Bezier(...points);
      return Array.from({ length: 32 }, (_, index) => whole.split(index / 32, (index + 1) / 32).length()).reduce((a, b) => a + b, 0);
    };
    expect(edge(found, 'base')).toBeCloseTo(length(0, 0, 90, -25, 170, -25, 260, 0), 5);
    expect(edge(found, 'side')).toBeCloseTo(length(240, 190, 200, 260, -40, 100, 0, 0), 5);
  });

  it('close with a side of their own', () => {
    const found = piece('path from 0, 0 {\n    line to 30, 0 as base\n    line to 30, 40\n    close as slope\n  }');
    expect(edge(found, 'slope')).toBeCloseTo(50, 9);
    expect(measures(found).edges).toEqual(['base', 'side2', 'slope']);
  });

  it('take other names for their edges', () => {
    expect(measures(piece('polygon from 0, 0 to 3, 0 to 0, 4', '  edge side2 as slope')).edges).toEqual(['side1', 'slope', 'side3']);
    expect(piece('polygon from 0, 0 to 3, 0 to 0, 4', '  edge side2 as side1').only('duplicate-name').marked).toBe('side1');
  });

  it('say what cannot be drawn', () => {
    expect(piece('polygon from 0, 0 to 60, 60 to 60, 0 to 0, 60 to -30, 0').only('self-crossing').message).toBe('This outline crosses itself at 30 mm, 30 mm.');
    expect(piece('from 0, 0 to 60, 60').only('open-shape').severity).toBe('error');
    expect(piece('inset 5').only('inset-outline').severity).toBe('error');
    expect(piece('polygon from 0, 0 to 6, 0 to 3, 0').codes).toContain('empty-outline');
    expect(piece('path from 0, 0 {\n    arc to 30, 0 radius 10 left\n    line to 5, 50\n    close\n  }').only('bad-arc').message).toContain('its ends are 30 mm apart');
    expect(piece('path from 0, 0 {\n    arc to 30, 0 through 10, 0\n    line to 5, 50\n    close\n  }').only('bad-arc').message).toContain('one straight line');
    expect(pattern('piece a {\n  cut 1 cloth\n}').only('missing-outline').marked).toBe('a');
  });
});

describe('half on a fold', () => {
  it('opens out to twice the half', () => {
    const found = piece('path from 0, 0 {\n    line to 50, 0 as hem\n    line to 50, 60 as side\n    arc to 20, 90 through 36, 70 as armhole\n    line to 0, 90 as top\n    close as centre\n  }', '  on fold centre');
    const shape = found.shape('a');
    expect(outlineArea(shape.whole.cutting)).toBeCloseTo(2 * outlineArea(shape.cutting), 6);
    expect(perimeter(shape.whole.cutting)).toBeCloseTo(2 * (perimeter(shape.cutting) - 90), 6);
    expect(sizeOf(shape.whole.cutting, 1)).toEqual([100, 90]);
  });

  it('needs a straight edge with the piece on one side', () => {
    const found = piece('circle across 50', '  on fold edge');
    expect(found.only('fold-not-straight').marked).toBe('edge');
    expect(piece('polygon from 0, 0 to 30, 0 to 20, 20 to 50, 40 to 0, 40', '  on fold side2').only('fold-not-straight').marked).toBe('side2');
    expect(piece('rectangle 4 by 5', '  on fold lft').only('unknown-part').message).toContain('left');
  });
});

it.each(['constructor', '__proto__', 'toString'])('a corner called %s is unknown like any other', (name) => {
  expect(pattern(`piece a {\n  outline rectangle 4 by 3\n  corner ${name} round 1\n  cut 1 cloth\n}`).faults.join()).toContain('unknown-corner');
});
