import { describe, expect, it } from 'vitest';
import { selfCrossing } from '../../server/src/geometry/crossing.ts';
import { flattenOutline } from '../../server/src/geometry/flatten.ts';
import { outlineArea } from '../../server/src/geometry/measure.ts';
import { pattern, sizeOf } from '../support/spec.ts';

const piece = (lines: string, facts = 'unit in\nallowance 1/4', outline = 'rectangle 8 by 6'): ReturnType<typeof pattern> =>
  pattern(`piece a {\n  outline ${outline}\n${lines}\n  cut 1 cloth\n}`, facts);

describe('allowances', () => {
  it('are the pattern’s, the piece’s or the edge’s own, the nearest winning', () => {
    expect(sizeOf(piece('').shape('a').stitching)).toEqual([7.5, 5.5]);
    expect(sizeOf(piece('  allowance 1/2').shape('a').stitching)).toEqual([7, 5]);
    expect(sizeOf(piece('  allowance top 1').shape('a').stitching)).toEqual([7.5, 4.75]);
    expect(sizeOf(piece('  allowance left 1\n  allowance 1/2').shape('a').stitching)).toEqual([6.5, 5]);
    expect(sizeOf(piece('  allowance none').shape('a').stitching)).toEqual([8, 6]);
    expect(sizeOf(piece('  allowance bottom none').shape('a').stitching)).toEqual([7.5, 5.75]);
  });

  it('go outwards where the piece is drawn to its stitching line', () => {
    const found = piece('  drawn to stitching\n  allowance top 1');
    expect(sizeOf(found.shape('a').stitching)).toEqual([8, 6]);
    expect(sizeOf(found.shape('a').cutting)).toEqual([8.5, 7.25]);
    expect(found.rows()[0]?.size).toBe('8 1/2 in × 7 1/4 in');
  });

  it('say nothing where nothing is said, with a warning', () => {
    const found = piece('', 'unit in');
    expect(sizeOf(found.shape('a').stitching)).toEqual([8, 6]);
    expect(found.only('missing-allowance').severity).toBe('warning');
    expect(piece('  allowance none', 'unit in').codes).toEqual([]);
  });

  it('leave a fold alone', () => {
    const found = piece('  on fold left');
    expect(sizeOf(found.shape('a').whole.stitching)).toEqual([15.5, 5.5]);
    expect(found.rows()[0]?.size).toBe('16 in × 6 in');
    const stitched = piece('  on fold left\n  drawn to stitching');
    expect(sizeOf(stitched.shape('a').whole.cutting)).toEqual([16.5, 6.5]);
    expect(piece('  on fold left\n  allowance left 1').only('fold-allowance').marked).toBe('allowance left 1');
  });

  it('must be no less than nothing, of an edge that is there, and leave something', () => {
    expect(piece('  allowance -1').only('too-small').marked).toBe('-1');
    expect(piece('  allowance tp 1').only('unknown-part').message).toContain('Did you mean “top”?');
    expect(piece('  allowance 3').only('allowance-vanishes').marked).toBe('a');
  });
});

describe('corners of the cutting line', () => {
  const area = (join: string): number => outlineArea(piece(`  drawn to stitching\n  allowance 1 ${join}`).shape('a').cutting) / 25.4 ** 2;
  const inner = 8 * 6 + 2 * (8 + 6) * 1; // The piece, and a strip along each side; what is left is the four corners.

  it('are mitred, bevelled or rounded', () => {
    expect(area('mitred')).toBeCloseTo(inner + 4, 6);
    expect(area('')).toBeCloseTo(inner + 4, 6);
    expect(area('bevelled')).toBeCloseTo(inner + 4 * 0.5, 6);
    // A flattened quarter circle is within FLATNESS of the true one, so its area is a little less than pi.
    expect(area('rounded')).toBeCloseTo(inner + Math.PI, 2);
  });

  // A point with half-angle atan(1/8): the mitre reaches allowance / sin(half-angle) = √65 allowances beyond it.
  const tip = (join: string): number => {
    const found = piece(`  drawn to stitching\n  allowance 1/4 ${join}`, 'unit in\nallowance none', 'polygon from -1, 0 to 1, 0 to 0, 8');
    return Math.max(...found.shape('a').cutting.edges.flatMap((edge) => [edge.start.y, ...edge.segments.map((one) => one.to.y)])) / 25.4 - 8;
  };
  it('are cut off where a mitre would be longer than its limit', () => {
    const along = Math.sin(Math.atan(1 / 8)) / 4;
    expect(tip('mitred limit 9')).toBeCloseTo(Math.sqrt(65) / 4, 6);
    expect(tip('mitred limit 8')).toBeCloseTo(along, 6);
    expect(tip('')).toBeCloseTo(along, 6);
    expect(tip('bevelled')).toBeCloseTo(along, 6);
    expect(tip('rounded')).toBeCloseTo(0.25, 3);
  });

  it('are made as the wider of two edges says', () => {
    const found = piece('  drawn to stitching\n  allowance 1/2 rounded\n  allowance top 1 bevelled');
    // Two bevels at the top, each the triangle between 1 and 1/2; two quarters of radius 1/2 below.
    const strips = 8 * 6 + 8 * 1 + 8 * 0.5 + 2 * 6 * 0.5;
    expect(outlineArea(found.shape('a').cutting) / 25.4 ** 2).toBeCloseTo(strips + 2 * (1 * 0.5) / 2 + (Math.PI * 0.25) / 2, 2);
  });
});

describe('a hem between slanting sides', () => {
  /** The corners of the cutting line of a pocket 10 in wide below and 6 above, or the other way round, 8 in high, with a hem of 2 in at its top. */
  const corners = (outline: string, side: string, join = 'turned back'): readonly (readonly [number, number])[] => {
    const { cutting } = pattern(`piece a {\n  outline polygon from ${outline}\n  drawn to stitching\n  allowance ${side}\n  allowance side3 2 ${join}\n  cut 1 cloth\n}`, 'unit in\nallowance none').shape('a');
    return cutting.edges.flatMap((edge) => [edge.start, ...edge.segments.map((one) => one.to)]).map(({ x, y }) => [Math.round(x / 0.0254) / 1000, Math.round(y / 0.0254) / 1000] as const);
  };
  const narrowing = '-5, 0 to 5, 0 to 3, 8 to -3, 8';
  const widening = '-3, 0 to 3, 0 to 5, 8 to -5, 8';
  // The right side is x = 5 - y / 4: at 2 in below the top x = 3.5, which is where the hem's cut edge must lie when it is turned.
  it('lies on them when it is turned back', () => {
    expect(corners(narrowing, 'none')).toEqual(expect.arrayContaining([[3, 8], [3.5, 10], [-3.5, 10], [-3, 8]]));
    expect(corners(narrowing, 'none', 'mitred')).toEqual(expect.arrayContaining([[2.5, 10], [-2.5, 10]]));
    expect(corners(widening, 'none')).toEqual(expect.arrayContaining([[5, 8], [4.5, 10], [-4.5, 10], [-5, 8]]));
  });

  // With 1/2 in at the sides their cutting lines lie 1/2 · √17 / 4 = 0.515 in further out, measured level.
  it('and on their allowances', () => {
    expect(corners(narrowing, '1/2')).toEqual(expect.arrayContaining([[3.515, 8], [4.015, 10], [-4.015, 10], [-3.515, 8]]));
    expect(corners(widening, '1/2')).toEqual(expect.arrayContaining([[5.515, 8], [5.015, 10], [-5.015, 10], [-5.515, 8]]));
  });

  it('is as ever at right angles, at a bend of its own edge, and where the piece is drawn to cutting', () => {
    expect(corners('-5, 0 to 5, 0 to 5, 8 to -5, 8', '1/2')).toEqual(expect.arrayContaining([[5.5, 10], [-5.5, 10]]));
    const path = (join: string): number => outlineArea(piece(`  drawn to stitching\n  allowance none\n  allowance brim 1 ${join}`, 'unit in\nallowance none', 'path from 0, 0 {\n    line to 8, 0\n    line to 8, 6\n    line to 4, 9 as brim\n    line to 0, 6 as brim\n    close\n  }').shape('a').cutting);
    expect(path('turned back')).toBeGreaterThan(0);
    const drawnToCutting = (join: string): unknown => pattern(`piece a {\n  outline polygon from ${narrowing}\n  allowance 1/2\n  allowance side3 2 ${join}\n  cut 1 cloth\n}`, 'unit in\nallowance none').shape('a').stitching;
    expect(drawnToCutting('turned back')).toEqual(drawnToCutting('mitred'));
  });

  it('goes straight on from the end of a curved side', () => {
    // The side is a quarter circle of 6 in about (0, 0) from its lower right, cut off at 60°: its end leans by 60° from upright.
    const { cutting } = pattern('piece a {\n  outline path from 0, 0 {\n    line to 6, 0\n    arc to 5.196152, 3 through 5.795555, 1.552914 as side\n    line to 0, 3 as top\n    close\n  }\n  drawn to stitching\n  allowance top 1 turned back\n  cut 1 cloth\n}', 'unit in\nallowance none').shape('a');
    const right = cutting.edges.flatMap((edge) => [edge.start, ...edge.segments.map((one) => one.to)]).find((point) => Math.abs(point.y - 4 * 25.4) < 1e-6 && point.x > 10);
    expect((right?.x ?? 0) / 25.4).toBeCloseTo(6 * Math.cos(Math.PI / 6) + Math.tan(Math.PI / 6), 4);
  });
});

describe('cut sizes joined', () => {
  // A common rule of quilting pages: squares cut 2 in and 3 in, joined with 1/4 in seams, make 4 1/2 in.
  it('lose two allowances at each seam', () => {
    const found = pattern(`piece a {
  outline rectangle 2 by 2
  cut 1 cloth
}
piece b {
  outline rectangle 3 by 2
  cut 1 cloth
}
length joined = a.cut_width + b.cut_width - 2 * 1/4
length finished = a.width + b.width
check joined = 4 1/2
check finished = 4`, 'unit in\nallowance 1/4');
    expect(found.codes).toEqual([]);
  });

  it('for a finished size, add two allowances', () => {
    const found = pattern('piece a {\n  drawn to stitching\n  outline rectangle 5 1/8 by 3 3/8\n  cut 1 cloth\n}', 'unit in\nallowance 3/8');
    expect(found.rows()[0]?.size).toBe('5 7/8 in × 4 1/8 in');
    expect(found.shape('a').rectangle?.cutting.exact).toBe(true);
  });
});

describe('a wide allowance beside a narrow one', () => {
  // A bib whose top turns down 1 1/4 in beside an edge of 3/8 in that slants at 45°. The slanting stitching line is
  // x + y = 30 - 3/8 · √2, the top one y = 24 3/4, so they meet at x = 4.720; nothing of the stitching line lies higher.
  it('meets it where their stitching lines cross', () => {
    const { stitching } = pattern(`piece bib {
  outline polygon from 0, 0 to 10, 0 to 10, 20 to 4, 26 to 0, 26
  allowance 3/8
  allowance side4 1 1/4
  cut 1 cloth
}`).shape('bib');
    const top = stitching.edges.find((edge) => edge.name === 'side4');
    expect((top?.start.y ?? 0) / 25.4).toBeCloseTo(24.75, 6);
    expect((top?.start.x ?? 0) / 25.4).toBeCloseTo(30 - 0.375 * Math.SQRT2 - 24.75, 6);
    expect(sizeOf(stitching)).toEqual([9.25, 24.375]);
  });
});

describe('rounded corners beside a narrower allowance', () => {
  // 7 by 5 in, 1 in all round but for the bottom, which has none: nothing of the cutting line lies below it.
  it('end at its line, so that marks are measured from the edge', () => {
    const found = pattern('piece a {\n  outline rectangle 7 by 5\n  drawn to stitching\n  allowance 1 rounded\n  allowance bottom none\n  mark eye at 1, 1\n  cut 1 cloth\n}', 'unit in\nallowance none');
    expect(sizeOf(found.shape('a').cutting)).toEqual([9, 6]);
    expect(found.rows()[0]?.size).toBe('9 in × 6 in');
    expect(found.table().marks).toContainEqual(expect.objectContaining({ mark: 'eye', fromLeft: expect.objectContaining({ text: '2 in' }), fromBelow: expect.objectContaining({ text: '1 in' }) }));
    // The piece, a strip of 1 in at each of three sides, square ends below and quarters of a circle above.
    expect(outlineArea(found.shape('a').cutting) / 25.4 ** 2).toBeCloseTo(7 * 5 + 7 + 5 + 5 + Math.PI / 2, 2);
  });

  it('end there in an arc about the corner', () => {
    // 1 in beside 1/2 in at a right angle: the circle of 1 in is 1/2 in out 60° from square to the side, so its arc turns
    // by 30°. A sector of 30°, and a triangle from the corner to the side's line and along that to the arc.
    const found = piece('  drawn to stitching\n  allowance 1/2 rounded\n  allowance top 1 rounded');
    const corner = Math.PI / 12 + (0.5 * Math.sqrt(1 - 0.5 ** 2)) / 2;
    const strips = 8 * 6 + 8 * 1 + 8 * 0.5 + 2 * 6 * 0.5 + (Math.PI * 0.25) / 2;
    expect(outlineArea(found.shape('a').cutting) / 25.4 ** 2).toBeCloseTo(strips + 2 * corner, 2);
  });
});

describe('a hem that runs into a curved side almost straight', () => {
  const skirt = pattern(`piece skirt {
  outline path from 0, 0 {
    line to 100, 0 as hem
    curve to 199.05, 43.47 by 139.39, -6.95 and 177.33, 6.67 as side
    line to 199, 150
    line to 0, 150
    close
  }
  drawn to stitching
  allowance hem 10
  grain up
  cut 1 cloth
}`, 'unit mm\nallowance 5');

  it('ends at its corner, without a sliver beyond', () => {
    const { cutting } = skirt.shape('skirt');
    const hem = cutting.edges.find((edge) => edge.name === 'hem');
    // The hem's allowance ends square at x = 100, 10 mm down, and the side's goes on from 5 mm below the curve.
    // Along a straight line that would be 5 / cos 10° = 5.08 mm.
    expect(hem?.segments.map(({ to }) => [Math.round(to.x * 10) / 10, Math.round(to.y * 10) / 10])).toEqual([[100, -10], [100, -5.1]]);
    expect(selfCrossing(flattenOutline(cutting).polygon)).toBeUndefined();
  });

  it('is told of', () => {
    expect(skirt.only('stepped-allowance').message).toBe('The cutting line jumps where “hem” runs into “side”, since their allowances are 10 mm and 5 mm and there is no corner to meet at. Give both the same.');
  });
});

describe('a piece that falls into parts', () => {
  const strap = (lines: string): ReturnType<typeof pattern> => piece(`${lines}\n  grain up`, 'unit in\nallowance 1/2',
    'polygon from 0, 0 to 4, 0 to 4, 1 1/2 to 10, 1 1/2 to 10, 0 to 14, 0 to 14, 4 to 10, 4 to 10, 2 1/4 to 4, 2 1/4 to 4, 4 to 0, 4');

  it('along its stitching line is an error that says what would be lost', () => {
    const { marked, severity, message } = strap('').only('allowance-parts');
    expect([marked, severity]).toEqual(['a', 'error']);
    expect(message).toMatch(/falls into 2 parts: one of 3 in × 3 in is used, and 3 in × 3 in at (1\/2|10 1\/2) in, 1\/2 in would be lost\./);
  });

  it('along an inset is told at that line', () => {
    const found = strap('  allowance 1/4\n  line core = inset 3/4\n  cut 1 board along core');
    expect(found.only('inset-parts').marked).toBe('inset 3/4');
    expect(found.codes).not.toContain('allowance-parts');
  });

  it('as a smaller copy is told where the copy is made', () => {
    const found = pattern(`piece a {\n  outline polygon from 0, 0 to 4, 0 to 4, 1 to 10, 1 to 10, 0 to 14, 0 to 14, 4 to 10, 4 to 10, 3 to 4, 3 to 4, 4 to 0, 4\n  cut 1 cloth\n}
piece b from a inset 3/4 {\n  cut 1 cloth\n}`, 'unit in\nallowance 1/2');
    expect(found.only('inset-parts').marked).toBe('3/4');
  });
});

describe('an allowance of metres', () => {
  // A curve moved by ten metres took seconds to draw; one metre is more than anybody sews.
  it('is told where it is given, as are insets and extras', () => {
    const curve = 'path from 0, 0 {\n    line to 5, 0\n    curve to 0, 0 by 4, 9 and 1, 9\n  }';
    expect(piece('  drawn to stitching\n  allowance 400', undefined, curve).only('wrong-kind')).toMatchObject({ marked: '400', message: 'This is an allowance of more than 1 m, but a smaller one is needed here.' });
    expect(piece('  line core = inset 40').only('wrong-kind').marked).toBe('40');
    expect(piece('  line core = inset 1 except top 40').only('wrong-kind').marked).toBe('40');
    expect(pattern('piece a {\n  outline rectangle 8 by 6\n  cut 1 cloth large by 40\n}', 'unit in\nallowance 1/4').only('wrong-kind').marked).toBe('40');
    expect(piece('  drawn to stitching\n  allowance 39').codes).not.toContain('wrong-kind');
  });
});
