import { describe, expect, it } from 'vitest';
import { pattern, type Found } from '../support/spec.ts';

const pieces = `piece a {
  outline rectangle 8 by 6
  line core = inset 1
  line deep = inset 3/4
  placement slot = rectangle 4 by 3 at 1, 1
  foldline half = upright at 4
  cut 1 cloth
}
piece b {
  outline rectangle 8 1/4 by 6
  cut 1 cloth
}
piece l {
  outline polygon from 0, 0 to 4, 0 to 1, 5
  cut 1 cloth
}
piece r from l mirrored {
  cut 1 cloth
}
`;
const withPieces = (check: string, facts?: string): ReturnType<typeof pattern> => pattern(`${pieces}${check}`, facts);
const passes = (check: string, facts?: string): void => { expect(withPieces(check, facts).codes, check).toEqual([]); };
const fails = (check: string, facts?: string): Found => withPieces(check, facts).only('check-failed');

describe('matches', () => {
  it('compares two lengths', () => {
    passes('check a.left matches b.left');
    expect(fails('check a.top matches b.top').message).toBe('a.top is 8 in and b.top is 8 1/4 in: 1/4 in too short');
    expect(fails('check b.top matches a.top').message).toBe('b.top is 8 1/4 in and a.top is 8 in: 1/4 in too long');
  });

  it('not a mark, which is a point', () => {
    const marked = (check: string) => pattern(`piece a {\n  outline rectangle 8 by 6\n  mark cap at 1, 1\n  cut 1 cloth\n}\n${check}`);
    for (const check of ['check a.cap = 5', 'check a.cap matches a.top', 'length far = a.cap', 'note "At {a.cap}."']) expect(marked(check).codes, check).toContain('unknown-part');
  });

  it('within a tolerance', () => {
    passes('check a.top matches b.top within 1/4');
    fails('check a.top matches b.top within 3/16');
  });

  it('eased: the first edge is that much longer', () => {
    passes('check b.top matches a.top eased by 1/4');
    fails('check a.top matches b.top eased by 1/4');
    expect(fails('check b.top matches a.top eased by 1/2').message).toBe('b.top is 8 1/4 in and a.top is 8 in with 1/2 in to ease in: 1/4 in too short');
    passes('check b.top matches a.top eased by 1/2 within 1/4');
  });

  it('exact values exactly, measured ones within a twentieth of a millimetre', () => {
    expect(withPieces('length x = 2 in\nlength y = 2.001 in\ncheck x matches y').codes).toEqual(['check-failed']);
    passes('check a.top matches 8.0005 in');
    fails('check a.top matches 8.01 in');
  });

  it('is pointless of one and the same', () => {
    expect(withPieces('check a.top matches a.top').only('needless-check').severity).toBe('note');
  });
});

describe('clears', () => {
  it('looks for the least distance', () => {
    passes('check a.core clears a.cutting by 1');
    passes('check a.core clears a.stitching by 1/2', 'unit in\nallowance 1/2');
    passes('check a.core clears a.deep by 1/4');
    expect(fails('check a.deep clears a.cutting by 1').message).toBe('a.deep comes within 3/4 in of a.cutting, and 1 in is wanted');
  });

  it('stays half an inch clear of a curved edge as drawn', () => {
    const round = (by: string): readonly string[] => pattern(`piece c {
  outline circle across 6
  line core = inset 1/2
  cut 1 cloth
}
check c.core clears c.cutting by ${by}`).codes;
    expect(round('1/2')).toEqual([]);
    expect(round('17/32')).toEqual(['check-failed']);
  });

  it('is asked of lines of one piece', () => {
    expect(withPieces('check a.core clears b.cutting by 1').only('wrong-thing').marked).toBe('b.cutting');
    expect(withPieces('check a.cor clears a.cutting by 1').only('unknown-part').message).toContain('Did you mean “core”?');
  });
});

describe('holds', () => {
  // ISO/IEC 7810, ID-1: 85.60 mm × 53.98 mm, which is 3.370 in × 2.125 in.
  const card = 'thing card "Bank card" = 85.60 mm by 53.98 mm\n';
  const pocket = (width: string, height: string, check: string): readonly string[] =>
    pattern(`${card}piece p {\n  outline rectangle ${width} by ${height}\n  placement slot = rectangle 85.7 mm by 54 mm\n  cut 1 cloth\n}\ncheck ${check}`, 'unit mm\nallowance 10').codes;
  it('is the room inside the seams', () => {
    expect(pocket('105.6', '73.98', 'p holds card')).toEqual(expect.not.arrayContaining(['check-failed']));
    expect(pocket('105.5', '90', 'p holds card')).toContain('check-failed');
    expect(pocket('106', '73.9', 'p holds card')).toContain('check-failed');
  });

  it('with ease on both sides together', () => {
    expect(pocket('108.6', '76.98', 'p holds card with ease 3')).not.toContain('check-failed');
    expect(pocket('108.6', '76.98', 'p holds card with ease 3.1')).toContain('check-failed');
  });

  it('turned as well', () => {
    expect(pocket('73.98', '105.6', 'p holds card')).not.toContain('check-failed');
  });

  it('of a line, and of a size given on the spot', () => {
    expect(pocket('120', '90', 'p.slot holds card')).not.toContain('check-failed');
    expect(pocket('120', '90', 'p.slot holds 86 by 54')).toContain('check-failed');
    expect(pocket('120', '90', 'p holds 100 by 70')).not.toContain('check-failed');
  });

  describe('of what is folded', () => {
    // Folded at 1 1/8 in above its lower seam, a pocket is 1 1/8 in deep, however large it is opened out.
    const folded = (lines: string, check = 'p holds card', more = ''): ReturnType<typeof pattern> =>
      pattern(`${card}piece p {\n  outline rectangle 5 by 4\n${lines}\n${more}  cut 1 cloth\n}\ncheck ${check}`, 'unit in\nallowance 1/4');
    it('isn’t known, and the check says so with the fold and a way out', () => {
      const found = folded('  foldline turn = level at 1 3/8').only('folded-room');
      expect([found.severity, found.marked]).toEqual(['warning', 'p']);
      expect(found.message).toContain('fold line “turn”');
    });
    it('is known of a room beside the fold', () => {
      const room = '  foldline turn = level at 1 3/8\n  placement room = rectangle 4 by 2 1/4 at 1/2, 1 1/2';
      expect(folded(room, 'p.room holds card').codes).toEqual([]);
      expect(folded(room.replace('1 1/2', '1 1/4'), 'p.room holds card').only('folded-room').marked).toBe('p.room');
    });
    it('is known where the fold lies in the seam, and where even the opened-out piece is too small', () => {
      expect(folded('  foldline turn = level at 1/4').codes).toEqual([]);
      expect(folded('  foldline turn = level at 2', 'p holds 6 by 4').faults).toEqual(['check-failed: p holds 6 by 4']);
    });
    it('isn’t known where the fold lies in the other half of what is drawn as half', () => {
      expect(folded('  foldline turn = upright at 1', 'p.room holds 2 by 2', '  on fold left\n  placement room = rectangle 3 by 3 at 0, 1/2\n').only('folded-room').marked).toBe('p.room');
    });
  });

  it('says how much room there is', () => {
    expect(fails('check a.slot holds 4 by 3 with ease 1/8').message).toBe('a.slot is 4 in by 3 in inside, too small for 4 in by 3 in with 1/8 in of ease');
    expect(withPieces('check a holds crd').only('unknown-name').marked).toBe('crd');
  });
});

describe('mates', () => {
  it('wants mirror images', () => {
    passes('check l mates r');
    passes('check r mates l');
    passes('check a mates a');
    expect(fails('check l mates l').message).toContain('are the same hand');
    expect(fails('check a mates b').message).toContain('are not mirror images');
  });
});

describe('comparisons', () => {
  it.each([
    'a.width < b.width', 'a.width <= 8', 'b.width > a.width', 'b.width >= 8 1/4', 'a.width = 8', 'a.width != b.width',
    'not (a.width > b.width)', 'a.width < 9 and b.width < 9', 'a.width > 9 or b.width < 9', '(a.width > 9 or b.width < 9) and a.height = 6',
  ])('%s', (condition) => {
    passes(`check ${condition}`);
    expect(fails(`check not (${condition})`).message).toContain('doesn’t hold');
  });

  it('say what was compared', () => {
    expect(fails('check a.width >= 8 1/4').message).toBe('a.width >= 8 1/4 doesn’t hold: 8 in against 8 1/4 in');
  });

  it('say it of counts too', () => {
    expect(withPieces('count n = 3\ncheck n * 2 > 7').only('check-failed').message).toBe('n * 2 > 7 doesn’t hold: 6 against 7');
  });

  it('compare like with like', () => {
    expect(withPieces('check a.width > 45 deg').only('mixed-kinds').severity).toBe('error');
  });
});

describe('severity and words', () => {
  it('are the designer’s', () => {
    const found = fails('check a.width > 9 else warning "Too narrow for the zip"');
    expect([found.severity, found.message]).toEqual(['warning', 'Too narrow for the zip (a.width > 9 doesn’t hold: 8 in against 9 in)']);
    expect(fails('check a.width > 9').severity).toBe('error');
    expect(fails('check a.width > 9 else note').severity).toBe('note');
    expect(fails('check a.width > 9 else "Words alone"').severity).toBe('error');
    expect(found.marked).toBe('a.width > 9');
  });
});

describe('outcomes', () => {
  const outcomes = (text: string, options = {}): readonly string[] => pattern(text).pattern.resolve(new Map(Object.entries(options))).checks.map((one) => one.outcome);
  it('are told for each combination', () => {
    const text = 'sizes S, L\nlength w = 2 for S, 4 for L\ncheck w > 3\ncheck w > 1 when size is S';
    expect(outcomes(text, { size: 'S' })).toEqual(['failed', 'passed']);
    expect(outcomes(text, { size: 'L' })).toEqual(['passed', 'not asked']);
  });

  it('leave out what the combination leaves out', () => {
    const text = `choice lid is flap or zip
piece flap_piece when lid is flap {
  outline rectangle 4 by 2
  cut 1 cloth
}
length w = 5
check flap_piece.width matches w
check flap_piece holds 9 by 9`;
    expect(outcomes(text, { lid: 'flap' })).toEqual(['failed', 'failed']);
    expect(outcomes(text, { lid: 'zip' })).toEqual(['not asked', 'not asked']);
    expect(pattern(text).problems.filter((one) => one.code === 'check-failed').map((one) => one.when)).toEqual(['lid is flap', 'lid is flap']);
  });

  it('are undecided where a fault stands in the way, and say no more', () => {
    const text = 'length w = nosuch\ncheck w > 3';
    expect(outcomes(text)).toEqual(['undecided']);
    expect(pattern(text).faults).toEqual(['unknown-name: nosuch']);
  });
});
