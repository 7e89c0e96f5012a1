import { describe, expect, it } from 'vitest';
import { edgeLength } from '../../server/src/geometry/measure.ts';
import { analyse, pattern, sizeOf, stock, type Analysed } from '../support/spec.ts';

const front = `piece front {
  outline rectangle 8 by 6
  line core = inset 1
  foldline half = upright at 3
  mark eye at 2, 4
  notch top at 2
  grain up
  cut 1 cloth
}
`;
const withFront = (body: string, facts?: string): Analysed => pattern(front + body, facts);
const half = 'unit in\nallowance 1/2';

describe('a copy with changes', () => {
  it('has what its parent has, but for its cut lines', () => {
    const found = withFront('piece back from front {\n}', half);
    const [a, b] = [found.shape('front'), found.shape('back')];
    expect(b.drawn).toEqual(a.drawn);
    expect(b.stitching).toEqual(a.stitching);
    expect([b.lines, b.marks, b.notches, b.grain, b.rectangle]).toEqual([a.lines, a.marks, a.notches, a.grain, a.rectangle]);
    expect(found.cuts('back')).toEqual([]);
    expect(found.only('never-cut').marked).toBe('back');
  });

  it('changes what it says anew and keeps the rest', () => {
    const found = withFront('piece back from front {\n  allowance top 1\n  mark eye at 3, 3\n  line core = inset 2\n  cut 1 lining\n}', half);
    const back = found.shape('back');
    expect(sizeOf(back.cutting)).toEqual([8, 6]);
    expect(sizeOf(back.stitching)).toEqual([7, 4.5]); // 6 - 1 - 1/2
    expect(back.marks.map((mark) => [mark.name, Math.round(mark.point.x * 10), Math.round(mark.point.y * 10)])).toEqual([['eye', 762, 762]]);
    expect(back.lines.filter((line) => line.name === 'core').map((line) => line.rectangle?.width.div('25.4').valueOf())).toEqual([4]);
  });

  it('may have an outline of its own', () => {
    expect(sizeOf(withFront('piece back from front {\n  outline rectangle 9 by 7\n  cut 1 cloth\n}').shape('back').cutting)).toEqual([9, 7]);
  });

  it('follows its parent, and its parent’s parent', () => {
    const text = (width: number): string => `length w = ${width}
piece a {
  outline rectangle w by 4
  cut 1 cloth
}
piece b from a {
  cut 1 cloth
}
piece c from b inset 1 {
  cut 1 cloth
}`;
    expect(sizeOf(pattern(text(6)).shape('c').cutting)).toEqual([4, 2]);
    expect(sizeOf(pattern(text(9)).shape('c').cutting)).toEqual([7, 2]);
  });

  it('may be put on a fold that its parent has not', () => {
    const found = withFront('piece back from front {\n  on fold left\n  cut 1 cloth on fold\n}', half);
    const back = found.shape('back');
    expect(sizeOf(back.whole.cutting)).toEqual([16, 6]);
    expect(sizeOf(back.whole.stitching)).toEqual([15, 5]);
    expect(found.rows().find((row) => row.pieceName === 'back')?.size).toBe('16 in × 6 in');
  });

  it('may be put on another fold than its parent', () => {
    const found = pattern('piece a {\n  outline rectangle 4 by 6\n  on fold left\n  cut 1 cloth on fold\n}\npiece b from a {\n  on fold top\n  cut 1 cloth on fold\n}');
    expect(found.rows().map((row) => row.size)).toEqual(['8 in × 6 in', '4 in × 12 in']);
  });

  it('keeps its parent’s fold, whole and half', () => {
    const found = pattern('piece a {\n  outline rectangle 4 by 6\n  on fold left\n  cut 1 cloth on fold\n}\npiece b from a {\n  cut 1 cloth on fold\n}', half);
    expect(found.rows().map((row) => row.size)).toEqual(['8 in × 6 in', '8 in × 6 in']);
    expect(sizeOf(found.shape('b').whole.stitching)).toEqual([7, 5]);
  });

  it('keeps allowance, fold and notches of an edge that it gives another name', () => {
    const found = pattern(`piece a {
  outline rectangle 4 by 6
  on fold left
  allowance top 1
  cut 1 cloth on fold
}
piece b from a {
  edge top as mouth
  edge left as centre
  cut 1 cloth on fold
}`, half);
    expect(found.faults).toEqual([]);
    const b = found.shape('b');
    expect(b.fold).toBe('centre');
    expect(b.allowances.get('mouth')?.size.div('25.4').toFraction()).toBe('1');
    expect(sizeOf(b.whole.stitching)).toEqual([7, 4.5]);
  });

  it('moves an inherited notch to its own cutting line', () => {
    const found = pattern(`drawn to stitching
piece a {
  outline rectangle 4 by 6
  allowance 1/2
  notch top at 1
  cut 1 cloth
}
piece b from a {
  allowance 1
  cut 1 cloth
}`);
    expect(found.shape('a').notches[0]?.point.y).toBeCloseTo(6.5 * 25.4, 9);
    expect(found.shape('b').notches[0]?.point.y).toBeCloseTo(7 * 25.4, 9);
  });
});

describe('a side of a line', () => {
  it('is parted on the stitching line and gets allowance along the cut', () => {
    const found = withFront('piece l from front left of half {\n  cut 1 cloth\n}\npiece r from front right of half {\n  cut 1 cloth\n}', half);
    expect(found.faults).toEqual([]);
    // The stitching line runs from 1/2 to 7 1/2: 2 1/2 to the left of 3, and 4 1/2 to the right.
    expect(sizeOf(found.shape('l').stitching)).toEqual([2.5, 5]);
    expect(sizeOf(found.shape('r').stitching)).toEqual([4.5, 5]);
    expect(found.rows().map((row) => row.size)).toEqual(['8 in × 6 in', '3 1/2 in × 6 in', '5 1/2 in × 6 in']);
  });

  it('may have its own allowance along the cut', () => {
    const found = withFront('piece l from front left of half {\n  allowance half 1/4\n  cut 1 cloth\n}', half);
    expect(sizeOf(found.shape('l').cutting)).toEqual([3.25, 6]);
  });

  it('above and below add up', () => {
    const found = pattern(`piece a {
  outline polygon from 0, 0 to 6, 1 to 5, 7 to 1, 6
  placement cut_here = from 1, 3 to 5, 4
  cut 1 cloth
}
piece up from a above cut_here {
  cut 1 cloth
}
piece low from a below cut_here {
  cut 1 cloth
}
area whole = a.area
area parts = up.area + low.area
check whole - parts < 1/1000 * 1 in * 1 in
check parts - whole < 1/1000 * 1 in * 1 in
check up.cut_here matches low.cut_here`);
    expect(found.faults).toEqual([]);
  });

  it('opens out a piece on a fold', () => {
    const found = pattern(`piece a {
  outline rectangle 4 by 6
  on fold left
  foldline waist = level at 4
  cut 1 cloth on fold
}
piece bib from a above waist {
  cut 1 cloth
}`);
    expect(sizeOf(found.shape('bib').cutting)).toEqual([8, 2]);
    expect(found.shape('bib').fold).toBeUndefined();
  });

  // Drawn 4 by 6 with the fold along x = 0, so the other half of a point x, y is -x, y.
  it('opens out marks and lines with the piece', () => {
    const found = pattern(`piece a {
  outline rectangle 4 by 6
  on fold left
  allowance none
  foldline waist = level at 2
  line dart = from 0, 3 to 1, 4 to 1, 5
  line stroke = from 2, 3 to 3, 5
  placement patch = rectangle 1 by 1 at 0, 3
  placement badge = rectangle 1 by 1/2 at 2, 5
  mark eye at 3, 4
  mark middle at 0, 5
  cut 1 cloth on fold
}
piece bib from a above waist {
  cut 1 cloth
}
piece plain from a above waist {
  without eye, badge
  mark middle at 1, 5
  cut 1 cloth
}`);
    expect(found.faults).toEqual([]);
    const inches = (points: readonly { readonly x: number; readonly y: number }[]): readonly string[] => points.map(({ x, y }) => `${Math.round(x / 2.54) / 10} ${Math.round(y / 2.54) / 10}`.replace(/^-0 /, '0 '));
    const bib = found.shape('bib');
    const line = (name: string): readonly string[] => inches(bib.lines.find((one) => one.name === name)?.points ?? []);
    expect(bib.marks.map((mark) => [mark.name, mark.title, ...inches([mark.point])])).toEqual([['eye', 'eye', '3 4'], ['eye_twin', 'eye, other half', '-3 4'], ['middle', 'middle', '0 5']]);
    expect(line('dart')).toEqual(['-1 5', '-1 4', '0 3', '1 4', '1 5']);
    expect(line('stroke')).toEqual(['2 3', '3 5']);
    expect(line('stroke_twin')).toEqual(['-2 3', '-3 5']);
    expect([...line('patch')].sort()).toEqual(['-1 3', '-1 4', '1 3', '1 4']);
    expect(bib.lines.find((one) => one.name === 'patch')?.rectangle?.width.div('25.4').toFraction()).toBe('2');
    expect([...line('badge_twin')].sort()).toEqual(['-2 5', '-2 5.5', '-3 5', '-3 5.5']);
    expect(found.shape('plain').lines.map(({ name }) => name)).toEqual(['dart', 'stroke', 'stroke_twin', 'patch']);
    expect(found.shape('plain').marks.map((mark) => [mark.name, ...inches([mark.point])])).toEqual([['middle', '1 5']]);
  });

  it('parts a piece on a fold along both halves of a bent line', () => {
    const found = pattern(`piece a {
  outline rectangle 4 by 6
  on fold left
  allowance none
  line yoke = from 0, 2 to 4, 4
  cut 1 cloth on fold
}
piece up from a above yoke {
  cut 1 cloth
}
piece low from a below yoke {
  cut 1 cloth
}
area low_area = low.area
check low_area = 24 * 1 in * 1 in`);
    // The half below: 4 wide, from 2 to 4 high, so 12 square inches, and the other half as much.
    expect(found.faults).toEqual([]);
    expect(sizeOf(found.shape('up').cutting)).toEqual([8, 4]);
  });

  it('parts what the parts before it have left', () => {
    const found = pattern(`piece a {
  outline rectangle 4 by 6
  on fold left
  allowance none
  line low = from 0, 1 to 3, 1
  line high = from 0, 4 to 3, 4
  cut 1 cloth on fold
}
piece band from a above low below high {
  cut 1 cloth
}
piece small from a inset 1/2 above low {
  cut 1 cloth
}`);
    expect(found.faults).toEqual([]);
    expect(sizeOf(found.shape('band').cutting)).toEqual([8, 3]);
    // 1/2 off each end of 8; from 1 to 1/2 below the top at 6.
    expect(sizeOf(found.shape('small').cutting)).toEqual([7, 4.5]);
  });

  it('parts along a second line that ends on the cutting line, past the stitching line that the first has parted', () => {
    const lines = ['line low = level at 2\n  line high = level at 4', 'line low = from 0, 2 to 8, 2\n  line high = from 0, 4 to 8, 4'];
    for (const drawn of lines) {
      const found = pattern(`piece a {\n  outline rectangle 8 by 6\n  ${drawn}\n  line dots = from 2, 3 to 6, 3\n  cut 1 cloth\n}\npiece band from a above low below high {\n  cut 1 cloth\n}`, 'unit in\nallowance 1/2');
      expect(found.faults).toEqual([]);
      // 8 − 2 · 1/2 wide between the seams, and from 2 to 4; what lies within is still there, what has become an edge isn't.
      expect(sizeOf(found.shape('band').stitching)).toEqual([7, 2]);
      expect(found.shape('band').lines.map(({ name }) => name)).toEqual(['dots']);
    }
  });

  it('says why a second line doesn’t part what the first has left', () => {
    const found = pattern('piece a {\n  outline rectangle 8 by 6\n  line low = level at 2\n  line high = level at 4\n  cut 1 cloth\n}\npiece none from a above high below low {\n  cut 1 cloth\n}', 'unit in\nallowance 1/2');
    expect(found.faults).toEqual(['split-misses: low']);
    expect(found.only('split-misses').message).toContain('it doesn’t run through');
  });

  it.each([
    ['closed', 'line l = inset 1', 'left of l', 'it is closed'],
    ['upright, asked above', 'line l = upright at 2', 'above l', 'it runs straight up'],
    ['level, asked left', 'line l = level at 2', 'left of l', 'it runs level'],
    ['beside the piece', 'line l = from 20, 0 to 20, 5', 'left of l', 'it doesn’t run through'],
  ])('cannot be had of a line that is %s', (_, line, part, why) => {
    const found = pattern(`piece a {\n  outline rectangle 4 by 6\n  ${line}\n  cut 1 cloth\n}\npiece b from a ${part} {\n  cut 1 cloth\n}`);
    expect(found.only('split-misses').message).toContain(why);
  });

  it('says which lines there are', () => {
    expect(withFront('piece b from front left of haf {\n  cut 1 cloth\n}').only('unknown-part').message).toContain('Did you mean “half”?');
    expect(withFront('piece b from frnt {\n  cut 1 cloth\n}').only('unknown-name').message).toContain('Did you mean “front”?');
  });
});

describe('mirrored', () => {
  const uneven = `piece a {
  outline polygon from 0, 0 to 6, 0 to 6, 3 to 1, 5
  line core = from 1, 1 to 5, 2
  mark eye at 1, 1
  notch side1 at 1
  grain 30 deg
  cut 1 cloth
}
`;
  it('flips outline, lines, marks, notches and grain', () => {
    const found = pattern(`${uneven}piece b from a mirrored {\n  cut 1 cloth\n}`);
    const b = found.shape('b');
    expect(b.marks[0]?.point.x).toBeCloseTo(5 * 25.4, 9);
    expect(b.lines[0]?.points.map((point) => Math.round(point.x / 2.54) / 10)).toEqual([5, 1]);
    expect(b.notches[0]?.point.x).toBeCloseTo(5 * 25.4, 9);
    expect(b.grain.angle).toBe(-30);
    for (const edge of found.shape('a').drawn.edges) {
      const twin = b.drawn.edges.find((one) => one.name === edge.name);
      expect(twin && edgeLength(twin)).toBeCloseTo(edgeLength(edge), 9);
    }
  });

  it('twice is the piece itself', () => {
    const found = pattern(`${uneven}piece b from a mirrored {\n  cut 1 cloth\n}\npiece c from b mirrored {\n  cut 1 cloth\n}\npiece d from a mirrored mirrored {\n  cut 1 cloth\n}`);
    const points = (name: string): readonly string[] => found.shape(name).drawn.edges.map((edge) => `${edge.name} ${edge.start.x.toFixed(6)} ${edge.start.y.toFixed(6)}`).sort();
    expect(points('c')).toEqual(points('a'));
    expect(points('d')).toEqual(points('a'));
    expect(found.shape('c').grain.angle).toBe(30);
  });
});

describe('inset', () => {
  it('lies within the stitching line and has the allowance again', () => {
    const found = withFront('piece lining_in from front inset 1/4 {\n  cut 1 lining\n}', half);
    expect(found.faults).toEqual([]);
    expect(sizeOf(found.shape('lining_in').stitching)).toEqual([6.5, 4.5]);
    expect(found.rows().at(-1)?.size).toBe('7 1/2 in × 5 1/2 in');
    expect(found.shape('lining_in').rectangle?.cutting.exact).toBe(true);
  });

  it('stays on the fold', () => {
    const found = pattern('piece a {\n  outline rectangle 4 by 6\n  on fold left\n  cut 1 cloth on fold\n}\npiece b from a inset 1/2 {\n  cut 1 lining on fold\n}');
    // 2 · 4 - 2 · 1/2 wide, 6 - 2 · 1/2 high.
    expect(sizeOf(found.shape('b').whole.cutting)).toEqual([7, 5]);
    expect(found.rows().at(-1)?.size).toBe('7 in × 5 in');
  });

  it('leaves nothing where it is too much', () => {
    expect(withFront('piece b from front inset 3 {\n  cut 1 cloth\n}').only('inset-vanishes').marked).toBe('3');
    expect(withFront('piece b from front inset 0 {\n  cut 1 cloth\n}').only('too-small').marked).toBe('0');
  });
});

describe('what cannot be a parent', () => {
  it('is a material, or a piece of another file', () => {
    expect(withFront('piece b from cloth {\n  cut 1 cloth\n}').only('wrong-thing').message).toBe('“cloth” is a material, but a piece is needed here.');
    const files = { 'stock.piece': stock, 'other.piece': 'piece a {\n  outline rectangle 1 by 1\n}' };
    const found = analyse('pattern "T"\nrevision 1\nallowance none\nuse "stock.piece"\nuse "other.piece"\npiece b from a {\n  cut 1 cloth\n}', files);
    expect(found.codes).toContain('unknown-name');
    expect(found.only('pieces-not-shared').severity).toBe('note');
  });
});
