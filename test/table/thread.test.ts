import { expect, test } from 'vitest';
import { threadSentences } from '../../server/src/table/thread.ts';
import { usualDisplay } from '../../server/src/units/length.ts';

const row = (value: number, unit: 'in' | 'cm') => ({ length: { text: '', value, unit } });

test('thread is told for all seams together, in whole units', () => {
  // 30 cm and 70 cm are a metre; two and a half times that are 250 cm.
  expect(threadSentences([row(30, 'cm'), row(70, 'cm')], usualDisplay('cm'))[0]).toContain('are 100 cm long together.');
  expect(threadSentences([row(30, 'cm'), row(70, 'cm')], usualDisplay('cm'))[0]).toContain('(common practice): 250 cm.');
  expect(threadSentences([], usualDisplay('cm'))).toEqual([]);
});
