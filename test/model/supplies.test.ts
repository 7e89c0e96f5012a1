import { describe, expect, it } from 'vitest';
import type { Material } from '../../server/src/model/stock/material.ts';
import { pattern } from '../support/spec.ts';

const bag = `piece front {
  outline rectangle 8 by 6
  mark clasp for snap 14 mm at 4, 3
  cut 1 cloth
}
`;
const withBag = (body: string): ReturnType<typeof pattern> => pattern(bag + body);
const clasp = 'supply snap {\n  kind snap\n  across 14 mm\n  at front.clasp\n}\n';

describe('snaps', () => {
  it('must be as large as their marks', () => {
    expect(withBag(clasp).codes).toEqual([]);
    const found = withBag(clasp.replace('14', '18')).only('mark-mismatch');
    expect(found.message).toBe('The mark “clasp” is for a snap of 14 mm, but “snap” measures 18 mm.');
    expect(found.marked).toBe('front.clasp');
    expect(found.severity).toBe('error');
  });

  it('are missed where a mark has none', () => {
    const found = withBag('').only('mark-without-supply');
    expect([found.severity, found.message]).toEqual(['warning', 'No snap of 14 mm is given for the mark “clasp”.']);
  });

  it('must be set at marks that are there', () => {
    expect(withBag(`${clasp}supply two {\n  kind snap\n  across 14 mm\n  at front.clap\n}`).only('unknown-part').message).toContain('Did you mean “clasp”?');
    expect(withBag(`${clasp}supply two {\n  kind snap\n  across 14 mm\n  at frnt.clasp\n}`).only('unknown-name').marked).toBe('frnt');
  });
});

describe('zips', () => {
  const zip = (from: string): ReturnType<typeof pattern> => pattern(`supply zip {\n  kind zip\n  finished 7\n  from ${from}\n}\npiece a {\n  outline rectangle 1 by 1\n  cut 1 cloth\n}`);
  it('must be made from at least their finished length', () => {
    expect(zip('closed 7').codes).toEqual([]);
    expect(zip('closed 6').only('zip-too-short').message).toBe('A zip of 7 in can’t be made from one of 6 in.');
    expect(zip('tape 6 7/8').only('zip-too-short').message).toBe('A zip of 7 in can’t be made from 6 7/8 in of tape.');
  });

  it('say what they are made from', () => {
    expect(zip('closed 9').table().supplies[0]?.size).toBe('finished 7 in, from a closed zip of at least 9 in');
    expect(zip('tape 20 cm').table().supplies[0]?.size).toBe('finished 7 in, from about 7 7/8 in of zip tape'); // 7.874 in
  });
});

describe('rings and straps', () => {
  const pair = (ring: string, strap: string): ReturnType<typeof pattern> =>
    pattern(`supply strap "Strap" {\n  kind webbing\n  across ${strap}\n  length 30\n}\nsupply ring "Ring" {\n  kind ring\n  across ${ring}\n  fits strap\n}\npiece a {\n  outline rectangle 1 by 1\n  cut 1 cloth\n}`);
  it('should differ by no more than 2 mm', () => {
    expect(pair('27 mm', '25 mm').codes).toEqual([]);
    expect(pair('25 mm', '27 mm').codes).toEqual([]);
    expect(pair('1', '25 mm').codes).toEqual([]); // 25.4 mm
    const found = pair('28 mm', '25 mm').only('ring-misfit');
    expect([found.severity, found.message]).toEqual(['warning', '“Ring” and “Strap” differ in width by 3 mm; within 2 mm is usual.']);
    expect(pair('25 mm', '27.1 mm').codes).toEqual(['ring-misfit']);
  });
});

describe('facts of supplies', () => {
  const one = (lines: string): ReturnType<typeof pattern> => pattern(`supply s {\n  ${lines}\n}\npiece a {\n  outline rectangle 1 by 1\n  cut 1 cloth\n}`);
  it.each([['zip', 'finished'], ['snap', 'across'], ['ring', 'across'], ['buckle', 'across'], ['webbing', 'length'], ['binding', 'length']])('%s needs “%s”', (kind, fact) => {
    expect(one(`kind ${kind}`).only('missing-fact').message).toBe(`This ${kind} needs a line “${fact}”.`);
  });

  it('count one unless said, and nothing where none is wanted', () => {
    expect(one('kind thread').table().supplies[0]?.count).toBe(1);
    expect(one('kind thread\n  count 3').table().supplies[0]?.count).toBe(3);
    expect(one('kind thread\n  count 0').table().supplies).toEqual([]);
    expect(one('kind thread\n  count 1 1/2').only('not-whole').severity).toBe('error');
  });

  it('of binding say how wide the strip is that it is cut from', () => {
    expect(one('kind binding\n  across 1/2\n  length 40').table().supplies[0]?.size).toBe('1/2 in wide, 40 in long, from a strip 2 in wide if cut double-fold');
    expect(one('kind webbing\n  across 25 mm\n  length 30\n  count 2').table().supplies[0]?.size).toBe('25 mm (about 1 in) wide, 30 in long, 60 in in all');
  });

  it('must be known words, each once', () => {
    expect(one('kind snapp\n  across 1').only('unknown-word').message).toContain('Did you mean “snap”?');
    expect(one('kind thread\n  kind thread').only('repeated-fact').message).toBe('This gives the kind a second time. The first holds, and this one is left out.');
  });
});

describe('cautions', () => {
  const cautions = (body: string): string => pattern(`piece a {\n  outline rectangle 1 by 1\n  cut 1 cloth\n}\n${body}`).table().cautions.join(' ');
  it('come with blades, irons, small parts and loads', () => {
    expect(cautions('')).toMatch(/^Blades: [^:]+$/);
    expect(cautions('piece b {\n  outline rectangle 1 by 1\n  cut 1 cloth\n  cut 1 fuse\n}')).toContain('Iron:');
    expect(cautions('supply s {\n  kind snap\n  across 14 mm\n}')).toContain('choke children under three');
    expect(cautions('supply s {\n  kind webbing\n  length 10\n}')).toContain('Straps and rings: test');
  });

  it('tell of needles and irons wherever anything is sewn', () => {
    const sewn = 'piece b {\n  outline rectangle 1 by 1\n  cut 1 cloth\n}\nseam s = a.left with b.left';
    for (const body of [sewn, 'supply s {\n  kind thread\n}', 'piece b {\n  outline rectangle 1 by 1\n  edge top hemmed 1/4\n  allowance top 1/2\n  cut 1 cloth\n}']) {
      expect(cautions(body)).toContain('Needles and pins: count them');
      expect(cautions(body)).toContain('Iron:');
    }
  });

  it('tell of cords, free tapes, webbing and ties, and not of tapes that an edge takes or strips that are sewn in', () => {
    const warns = (body: string): boolean => cautions(body).includes('strangle a child');
    const tape = 'supply s {\n  kind binding\n  across 1/2\n  length 40\n}';
    const strip = 'piece b {\n  outline rectangle 2 by 24\n  grain up\n  cut 1 cloth\n}';
    expect(warns('supply s {\n  kind other\n  length 40\n}')).toBe(true);
    expect(warns('supply s {\n  kind webbing\n  across 1\n  length 40\n}')).toBe(true);
    expect(warns(tape)).toBe(true);
    expect(warns(strip)).toBe(true);
    expect(warns(`${strip}\nseam s = b.left with b.right`)).toBe(true);
    expect(warns('supply s {\n  kind other\n  count 2\n}')).toBe(false);
    expect(warns(`${tape}\npiece b {\n  outline rectangle 1 by 1\n  edge top bound with s\n  cut 1 cloth\n}`)).toBe(false);
    expect(warns(`${strip}\npiece c {\n  outline rectangle 9 by 24\n  grain up\n  cut 1 cloth\n}\nseam s = b.left with c.right`)).toBe(false);
  });

  it('tell to test what may carry, webbing or a strap of cloth, and not with a strip that is sewn in', () => {
    const warns = (body: string): boolean => cautions(body).includes('test with more than the intended load');
    const strap = 'piece b {\n  outline rectangle 2 by 24\n  grain up\n  cut 1 cloth\n}';
    expect(warns('supply s {\n  kind webbing\n  across 1\n  length 40\n}')).toBe(true);
    expect(warns(`${strap}\nseam s = b.left with b.right`)).toBe(true);
    expect(warns(`${strap}\npiece c {\n  outline rectangle 9 by 24\n  grain up\n  cut 1 cloth\n}\nseam s = b.left with c.right`)).toBe(false);
    expect(warns('supply s {\n  kind other\n  length 40\n}')).toBe(false);
  });

  it('don’t tell of a strip on the fold that is sewn in by the edges of both halves', () => {
    const wall = 'piece c {\n  outline rectangle 24 by 9\n  grain up\n  cut 1 cloth\n}\n';
    const strip = (across: string): string => `${wall}piece b {\n  outline rectangle ${across}\n  on fold left\n  grain up\n  cut 1 cloth on fold\n}\n`;
    expect(cautions(`${strip('12 by 2')}seam s = c.top with b.bottom, b.bottom_twin`)).not.toContain('strangle a child');
    expect(cautions(strip('12 by 2'))).toContain('strangle a child');
  });

  it('tell of small parts that are counted, and of magnets among them', () => {
    expect(cautions('supply s {\n  kind other\n  count 2\n}')).toContain('magnets injure whoever swallows them');
    expect(cautions('supply s {\n  kind other\n  length 2\n}')).not.toContain('choke');
  });
});

describe('materials', () => {
  const one = (lines: string): ReturnType<typeof pattern> => pattern(`material wool {\n  ${lines}\n}\npiece a {\n  outline rectangle 1 by 1\n  grain up\n  cut 1 wool\n}`);
  const made = (lines: string): Material => {
    const found = one(lines).pattern.resolve(new Map()).materials.find((material) => material.name === 'wool');
    if (found === undefined) throw new Error('no material');
    return found;
  };
  it('know what is usual for their role', () => {
    const facts = (role: string): string => {
      const { faces, direction, usable } = made(`role ${role}\n  width 44`);
      return `${faces}, ${direction}, ${usable?.div('25.4').toFraction() ?? ''}`;
    };
    expect(facts('main')).toBe('differ, two ways, 42');
    expect(facts('lining')).toBe('differ, two ways, 42');
    expect(facts('fusible')).toBe('glued, two ways, 44');
    expect(facts('stabiliser')).toBe('alike, any, 44');
    expect(facts('foam')).toBe('alike, any, 44');
    expect(facts('non-fray')).toBe('differ, any, 44');
  });

  it('are bought by the eighth of a yard or the tenth of a metre unless said', () => {
    expect(made('role main\n  width 44').purchase).toEqual({ form: 'lengths', step: expect.objectContaining({ n: 1143n, d: 10n }) as unknown });
    expect(made('role main\n  bought in panels of 18 by 22').purchase.form).toBe('panels');
  });

  it.each([
    ['role main', 'missing-width: wool'],
    ['width 44 usable 45', 'usable-too-wide: 45'],
    ['width 44\n  shrinks 100%', 'shrinks-too-much: 100%'],
    ['width 44\n  shrinks 2% by -1%', 'shrinks-too-much: -1%'],
    ['width 44\n  role mane', 'unknown-word: mane'],
    ['width 44\n  direction on way', 'unknown-word: on way'],
    ['width 44\n  direction one way\n  fold crosswise', 'fold-turns-nap: fold crosswise'],
    ['width 44 usable 42\n  fold partial 21 1/8', 'fold-too-deep: 21 1/8'],
    ['width 44\n  fold partial 0', 'too-small: 0'],
    ['bought in panels of 18 by 22\n  fold lengthwise', 'fold-of-panels: fold lengthwise'],
    ['width 0', 'too-small: 0'],
    ['width 44\n  width 45', 'repeated-fact: width 45'],
    ['width 44\n  price 2 in per yd', 'wrong-kind: 2 in'],
    ['width 44\n  price 2 per yard', 'unknown-word: yard'],
  ])('%j: %s', (lines, fault) => {
    expect(one(lines).faults).toEqual([fault]);
  });

  it('are folded as they can be, and told why not', () => {
    for (const right of ['direction one way\n  fold lengthwise', 'direction one way\n  fold partial 12', 'fold crosswise', 'fold partial 21']) expect(one(`width 44 usable 42\n  ${right}`).faults).toEqual([]);
    expect(one('width 44\n  direction one way\n  fold crosswise').only('fold-turns-nap').message).toContain('Fold it lengthwise, or in part.');
    expect(one('width 44 usable 42\n  fold partial 30').only('fold-too-deep').message).toBe('The cloth can’t lie double for 30 in: it is 42 in wide, so 21 in is the most.');
  });
});
