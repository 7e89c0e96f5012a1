import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { applied } from '../../server/src/preview/difference.ts';
import { standaloneData, standalonePage, type StandaloneData } from '../../server/src/preview/standalone.ts';
import { snapshotOf } from '../../server/src/workspace/snapshot.ts';
import type { PreviewData } from '../../server/src/preview/drawing-data.ts';
import { patternFrom, wallet } from './specs.ts';

const options = { ...usualOptions, effort: 0 };
const made = (text: string): StandaloneData => {
  const pattern = patternFrom(text);
  return standaloneData(snapshotOf(pattern), pattern.combinations(), options);
};
const parts = { script: 'window.drawn = "</p>";', style: 'p { color: red }' };
const between = (page: string, start: string, end: string): string => page.slice(page.indexOf(start) + start.length, page.indexOf(end, page.indexOf(start) + start.length));

it('allows its own script and style alone, by their hashes, and asks for nothing', () => {
  const page = standalonePage(made(wallet), parts);
  const policy = between(page, 'Content-Security-Policy" content="', '"');
  const hash = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
  expect(policy).toBe(`default-src 'none'; script-src ${hash(between(page, '<script>', '</script>'))}; style-src ${hash(between(page, '<style>', '</style>'))}; base-uri 'none'; form-action 'none'`);
  expect(page).not.toMatch(/https?:|src=|href=|url\(/);
});

it('holds every combination, and lays of each', () => {
  const { data, lays, views } = made(wallet);
  expect(views.map(({ combination }) => combination)).toEqual([{ trim: 'bias' }, { trim: 'felt' }]);
  const felt = applied(data, views[1]?.data ?? { keys: {}, gone: [] }) as PreviewData;
  expect(data.choices[0]?.chosen).toBe('bias');
  expect(felt.choices[0]?.chosen).toBe('felt');
  expect(felt.table.cuts.map(({ material }) => material)).toContain('Wool felt');
  expect(lays.materials.length).toBeGreaterThan(5);
  expect(lays.purchases.length).toBeGreaterThan(lays.materials.length);
});

it('says nothing of where the text is, and is the same for the same text', () => {
  const [one, other] = [standalonePage(made(wallet), parts), standalonePage(made(wallet), parts)];
  expect(one).toBe(other);
  expect(one).not.toContain('draft.piece');
  expect(one).not.toContain('materials.piece');
});

it('is no markup, whatever a spec says', () => {
  const page = standalonePage(made('pattern "</script><script>window.hit = 1</script><!--"\nunit cm\nmaterial felt "Felt" {\n  width 30\n}\npiece a "A</script>" {\n  outline rectangle 3 by 4\n  cut 1 felt\n}\n'), parts);
  expect(page.match(/<script/g)?.length).toBe(2);
  expect(page.match(/<\/script/g)?.length).toBe(2);
  expect(page).not.toContain('<!--');
});
