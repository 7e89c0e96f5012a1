import { expect, test } from 'vitest';
import { threadSentences } from '../../server/src/table/thread.ts';
import { usualDisplay } from '../../server/src/units/length.ts';

const row = (value: number, unit: 'in' | 'cm', times = 1, unsewn = 0) => ({ how: 'sewn to' as const, times, unsewn, length: { text: '', value, unit } });

test('thread is told for all seams together, in whole units', () => {
  // 30 cm and 70 cm are a metre; two and a half times that are 250 cm.
  expect(threadSentences([row(30, 'cm'), row(70, 'cm')], usualDisplay('cm'))[0]).toContain('are about 100 cm long together, ');
  expect(threadSentences([row(30, 'cm'), row(70, 'cm')], usualDisplay('cm'))[0]).toContain('(common practice): about 250 cm.');
  // Two darts of 20 cm and a seam of 60 are as long.
  expect(threadSentences([row(20, 'cm', 2), row(60, 'cm')], usualDisplay('cm'))[0]).toContain('are about 100 cm long together, each counted as often as it is sewn, ');
  // Of two seams of 60 cm 10 cm each stay open.
  expect(threadSentences([row(60, 'cm', 2, 100)], usualDisplay('cm'))[0]).toContain('are about 100 cm long together, each counted as often as it is sewn, without what is left open.');
  // 16 3/4 and 22 3/4: 39 1/2 in. That is rounded up, since less would not be enough; and 2.5 times what is told are 100 in.
  expect(threadSentences([row(16.75, 'in'), row(22.75, 'in')], usualDisplay('in'))[0]).toMatch(/about 40 in long together, .*: about 100 in\. Whatever else you sew comes on top, such as hems, zips, bindings, topstitching and ends\.$/);
  expect(threadSentences([], usualDisplay('cm'))).toEqual([]);
});
