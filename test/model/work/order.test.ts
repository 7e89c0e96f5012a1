import { describe, expect, test } from 'vitest';
import { pattern } from '../../support/spec.ts';

/** An invented sleeve for a flute: two halves and a flap sewn to both, a patch with boxed corners, a snap. */
const pieces = `piece left_half "Left half" {
  outline rectangle 4 by 9
  edge left raw
  edge bottom hemmed 1/8
  allowance 1/4
  allowance right none
  allowance top none
  placement patch_at = rectangle 2 by 2 at 1, 2
  mark clasp at 2, 7
  cut 1 cloth
  cut 1 fuse along stitching
}
piece right_half "Right half" {
  outline rectangle 4 by 9
  edge right raw
  edge bottom raw
  allowance none
  cut 1 cloth
}
piece flap "Flap" {
  outline rectangle 8 by 3
  edge left raw
  edge right raw
  edge top raw
  allowance none
  cut 1 cloth
  cut 1 fuse when padding is padded
}
piece patch "Patch" {
  outline rectangle 3 by 3
  drawn to stitching
  corner bottom box 1/2
  edge top hemmed 1/8
  allowance 1/4
  cut 1 cloth
}
piece tag "Tag" {
  outline rectangle 3 by 2
  edge all raw
  cut 1 cork when padding is plain
}
supply clasp "Clasp" {
  kind other
  at left_half.clasp
}
supply yarn "Thread" {
  kind thread
}
choice padding is padded or plain
seam middle "Middle" = left_half.right with right_half.left
seam top "Top" = left_half.top, right_half.top with flap.bottom
seam box_left = patch.bottom_left_level with patch.bottom_left_upright
seam box_right = patch.bottom_right_level with patch.bottom_right_upright
seam sides = patch.bottom onto left_half.patch_at within 10
`;
const usual = [
  'step "Fuse the left half, {left_half.width} wide." does left_half.layers',
  'step "Hem it, and close the corners of the patch." does left_half.bottom, box_left, box_right, patch.top',
  'step "Sew the patch on." does sides',
  'step "Set the clasp." does clasp',
  'step "Sew the halves together, {middle.length} long." does middle',
  'step "Fuse the flap." does flap.layers when padding is padded',
  'step "Sew the flap on." does top',
  'step "Glue the tag on." does tag when padding is plain',
];
const told = (steps: readonly string[]): readonly string[] => {
  // What the patch leaves free, and its bare shape, are not what is tried here.
  const others = ['edges-left', 'rounded-size', 'seam-lengths', 'missing-grain', 'mark-without-supply', 'symmetric-twins', 'hands-differ'];
  return pattern(`${pieces}${steps.join('\n')}\n`).problems.filter(({ code }) => !others.includes(code)).map(({ code, marked, when }) => `${code}: ${marked}${when === undefined ? '' : `, when ${when}`}`);
};
const without = (part: string): readonly string[] => usual.filter((step) => !step.includes(part));
const replaced = (from: string, to: string): readonly string[] => {
  expect(usual.join('\n')).toContain(from);
  return usual.map((step) => step.replace(from, to));
};
const moved = (part: string, to: number): readonly string[] => [...without(part).slice(0, to), usual.find((step) => step.includes(part)) ?? '', ...without(part).slice(to)];

describe('an order of work', () => {
  test('that can be done has no fault', () => expect(told(usual)).toEqual([]));
  test('is not asked for', () => expect(told([])).toEqual([]));
  test('that says only sentences is not held to anything', () => expect(told(['step "Sew it."'])).toEqual([]));

  test.each([
    ['a seam in no step', without('Sew the halves').map((step) => step.replace(' does top', '')), ['left-out: middle', 'left-out: top']],
    ['a supply that is never set', without('Set the clasp'), ['left-out: clasp']],
    ['layers that are never put on', without('Fuse the left half'), ['left-out: left_half']],
    ['layers left out in one choice alone', without('Fuse the flap'), ['left-out: flap, when padding is padded']],
    ['a hem that is never made', replaced('does left_half.bottom, ', 'does '), ['left-out: left_half']],
    ['a piece left over', without('Glue the tag'), ['left-out: tag, when padding is plain']],
    ['a seam sewn twice', [...usual, 'step "Again." does middle'], ['done-twice: middle']],
    ['a seam sewn twice in a step', replaced('does sides', 'does sides, sides'), ['done-twice: sides']],
    ['an edge done with its piece already', [...replaced('left_half.layers', 'left_half'), ''].map((step) => step), ['done-twice: left_half.bottom']],
    ['a seam over pieces that are not joined', moved('Sew the halves', 8), ['not-yet-joined: top']],
    ['the same within a step, in the wrong order', without('Sew the halves').map((step) => step.replace('does top', 'does top, middle')), ['not-yet-joined: top']],
    ['a patch on a piece that is sewn round', moved('Sew the patch', 8), ['too-late: sides']],
    ['layers after the piece is sewn round', moved('Fuse the left half', 8), ['too-late: left_half.layers']],
    ['layers after the piece is sewn round, in one choice', moved('Fuse the flap', 7), ['too-late: flap.layers, when padding is padded']],
    ['a hem after the patch is sewn down', [...replaced(', patch.top', ''), 'step "Hem." does patch.top'], ['too-late: patch.top']],
    ['a corner after the patch is sewn down', [...replaced(', box_right', ''), 'step "Box." does box_right'], ['too-late: box_right']],
    ['a supply out of reach', moved('Set the clasp', 8), ['supply-too-late: clasp']],
    ['layers of a piece without any', [...usual, 'step "Fuse." does right_half.layers'], ['nothing-to-do: layers']],
    ['an edge that a seam sews', [...usual, 'step "Hem." does left_half.top'], ['nothing-to-do: top']],
    ['an edge that there is not', [...usual, 'step "Hem." does left_half.botom'], ['unknown-part: botom']],
    ['a name that there is not', replaced('does middle', 'does midle'), ['unknown-name: midle']],
    ['a value', [...usual, 'length long = 3', 'step "Sew." does long'], ['wrong-thing: long']],
    ['a measure', [...usual, 'step "Sew." does middle.length'], ['wrong-thing: middle.length']],
    ['a measure that there is not', replaced('{middle.length}', '{middle.size}'), ['unknown-part: size']],
    ['a step that can’t be read', replaced('does middle', 'do middle'), ['unreadable-line: do']],
  ] as const)('%s', (_, steps, faults) => expect(told(steps)).toEqual(faults));

  test('the step that closes a piece may set its supply', () => expect(told(without('Set the clasp').map((step) => step.replace('does top', 'does top, clasp')))).toEqual([]));
  test('within a step the halves may be joined first', () => expect(told(without('Sew the halves').map((step) => step.replace('does top', 'does middle, top')))).toEqual([]));
  test('a piece that is not wanted needs no step, and its step does nothing', () =>
    expect(told(replaced('Glue the tag on." does tag when padding is plain', 'Glue the tag on." does tag'))).toEqual([]));
});

describe('what a step says', () => {
  const rows = (padding: string): readonly string[] => pattern(`${pieces}${usual.join('\n')}\nstep "A \\{brace}, {2 + 1} and {1/2 in} of {left_half.area}, \\"said\\"."`).table({ padding }).steps.map(({ number, text }) => `${number} ${text}`);
  test('is worked out, and numbered in each choice for itself', () => {
    expect(rows('padded')[0]).toBe('1 Fuse the left half, 3 3/4 in wide.');
    expect(rows('padded')[4]).toBe('5 Sew the halves together, 9 in long.');
    expect(rows('padded').at(-1)).toBe('8 A {brace}, 3 and 1/2 in of 36 sq in, "said".');
    expect(rows('plain')[5]).toBe('6 Sew the flap on.');
  });
  test('what it does is named by its title', () =>
    expect(pattern(`${pieces}${usual.join('\n')}`).table().steps.slice(0, 2).map(({ does }) => does)).toEqual([
      [{ kind: 'layers', name: 'left_half.layers', title: 'Left half: layers' }],
      [
        { kind: 'edge', name: 'left_half.bottom', title: 'Left half: bottom' }, { kind: 'seam', name: 'box_left', title: 'box left' },
        { kind: 'seam', name: 'box_right', title: 'box right' }, { kind: 'edge', name: 'patch.top', title: 'Patch: top' },
      ],
    ]));
});
