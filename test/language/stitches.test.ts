import { expect, test } from 'vitest';
import { completion } from '../../server/src/language/completion.ts';
import { hover } from '../../server/src/language/hover.ts';
import { references } from '../../server/src/language/references.ts';
import { rename } from '../../server/src/language/rename.ts';
import { semanticTokens } from '../../server/src/language/semantic-tokens.ts';
import { bracketed, marked } from '../support/marked.ts';

/** An invented flap with its topstitching. */
const spec = `pattern "Flap"
revision 1
unit in
allowance 1/4
drawn to stitching
use "list.piece"
piece flap "Flap" {
  outline rectangle 6 by 4
  edge top raw
  topstitch rim 1/8 from left, bottom, right
  cut 2 felt
}
piece other from flap {
  without rim
  cut 1 felt
}
supply ring {
  kind ring
  across 6 in
}
length row = flap.rim
step "Topstitch, {flap.rim} long." does flap.rim
`;
const others = { 'list.piece': 'material felt {\n  role non-fray\n  width 30\n}\n' };
const at = (from: string, to: string) => marked(spec.replace(from, to), others);
const offered = (from: string, to: string): readonly string[] => {
  const { snapshot, offset } = at(from, to);
  return completion(snapshot, offset, []).map(({ label }) => label);
};

test('the lines of a piece are begun with it, and their parts offered', () => {
  expect(offered('  edge top raw\n', '  edge top raw\n  |\n')).toEqual(expect.arrayContaining(['topstitch', 'quilt']));
  expect(offered('1/8 from left, bottom, right', '1/8 from |')).toEqual(expect.arrayContaining(['left', 'bottom', 'right', 'top']));
  expect(offered('1/8 from left, bottom, right', '1/8 |')).toContain('from');
  expect(offered('length row = flap.rim', 'length row = flap.|')).toContain('rim');
  expect(offered('does flap.rim\n', 'does flap.|\n')).toContain('rim');
  expect(offered('  across 6 in\n', '  across 6 in\n  fits |\n')).toEqual(['ring', 'flap', 'other']);
});
test('under the cursor it says how far from what it lies, and how long it is', () => {
  const { snapshot, offset } = at('= flap.rim', '= flap.r|im');
  expect(hover(snapshot, offset)?.markdown).toContain('1/8 in from the finished edge');
  // 4 less 1/8 at both sides, and 6 less 1/8 at both corners.
  expect(hover(snapshot, offset)?.markdown).toContain('13 1/2 in');
});
test('it is found and renamed in formulas, in sentences, in steps and where a copy leaves it out', () => {
  const { snapshot, offset, text } = at('topstitch rim', 'topstitch ri|m');
  expect(bracketed(text, references(snapshot, [], offset, true).filter(({ file }) => file === 'main.piece')).match(/\[rim\]/g)).toHaveLength(5);
  expect(JSON.stringify(rename(snapshot, [], offset, 'seam_row')).match(/seam_row/g)).toHaveLength(5);
});
test('its words are coloured', () => {
  const { snapshot, text } = marked(spec, others);
  const line = text.indexOf('  topstitch');
  expect(semanticTokens(snapshot).filter(({ start }) => start > line).slice(0, 4).map(({ start, length, type }) => `${type} ${text.slice(start, start + length)}`)).toEqual(['keyword topstitch', 'property rim', 'number 1/8', 'keyword from']);
});
