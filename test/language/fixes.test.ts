import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { fixAll } from '../../server/src/language/fix-all.ts';
import { fixes, fixesOf, problemsOfFile } from '../../server/src/language/fixes.ts';
import { edited } from '../../server/src/language/results.ts';
import { factsOf } from '../../server/src/language/trial.ts';
import { marked } from '../support/marked.ts';
import { patternOf, snapshotOfText } from '../support/samples.ts';
import type { Code } from '../../server/src/problems/catalogue.ts';

// Many cases each, and machines that do other work beside.
vi.setConfig({ testTimeout: 30_000 });

const canvas = 'material canvas {\n  width 40\n  direction two ways\n}\n';

/** Applies the fix of a title to the first problem of a code, and looks at the text and that the problem has gone. */
function check(code: Code, text: string, title: string, expected: string): void {
  const snapshot = snapshotOfText(text);
  const problem = problemsOfFile(snapshot).find((one) => one.problem.code === code);
  expect(snapshot.pattern.problems.map((one) => one.code)).toContain(code);
  const offered = fixes(snapshot, problem ?? { start: 0, end: 0 }).filter((one) => one.problem.code === code);
  const fix = offered.find((one) => one.title === title);
  expect(offered.map((one) => one.title)).toContain(title);
  const fixed = edited(text, fix?.edits ?? []);
  expect(fixed).toBe(expected);
  const message = problem?.problem.message;
  expect(patternOf(fixed).problems.filter((one) => one.code === code && one.message === message)).toEqual([]);
}

describe('fixes', () => {
  test('missing-option', () => check('missing-option', 'sizes S, M, L\nlength a = 3 for S\n', 'Add a value for M, L', 'sizes S, M, L\nlength a = 3 for S, 3 for M, 3 for L\n'));
  test('missing-option, all others', () => check('missing-option', 'sizes S, M, L\nlength a = 3 for S\n', 'Add a value for all others', 'sizes S, M, L\nlength a = 3 for S, 3 otherwise\n'));
  test('ambiguous-option', () => check('ambiguous-option', 'choice a is x or y\nchoice b is x or y\nlength l = 1 for x, 2 otherwise\n', 'Write “b x”', 'choice a is x or y\nchoice b is x or y\nlength l = 1 for b x, 2 otherwise\n'));
  test('duplicate-name', () => check('duplicate-name', 'length a = 1\nlength a = 2\n', 'Rename to “a_2”', 'length a = 1\nlength a_2 = 2\n'));
  test('unknown-name, of a length', () => check('unknown-name', 'unit in\n\n# why\nlength a = 1 in + b\n', 'Declare “b”', 'unit in\n\nlength b = 1\n# why\nlength a = 1 in + b\n'));
  test('unknown-name, of a count', () => check('unknown-name', 'count a = rows + 1\n', 'Declare “rows”', 'count rows = 1\ncount a = rows + 1\n'));
  test('unknown-name, of a material', () => check('unknown-name', 'unit cm\nallowance 1\npiece a {\n  outline rectangle 1 by 1\n  cut 1 felt\n}\n', 'Declare “felt”', 'unit cm\nallowance 1\nmaterial felt {\n  width 110\n}\n\npiece a {\n  outline rectangle 1 by 1\n  cut 1 felt\n}\n'));
  test('wrong-kind, a number for a length', () => check('wrong-kind', 'count n = 2\nlength a = n + 1\n', 'Take it in in', 'count n = 2\nlength a = (n + 1) * 1 in\n'));
  test('wrong-kind, a value that says another kind', () => check('wrong-kind', 'count n = 2 in\n', 'Make “n” a length', 'length n = 2 in\n'));
  test('odd-twins', () => check('odd-twins', `allowance 0\n${canvas}piece a {\n  outline polygon from 0, 0 to 2, 0 to 0, 1\n  grain up\n  cut 3 canvas twins\n}\n`, 'Cut 4', `allowance 0\n${canvas}piece a {\n  outline polygon from 0, 0 to 2, 0 to 0, 1\n  grain up\n  cut 4 canvas twins\n}\n`));
  test('off-edge', () => check('off-edge', `allowance 0\n${canvas}piece a {\n  outline rectangle 2 by 1\n  notch top at 3\n  cut 1 canvas\n}\n`, 'Put the notch in the middle', `allowance 0\n${canvas}piece a {\n  outline rectangle 2 by 1\n  notch top at 50%\n  cut 1 canvas\n}\n`));
  test('off-edge, of a pleat', () => {
    const pleat = (at: string, deep: string): string => `allowance 0\n${canvas}piece a {\n  outline rectangle 4 by 3\n  pleat fold on top at ${at} deep ${deep} towards end\n  cut 1 canvas\n}\n`;
    check('off-edge', pleat('1', '2'), 'Put the pleat in the middle', pleat('50%', '2'));
    const one = marked(pleat('|1', '3'));
    expect(fixes(one.snapshot, one.range).map(({ title }) => title)).not.toContain('Put the pleat in the middle');
  });
  test('missing-allowance', () => check('missing-allowance', `pattern "A"\nunit cm\n\n${canvas}piece a {\n  outline rectangle 2 by 1\n  cut 1 canvas\n}\n`, 'Add “allowance 1”', `pattern "A"\nunit cm\nallowance 1\n\n${canvas}piece a {\n  outline rectangle 2 by 1\n  cut 1 canvas\n}\n`));
  test('rounded-size', () => check('rounded-size', `step 1/8\nallowance 0\n${canvas}piece a {\n  outline rectangle 2 1/16 by 1\n  cut 1 canvas\n}\n`, 'Show sizes in steps of 1/16 in', `step 1/16\nallowance 0\n${canvas}piece a {\n  outline rectangle 2 1/16 by 1\n  cut 1 canvas\n}\n`));
  test('bad-step', () => check('bad-step', 'step 1/7\n', 'Use the usual step', 'step 1/8\n'));
  const layers = 'material fuse {\n  role fusible\n  width 20\n}\nmaterial board {\n  role stabiliser\n  width 20\n}\n';
  test('stack-order', () => check('stack-order',
    `allowance 0\n${canvas}${layers}piece a {\n  outline rectangle 2 by 1\n  cut 1 canvas\n  cut 1 board\n  cut 1 fuse  # thin\n}\n`, 'Move this line up',
    `allowance 0\n${canvas}${layers}piece a {\n  outline rectangle 2 by 1\n  cut 1 canvas\n  cut 1 fuse  # thin\n  cut 1 board\n}\n`));
  test('fused-into-seam', () => check('fused-into-seam',
    `allowance 1/4\n${canvas}${layers}piece a {\n  outline rectangle 4 by 4\n  line core = inset 1/2\n  cut 1 canvas\n  cut 1 board\n}\n`, 'Cut it along “core”',
    `allowance 1/4\n${canvas}${layers}piece a {\n  outline rectangle 4 by 4\n  line core = inset 1/2\n  cut 1 canvas\n  cut 1 board along core\n}\n`));
  test('no-fold-edge', () => check('no-fold-edge', `allowance 0\n${canvas}piece a {\n  outline rectangle 2 by 1\n  cut 1 canvas on fold\n}\n`, 'Add “on fold left”', `allowance 0\n${canvas}piece a {\n  outline rectangle 2 by 1\n  on fold left\n  cut 1 canvas on fold\n}\n`));
  test('repeated-fact', () => check('repeated-fact', 'unit in\nunit cm  # no\nstep 1/8\n', 'Remove this second line', 'unit in\nstep 1/8\n'));
  test('fold-allowance', () => check('fold-allowance', `allowance 0\n${canvas}piece a {\n  outline rectangle 2 by 1\n  on fold left\n  allowance left 1\n  cut 1 canvas on fold\n}\n`, 'Remove this line', `allowance 0\n${canvas}piece a {\n  outline rectangle 2 by 1\n  on fold left\n  cut 1 canvas on fold\n}\n`));
  test('needless-check', () => check('needless-check', 'length a = 1\ncheck a matches a\n', 'Remove this check', 'length a = 1\n'));
  test('mark-without-supply', () => check('mark-without-supply', `pattern "A"\nrevision 1\nallowance 0\n${canvas}piece a {\n  outline rectangle 2 by 2\n  mark clasp for snap 14 mm at 1, 1\n  cut 1 canvas\n}\n`, 'Add a snap of 14 mm',
    `pattern "A"\nrevision 1\nallowance 0\n${canvas}piece a {\n  outline rectangle 2 by 2\n  mark clasp for snap 14 mm at 1, 1\n  cut 1 canvas\n}\n\nsupply clasp "Snap" {\n  kind snap\n  across 14 mm\n  count 1\n  at a.clasp\n}\n`));
  test('those that a problem comes with', () => check('unknown-word', 'material x {\n  role mian\n  width 3\n}\n', 'Change to “main”', 'material x {\n  role main\n  width 3\n}\n'));
  test('keep the line ends of the file', () => check('no-fold-edge', `allowance 0\r\n${canvas}piece a {\r\n  outline rectangle 2 by 1\r\n  cut 1 canvas on fold\r\n}\r\n`, 'Add “on fold left”', `allowance 0\r\n${canvas}piece a {\r\n  outline rectangle 2 by 1\r\n  on fold left\r\n  cut 1 canvas on fold\r\n}\r\n`));
  test('only of problems in the range', () => {
    const one = marked('length a = 1\nlength a = 2\nlength |b = c\n');
    expect(fixes(one.snapshot, one.range).map((fix) => fix.problem.code)).not.toContain('duplicate-name');
  });
  test('an option that two choices have is named with its own', () => {
    const text = 'choice a is x or y\nchoice b is x or y\nlength l = 1 for a x\n';
    const snapshot = snapshotOfText(text);
    const [fix] = fixes(snapshot, { start: text.indexOf('1 for'), end: text.indexOf('1 for') }).filter((one) => one.problem.code === 'missing-option');
    expect(edited(text, fix?.edits ?? [])).toBe('choice a is x or y\nchoice b is x or y\nlength l = 1 for a x, 1 for a y\n');
  });
});

describe('all safe fixes at once', () => {
  function checkAll(text: string, expected: string): void {
    const snapshot = snapshotOfText(text);
    expect(edited(text, fixAll(snapshot))).toBe(expected);
  }
  test('one lays bare the next', () => checkAll('pattern "A"\nrevision 1\nlength a = 1\nlength b = a\nlength c = b\nunit in\nunit cm\n', 'pattern "A"\nrevision 1\nunit in\n'));
  test('twins that are alike', () => checkAll(`pattern "A"\nrevision 1\nallowance 0\n${canvas}piece a {\n  outline rectangle 1 by 2\n  cut 2 canvas twins\n}\n`, `pattern "A"\nrevision 1\nallowance 0\n${canvas}piece a {\n  outline rectangle 1 by 2\n  cut 2 canvas\n}\n`));
  test('what is not safe stays', () => checkAll('length a = 1\nlength a = 2\n', 'length a = 1\nlength a = 2\n'));

  const lines = fc.shuffledSubarray(['length a = 1', 'length b = a', 'length c = b + d', 'length d = 2', 'count n = 2', 'unit in', 'unit cm', 'choice t is x or y', 'thing card = 3 by 2', 'sizes S, M', 'check d matches d', 'note "open', 'allowance 1/4', 'allowance 1/2', 'material y {\n  width 3\n  width 4\n}']);
  const inside = fc.shuffledSubarray(['on fold left', 'allowance left 1/8', 'grain up', 'grain across', 'cut 2 canvas twins', 'cut 1 canvas when t is x', 'cutt 1 canvas', 'this way up', 'cut n canvas', 'drawn to cutting', 'note "x']);
  test('leave no safe fix that works, and change nothing that is made', () => {
    fc.assert(fc.property(lines, inside, fc.boolean(), (top, own, closed) => {
      const text = `pattern "A"\nrevision 1\n${canvas}${top.join('\n')}\npiece p {\n  outline rectangle 4 by 3\n  ${own.join('\n  ')}\n${closed ? '}\n' : ''}`;
      const snapshot = snapshotOfText(text);
      const after = snapshotOfText(edited(text, fixAll(snapshot)));
      expect(factsOf(after.pattern)).toBe(factsOf(snapshot.pattern));
      for (const { problem } of problemsOfFile(after)) {
        for (const fix of fixesOf(after, problem).filter((one) => one.safe)) expect(factsOf(snapshotOfText(edited(after.file.text, fix.edits)).pattern), fix.title).not.toBe(factsOf(after.pattern));
      }
    }), { numRuns: 40 });
  });
});
