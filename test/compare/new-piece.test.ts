import { describe, expect, it } from 'vitest';
import { comparisonMarkdown } from '../../server/src/formats/comparison-markdown.ts';
import type { Pattern } from '../../server/src/model/pattern.ts';
import { pattern } from '../support/spec.ts';
import { compared, edited } from './edited.ts';

/** An invented peg bag, without and with a flap that has a dart, a stiffener, a snap and a notch. */
const bag = `piece bag "Bag" {
  outline rectangle 9 by 7
  cut 2 cloth
}
step "Press it." when size is S
`;
const flap = `piece flap "Flap" {
  outline rectangle 6 by 4
  line core = inset 1/2 from stitching
  mark dot "Dot" for snap 10 mm at 3, 1
  dart shaping "Shaping" on bottom at 50% wide 1/2 deep 1
  topstitch rim "Rim" 1/8 from top
  notch top at 2
  grain up
  cut 1 cloth
  cut 1 fuse along core when size is L
}
supply snap "Snap" {
  kind snap
  across 10 mm
  at flap.dot
}
`;
const read = (text: string): Pattern => pattern(text, 'unit in\nallowance 1/4\nsizes S, L').pattern;

describe('a piece that only the new pattern has', () => {
  const { changes } = compared(read(bag), read(bag + flap));
  const of = (group: string): readonly string[] => changes.filter((one) => one.group === group).map(({ kind, subject, what, was, now, when, causes }) => `${kind} ${subject}, ${what}: ${was}${now}${when === undefined ? '' : ` (${when})`} < ${causes.map(({ side, text }) => `${side} ${text}`).join('; ')}`);

  it('comes with what is marked on it, each with its line', () => {
    const marks = of('mark');
    expect(marks).toContainEqual(expect.stringMatching(/^added Flap, Dot: snap of 10 mm, 3 in .* from the left, 1 in .* from below.* < new mark dot "Dot"/));
    expect(marks).toContainEqual(expect.stringMatching(/^added Flap, notch on top: .* < new notch top at 2$/));
    expect(marks.every((text) => text.startsWith('added Flap, '))).toBe(true);
  });

  it('comes with its dart, its topstitching, and its layers where it has some', () => {
    const sewn = of('sew');
    expect(sewn).toContainEqual(expect.stringMatching(/^added Flap, Shaping: .* < new dart shaping /));
    expect(sewn).toContainEqual(expect.stringMatching(/^added Flap, Rim: .* < new topstitch rim /));
    expect(sewn.filter((text) => text.includes('layers'))).toEqual([expect.stringMatching(/^added Flap, layers: fuse .* on the wrong side of Cloth, .* \(size is L\) < new cut 1 fuse along core when size is L$/)]);
  });

  it('has nothing told of it that was there before', () => {
    expect(compared(read(bag), read(edited(bag, ['9 by 7', '9 by 8']))).changes.filter(({ kind }) => kind === 'added')).toEqual([]);
  });
});

describe('in a comment of a review', () => {
  it('what costs no cloth is unfolded where there is nothing else, and counted so', () => {
    const noted = (text: string): string => edited(text, ['  cut 2 cloth', '  note "Press it."\n  cut 2 cloth']);
    expect(comparisonMarkdown(compared(read(bag), read(noted(bag))))).toContain('<details open><summary>Words: 1 change</summary>');
    expect(comparisonMarkdown(compared(read(bag), read(edited(noted(bag), ['9 by 7', '9 by 8']))))).toMatch(/<details><summary>Sew, Words: \d+ more<\/summary>/);
  });
});
