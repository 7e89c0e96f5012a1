import { describe, expect, test } from 'vitest';
import { pattern } from '../../support/spec.ts';

/** An invented pouch: a quilted back with a lining, a flap and a ring's tab that are caught in its seams. */
const pieces = `piece front "Front" {
  outline rectangle 8 by 6
  edge top raw
  mark socket at 4, 3
  cut 1 cloth
}
piece back "Back" {
  outline rectangle 8 by 6
  line rise "First row" = from 2, 1 to 6, 5
  quilt rows "Quilting" 1 apart along rise
  cut 1 cloth
  cut 1 foam along stitching
}
piece liner "Liner" {
  outline rectangle 8 by 6
  edge left raw
  edge right raw
  edge bottom raw
  cut 1 cloth
}
piece flap "Flap" {
  outline rectangle 7 by 3
  edge left raw
  edge right raw
  edge bottom raw
  cut 1 cloth
}
piece tab "Tab" {
  outline rectangle 2 by 3
  allowance left none
  allowance right none
  foldline left_quarter = upright at 1/2
  foldline right_quarter = upright at 1 1/2
  foldline middle = upright at 1
  folded left_quarter, right_quarter, middle
  edge left raw
  edge right raw
  cut 1 cloth
}
supply ring "D-ring" {
  kind ring
  across 1/2
  fits tab
}
supply socket "Socket" {
  kind other
  at front.socket
}
seam tab_low = tab.bottom folded onto back.left from 1 to 1 1/2
seam tab_high = tab.top folded onto back.left from 3 to 3 1/2
seam flap_on = flap.top onto back.top from 1/2 to 7 1/2
seam rim = back.top with liner.top
seam outside = front.left, front.bottom, front.right with back.right, back.bottom, back.left
`;
const usual = ['back.layers, back.rows', 'socket', 'ring', 'tab_low', 'tab_high', 'flap_on', 'rim', 'outside'];
const problemsOf = (order: readonly string[], text = pieces) =>
  pattern(`${text}${order.map((names, index) => `step "${index + 1}" does ${names}`).join('\n')}\n`, 'unit in\nallowance 1/4\ndrawn to stitching').problems.filter(({ severity, code }) => severity !== 'note' && code !== 'missing-grain');
const told = (order: readonly string[], text?: string): readonly string[] => problemsOf(order, text).map(({ code, marked }) => `${code}: ${marked}`);
/** The usual steps with some of them moved behind another. */
const after = (last: string, ...late: readonly string[]): readonly string[] => usual.filter((names) => !late.includes(names)).flatMap((names) => (names === last ? [names, ...late] : [names]));
const inPieces = (from: string, to: string): string => {
  expect(pieces).toContain(from);
  return pieces.replace(from, to);
};

test('what can be done is told nothing of', () => expect(told(usual)).toEqual([]));

describe('quilting runs from edge to edge', () => {
  test('so it comes before any seam of its piece', () => {
    expect(told(after('rim', 'back.layers, back.rows'))).toEqual(['too-late: back.rows']);
    // A step that does the piece stands for its layers, which the outside seam and the rim have closed in.
    expect(told([...usual.slice(1), 'back'])).toEqual(['too-late: back']);
    expect(told(['back', ...usual.slice(1)])).toEqual([]);
    expect(problemsOf(after('rim', 'back.layers, back.rows'))[0]?.message).toBe(
      'By then “back” is sewn by “tab_low”, and quilting runs over all of “back” from edge to edge, so “back.rows” can’t be done any more. Do it in an earlier step, before any seam of “back”.');
    expect(told(after('tab_low', 'back.layers, back.rows'))).toEqual(['too-late: back.rows']);
  });
  test('what is laid on a line of the piece may be quilted over', () => {
    const patched = `${inPieces('  line rise', '  placement spot = rectangle 2 by 2 at 1, 1\n  line rise')}piece patch {\n  outline rectangle 2 by 2\n  cut 1 cloth\n}\nseam sides = patch.all onto back.spot\n`.replace('patch.all', 'patch.left, patch.bottom, patch.right, patch.top');
    expect(told(['back.layers', 'sides', 'back.rows', ...usual.slice(1)], patched)).toEqual([]);
  });
});

describe('a name in a step', () => {
  test.each([
    ['tab.left_quarter', 'wrong-thing: left_quarter'],
    ['back.rise', 'wrong-thing: rise'],
    ['front.socket', 'wrong-thing: socket'],
  ])('%s is nothing that a step does', (name, fault) => expect(told([...usual, name])).toEqual([fault]));
  test('is told with those that are', () =>
    expect(problemsOf([...usual, 'back.rise'])[0]?.message).toBe('“back.rise” is a line, but something that a step does (of “back”: rows, layers) is needed here.'));
  test('may be its folds and finished edges', () =>
    expect(problemsOf([...usual, 'tab.middle'])[0]?.message).toBe('“tab.middle” is a fold line, but something that a step does (of “tab”: right, left, folded) is needed here.'));
  test('of a line that a copy has from another piece, too', () => {
    const copied = `${pieces}piece twin from back {\n  edge all raw\n  cut 1 cloth\n}\n`;
    expect(told([...usual, 'twin', 'twin.rise'], copied)).toEqual(['wrong-thing: rise']);
  });
});

describe('a ring is threaded on', () => {
  test('while an end is free, or in the step that sews the last', () => {
    expect(told(after('tab_low', 'ring'))).toEqual([]);
    expect(told(usual.filter((names) => names !== 'ring').map((names) => (names === 'tab_high' ? 'tab_high, ring' : names)))).toEqual([]);
  });
  test.each(['tab', 'tab.bottom', 'tab.top'])('not once both ends of what it fits are sewn: fits %s', (fits) => {
    const late = problemsOf(after('tab_high', 'ring'), inPieces('fits tab', `fits ${fits}`));
    expect(late.map(({ code, marked }) => `${code}: ${marked}`)).toEqual(['supply-too-late: ring']);
    expect(late[0]?.message).toBe('By then the ends of “tab” are sewn, so “ring” may not go on any more. Set it in an earlier step, or in the one that sews them.');
  });
  test('over an end that stays free', () => {
    const free = inPieces('seam tab_high = tab.top folded onto back.left from 3 to 3 1/2\n', '').replace('  edge left raw\n  edge right raw\n  cut 1 cloth\n}\nsupply', '  edge left raw\n  edge right raw\n  edge top raw\n  cut 1 cloth\n}\nsupply');
    expect(told(after('outside', 'ring').filter((names) => names !== 'tab_high'), free)).toEqual([]);
  });
});

describe('what is laid on an edge', () => {
  test('is caught before that is sewn', () => {
    const late = problemsOf(after('rim', 'flap_on'));
    expect(late.map(({ code, marked }) => `${code}: ${marked}`)).toEqual(['too-late: flap_on']);
    expect(late[0]?.message).toBe('By then “back.top” is sewn by “rim”, so “flap_on” can’t be caught in that any more. Do it in an earlier step, or sew “rim” later.');
  });
  test('may be turned over a seam that it hangs on, as a waistband', () => {
    const band = inPieces('piece flap', 'piece band "Band" {\n  outline rectangle 8 by 2\n  edge left raw\n  edge right raw\n  cut 1 cloth\n}\npiece flap')
      .replace('seam rim = back.top with liner.top', 'seam rim = back.top with band.bottom\nseam inside = band.top onto back.top')
      .replace(/piece liner[^}]*}\n/, '').replace(/piece flap[^}]*}\n/, '').replace(/seam flap_on.*\n/, '');
    expect(told(usual.flatMap((names) => (names === 'flap_on' ? [] : names === 'rim' ? ['rim', 'inside'] : [names])), band)).toEqual([]);
  });
});
