import { describe, expect, test } from 'vitest';
import { distancePointToPolyline } from '../../server/src/geometry/distance.ts';
import { flattenEdge } from '../../server/src/geometry/flatten.ts';
import { pointAlong } from '../../server/src/geometry/measure.ts';
import { truedOverPleat, type PleatLine } from '../../server/src/geometry/pleat.ts';
import type { Edge, Point } from '../../server/src/geometry/shape.ts';
import { pattern } from '../support/spec.ts';

/** Stitching lines that run from left to right, the piece above them: straight, and of two bows; and the cutting line 10 mm outside, here simply lower. */
const line = (y: number): Edge => ({ name: 'e', measuredFrom: 'start', start: { x: 0, y }, segments: [{ kind: 'line', to: { x: 300, y: y + 60 } }] });
const bowed = (y: number): Edge => ({ name: 'e', measuredFrom: 'start', start: { x: 0, y }, segments: [{ kind: 'cubic', control1: { x: 100, y: y - 120 }, control2: { x: 200, y: y + 120 }, to: { x: 300, y } }] });
const round: Edge = { name: 'e', measuredFrom: 'start', start: { x: -200, y: 0 }, segments: [{ kind: 'arc', centre: { x: 0, y: 0 }, turn: 'left', to: { x: 200, y: 0 } }] };

const at = (edge: Edge, along: number): PleatLine => {
  const { point, tangent } = pointAlong(edge, along)!;
  return { at: point, inwards: { x: -tangent.y, y: tangent.x } };
};
/** A pleat 20 mm deep with its middle at 150 mm, its fold laid ahead or back. */
const trued = (stitching: Edge, cutting: Edge, isAhead: boolean) => {
  const [first, last] = [at(stitching, 130), at(stitching, 170)];
  const [fold, laid] = isAhead ? [first, last] : [last, first];
  return { fold, laid, edge: truedOverPleat(cutting, fold, laid, isAhead) };
};

/** Points as complex numbers turned about where the line is: how cloth lies, by angles, not by the formula that was used. */
const polar = ({ x, y }: Point, { at: { x: cx, y: cy }, inwards }: PleatLine): { readonly far: number; readonly turn: number } =>
  ({ far: Math.hypot(x - cx, y - cy), turn: Math.atan2(y - cy, x - cx) - Math.atan2(inwards.y, inwards.x) });
const from = (far: number, turn: number, { at: { x, y }, inwards }: PleatLine): Point => {
  const angle = Math.atan2(inwards.y, inwards.x) + turn;
  return { x: x + far * Math.cos(angle), y: y + far * Math.sin(angle) };
};

describe('the cutting edge over a pleat', () => {
  test('stays as it is where it is straight, or round', () => {
    expect(trued(line(0), line(-10), true).edge).toBeUndefined();
    const inner: Edge = { ...round, start: { x: -190, y: 0 }, segments: [{ kind: 'arc', centre: { x: 0, y: 0 }, turn: 'left', to: { x: 190, y: 0 } }] };
    expect(trued(inner, round, false).edge).toBeUndefined();
  });

  test.each([true, false])('laid, all its layers are cut as the one on top (ahead: %s)', (isAhead) => {
    const plain = flattenEdge(bowed(-10));
    const { edge, fold, laid } = trued(bowed(0), bowed(-10), isAhead);
    const changed = flattenEdge(edge!).filter((point) => distancePointToPolyline(point, plain) > 0.05);
    expect(changed.length).toBeGreaterThan(2);
    for (const point of changed) {
      // Folded over the fold, or moved back to it, each point lies on the edge of the cloth on top.
      const mirror = polar(point, fold);
      const under = from(mirror.far, -mirror.turn, fold);
      const moved = polar(point, laid);
      const below = from(moved.far, moved.turn, fold);
      expect(Math.min(...[under, below].map((one) => distancePointToPolyline(one, plain)))).toBeLessThan(0.02);
    }
    // Beyond the pleat nothing is otherwise.
    const ends = flattenEdge(edge!);
    expect([ends[0], ends.at(-1)]).toEqual([plain[0], plain.at(-1)]);
  });

  test('stays as it is where the cloth on top ends before the pleat does', () => {
    const short: Edge = { ...bowed(-10) };
    const [fold, laid] = [at(bowed(0), 2), at(bowed(0), 42)];
    expect(truedOverPleat(short, fold, laid, true)).toBeUndefined();
  });
});

test('a piece with a pleat on a curved edge is cut trued, one on a straight edge as before', () => {
  const cut = (outline: string, drawnTo: string): string => {
    const shape = (pleat: string) => JSON.stringify(pattern(`piece p "P" {\n  outline ${outline}\n  drawn to ${drawnTo}\n${pleat}  cut 1 cloth\n}`, 'unit in\nallowance 1/2').shape('p').cutting.edges.map(({ segments }) => segments));
    return shape('  pleat a on base at 50% deep 2 towards end\n') === shape('') ? 'as before' : 'trued';
  };
  const curve = 'path from 0, 0 {\n    curve to 16, 0 by 5, -4 and 11, 4 as base\n    line to 16, 12 as right\n    line to 0, 12 as top\n    close as left\n  }';
  const straight = 'path from 0, 0 {\n    line to 16, 2 as base\n    line to 16, 12 as right\n    line to 0, 12 as top\n    close as left\n  }';
  expect([cut(curve, 'stitching'), cut(curve, 'cutting'), cut(straight, 'stitching')]).toEqual(['trued', 'as before', 'as before']);
});
