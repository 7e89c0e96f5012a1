import { describe, expect, test } from 'vitest';
import { completion } from '../../server/src/language/completion.ts';
import { hover } from '../../server/src/language/hover.ts';
import { references } from '../../server/src/language/references.ts';
import { rename } from '../../server/src/language/rename.ts';
import { semanticTokens } from '../../server/src/language/semantic-tokens.ts';
import { symbols } from '../../server/src/language/symbols.ts';
import { printFile } from '../../server/src/syntax/print.ts';
import { bracketed, marked, textsIn } from '../support/marked.ts';

/** An invented sleeve for a flute. */
const spec = `pattern "Sleeve"
revision 1
unit in
allowance 1/4
use "list.piece"
piece panel "Panel" {
  outline rectangle 4 by 9
  edge top hemmed 1/4
  edge left raw
  cut 2 felt
  cut 2 crisp
}
supply clasp {
  kind other
}
seam side "Side" = panel.right with panel.right
seam base = panel.bottom with panel.bottom
step "Fuse." does panel.layers
step "Sew the side, {side.length} long." does side
`;
const others = { 'list.piece': 'material felt {\n  role non-fray\n  width 30\n}\nmaterial crisp {\n  role fusible\n  width 30\n}\n' };
const at = (line: string) => marked(`${spec}${line}`, others);
const offered = (line: string): readonly string[] => {
  const { snapshot, offset } = at(line);
  return completion(snapshot, offset, []).map(({ label }) => label);
};

test('edges that are not sewn yet are offered first in a seam, and say so', () => {
  const { snapshot, offset } = at('seam more = panel.|');
  expect(completion(snapshot, offset, []).map(({ label, detail }) => `${label} ${detail}`.trim()).slice(0, 4)).toEqual(['bottom', 'right', 'top', 'left']);
  const fewer = marked(spec.replace('seam base = panel.bottom with panel.bottom\n', 'seam base = panel.|\n'), others);
  expect(completion(fewer.snapshot, fewer.offset, []).map(({ label, detail }) => `${label} ${detail}`.trim()).slice(0, 2)).toEqual(['bottom not sewn yet', 'right']);
});

describe('what is offered in a step', () => {
  test('is what no step does yet, and pieces', () => expect(offered('step "Set it." does |')).toEqual(['base', 'clasp', 'panel']));
  test('after a piece, its layers and edges that no step does yet', () => expect(offered('step "Hem." does panel.|')).toEqual(['top']));
  test('in the braces of its sentence, what a formula may begin with', () => expect(offered('step "So {s|')).toContain('side'));
  test('and the measures of what is named there', () => expect(offered('step "So {side.|')).toEqual(['length', 'fullness', 'open', 'open_from']));
  test('in the sentence itself nothing is', () => expect(offered('step "So s|')).toEqual([]));
  test('nor behind its braces', () => expect(offered('step "So {side.length} s|')).toEqual([]));
});

test('hover on the sentence tells it worked out, with its number and what it does', () => {
  const { snapshot, offset } = marked(spec.replace('Sew the', 'Se|w the'), others);
  expect(hover(snapshot, offset)?.markdown).toBe('**Step 2**\n\nSew the side, 8 1/2 in long.\n\n- Side');
});
test('hover on a formula in it tells what it gives', () => {
  const { snapshot, offset } = marked(spec.replace('{side.length', '{side.len|gth'), others);
  expect(hover(snapshot, offset)?.markdown).toContain('8 1/2 in');
});
test('a name is found and renamed in sentences and in what steps do', () => {
  const { snapshot, offset, text } = marked(spec.replace('seam side', 'seam si|de'), others);
  expect(bracketed(text, references(snapshot, [], offset, true).filter(({ file }) => file === 'main.piece'))).toContain('step "Sew the [side], {[side].length} long." does [side]'.replace('the [side]', 'the side'));
  const edits = rename(snapshot, [], offset, 'flank');
  expect(JSON.stringify(edits).match(/flank/g)).toHaveLength(3);
});
test('colours tell the names in a sentence from its words', () => {
  const { snapshot, text } = marked(spec, others);
  const line = text.lastIndexOf('step');
  const tokens = semanticTokens(snapshot).filter(({ start }) => start >= line);
  expect(tokens.map(({ start, length, type }) => `${type} ${text.slice(start, start + length)}`)).toEqual(['keyword step', 'string "Sew the side, {', 'function side', 'property length', 'string } long."', 'keyword does', 'function side']);
});
test('steps stand in the outline', () => {
  const { snapshot } = marked(spec, others);
  expect(symbols(snapshot.file).filter(({ kind }) => kind === 'step').map(({ name }) => name)).toEqual(['"Fuse."', '"Sew the side, {side.length} long."']);
});
test('steps are printed as they are read', () => {
  const { snapshot } = marked(`${spec}step   "A \\{ and \\"b\\", { side.length+1 }."  does side ,clasp when 1=1`, others);
  expect(printFile(snapshot.file).split('\n').at(-2)).toBe('step "A \\{ and \\"b\\", {side.length + 1}." does side, clasp when 1 = 1');
});
test('the fix of what is left out adds a step at the end', () => {
  const { snapshot } = marked(spec, others);
  const fix = snapshot.pattern.problems.find(({ code, message }) => code === 'left-out' && message.includes('base'))?.fixes[0];
  expect(fix?.edits[0]?.newText).toBe('\nstep "What to do." does base');
  expect(textsIn(spec, [{ start: 0, end: 7 }])).toEqual(['pattern']);
});

describe('formulas in other texts', () => {
  const notes = spec.replace('  cut 2 felt\n', '  cut 2 felt note "Turn {side.length} in."\n  note "So {side.length}."\n');
  const with_ = (text: string) => marked(text, others);
  test.each(['note "So {s|', 'check 1 < 2 else "So {s|', 'check 1 < 2 else warning "So {s|'])('are offered in %s', (line) => expect(offered(line)).toContain('side'));
  test('are offered in notes of pieces, cut lines and supplies', () => {
    for (const [line, by] of [['  cut 2 felt\n', '  note "So {side.|\n'], ['  cut 2 felt\n', '  cut 2 felt note "So {side.|\n'], ['  kind other\n', '  note "So {side.|\n']] as const) {
      const { snapshot, offset } = with_(spec.replace(line, by));
      expect(completion(snapshot, offset, []).map(({ label }) => label)).toEqual(['length', 'fullness', 'open', 'open_from']);
    }
  });
  test('tell what they give under the cursor', () => {
    const { snapshot, offset } = with_(notes.replace('So {side.length', 'So {side.len|gth'));
    expect(hover(snapshot, offset)?.markdown).toContain('8 1/2 in');
  });
  test('are found and renamed', () => {
    const { snapshot, offset, text } = with_(notes.replace('seam side', 'seam si|de'));
    expect(bracketed(text, references(snapshot, [], offset, true).filter(({ file }) => file === 'main.piece')).match(/\{\[side\]\.length\}/g)).toHaveLength(3);
    expect(JSON.stringify(rename(snapshot, [], offset, 'flank')).match(/flank/g)).toHaveLength(5);
  });
  test('are coloured, and printed as they are read', () => {
    const { snapshot, text } = with_(notes);
    const start = text.indexOf('note "Turn');
    const end = text.indexOf('\n', start);
    expect(semanticTokens(snapshot).filter((one) => one.start >= start && one.start < end).map((one) => `${one.type} ${text.slice(one.start, one.start + one.length)}`)).toEqual(['keyword note', 'string "Turn {', 'function side', 'property length', 'string } in."']);
    const spaced = with_(`${spec}note   "A \\{ { side.length+1 }."\ncheck 1 < 2 else  "Off by { 2*side.length }"\n`);
    expect(printFile(spaced.snapshot.file)).toContain('note "A \\{ {side.length + 1}."\ncheck 1 < 2 else "Off by {2 * side.length}"\n');
  });
});
