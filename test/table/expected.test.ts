import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { toMarkdown } from '../../server/src/formats/markdown.ts';
import { cuttingTable } from '../../server/src/table/table.ts';
import { analyse } from '../support/spec.ts';

/*
 * The tables of every sample, in all combinations, as they were reviewed by eye with sizes worked out by hand.
 *
 * After a change that is meant, write them anew and review them again:
 *   UPDATE_EXPECTED=1 npx vitest run --config test/vitest.config.mts test/table
 */
const samples = new URL('../../samples/', import.meta.url);
const files = { 'studio/materials.piece': readFileSync(new URL('studio/materials.piece', samples), 'utf8') };

it.each(readdirSync(samples).filter((name) => name.endsWith('.piece')))('%s makes the reviewed table', (name) => {
  const { pattern, problems } = analyse(readFileSync(new URL(name, samples), 'utf8'), files, name);
  expect(problems.filter((one) => one.severity === 'error')).toEqual([]);
  const text = toMarkdown(pattern.combinations().map((combination) => cuttingTable(pattern, combination)), 'piece');
  const reviewed = new URL(`../expected/${name.replace(/\.piece$/, '.md')}`, import.meta.url);
  if (process.env['UPDATE_EXPECTED'] === '1') writeFileSync(reviewed, text);
  expect(existsSync(reviewed), 'there is no reviewed table yet').toBe(true);
  expect(text).toBe(readFileSync(reviewed, 'utf8'));
});
