import { describe, expect, test } from 'vitest';
import { pattern } from '../../support/spec.ts';

const pieces = `piece front {
  outline rectangle 9 by 7
  cut 1 cloth
}
piece back {
  outline rectangle 9 by 7
  cut 1 cloth
}
piece gusset {
  outline rectangle 3 by 23
  cut 1 cloth
}
piece frill {
  outline rectangle 20 by 3
  cut 1 cloth
}
piece disc {
  outline circle across 4
  cut 1 cloth
}
piece half {
  outline rectangle 5 by 4
  placement patch = rectangle 2 by 1
  placement across = level at 2
  on fold left
  cut 1 cloth
}
`;
/** Allowances are none, so that stitching lines are as drawn. */
const faults = (seams: string, facts?: string): readonly string[] => pattern(`${pieces}${seams}`, facts).problems.filter(({ code }) => !notes.has(code)).map(({ code, marked }) => `${code}: ${marked}`);
const notes = new Set(['unused-name', 'never-cut', 'edges-left']);

/** A sleeve whose allowances are outside what is drawn, with a line right across it; 9 in between its seams. */
const sleeve = (rest: string): string => `piece sleeve "Sleeve" {
  outline rectangle 9 by 7
  drawn to stitching
  allowance 1/2
  placement across = level at 4
  placement short = from 2, 1 to 6, 1
  edge left hemmed 1/4
  cut 1 cloth
}
piece band "Band" {
  outline rectangle 9 by 3
  drawn to stitching
  allowance 1/2
  cut 1 cloth
}
${rest}`;

describe('a seam onto a line', () => {
  test('takes of one that runs on to the cutting line what lies between the seams', () => {
    const { problems, pattern: found } = pattern(sleeve('seam s = band.top onto sleeve.across'), 'unit in');
    expect(problems.filter(({ code }) => code === 'seam-lengths')).toEqual([]);
    expect(found.resolve(new Map()).seams[0]?.second.length).toBeCloseTo(9 * 25.4, 6);
    expect(pattern(sleeve('seam s = band.top onto sleeve.short'), 'unit in').only('seam-lengths').message).toContain('sleeve.short is 4 in');
  });

  test('takes one line alone', () => {
    expect(pattern(sleeve('seam s = band.top onto sleeve.across, sleeve.short'), 'unit in').problems.filter(({ code }) => code === 'wrong-thing').map(({ message }) => message)[0]).toContain('or this one line alone (another seam for the next line)');
  });
});

describe('an edge that is sewn from end to end', () => {
  test.each([
    ['raw', 'seam s = sleeve.right with band.right within 9', ['edge right raw']],
    ['raw in part', 'seam s = sleeve.right from 0 to 3 with band.right', []],
    ['hemmed', 'seam s = sleeve.left with band.right within 9', ['edge left hemmed 1/4']],
    ['hemmed and laid on', 'seam s = sleeve.left onto band.right within 9', []],
    ['raw and laid on', 'seam s = sleeve.right onto band.right within 9', []],
    ['raw, and what another is laid on', 'seam s = band.right onto sleeve.right within 9', []],
  ])('is not %s', (_, seam, marked) => {
    const text = sleeve(seam).replace('  edge left', '  edge right raw\n  edge left');
    expect(pattern(text, 'unit in').problems.filter(({ code }) => code === 'finish-sewn').map((one) => one.marked)).toEqual(marked);
  });

  test('is not told as raw where all edges are said to be', () => {
    const text = 'piece a "A" {\n  outline rectangle 9 by 7\n  edge all raw\n  cut 1 cloth\n}\npiece b "B" {\n  outline rectangle 9 by 7\n  cut 1 cloth\n}\nseam s = a.left with b.left';
    const found = pattern(text);
    expect(found.problems.filter(({ code }) => code === 'finish-sewn')).toEqual([]);
    expect(found.table().finishes.map(({ edges, finish }) => `${edges}: ${finish}`)).toEqual(['bottom, right and top: left as it is cut']);
  });
});

describe('the lengths of a seam', () => {
  test('of one edge and another', () => {
    expect(faults('seam s = front.left with back.right')).toEqual([]);
    expect(faults('seam s = front.left with back.top')).toEqual(['seam-lengths: front.left']);
    expect(pattern(`${pieces}seam s = front.left with back.top`).only('seam-lengths').message).toBe('front.left is 7 in and back.top is 9 in along the stitching line: 2 in too short.');
  });
  test('of a run through corners', () => {
    expect(faults('seam s = front.left, front.bottom, front.right with gusset.left')).toEqual([]);
    expect(faults('seam s = gusset.left with front.right, front.bottom, front.left')).toEqual([]);
    expect(faults('seam s = front.left, front.right with back.left, back.right')).toEqual(['run-broken: front.right', 'run-broken: back.right']);
  });
  test('of part of an edge, measured as notches are', () => {
    expect(faults('seam s = front.top from 2 to 8 with back.top from 1 to 7')).toEqual([]);
    expect(faults('seam s = front.top from start to 50% with back.top from 4 1/2 to end')).toEqual([]);
    expect(faults('seam s = front.top from 2 to 8 with back.top from 1 to 8')).toEqual(['seam-lengths: front.top from 2 to 8']);
    expect(faults('seam s = front.top from 2 to 10 with back.top')).toEqual(['off-seam: 10']);
    expect(faults('seam s = front.top from 2 to 2 with back.top')).toEqual(['empty-stretch: front.top from 2 to 2']);
  });
  test('with ease: the first is longer', () => {
    expect(faults('seam s = front.top with back.top from 0 to 8 eased by 1')).toEqual([]);
    expect(faults('seam s = front.top with back.top from 0 to 8 eased by 12.5%')).toEqual([]);
    expect(faults('seam s = front.top with back.top from 0 to 8 eased by 1/2')).toEqual(['seam-lengths: front.top']);
    expect(faults('seam s = back.top from 0 to 8 with front.top eased by 1')).toEqual(['seam-lengths: back.top from 0 to 8']);
  });
  test('gathered: the first is longer by any measure', () => {
    expect(faults('seam s = frill.top with front.top gathered')).toEqual([]);
    expect(faults('seam s = front.top with frill.top gathered')).toEqual(['nothing-to-gather: front.top']);
  });
  test('within half a millimetre, or what is said', () => {
    expect(faults('seam s = front.top from 0 to 7.51 with back.left within 1/4')).toEqual(['seam-lengths: front.top from 0 to 7.51']);
    expect(faults('seam s = front.top from 0 to 7.24 with back.left within 1/4')).toEqual([]);
    expect(faults('seam s = front.top from 0 to 179.2 mm with back.left from 0 to 177.8 mm')).toEqual(['seam-lengths: front.top from 0 to 179.2 mm']);
    expect(faults('seam s = front.top from 0 to 178.2 mm with back.left from 0 to 177.8 mm')).toEqual([]);
  });
  test('part of it may be left open', () => {
    expect(faults('seam s = front.top with back.top open 4')).toEqual([]);
    expect(faults('seam s = front.top with back.top open 9')).toEqual(['open-too-long: 9']);
  });
  test('laid on a line', () => {
    expect(faults('seam s = front.left, front.bottom, front.right onto half.patch')).toEqual(['seam-lengths: front.left, front.bottom, front.right']);
    expect(faults('seam s = half.top onto half.across')).toEqual([]);
    expect(faults('seam s = half.top with half.across')).toEqual(['wrong-thing: across']);
  });
  test('an edge on the fold is no edge, and both halves of a piece drawn as half can be named', () => {
    expect(faults('seam s = half.left with front.left')).toEqual(['wrong-thing: left']);
    expect(faults('seam s = half.bottom_twin, half.bottom with frill.top from 0 to 10')).toEqual([]);
  });
  test('names that are none', () => {
    expect(faults('seam s = front.lft with back.left')).toEqual(['unknown-part: lft']);
    expect(faults('seam s = frnt.left with back.left')).toEqual(['unknown-name: frnt']);
    expect(faults('seam s = front with back.left')).toEqual(['wrong-thing: front']);
    expect(faults('seam front = front.left with back.left')).toEqual(['duplicate-name: front']);
  });
  test('only in the sizes and choices in which its pieces are', () => {
    const choice = 'choice trim is frilled or plain\npiece f2 from frill when trim is frilled {\n  cut 1 cloth\n}\n';
    expect(faults(`${choice}seam s = f2.top with front.top`)).toEqual(['seam-lengths: f2.top']);
    expect(pattern(`${pieces}${choice}seam s = f2.top with front.top`).only('seam-lengths').when).toBe('trim is frilled');
    expect(faults(`${choice}seam s = f2.top with front.top when trim is plain`)).toEqual([]);
  });
});

test('a formula may ask how long a seam is, and how full', () => {
  const spec = pattern(`${pieces}seam s = frill.top with front.top gathered\nlength tape = s.length + 1\nratio full = s.fullness`);
  expect(spec.inches('tape')).toBe('10');
  expect(spec.value('full').amount.valueOf()).toBeCloseTo(20 / 9, 6);
  expect(pattern('piece a {\n  outline rectangle 3 by s.length\n  cut 1 cloth\n}\nseam s = a.top with a.bottom').problems.map(({ code }) => code)).toEqual(['cycle']);
});

describe('a piece that is as long as what it meets', () => {
  const gusset = (long: string, seam = 'gusset.left with front.left, front.bottom, front.right') => pattern(`piece front {
  outline rectangle 9 by 7
  edge top raw
  cut 1 cloth
}
piece gusset {
  outline rectangle 3 by ${long}
  edge all raw
  cut 1 cloth
}
seam s = ${seam}
length high = gusset.height
`);
  test('takes its length from the seam', () => {
    expect(gusset('s.length').codes.filter((code) => !notes.has(code))).toEqual([]);
    expect(gusset('s.length').inches('high')).toBe('23');
    expect(gusset('s.length * 1.01', 'gusset.left with front.left, front.bottom, front.right eased by 1%').codes.filter((code) => !notes.has(code) && code !== 'rounded-size')).toEqual([]);
  });
  test('goes round in a circle where it stands second itself, or how much longer it is is asked', () => {
    expect(gusset('s.length', 'front.left with gusset.left').codes).toContain('cycle');
    expect(gusset('s.fullness * 23 in').codes).toContain('cycle');
  });
});
