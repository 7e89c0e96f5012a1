import { expect, it } from 'vitest';
import { namedStrokes } from '../../server/src/pages/stroke-names.ts';
import { drawTemplate } from '../../server/src/pages/template-item.ts';
import type { Item } from '../../server/src/pages/sheet.ts';
import { sizedCombinations, templatesOf, type Template } from '../../server/src/pages/templates.ts';
import { pattern } from '../support/spec.ts';

const spec = (sizes: string, w: string): Template => {
  const made = pattern(`sizes ${sizes}\nlength w = ${w}\npiece a "A" {\n  outline rectangle w by 6\n  mark clasp "Clasp" at w / 2, 3\n  mark eye "Eye" at 2, 2\n  foldline mouth "Mouth" = level at 5\n  placement tag "Tag" = rectangle 1 by 1 at w - 2, 1\n  grain up\n  cut 1 cloth\n}`, 'unit in\nallowance 1/2').pattern;
  return templatesOf(made, sizedCombinations(made, new Map(), undefined), 'all')[0]!;
};
const words = (template: Template): readonly string[] => namedStrokes(template).map((stroke) => stroke.words).filter((text) => text !== '').sort();
const texts = (items: readonly Item[]): readonly string[] => items.flatMap((item) => (item.kind === 'text' ? [item.words] : item.kind === 'group' ? texts(item.items) : []));

it('what is not the same in all sizes says which it is for', () => {
  // The eye stands 2 in from the left in both; the fold line runs over the whole width, and so has another length.
  const nested = spec('S, L', '8 for S, 10 for L');
  expect(words(nested)).toEqual(['Clasp L', 'Clasp S', 'Eye', 'Mouth L: fold', 'Mouth S: fold', 'Tag L', 'Tag S', 'stitching L', 'stitching S']);
  const written = texts(drawTemplate(nested, { title: 'T', revision: '1', templates: 1, sizes: ['S', 'L'] }).items);
  for (const one of words(nested)) expect(written).toContain(one);
});

it('sizes that are alike share a name, and one size has none', () => {
  expect(words(spec('S, M, L', '8 for S, 8 for M, 10 for L')).filter((text) => text.startsWith('Clasp'))).toEqual(['Clasp L', 'Clasp S, M']);
  expect(words(spec('S, L', '8'))).toEqual(['Clasp', 'Eye', 'Mouth: fold', 'Tag']);
});

it('a notch says which sizes it is of, where not of all: a line that sizes share has the notches of each', () => {
  const made = pattern('sizes S, M, L\nlength from_left = 2 for S, 3 for M, 3 for L\npiece a "A" {\n  outline rectangle 8 by 6\n  notch top at from_left\n  notch bottom at 50%\n  grain up\n  cut 1 cloth\n}', 'unit in\nallowance 1/2').pattern;
  const template = templatesOf(made, sizedCombinations(made, new Map(), undefined), 'all')[0]!;
  expect(words(template)).toEqual(['M, L', 'S']);
  const written = texts(drawTemplate(template, { title: 'T', revision: '1', templates: 1, sizes: ['S', 'M', 'L'] }).items);
  for (const one of ['M, L', 'S']) expect(written).toContain(one);
});

it('a fold is called so once', () => {
  const made = pattern('piece a "A" {\n  outline rectangle 8 by 6\n  foldline first_fold "First fold" = level at 2\n  foldline mouth "Mouth" = level at 4\n  grain up\n  cut 1 cloth\n}', 'unit in\nallowance 1/2').pattern;
  expect(words(templatesOf(made, sizedCombinations(made, new Map(), undefined), 'all')[0]!)).toEqual(['First fold', 'Mouth: fold']);
});

it('darts and pleats are drawn on the template, whether or not anything is cut along them', () => {
  const made = pattern('piece a "A" {\n  outline polygon from 0, 0 to 10, 0 to 9, 6 to 0, 6\n  line quilting "Quilting" = level at 2\n  dart waist "Waist" on side3 at 50% wide 1 deep 2\n  pleat front "Front" on side1 at 50% deep 1/2 towards end\n  grain up\n  cut 1 cloth\n}', 'unit in\nallowance 1/2').pattern;
  expect(words(templatesOf(made, sizedCombinations(made, new Map(), undefined), 'all')[0]!)).toEqual(['Front: lay to the arrow', 'Waist: dart']);
});

it('what is cut larger than a line shows that line to trim to, which has no template of its own', () => {
  const made = pattern('piece a "A" {\n  outline polygon from 0, 0 to 10, 0 to 9, 6 to 0, 6\n  line core "Core" = inset 1\n  grain up\n  cut 1 cloth\n  cut 1 fuse along stitching large by 1/4\n  cut 1 fuse along core large by 1/4\n}', 'unit in\nallowance 1/2').pattern;
  const [whole, large, core] = templatesOf(made, sizedCombinations(made, new Map(), undefined), 'all');
  expect(words(whole!)).toEqual(['Core']);
  expect(words(large!)).toEqual(['Core', 'cut here, trim later', 'cutting line: see its own template']);
  expect(words(core!)).toContain('Core');
  const { variants: [one] } = large!;
  const { points: round } = one!.drawing.strokes.find(({ role }) => role === 'cutting')!;
  const stitching = one!.drawing.strokes.filter(({ role }) => role === 'stitching').flatMap(({ points }) => points);
  expect(stitching.length).toBeGreaterThan(3);
  // The line to trim to runs a quarter of an inch inside the one to cut along.
  const least = (points: typeof round): number => Math.min(...points.map(({ x }) => x));
  expect(least(stitching) - least(round)).toBeCloseTo(6.35, 3);
});

it('a line that is quilted along is called the same on its template and among the marks, wherever it lies among its rows', () => {
  const made = pattern('piece a "A" {\n  outline rectangle 9 by 6\n  line low "Low line" = from 1, 1 to 8, 1\n  quilt rows "Quilting" 1 apart along low\n  grain up\n  cut 1 cloth\n}', 'unit in\nallowance 0');
  expect(words(templatesOf(made.pattern, sizedCombinations(made.pattern, new Map(), undefined), 'all')[0]!)).toEqual(['Quilting: Low line']);
  expect(made.table().marks.map(({ mark }) => mark)).toEqual(['Quilting: Low line']);
  const [low] = namedStrokes(templatesOf(made.pattern, sizedCombinations(made.pattern, new Map(), undefined), 'all')[0]!).filter((stroke) => stroke.words !== '');
  // An inch above the lower edge, which is the last on paper: y runs down.
  for (const { y } of low!.points) expect(y).toBeCloseTo(-25.4, 6);
});
