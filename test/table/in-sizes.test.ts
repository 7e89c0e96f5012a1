import { expect, it } from 'vitest';
import { inSizes, wordsOf } from '../../server/src/table/in-sizes.ts';
import { documentsOf } from '../../server/src/table/document.ts';
import { cuttingTable } from '../../server/src/table/table.ts';
import { pattern } from '../support/spec.ts';

const said = (...texts: readonly string[]): string => inSizes(texts.map((text, index) => ({ size: 'SML'[index] ?? '', text })));

it.each([
  [['Sew 9 in long.', 'Sew 11 in long.'], 'Sew (S) 9 in, (M) 11 in long.'],
  [['Cut 9 1/2 in × 7 in, 2 of them.', 'Cut 10 in × 7 in, 2 of them.'], 'Cut (S) 9 1/2 in × 7 in, (M) 10 in × 7 in, 2 of them.'],
  [['A 5 cm by 3.5 cm, b 1/2 in.', 'A 5 cm by 4 cm, b 3/4 in.'], 'A (S) 5 cm by 3.5 cm, (M) 5 cm by 4 cm, b (S) 1/2 in, (M) 3/4 in.'],
  [['Ease 3 in (7.6 cm) in.', 'Ease 4 in (10.2 cm) in.'], 'Ease (S) 3 in (7.6 cm), (M) 4 in (10.2 cm) in.'],
  [['Sew about 9 in long.', 'Sew about 11 in long.'], 'Sew (S) about 9 in, (M) about 11 in long.'],
  [['Sew 9 in long.', 'Sew about 11 in (exactly 11 1/16 in; about 28.1 cm) long.'], 'Sew (S) 9 in, (M) about 11 in (exactly 11 1/16 in; about 28.1 cm) long.'],
  [['Cut 2 in (about 5.1 cm) × 5 in (12.7 cm).', 'Cut 3 in (about 7.6 cm) × 5 in (12.7 cm).'], 'Cut (S) 2 in (about 5.1 cm) × 5 in (12.7 cm), (M) 3 in (about 7.6 cm) × 5 in (12.7 cm).'],
  [['Fold about here, 2 in.', 'Fold about here, 3 in.'], 'Fold about here, (S) 2 in, (M) 3 in.'],
  [['To 8%', 'To 9%', 'To 8%'], 'To (S, L) 8%, (M) 9%'],
])('%j', (texts, once) => {
  expect(new Set(texts.map(wordsOf)).size).toBe(1);
  expect(said(...texts)).toBe(once);
});

it('no figure is taken out of a name', () => {
  expect(wordsOf('Fold A4 at seam2')).toBe('Fold A4 at seam2');
});

it('a step is told once where sizes differ in its figures alone, and whole for each where they differ in words', () => {
  const spec = pattern('sizes S, L\nlength w = 8 for S, 10 for L\npiece a {\n  outline rectangle w by 6\n  grain up\n  cut 2 cloth\n}\nseam s = a.top with a.top\nstep "Sew {s.length} long, {a.left} high." does s\nstep "Trim a corner." when size is S\nstep "Press." when size is L').pattern;
  const [document] = documentsOf(['S', 'L'].map((size) => cuttingTable(spec, new Map([['size', size]]))), 'piece');
  const steps = document!.sections.find(({ key }) => key === 'steps')!;
  expect(steps.rows.map((row) => row[1]?.text)).toEqual(['Sew (S) 8 in, (L) 10 in long, 6 in high.', 'S: Trim a corner; L: Press.']);
});
