import { describe, expect, it } from 'vitest';
import { arcByRadius, arcThrough } from '../../server/src/geometry/arcs.ts';
import { edgeEnd } from '../../server/src/geometry/edge.ts';
import { ellipse } from '../../server/src/geometry/ellipse.ts';
import { bounds, edgeLength, outlineArea } from '../../server/src/geometry/measure.ts';
import { path, polygon } from '../../server/src/geometry/path.ts';
import { rectangle } from '../../server/src/geometry/rectangle.ts';
import type { Outline } from '../../server/src/geometry/shape.ts';
import { unfold } from '../../server/src/geometry/unfold.ts';
import { box, isClosed, p, present } from './shapes.ts';

const names = (outline: Outline) => outline.edges.map(({ name }) => name);
const edge = (outline: Outline, name: string) => present(outline.edges.find((e) => e.name === name));

describe('rectangle', () => {
  it('has its sides in order, measured from the left and from below', () => {
    const outline = box(200, 120);
    expect(names(outline)).toEqual(['bottom', 'right', 'top', 'left']);
    expect(outline.edges.map(({ measuredFrom }) => measuredFrom)).toEqual(['start', 'start', 'end', 'end']);
    expect(outlineArea(outline)).toBe(24_000);
    expect(isClosed(outline)).toBe(true);
  });

  it('rounds, chamfers and boxes out corners', () => {
    const outline = box(200, 120, {
      bottom_left: { kind: 'box', across: 20, up: 10 },
      bottom_right: { kind: 'box', across: 30, up: 15 },
      top_right: { kind: 'round', radius: 25 },
      top_left: { kind: 'chamfer', alongX: 12, alongY: 8 },
    });
    expect(names(outline)).toEqual([
      'bottom', 'bottom_right_upright', 'bottom_right_level', 'right', 'top_right', 'top', 'top_left', 'left',
      'bottom_left_level', 'bottom_left_upright',
    ]);
    expect(isClosed(outline)).toBe(true);
    // Square corners of side r lose r²(1 − π/4) to a quarter circle.
    const lost = 20 * 10 + 30 * 15 + 25 * 25 * (1 - Math.PI / 4) + (12 * 8) / 2;
    expect(outlineArea(outline)).toBeCloseTo(24_000 - lost, 9);
    expect(bounds(outline)).toEqual({ minX: 0, minY: 0, maxX: 200, maxY: 120 });
    expect(edgeLength(edge(outline, 'top_right'))).toBeCloseTo((25 * Math.PI) / 2, 12);
    // Uprights are measured from below, levels from the left.
    const measuredAt = (name: string) => {
      const e = edge(outline, name);
      return e.measuredFrom === 'start' ? e.start : edgeEnd(e);
    };
    expect(measuredAt('bottom_right_upright')).toEqual(p(170, 0));
    expect(measuredAt('bottom_right_level')).toEqual(p(170, 15));
    expect(measuredAt('bottom_left_level')).toEqual(p(0, 10));
    expect(measuredAt('bottom_left_upright')).toEqual(p(20, 0));
  });

  it('boxes out upper corners on the inner side too', () => {
    const outline = box(100, 80, { top_left: { kind: 'box', across: 10, up: 20 }, top_right: { kind: 'box', across: 30, up: 5 } });
    expect(outlineArea(outline)).toBe(8000 - 200 - 150);
    expect(isClosed(outline)).toBe(true);
  });

  it('leaves out a side its corners use up', () => {
    const pill = box(200, 60, {
      bottom_left: { kind: 'round', radius: 30 },
      bottom_right: { kind: 'round', radius: 30 },
      top_right: { kind: 'round', radius: 30 },
      top_left: { kind: 'round', radius: 30 },
    });
    expect(names(pill)).toEqual(['bottom', 'bottom_right', 'top_right', 'top', 'top_left', 'bottom_left']);
    expect(isClosed(pill)).toBe(true);
  });

  it('says what does not fit', () => {
    expect(rectangle(0, 10)).toEqual({ kind: 'not_positive', what: 'width' });
    expect(rectangle(10, Number.NaN)).toEqual({ kind: 'not_positive', what: 'height' });
    expect(rectangle(10, 10, { top_left: { kind: 'round', radius: -1 } })).toEqual({ kind: 'not_positive', what: 'top_left' });
    const tooRound = { kind: 'round', radius: 35 } as const;
    expect(rectangle(100, 60, { top_right: tooRound, bottom_right: tooRound })).toEqual({ kind: 'overflow', side: 'right', by: 10 });
    const notch = { kind: 'box', across: 60, up: 60 } as const;
    expect(rectangle(100, 100, { bottom_left: notch, top_right: notch })).toMatchObject({ kind: 'crossing' });
  });
});

describe('ellipse', () => {
  it('is whole when no angles are given', () => {
    const circle = present(ellipse(80, 80));
    expect(names(circle)).toEqual(['edge']);
    expect(circle.edges[0]?.segments.map(({ kind }) => kind)).toEqual(['arc', 'arc', 'arc', 'arc']);
    expect(outlineArea(circle)).toBeCloseTo(Math.PI * 1600, 9);
    expect(outlineArea(present(ellipse(80, 50)))).toBeCloseTo(Math.PI * 40 * 25, 9);
    expect(isClosed(circle)).toBe(true);
  });

  it('is cut straight or through the centre, its least rectangle at 0,0', () => {
    const half = present(ellipse(100, 60, 0, 180));
    expect(names(half)).toEqual(['arc', 'chord']);
    const reach = bounds(half);
    expect([reach.minX, reach.minY, reach.maxX, reach.maxY].map((v) => Math.round(v * 1e9) / 1e9)).toEqual([0, 0, 100, 30]);
    const wedge = present(ellipse(100, 100, 30, 120, 'centre'));
    expect(names(wedge)).toEqual(['arc', 'end', 'start']);
    expect(outlineArea(wedge)).toBeCloseTo((Math.PI * 2500) / 4, 9);
    expect(bounds(wedge).minX).toBeCloseTo(0, 12);
    expect(bounds(wedge).minY).toBeCloseTo(0, 12);
  });

  it('takes angles as directions from the centre, also across 0°', () => {
    const part = present(ellipse(200, 100, -45, 45, 'centre'));
    const centre = edgeEnd(edge(part, 'end'));
    const first = edge(part, 'arc').start;
    expect(Math.atan2(first.y - centre.y, first.x - centre.x)).toBeCloseTo(-Math.PI / 4, 12);
    expect(outlineArea(present(ellipse(200, 100, 315, 45, 'centre')))).toBeCloseTo(outlineArea(part), 9);
  });

  it('is nothing without size or angle', () => {
    expect(ellipse(0, 10)).toBeUndefined();
    expect(ellipse(10, 10, 40, 40)).toBeUndefined();
  });
});

describe('arcs', () => {
  it('runs through three points', () => {
    const arc = present(arcThrough(p(10, 0), p(0, 10), p(-10, 0)));
    expect(arc).toMatchObject({ kind: 'arc', turn: 'left' });
    expect(arc.kind === 'arc' && arc.centre.x).toBeCloseTo(0, 12);
    expect(arcThrough(p(-10, 0), p(0, 10), p(10, 0))).toMatchObject({ turn: 'right' });
    expect(arcThrough(p(0, 0), p(5, 5), p(9, 9))).toBeUndefined();
  });

  it('takes the short way round for a radius', () => {
    const start = p(0, 0);
    for (const turn of ['left', 'right'] as const) {
      const arc = present(arcByRadius(start, p(60, 0), 50, turn));
      const length = edgeLength({ name: 'e', start, segments: [arc], measuredFrom: 'start' });
      expect(length).toBeCloseTo(100 * Math.asin(0.6), 9);
      // Turning left, the centre is to the left.
      expect(arc.kind === 'arc' && arc.centre.y).toBeCloseTo(turn === 'left' ? 40 : -40, 12);
    }
    expect(arcByRadius(start, p(60, 0), 29, 'left')).toBeUndefined();
    expect(arcByRadius(start, start, 29, 'left')).toBeUndefined();
  });
});

describe('polygon and path', () => {
  it('turns a clockwise polygon round, sides keeping their names and places to measure from', () => {
    const outline = present(polygon([p(0, 0), p(0, 50), p(80, 50), p(80, 0)], ['left', 'top', undefined, 'bottom']));
    expect(outlineArea(outline)).toBe(4000);
    expect(names(outline)).toEqual(['bottom', 'side3', 'top', 'left']);
    expect(edge(outline, 'left')).toMatchObject({ start: p(0, 50), measuredFrom: 'end' });
    expect(polygon([p(0, 0), p(10, 10), p(20, 20)])).toBeUndefined();
    expect(polygon([])).toBeUndefined();
  });

  it('joins steps of one name, also across the start, and closes the path', () => {
    const line = (x: number, y: number, name?: string) =>
      name === undefined ? { segment: { kind: 'line', to: p(x, y) } as const } : { segment: { kind: 'line', to: p(x, y) } as const, name };
    const outline = present(path(p(0, 0), [line(50, 0, 'rim'), line(100, 0), line(100, 40, 'end'), line(100, 60, 'end'), line(0, 60)]));
    expect(names(outline)).toEqual(['rim', 'side2', 'end', 'side5', 'side6']);
    expect(edge(outline, 'end').segments).toHaveLength(2);
    const round = present(path(p(50, 0), [line(100, 0, 'base'), line(100, 40), line(0, 40), line(0, 0), line(50, 0, 'base')]));
    expect(names(round)).toEqual(['base', 'side2', 'side3', 'side4']);
    expect(edge(round, 'base').start).toEqual(p(0, 0));
    expect(isClosed(round)).toBe(true);
  });

  it('drops steps of no length', () => {
    const steps = [p(0, 0), p(40, 0), p(40, 0), p(40, 30), p(0, 0)].map((to) => ({ segment: { kind: 'line', to } as const }));
    expect(names(present(path(p(0, 0), steps)))).toEqual(['side2', 'side4', 'side5']);
  });
});

describe('unfold', () => {
  it('adds the mirror image across the fold', () => {
    const half = box(60, 100, { top_right: { kind: 'round', radius: 20 } });
    const made = unfold(half, 'left');
    if (made.kind !== 'ok') throw new Error(made.kind);
    expect(names(made.outline)).toEqual([
      'bottom', 'right', 'top_right', 'top', 'top_twin', 'top_right_twin', 'right_twin', 'bottom_twin',
    ]);
    expect(isClosed(made.outline)).toBe(true);
    expect(outlineArea(made.outline)).toBeCloseTo(2 * outlineArea(half), 9);
    expect(bounds(made.outline)).toEqual({ minX: -60, minY: 0, maxX: 60, maxY: 100 });
    // Both halves of the bottom are measured from the fold.
    expect(edge(made.outline, 'bottom')).toMatchObject({ start: p(0, 0), measuredFrom: 'start' });
    const twin = edge(made.outline, 'bottom_twin');
    expect([edgeEnd(twin), twin.measuredFrom]).toEqual([p(0, 0), 'end']);
  });

  it('works across a slanting fold', () => {
    const half = present(polygon([p(0, 0), p(30, 40), p(-20, 60)], ['fold', 'a', 'b']));
    const made = unfold(half, 'fold');
    expect(made.kind === 'ok' && outlineArea(made.outline)).toBeCloseTo(2 * outlineArea(half), 9);
  });

  it('refuses folds that are no line, or that the half reaches over', () => {
    expect(unfold(box(10, 10), 'middle')).toEqual({ kind: 'no_such_edge' });
    expect(unfold(present(ellipse(100, 60, 0, 180)), 'arc')).toEqual({ kind: 'fold_not_straight' });
    const over = present(polygon([p(0, 0), p(100, 0), p(100, 50), p(-7, 50), p(0, 25)], ['bottom', 'right', 'top', 'slant', 'fold']));
    expect(unfold(over, 'fold')).toEqual({ kind: 'crosses_fold', by: 7 });
  });
});
