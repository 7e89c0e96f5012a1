import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { cuttingTable } from '../server/src/table/table.ts';
import { diagnose } from '../server/src/language/diagnostics.ts';
import { functions } from '../server/src/model/formulas/evaluate.ts';
import { Analyst } from '../server/src/model/pattern.ts';
import { lineMeasures, pieceMeasures } from '../server/src/model/formulas/reference.ts';
import { supplyMeasures } from '../server/src/model/stock/supply.ts';
import { showValue } from '../server/src/model/formulas/value.ts';
import { libraryOf } from '../server/src/model/names/files.ts';
import { catalogue, type Code } from '../server/src/problems/catalogue.ts';
import { parseFile } from '../server/src/syntax/parse.ts';
import { cornerWords, directions, facings, priceUnits, roles, supplyKinds, weights } from '../server/src/syntax/statements/vocabulary.ts';
import { lengthUnits } from '../server/src/syntax/tree.ts';
import { snapshotOf, type Snapshot } from '../server/src/workspace/snapshot.ts';
import { limits } from '../server/src/problems/limits.ts';
import { claimsOf, examplesOf, headingsOf, marksOf, sectionsUnder, type Example, type Mark } from './support/reference-examples.ts';
import { completed, examplePath, filesBeside } from './support/reference-files.ts';

/**
 * The language reference, run. Every fenced block of the language `piece` in grammar/reference.md is a spec, or part of
 * one: what a whole spec has besides is added after it (support/reference-files.ts).
 *
 * In a block
 * - `#  ^^^^ code` on a line of its own: that problem is reported at exactly the text above the marks;
 * - `# <- code` at the end of a line: that problem is reported on that line;
 * - `# = 4 3/4 in` after a value: that is what it comes to; after a cut line: its line of the cutting table says so;
 * - nothing else is reported, save that a name is not used or a piece not cut, which parts of a spec can't help.
 */
const reference = readFileSync(new URL('../grammar/reference.md', import.meta.url), 'utf8');
const grammar = readFileSync(new URL('../grammar/piece.peggy', import.meta.url), 'utf8');
const examples = examplesOf(reference);

const inParts = ['unused-name', 'never-cut'];

function analysed(example: Example): Snapshot {
  const codes = marksOf(example).map((mark) => mark.code);
  const file = parseFile(examplePath, completed(example.text, codes));
  return snapshotOf(new Analyst().analyse(file, libraryOf(filesBeside(example.text))));
}

/** Each problem as the mark that would point at it. */
function found(snapshot: Snapshot): readonly Mark[] {
  const { text } = snapshot.file;
  return diagnose(snapshot).map(({ found: { code }, start, end }) => {
    const lineStart = text.lastIndexOf('\n', start - 1) + 1;
    const line = text.slice(0, start).split('\n').length - 1;
    return { code, line, columns: [start - lineStart, Math.max(end, start + 1) - lineStart] };
  });
}

describe('every example', () => {
  test.each(examples.map((example) => [`${example.heading}, line ${example.line}`, example] as const))('%s', (_, example) => {
    const marks = marksOf(example);
    const met = found(analysed(example)).filter(({ code }) => !inParts.includes(code) || marks.some((mark) => mark.code === code));
    // A mark that only points at a line says nothing of columns.
    const aligned = met.map((problem) => {
      const mark = marks.find(({ code, line }) => code === problem.code && line === problem.line);
      return mark !== undefined && mark.columns === undefined ? { ...problem, columns: undefined } : problem;
    });
    expect(aligned).toEqual(marks);
  });
});

const claiming = examples.filter((example) => claimsOf(example).length > 0);

describe('what examples say that a line comes to', () => {
  test.each(claiming.map((example) => [`${example.heading}, line ${example.line}`, example] as const))('%s', (_, example) => {
    const snapshot = analysed(example);
    for (const claim of claimsOf(example)) {
      const lineStart = example.text.split('\n').slice(0, claim.line).reduce((sum, line) => sum + line.length + 1, 0);
      expect(wordsAt(snapshot, lineStart), example.text.split('\n')[claim.line]).toContain(claim.text);
    }
  });
});

/** What the value or the cut line on a line comes to, in the first combination. */
function wordsAt(snapshot: Snapshot, lineStart: number): string {
  const { pattern } = snapshot;
  const [combination] = pattern.combinations();
  const tree = snapshot.declarationAt(lineStart)?.declaration.tree;
  if (combination === undefined || tree === undefined) return '';
  if (tree.kind === 'value') {
    const value = pattern.value(tree.name.text, combination);
    return value === undefined ? '' : showValue(value, pattern.display);
  }
  const lineEnd = snapshot.file.text.indexOf('\n', lineStart);
  const row = cuttingTable(pattern, combination).cuts.find(({ place }) => {
    const start = snapshot.locate(place)?.start ?? -1;
    return start >= lineStart && start < lineEnd;
  });
  return row === undefined ? '' : [row.size, row.wayUp, row.grain, ...row.notes].join(', ');
}

test('every link within the page leads somewhere', () => {
  const anchors = headingsOf(reference).map((heading) => heading.toLowerCase().replace(/[^\p{L}\p{N}_ -]/gu, '').replaceAll(' ', '-'));
  const links = [...reference.matchAll(/\]\(#([^)]*)\)/g)].map((match) => match[1] ?? '');
  expect(links.length).toBeGreaterThan(0);
  expect(links.filter((link) => !anchors.includes(link))).toEqual([]);
});

describe('the problems', () => {
  const codes = Object.keys(catalogue) as readonly Code[];

  test('have a section each, in the order of the catalogue, and there is no other', () => {
    expect(sectionsUnder(reference, 'Problems')).toEqual(codes);
  });

  // What no example can show is tested in code below.
  const withoutExample: readonly Code[] = ['unreadable-file', 'file-too-long', 'internal-fault'];

  test.each(codes.filter((code) => !withoutExample.includes(code)))('%s has an example', (code) => {
    const own = examples.filter((example) => example.heading === code);
    expect(own.flatMap(marksOf).map((mark) => mark.code)).toContain(code);
  });
});

describe('the limits', () => {
  const codesOf = (text: string): readonly Code[] => new Analyst().analyse(parseFile(examplePath, text), libraryOf(new Map())).problems.map(({ code }) => code);

  test('a file that is too long is said to be, and only then', () => {
    expect(codesOf('#'.repeat(limits.textLength))).toEqual([]);
    expect(codesOf('#'.repeat(limits.textLength + 1))).toEqual(['file-too-long']);
    expect(codesOf('\n'.repeat(limits.lines - 1))).toEqual([]);
    expect(codesOf('\r\n'.repeat(limits.lines))).toEqual(['file-too-long']);
    expect(catalogue['file-too-long'].words({ most: '20,000 lines' })).toBe('This file is longer than 20,000 lines, so it isn’t read.');
  });
});

describe('the words', () => {
  const lists: Readonly<Record<string, readonly string[]>> = {
    units: [...lengthUnits, 'deg', '%'],
    functions: Object.values(functions).map(({ usage }) => usage),
    'measures of pieces': Object.keys(pieceMeasures),
    'measures of lines': Object.keys(lineMeasures),
    'measures of supplies': supplyMeasures,
    corners: cornerWords,
    roles, facings, directions, weights, 'supply kinds': supplyKinds, 'price units': priceUnits,
  };

  test.each(Object.keys(lists))('the reference has all %s', (list) => {
    expect((lists[list] ?? []).filter((word) => !reference.includes(`\`${word}\``))).toEqual([]);
  });

  test('the reference lists the words that can’t be names', () => {
    const inGrammar = [.../reserved = new Set\(\[([^\]]*)\]/.exec(grammar)?.[1]?.matchAll(/'([a-z]+)'/g) ?? []].map((match) => match[1]);
    const listed = /Words that can’t be names: ([^.]*)\./.exec(reference)?.[1] ?? '';
    expect([...listed.matchAll(/`([a-z]+)`/g)].map((match) => match[1])).toEqual(inGrammar);
    expect(inGrammar.length).toBeGreaterThan(0);
  });
});
