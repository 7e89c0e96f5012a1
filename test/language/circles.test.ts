import { expect, it } from 'vitest';
import { ghostsOf } from '../../client/preview/since.ts';
import { finishedWords, sizeWords } from '../../client/preview/size-words.ts';
import { aboutName } from '../../server/src/language/completion-documentation.ts';
import { hover } from '../../server/src/language/hover.ts';
import { Draft } from '../preview/specs.ts';
import { marked } from '../support/marked.ts';
import { pattern } from '../support/spec.ts';

const lid = (across: string, more = ''): string => `unit in\nallowance 1/2\nmaterial felt "Felt" {\n  width 36\n}\npiece lid "Lid" {\n  outline circle across ${across}\n${more}  cut 1 felt\n}\n`;
const patch = '  placement patch = circle across 1 at 2, 2\n';

it('hover tells a circle, a piece or a line, by its diameter', () => {
  const hovered = (text: string): string => {
    const { snapshot, offset } = marked(text);
    return hover(snapshot, offset)?.markdown ?? '';
  };
  const text = hovered(lid('5').replace('lid "', 'li|d "'));
  expect(text).toContain('- cut size circle, 5 in (12.7 cm) across\n- finished size circle, 4 in (10.2 cm) across\n');
  expect(text).not.toMatch(/within|×.*×/);
  expect(hovered(lid('5', patch.replace('patch', 'pat|ch')))).toContain('circle, 1 in (2.5 cm) across, 3 1/8 in (8 cm) around');
  expect(hovered(lid('5').replace('circle across 5', 'ellipse 5 by 4').replace('lid "', 'li|d "'))).toContain('- cut size within 5 in (12.7 cm) × 4 in (10.2 cm)');
});

it('so does what is told of a name that is offered', () => expect(aboutName(marked(lid('5')).snapshot, 'lid')).toBe('circle, 5 in across as cut'));

it('so does the preview, of what is cut and finished, of lines inside, and of what was otherwise', () => {
  const draft = new Draft();
  const [before] = draft.data(lid('5', patch)).pieces;
  const [after] = draft.data(lid('5 1/4', patch)).pieces;
  expect(before && [sizeWords(before.cut), finishedWords(before)]).toEqual(['circle, 5 in across', 'finished circle, 4 in across']);
  expect(before?.drawing.parts.find(({ name }) => name === 'patch')?.detail).toBe('circle, 1 in across');
  expect([...ghostsOf(before ? [before] : [], after ? [after] : [])].map(([, { words }]) => words)).toEqual([['Cut 5 1/4 in across, was 5 in', 'Finished 4 1/4 in across, was 4 in']]);
  const [oval] = draft.data(lid('5', patch).replace('circle across 5', 'ellipse 5 by 4')).pieces;
  expect(oval && finishedWords(oval)).toBe('finished 4 in × 3 in');
  expect([...ghostsOf(before ? [before] : [], oval ? [oval] : [])].map(([, { words }]) => words)).toEqual([['Cut height 4 in, was 5 in', 'Finished height 3 in, was 4 in']]);
});

it('so does the table, of what is cut out', () => {
  const table = pattern('piece lid "Lid" {\n  outline rectangle 6 by 6\n  window peep = circle across 2 at 3, 3\n  cut 1 cloth without peep\n}').table();
  expect(table.cuts[0]?.notes).toContain('cut out peep: circle, 2 in across, 3 in from the left, 3 in from below');
});
