import { describe, expect, it } from 'vitest';
import type { Face, Span } from '../../../server/src/geometry/gluing-cells.ts';
import { settled } from '../../../server/src/model/seams/joints.ts';
import { pattern } from '../../support/spec.ts';

const facts = 'unit in\ndrawn to stitching\nallowance 1/4\n';
const rims = (body: string): readonly string[] => pattern(facts + body).pattern.resolve(new Map()).rims.map(({ stretches, length, isClosed, isOuter, count }) =>
  `${count} × ${stretches.map(({ piece, edge }) => `${piece.name}.${edge}`).join(', ')}: ${Math.round(length / 0.254) / 100} ${isClosed ? (isOuter ? 'outer edge' : 'opening') : 'free edge'}`);
const piece = (name: string, size: string, cut = 'cut 1 cloth', more = ''): string => `piece ${name} {\n  outline rectangle ${size}\n${more}  ${cut}\n}\n`;

describe('openings are walked from seam to seam', () => {
  it.each([
    ['a pouch is open at its top', `${piece('front', '9 by 7')}${piece('back', '9 by 7')}seam round = front.left, front.bottom, front.right with back.left, back.bottom, back.right`, ['1 × front.top, back.top: 18 opening']],
    ['three seams instead of one say the same', `${piece('front', '9 by 7')}${piece('back', '9 by 7')}seam a = front.left with back.left\nseam b = front.bottom with back.bottom\nseam c = front.right with back.right`, ['1 × front.top, back.top: 18 opening']],
    ['so do they where left meets right', `${piece('front', '9 by 7')}${piece('back', '9 by 7')}seam a = front.left with back.right\nseam b = front.bottom with back.bottom\nseam c = front.right with back.left`, ['1 × front.top, back.top: 18 opening']],
    ['and where an edge that is measured from below meets one measured from the left', `${piece('front', '7 by 7')}${piece('back', '7 by 7')}seam a = front.left with back.top\nseam b = front.bottom with back.left\nseam c = front.right with back.bottom`, ['1 × front.top, back.right: 14 opening']],
    ['a pouch of two of one piece', `${piece('half', '9 by 7', 'cut 2 cloth')}seam round = half.left, half.bottom, half.right with half.right, half.bottom, half.left`, ['1 × half.top, half.top: 18 opening']],
    ['a pouch of one folded piece', `${piece('body', '9 by 14')}seam a = body.left from 0 to 7 with body.left from 14 to 7\nseam b = body.right from 0 to 7 with body.right from 14 to 7`, ['1 × body.bottom, body.top: 18 opening']],
    ['two joined sheets have one outer edge', `${piece('one', '9 by 7')}${piece('other', '5 by 7')}seam a = one.right with other.left`, ['1 × one.bottom, other.bottom, other.right, other.top, one.top, one.left: 42 outer edge']],
    ['a tube has two ends', `${piece('strap', '2 by 30')}seam a = strap.left with strap.right`, ['1 × strap.bottom: 2 opening', '1 × strap.top: 2 opening']],
    ['a strap that is folded flat has none', `${piece('strap', '2 by 30', 'cut 1 cloth', '  foldline middle = upright at 1\n  folded middle\n')}seam a = strap.left with strap.right`, []],
    ['a pouch of one piece that says its fold is open as any other', `${piece('body', '9 by 14', 'cut 1 cloth', '  foldline base = level at 7\n  folded base\n')}seam a = body.left from 0 to 7 with body.left from 14 to 7\nseam b = body.right from 0 to 7 with body.right from 14 to 7`, ['1 × body.bottom, body.top: 18 opening']],
    ['an outside and its lining are the same twice', `${piece('half', '9 by 7', 'cut 2 cloth\n  cut 2 lining')}seam round = half.left, half.bottom, half.right with half.right, half.bottom, half.left`, ['1 × half.top, half.top: 18 opening', '1 × half.top, half.top: 18 opening']],
    ['a lining that is sewn in all round closes its outside', `${piece('out', '9 by 7')}${piece('in', '9 by 7')}seam a = out.left, out.bottom, out.right, out.top with in.right, in.bottom, in.left, in.top`, []],
    ['so are sides of two that may be sewn each to its own other side', `${piece('half', '9 by 7', 'cut 2 cloth', '  corner bottom box 1\n')}seam a = half.left with half.right\nseam b = half.right with half.left\nseam c = half.bottom with half.bottom\nseam l = half.bottom_left_upright with half.bottom_left_level\nseam r = half.bottom_right_upright with half.bottom_right_level`, []],
    ['boxed corners are sewn up', `${piece('front', '9 by 7', 'cut 1 cloth', '  corner bottom box 1\n')}${piece('back', '9 by 7', 'cut 1 cloth', '  corner bottom box 1\n')}seam a = front.left with back.left\nseam b = front.right with back.right\nseam c = front.bottom with back.bottom\nseam l = front.bottom_left_upright with front.bottom_left_level\nseam r = front.bottom_right_upright with front.bottom_right_level\nseam bl = back.bottom_left_upright with back.bottom_left_level\nseam br = back.bottom_right_upright with back.bottom_right_level`, ['1 × front.top, back.top: 18 opening']],
    ['a skirt gathered to its band', `${piece('band', '18 by 1')}${piece('skirt', '30 by 20')}seam s = skirt.top with band.bottom gathered`, ['1 × band.right, band.top, band.left, skirt.left, skirt.bottom, skirt.right: 90 outer edge']],
    ['a pocket has a mouth', `${piece('front', '9 by 7', 'cut 1 cloth', '  placement at_ = rectangle 4 by 3\n')}${piece('pocket', '4 by 3')}seam p = pocket.left, pocket.bottom, pocket.right onto front.at_`, ['1 × pocket.top: 4 free edge']],
    ['four pieces sewn in pairs are two', `${piece('flap', '9 by 7', 'cut 4 cloth')}seam a = flap.left, flap.bottom, flap.right with flap.right, flap.bottom, flap.left`, ['2 × flap.top, flap.top: 18 opening']],
    ['what may be one ring or two is left out', `${piece('strip', '9 by 2', 'cut 2 cloth')}seam a = strip.left with strip.right`, []],
    ['of very many nothing is told', `${piece('scrap', '9 by 7', 'cut 1000000 cloth')}seam a = scrap.left with scrap.right`, []],
    ['where three layers lie in a seam nothing is said', `${piece('one', '9 by 7')}${piece('two', '9 by 7')}seam a = one.top with two.top\nseam b = one.top with two.bottom`, []],
  ])('%s', (_, body, wanted) => {
    expect(rims(body)).toEqual(wanted);
  });
  it('measures what is left of an edge that a dart takes from', () => {
    const body = `${piece('half', '9 by 7', 'cut 2 cloth', '  dart waist on top at 4 wide 1 deep 2\n')}seam round = half.left, half.bottom, half.right with half.right, half.bottom, half.left`;
    expect(rims(body)).toEqual(['1 × half.top, half.top: 16 opening']);
  });
});

it('an edge whose ends are left open is sewn from the corner that its piece is sewn at already', () => {
  const square: Face = { sides: [7, 7, 7, 7].map((length) => ({ length, angle: Math.PI / 2, turn: () => 0 })) };
  const side = (face: number, index: number, way: 1 | -1): Span => ({ face, side: index, from: 0, to: 7, way });
  // Sides: below, right, top, left. The left of one, from below, with the top of the other, from the left: those corners are one.
  const sewn = { first: [side(0, 3, -1)], second: [side(1, 2, -1)], isOpen: false };
  const ways = (way: 1 | -1): readonly (1 | -1)[] => settled([square, square], [sewn, { first: [side(0, 0, 1)], second: [side(1, 3, way)], isOpen: true }]).map(({ second: [first] }) => first?.way ?? 1);
  // Below, from the left, meets the left of the other from above, whichever way that was taken to run.
  expect([ways(1), ways(-1)]).toEqual([[-1, 1], [-1, 1]]);
});
