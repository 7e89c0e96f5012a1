import { describe, expect, it } from 'vitest';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { compare, type Comparison } from '../../server/src/compare/comparison.ts';
import { errataOf } from '../../server/src/compare/errata.ts';
import { pattern } from '../support/spec.ts';

/** An invented sleeve for a flute: a front, a back that is longer by what is eased in, and a lining sewn to the top. */
const spec = `piece front "Front" {
  outline rectangle 4 by 9
  edge bottom hemmed 1/4
  edge top bound with tape
  placement pocket_at = rectangle 2 by 2
  cut 1 cloth
}
piece back "Back" {
  outline rectangle 4 by 9 1/4
  edge bottom faced
  edge top raw
  cut 1 cloth
}
piece pocket "Pocket" {
  outline rectangle 3 by 3
  edge all raw
  cut 1 cloth
}
supply tape "Tape" {
  kind binding
  across 1/2
  length 6
}
seam left_side "Left side" = back.left with front.right eased by 1/4
seam right_side "Right side" = back.right with front.left eased by 1/4 open 2
seam patch = pocket.bottom onto front.bottom from 1 to 3 within 1
`;
const to = (change: (text: string) => string): Comparison => {
  const now = change(spec);
  expect(now).not.toBe(spec);
  return compare(pattern(spec).pattern, pattern(now).pattern, { ...usualOptions, effort: 0 });
};
const sewn = ({ changes }: Comparison): readonly string[] => changes.filter(({ group }) => group === 'sew').map(({ subject, what, was, now }) => `${subject}, ${what}: ${was} → ${now}`);

describe('what is sewn otherwise', () => {
  it.each([
    ['another opening', 'open 2', 'open 3', /^Right side, seam: .*2 in \S.* left open → .*3 in/],
    ['an opening elsewhere', 'open 2', 'open 2 at 2', /^Right side, seam: .*left open → .*left open, on /],
    ['an opening closed', ' open 2', '', /^Right side, seam: .*left open → [^→]*$/],
    ['another hem', 'hemmed 1/4', 'hemmed 3/16', /^Front, edges: .*1\/4 in.* → .*3\/16 in/],
    ['another finish', 'bottom faced', 'bottom bound', /^Back, edges: bottom: faced; .* → bottom: bound; /],
    ['no supply', 'bound with tape', 'bound', /^Front, edges: .*bound with Tape → .*bound$/],
    ['another part of an edge', 'from 1 to 3', 'from 1 1/4 to 3 1/4', /^patch, seam: .*1 in .* to 3 in .* → .*1 1\/4 in .* to 3 1\/4 in/],
    ['the other way along it', 'from 1 to 3', 'from 3 to 1', /^patch, seam: .* → .*from another end$/],
    ['edge to edge', 'onto front.bottom', 'with front.bottom', /^patch, seam: .*laid on.* → .*sewn to/],
    ['a seam that is gone', 'seam left_side "Left side" = back.left with front.right eased by 1/4\n', '', /^Left side, seam: Back: left sewn to Front: right.* → $/],
    ['a seam that is new', 'seam patch', 'seam foot = pocket.left with pocket.right\nseam patch', /^foot, seam: {2}→ Pocket: left sewn to Pocket: right/],
  ])('is told: %s', (_, was, now, said) => {
    const comparison = to((text) => text.replace(was, now));
    expect(comparison.same).toBe(false);
    expect(sewn(comparison)).toEqual([expect.stringMatching(said)]);
    expect(errataOf(comparison)?.tasks.map(({ heading }) => heading)).toContain('Sew these otherwise');
  });

  it('comes with the line that it is written in', () => {
    const [change] = to((text) => text.replace('open 2', 'open 3')).changes;
    expect(change?.causes).toMatchObject([{ text: expect.stringContaining('open 3') as unknown, before: expect.stringContaining('open 2') as unknown }]);
  });

  it.each([
    ['a seam', 'left_side', 'one_side'],
    ['a piece', /\bpocket\b/g, 'patch_pocket'],
    ['a supply', /\btape\b/g, 'edging'],
    ['the order', /(seam left.*\n)(seam right.*\n)/, '$2$1'],
  ])('is not the name of %s, nor where it stands', (_, was, now) => {
    expect(to((text) => text.replace(was, now))).toMatchObject({ same: true, changes: [] });
  });

  it('is not that a patch is laid on an edge which is then sewn in', () => {
    const laid = (revision: string): string => `${spec.replace('pocket.bottom onto front.bottom from 1 to 3 within 1', 'pocket.left onto front.right from 1 to 4').replace('  edge all raw\n', '  edge top raw\n  allowance 1/4\n')}# ${revision}\n`;
    expect(compare(pattern(laid('a')).pattern, pattern(laid('b')).pattern, { ...usualOptions, effort: 0 })).toMatchObject({ same: true, changes: [] });
  });

  it('is not the title of a piece', () => {
    expect(sewn(to((text) => text.replace('"Back"', '"Rear"')))).toEqual([]);
  });
});

describe('the table', () => {
  it('says what becomes of edges that are sewn to no other, those alike together', () => {
    const { finishes } = pattern(spec).table();
    expect(finishes.map(({ piece, edges, finish }) => `${piece}, ${edges}: ${finish}`)).toEqual([
      'Front, bottom: hemmed, 1/4 in wide', 'Front, top: bound with Tape', 'Back, bottom: faced', 'Back, top: left as it is cut', 'Pocket, bottom, right, top and left: left as it is cut',
    ]);
  });
});

describe('an opening', () => {
  const pouch = (width: string): string => `piece half "Half" {\n  outline rectangle ${width} by 7\n  edge top raw\n  cut 2 cloth\n}\nseam round = half.left, half.bottom, half.right with half.right, half.bottom, half.left`;
  it('that is longer is told, with the line that makes it so', () => {
    const changes = compare(pattern(pouch('9')).pattern, pattern(pouch('10')).pattern, { ...usualOptions, effort: 0 }).changes.filter(({ what }) => what.startsWith('opening'));
    expect(changes).toMatchObject([{ subject: 'Half: top, of each of 2', what: 'opening at the top', was: expect.stringMatching(/^18 in .*round$/) as unknown, now: expect.stringMatching(/^20 in .*round$/) as unknown, causes: [{ text: expect.stringContaining('rectangle 10') as unknown }] }]);
  });
  it('whose piece is called otherwise is the same', () => {
    expect(compare(pattern(pouch('9')).pattern, pattern(pouch('9').replaceAll('half', 'side')).pattern, { ...usualOptions, effort: 0 }).changes).toEqual([]);
  });
});

describe('edges and windows under other names', () => {
  /** An invented pouch: two shaped sides with a window, and a zip that the window of the front takes. */
  const side = (name: string, title: string): string => `piece ${name} "${title}" {
  outline path from 0, 0 {
    line to 6, 0 as foot
    line to 6, 4 as side
    line to 0, 5 as rim
    close as other_side
  }
  allowance rim 3/4
  window peep = rectangle 2 by 1 at 2, 1
  edge peep takes closing
  edge rim hemmed 1/4
  cut 1 cloth
}
`;
  const bagText = `${side('front', 'Front')}${side('back', 'Back')}supply closing "Zip" {
  kind zip
  finished 2
}
seam low "Low seam" = front.foot with back.foot open 1
`;
  const patternOf = (text: string): Parameters<typeof compare>[0] => pattern(text).pattern;
  const compared = (was: string, now: string): Comparison => compare(patternOf(was), patternOf(now), { ...usualOptions, effort: 0 });

  it('are the same, in seams, finishes, allowances and where supplies go', () => {
    const names = [['rim', 'brim'], ['foot', 'base'], ['peep', 'view']] as const;
    const now = names.reduce((text, [was, to]) => text.replaceAll(new RegExp(`\\b${was}\\b`, 'g'), to), bagText);
    const { same, changes, renamed } = compared(bagText, now);
    expect([same, changes]).toEqual([true, []]);
    expect(renamed.map(({ kind, of, was, now: to }) => [kind, of, was, to])).toEqual([
      ['edge', 'title', 'Front: foot', 'Front: base'], ['edge', 'title', 'Front: rim', 'Front: brim'], ['edge', 'title', 'Front: peep', 'Front: view'],
      ['edge', 'title', 'Back: foot', 'Back: base'], ['edge', 'title', 'Back: rim', 'Back: brim'], ['edge', 'title', 'Back: peep', 'Back: view'],
    ]);
  });

  it('are the same where a supply goes along several of them, written in any order', () => {
    const along = (edges: readonly string[]): string => edges.map((edge) => `  edge ${edge} takes closing\n`).join('');
    const [was, now] = [['foot', 'side'], ['side', 'base']].map((edges) => bagText.replace('  edge peep takes closing\n', along(edges)));
    const { same, changes } = compared(was ?? '', (now ?? '').replaceAll(/\bfoot\b/g, 'base'));
    expect([same, changes]).toEqual([true, []]);
    const others = compared(was ?? '', bagText.replace('  edge peep takes closing\n', along(['foot', 'other_side'])));
    expect(others.changes.map(({ what }) => what)).toContain('set at');
  });

  it('are the same where windows stand in another order', () => {
    const windows = ['  window peep = rectangle 2 by 1 at 2, 1\n', '  window slot = rectangle 1 by 1/2 at 2, 3\n'] as const;
    const was = bagText.replace(windows[0], windows.join(''));
    const { same, changes, renamed } = compared(was, was.replace(windows.join(''), [...windows].reverse().join('')));
    expect([same, changes, renamed]).toEqual([true, [], []]);
  });

  it('are others where a name stands for another edge now', () => {
    const shifted = bagText.replaceAll(/\bside\b/g, 'flank').replaceAll(/\bfoot\b/g, 'side');
    const { changes, renamed } = compared(bagText, shifted);
    expect(renamed).toEqual([]);
    expect(changes.map(({ what }) => what)).toContain('seam');
  });

  it('are others where an outline is drawn from another corner under other names', () => {
    // The same four corners, and what was the foot is what was the other side now: the seam moves by one edge.
    const turned = bagText.replaceAll('path from 0, 0 {\n    line to 6, 0 as foot\n    line to 6, 4 as side\n    line to 0, 5 as rim\n    close as other_side', 'path from 0, 5 {\n    line to 0, 0 as base\n    line to 6, 0 as wall\n    line to 6, 4 as brim\n    close as far').replaceAll(/\brim\b/g, 'brim').replaceAll(/\bfoot\b/g, 'base');
    const { changes, renamed } = compared(bagText, turned);
    expect(renamed).toEqual([]);
    expect(changes.map(({ what }) => what)).toContain('seam');
  });

  it('are others where an outline has another number of edges', () => {
    const more = bagText.replaceAll('line to 0, 5 as rim', 'line to 3, 4 1/2 as slope\n    line to 0, 5 as rim').replaceAll(/\brim\b/g, 'brim');
    const { changes, renamed } = compared(bagText, more);
    expect(renamed).toEqual([]);
    expect(changes.map(({ what }) => what)).toContain('edges');
  });
});
