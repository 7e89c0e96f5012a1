import { describe, expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

const uneven = 'polygon from 0, 0 to 4, 0 to 1, 5';
const piece = (lines: string, outline = uneven): ReturnType<typeof pattern> => pattern(`piece a {\n  outline ${outline}\n  grain up\n  ${lines}\n}`);
const ways = (lines: string, outline = uneven): readonly string[] => piece(lines, outline).cuts('a').map((line) => line.wayUp);

/*
 * A piece is drawn as seen on the right side of its cloth. Where the glue of a layer must be when the layer is cut by
 * the piece's own outline, worked out by hand:
 *
 *   The viewer looks at the right side of the shell, cut as drawn. A layer on the wrong side lies behind it, the glue
 *   facing the cloth: towards the viewer. Seen from there its outline is the one drawn. So: as drawn, glue up.
 *   On the right side it lies before the cloth, the glue facing away from the viewer: as drawn, glue down.
 *   With the shell cut mirrored, what the viewer sees is the mirror image. Turned over, it is the outline as drawn, and
 *   the glue is on the other face: as drawn, glue down behind and glue up before the cloth.
 *
 *               wrong side   right side
 *   as drawn    glue up      glue down
 *   mirrored    glue down    glue up
 *   twins       one of each pair as in the first row, the other as in the second
 */
describe('which way up a layer with glue is cut', () => {
  it.each([
    ['cut 1 cloth\n  cut 1 fuse', 'glue up'],
    ['cut 1 cloth\n  cut 1 fuse on wrong side', 'glue up'],
    ['cut 1 cloth\n  cut 1 fuse on right side', 'glue down'],
    ['cut 1 cloth mirrored\n  cut 1 fuse mirrored', 'glue down'],
    ['cut 1 cloth mirrored\n  cut 1 fuse mirrored on right side', 'glue up'],
    ['cut 2 cloth twins\n  cut 2 fuse twins', 'half each way'],
    ['cut 1 cloth\n  cut 1 board along cutting', 'glue up'],
  ])('%s', (lines, way) => {
    expect(ways(lines)[1]).toBe(way);
    expect(piece(lines).codes).not.toContain('hands-differ');
  });
});

describe('which way up cloth is cut', () => {
  it.each([
    ['cut 1 cloth', 'right side up'],
    ['cut 1 cloth mirrored', 'wrong side up'],
    ['cut 2 cloth twins', 'half each way'],
    ['cut 1 foam', 'either'],
    ['cut 2 foam twins', 'either'],
  ])('%s', (lines, way) => {
    expect(ways(lines)[0]).toBe(way);
  });

  it('is all one for a piece that is the same when flipped', () => {
    for (const outline of ['rectangle 4 by 3', 'circle across 4', 'polygon from 0, 0 to 4, 0 to 2, 5']) {
      expect(ways('cut 1 cloth\n  cut 1 fuse\n  cut 1 cloth mirrored', outline)).toEqual(['either', 'either', 'either']);
    }
  });

  it('lets cloth that runs both ways be turned end to end', () => {
    // Even about its level middle, uneven about its upright one: flipped over, it must be turned end to end.
    const arrow = 'polygon from 0, 0 to 4, 0 to 6, 2 to 4, 4 to 0, 4';
    expect(ways('cut 1 cloth', arrow)).toEqual(['either']);
    expect(ways('cut 1 nap', arrow)).toEqual(['right side up']);
    expect(ways('this way up\n  cut 1 cloth', arrow)).toEqual(['right side up']);
    expect(ways('cut 1 cork', arrow)).toEqual(['either']);
  });

  it('goes by the grain, not by the drawing', () => {
    // An even triangle with a slanting grain can't be flipped along that grain.
    const even = 'polygon from 0, 0 to 4, 0 to 2, 5';
    const slanted = pattern(`piece a {\n  outline ${even}\n  grain 12 deg\n  cut 1 cloth\n  cut 1 cork\n}`);
    expect(slanted.cuts('a').map((line) => line.wayUp)).toEqual(['right side up', 'either']);
    expect(pattern(`piece a {\n  outline ${even}\n  grain none\n  cut 1 cloth\n}`).cuts('a')[0]?.wayUp).toBe('either');
    // A square is even along its diagonals too.
    expect(pattern('piece a {\n  outline rectangle 4 by 4\n  grain bias\n  cut 1 cloth\n}').cuts('a')[0]?.wayUp).toBe('either');
    expect(pattern('piece a {\n  outline rectangle 4 by 3\n  grain bias\n  cut 1 cloth\n}').cuts('a')[0]?.wayUp).toBe('right side up');
  });

  it('counts windows', () => {
    expect(ways('window gap = rectangle 1 by 1 at 1, 1\n  cut 1 cloth without gap', 'rectangle 8 by 6')).toEqual(['right side up']);
    expect(ways('window gap = rectangle 1 by 1 centred at 4, 1\n  cut 1 cloth without gap', 'rectangle 8 by 6')).toEqual(['either']);
    expect(ways('window gap = rectangle 1 by 1 at 1, 1\n  cut 1 cloth', 'rectangle 8 by 6')).toEqual(['either']);
  });
});

describe('twins and mates', () => {
  it('are needless where the piece is even', () => {
    const found = piece('cut 2 cloth twins', 'rectangle 4 by 3').only('symmetric-twins');
    expect([found.severity, found.marked]).toEqual(['note', 'twins']);
    expect(piece('cut 2 cloth twins').codes).toEqual([]);
  });

  it('must agree between a layer and its shell', () => {
    expect(piece('cut 2 cloth twins\n  cut 2 fuse').only('hands-differ').message)
      .toBe('The shells of “cloth” are cut as twins, but this layer of “fuse” is cut all alike, as drawn: they won’t match.');
    expect(piece('cut 1 cloth mirrored\n  cut 1 fuse').codes).toContain('hands-differ');
    expect(piece('cut 1 cloth\n  cut 1 fuse mirrored').codes).toContain('hands-differ');
    expect(piece('cut 2 cloth twins\n  cut 2 foam').codes).not.toContain('hands-differ');
    expect(piece('cut 2 cloth twins\n  cut 2 fuse', 'rectangle 4 by 3').codes).not.toContain('hands-differ');
  });

  it('must be of both hands in a shell and its lining', () => {
    const found = piece('cut 1 cloth\n  cut 1 lining').only('mates-same-hand');
    expect([found.severity, found.marked]).toEqual(['warning', 'lining']);
    expect(piece('cut 1 cloth\n  cut 1 lining mirrored').codes).toEqual([]);
    expect(piece('cut 1 cloth mirrored\n  cut 1 lining').codes).toEqual([]);
    expect(piece('cut 1 cloth\n  cut 1 lining', 'rectangle 4 by 3').codes).toEqual([]);
  });
});

describe('layers', () => {
  const faults = (lines: string, facts = 'unit in\nallowance none'): readonly string[] => pattern(`piece a {\n  outline rectangle 8 by 6\n  line core = inset 1\n  ${lines}\n}`, facts).faults;

  it('go on the last cloth above them, or on the one named', () => {
    const found = piece('cut 1 cloth\n  cut 1 lining mirrored\n  cut 1 fuse mirrored\n  cut 1 fuse on wrong side of cloth');
    expect(found.cuts('a').map((line) => line.layer)).toEqual([undefined, undefined, { shell: 1, side: 'wrong' }, { shell: 0, side: 'wrong' }]);
    expect(found.codes).toEqual([]);
  });

  it('are cloth too where they say on which side they go', () => {
    const found = piece('cut 1 cloth\n  cut 1 cork on right side');
    expect(found.cuts('a')[1]?.layer).toEqual({ shell: 0, side: 'right' });
    expect(found.table().fusing.map((row) => [row.step, row.how, row.layer, row.onto, row.side])).toEqual([[1, 'apply', 'Cork', 'Cloth', 'right']]);
  });

  it('need something to go on', () => {
    expect(faults('cut 1 fuse')).toEqual(['layer-without-shell: fuse']);
    expect(faults('cut 1 fuse\n  cut 1 cloth')).toEqual(['layer-without-shell: fuse']);
    expect(faults('cut 1 cloth\n  cut 1 fuse on wrong side of lining')).toEqual(['layer-without-shell: lining']);
    expect(faults('cut 1 cloth\n  cut 1 fuse on wrong side of linin')).toEqual(['unknown-name: linin']);
  });

  // Each side reaches half of what the layer is wider: three hundredths of a millimetre are told, one is what flattening may be out by.
  it.each([['8 in + 0.06 mm', ['pokes-out: fuse']], ['8 in + 0.02 mm', []], ['8 in', []]])('reach no further than their shell: %s on 8 in', (width, told) => {
    expect(faults(`cut 1 cloth\n  cut 1 fuse sized ${width} by 5`).filter((fault) => !fault.startsWith('rounded-size'))).toEqual(told);
  });

  it('must not reach beyond their shell, unless cut large on purpose', () => {
    const found = piece('line core = inset 1/4\n  cut 1 cloth along core\n  cut 1 fuse', 'rectangle 8 by 6').only('pokes-out');
    // The corner lies √2 · 1/4 = 0.354 in beyond.
    expect(found.message).toBe('This layer of “fuse” reaches 3/8 in beyond the “cloth” that it goes on.');
    expect(faults('cut 1 cloth\n  cut 1 fuse large by 1/4')).toEqual([]);
    expect(faults('cut 1 cloth\n  cut 1 fuse sized 9 by 2')).toEqual(['pokes-out: fuse']);
  });

  it('that are stiff should stay out of the seam', () => {
    expect(faults('cut 1 cloth\n  cut 1 board', 'unit in\nallowance 1/2')).toEqual(['fused-into-seam: board']);
    expect(faults('cut 1 cloth\n  cut 1 board along core', 'unit in\nallowance 1/2')).toEqual([]);
    expect(faults('cut 1 cloth\n  cut 1 board')).toEqual([]);
    expect(faults('cut 1 cloth\n  cut 1 fuse', 'unit in\nallowance 1/2')).toEqual([]);
  });

  it('are fused before what is stiff goes over them', () => {
    expect(faults('cut 1 cloth\n  cut 1 board along core\n  cut 1 fuse')).toEqual(['stack-order: fuse']);
    expect(faults('cut 1 cloth\n  cut 1 fuse\n  cut 1 board along core')).toEqual([]);
    expect(faults('cut 1 cloth\n  cut 1 board along core on right side\n  cut 1 fuse on wrong side')).toEqual([]);
  });

  it('are listed step by step, piece by piece', () => {
    const found = pattern(`piece a {
  outline rectangle 8 by 6
  cut 2 cloth
  cut 2 fuse
  cut 1 foam
}
piece b {
  outline rectangle 3 by 2
  cut 1 lining
  cut 1 fuse
}`);
    expect(found.table().fusing.map((row) => [row.piece, row.step, row.how, row.layer, row.onto, row.count])).toEqual([
      ['a', 1, 'fuse', 'Fusible', 'Cloth', 2], ['a', 2, 'baste', 'Foam', 'Cloth', 1], ['b', 1, 'fuse', 'Fusible', 'Lining', 1],
    ]);
  });

  it('on one-way cloth need a grain', () => {
    expect(faults('cut 1 nap')).toEqual(['missing-grain: nap']);
    expect(faults('grain up\n  cut 1 nap')).toEqual([]);
  });

  it('on one-way cloth may lie across unless they have a way up', () => {
    expect(faults('grain up or across\n  cut 1 nap')).toEqual([]);
    expect(faults('grain up or across\n  this way up\n  cut 1 nap')).toEqual(['lies-sideways: nap']);
    expect(faults('grain up\n  this way up\n  cut 1 nap')).toEqual([]);
    expect(faults('grain up or across\n  this way up\n  cut 1 cloth')).toEqual([]);
  });
});
