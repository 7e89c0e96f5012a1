import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv, type ValidateFunction } from 'ajv';
import fc from 'fast-check';
import type { Log } from 'sarif';
import sax from 'sax';
import { describe, expect, it } from 'vitest';
import { Analyst } from '../../../server/src/model/pattern.ts';
import { parseFile } from '../../../server/src/syntax/parse.ts';
import { distinctProblems, reportOf, type ProblemList, type ReportedProblem } from '../../../server/src/formats/problems/problem-list.ts';
import { renderReport } from '../../../server/src/formats/problems/report.ts';
import { uriOfPath } from '../../../server/src/formats/problems/path-uri.ts';

/**
 * The schema of SARIF 2.1.0 (revision 5 of the standard's release), by OASIS, as the npm package @microsoft/jest-sarif
 * 1.0.0-beta.0 carries it under the MIT licence. It is of draft 4, of which it uses nothing that draft 7 reads otherwise.
 */
function sarifSchema(): ValidateFunction<Log> {
  const schema = JSON.parse(readFileSync(fileURLToPath(new URL('sarif-2.1.0.schema.json', import.meta.url)), 'utf8')) as Record<string, unknown>;
  delete schema['$schema'];
  delete schema['id'];
  const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false });
  ajv.addFormat('uri', (text: string) => URL.canParse(text));
  // RFC 3986: what stands for itself, or percent and two digits; no part before a colon but a scheme.
  ajv.addFormat('uri-reference', (text: string) => URL.canParse(text, 'file:///a/b') && /^(?:[\w\-.~:/?#[\]@!$&'()*+,;=]|%[0-9A-F]{2})*$/.test(text));
  ajv.addFormat('date-time', () => true);
  return ajv.compile<Log>(schema);
}
const isSarif = sarifSchema();

function sarifOf(list: ProblemList): Log {
  const log: unknown = JSON.parse(renderReport(list, 'sarif'));
  if (!isSarif(log)) throw new Error(JSON.stringify(isSarif.errors));
  return log;
}

const list = (problems: readonly ReportedProblem[], files = [...new Set(problems.map(({ file }) => file))]): ProblemList => ({ version: '1.2.3', files, problems, unlisted: [] });
const found = (text: string, path = 'a.piece'): ProblemList => list(distinctProblems([reportOf(new Analyst().analyse(parseFile(path, text), () => undefined))]), [path]);

const one: ReportedProblem = { file: 'bags/a.piece', start: { line: 3, column: 5 }, end: { line: 3, column: 9 }, severity: 'error', code: 'mixed-kinds', message: 'A length and an angle can’t be added.', related: [] };

/** The XML as events, by a parser that we did not write; it throws where it is not well formed. */
function elements(xml: string): readonly { readonly name: string; readonly attributes: Readonly<Record<string, string>>; text: string }[] {
  const parser = sax.parser(true);
  const all: { name: string; attributes: Readonly<Record<string, string>>; text: string }[] = [];
  const within: (typeof all)[number][] = [];
  parser.onerror = (error) => { throw error; };
  parser.onopentag = ({ name, attributes }) => {
    const element = { name, attributes, text: '' };
    all.push(element);
    within.push(element);
  };
  parser.onclosetag = () => { within.pop(); };
  parser.ontext = (text) => { const last = within.at(-1); if (last !== undefined) last.text += text; };
  parser.write(xml).close();
  return all;
}

/** How GitHub's runner reads a command: its `ActionCommand.TryParseV2` and unescapers, retold from memory. */
function readCommand(line: string): { readonly command: string; readonly properties: Readonly<Record<string, string>>; readonly data: string } | undefined {
  const match = /^::(\w+)(?: (.*?))?::(.*)$/.exec(line);
  if (match === null) return undefined;
  const unescape = (text: string): string => text.replaceAll('%0D', '\r').replaceAll('%0A', '\n');
  const pairs = (match[2] ?? '').split(',').filter((pair) => pair !== '').map((pair) => {
    const at = pair.indexOf('=');
    return [pair.slice(0, at), unescape(pair.slice(at + 1)).replaceAll('%3A', ':').replaceAll('%2C', ',').replaceAll('%25', '%')] as const;
  });
  return { command: match[1] ?? '', properties: Object.fromEntries(pairs), data: unescape(match[3] ?? '').replaceAll('%25', '%') };
}

describe('a place in a report', () => {
  // A tab is one column, a letter beyond the first plane two: SARIF's utf16CodeUnits, as in the language server's protocol.
  const faulty = 'length w\t= 3 in + 45 deg # 𝒲𝒲';
  it.each([['LF', '\n'], ['CRLF', '\r\n'], ['CR', '\r']])('is right after lines that end with %s, tabs and letters of two units', (_, eol) => {
    const text = ['pattern "𝒲 bag"', 'revision 1', 'allowance none', faulty, 'check w = 3', ''].join(eol);
    const start = faulty.indexOf('3 in') + 1;
    const [result] = sarifOf(found(text)).runs[0]?.results ?? [];
    expect(result?.locations?.[0]?.physicalLocation?.region).toEqual({ startLine: 4, startColumn: start, endLine: 4, endColumn: faulty.indexOf(' #') + 1 });
    expect(readCommand(renderReport(found(text), 'github').split('\n')[0] ?? '')?.properties).toEqual({ file: 'a.piece', line: '4', endLine: '4', col: String(start), endColumn: String(faulty.indexOf(' #')), title: 'mixed-kinds' });
    expect((JSON.parse(renderReport(found(text), 'gitlab')) as { location: unknown }[])[0]?.location).toEqual({ path: 'a.piece', lines: { begin: 4, end: 4 } });
    expect(elements(renderReport(found(text), 'junit')).find(({ name }) => name === 'failure')?.text).toMatch(new RegExp(`^a\\.piece:4:${start} error mixed-kinds `));
  });

  it('counts a letter of two units as two columns', () => {
    const before = found('pattern "𝒲" nosuch').problems.find(({ start }) => start.line === 1);
    expect(before?.start.column).toBe('pattern "𝒲" '.length + 1);
  });
});

describe('SARIF', () => {
  it('keeps to the schema of the standard, and tells what was found where', () => {
    const log = sarifOf({ ...list([one, { ...one, severity: 'note', code: 'rounded-length', when: 'size is S', related: [{ file: 'b.piece', start: { line: 1, column: 2 }, message: 'Here.' }] }]), files: ['bags/a.piece', 'b.piece'] });
    const [run] = log.runs;
    expect(run?.tool.driver).toMatchObject({ name: 'Piecewright', version: '1.2.3' });
    expect(run?.artifacts?.map(({ location }) => location?.uri)).toEqual(['bags/a.piece', 'b.piece']);
    expect(run?.results?.map(({ ruleId, ruleIndex, level, message }) => [ruleId, run.tool.driver.rules?.[ruleIndex ?? -1]?.id, level, message.text])).toEqual([
      ['mixed-kinds', 'mixed-kinds', 'error', 'A length and an angle can’t be added.'],
      ['rounded-length', 'rounded-length', 'note', 'A length and an angle can’t be added. (only when size is S)'],
    ]);
    expect(run?.results?.[1]?.relatedLocations?.[0]).toEqual({ id: 0, physicalLocation: { artifactLocation: { uri: 'b.piece' }, region: { startLine: 1, startColumn: 2 } }, message: { text: 'Here.' } });
    expect(sarifOf({ ...list([]), unlisted: ['“x” can’t be listed.'] }).runs[0]?.invocations?.[0]).toMatchObject({ executionSuccessful: false, toolExecutionNotifications: [{ message: { text: '“x” can’t be listed.' } }] });
  });

  it('is not held by the schema where it is otherwise', () => {
    expect(isSarif({ version: '2.1.0', runs: [{ tool: { driver: { name: 'A' } }, results: [{ message: {} }] }] })).toBe(false);
    expect(isSarif({ version: '2.1.0', runs: [{ tool: { driver: { name: 'A' } }, artifacts: [{ location: { uri: 'a b.piece' } }] }] })).toBe(false);
  });

  it('lets no message be a link or a placeholder', () => {
    const [result] = sarifOf(list([{ ...one, message: 'See [this](https://example.com) {0} “{”' }])).runs[0]?.results ?? [];
    expect(result?.message.text).toBe('See [this] (https://example.com) {{0}} “{{”');
  });
});

describe('a path in an address', () => {
  it('is read back as it was', () => {
    fc.assert(fc.property(fc.array(fc.string({ unit: 'binary', minLength: 1 }).filter((part) => !/[/\0]/.test(part) && !/^\.\.?$/.test(part)), { minLength: 1, maxLength: 3 }), (parts) => {
      const path = parts.join('/');
      const uri = uriOfPath(path);
      expect(uri).toMatch(/^(?:[\w\-.~/]|%[0-9A-F]{2})+$/);
      expect(decodeURIComponent(uri)).toBe(path);
      expect(decodeURIComponent(new URL(uri, 'file:///base/').pathname)).toBe(`/base/${path}`);
    }));
    expect(uriOfPath('/home/a b/c.piece')).toBe('file:///home/a%20b/c.piece');
    expect(uriOfPath('C:/a b/c.piece')).toBe('file:///C:/a%20b/c.piece');
  });
});

const anything = fc.string({ unit: fc.oneof(fc.constantFrom(...Array.from('%:,;=\r\n\t"\'<>&]{}[]()`|#-\u001b\u202e\u0000'), '::', '%25', '%0A', ']]>', '](', '\ud800', '\ufffe', '𝒲'), fc.string({ minLength: 1, maxLength: 1 })) });
const hostile = fc.record({
  file: anything, message: anything, related: fc.constant([]), code: fc.constantFrom('mixed-kinds', 'unused-name'), severity: fc.constantFrom('error' as const, 'warning' as const, 'note' as const),
  start: fc.constant({ line: 2, column: 3 }), end: fc.constant({ line: 2, column: 3 }),
});
/** What no reader sees, left out. */
const seen = (text: string): string => text.replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069\p{Cs}\p{Noncharacter_Code_Point}]/gu, '');

describe('whatever a file is called and a message says', () => {
  it('is one finding, and read back as it was', () => {
    fc.assert(fc.property(fc.array(hostile, { maxLength: 4 }), (problems) => {
      expect(sarifOf(list(problems)).runs[0]?.results).toHaveLength(problems.length);
      const annotations = renderReport(list(problems), 'github').split('\n').slice(0, -1).map(readCommand);
      expect(annotations.map((read) => read && [read.properties['file'], read.data]).sort()).toEqual(problems.map(({ file, message }) => [seen(file), seen(message)]).sort());
      const climate = JSON.parse(renderReport(list(problems), 'gitlab')) as { readonly location: { readonly path: string }; readonly fingerprint: string }[];
      expect(climate.map(({ location }) => location.path)).toEqual(problems.map(({ file }) => file));
      expect(new Set(climate.map(({ fingerprint }) => fingerprint)).size).toBe(problems.length);
      const xml = elements(renderReport(list(problems), 'junit'));
      const files = [...new Set(problems.map(({ file }) => file))].sort();
      expect(xml.filter(({ name }) => name === 'testcase').map(({ attributes }) => attributes['name'])).toEqual(files.map(seen));
      expect(xml.filter(({ name }) => name === 'failure')).toHaveLength(new Set(problems.filter(({ severity }) => severity === 'error').map(({ file }) => file)).size);
    }), { numRuns: 300 });
  });
});

describe('JUnit XML', () => {
  it('has a test for each file, one failure where it has errors, and what is less in its output', () => {
    const xml = renderReport(list([one, { ...one, start: { line: 9, column: 1 } }, { ...one, severity: 'warning' }], ['b.piece', 'bags/a.piece']), 'junit');
    const [, suite, clean, failed, failure, output] = elements(xml);
    expect(suite).toMatchObject({ name: 'testsuite', attributes: { tests: '2', failures: '1', errors: '0' } });
    expect(clean).toMatchObject({ name: 'testcase', attributes: { name: 'b.piece' } });
    expect(failed).toMatchObject({ name: 'testcase', attributes: { name: 'bags/a.piece' } });
    expect(failure).toMatchObject({ name: 'failure', attributes: { type: 'mixed-kinds', message: 'A length and an angle can’t be added. And 1 more.' } });
    expect(failure?.text.split('\n')).toHaveLength(2);
    expect(output).toMatchObject({ name: 'system-out', text: expect.stringContaining('warning mixed-kinds') as string });
  });
});

describe('GitHub’s annotations', () => {
  it('are escaped, with the errors first', () => {
    const text = renderReport(list([{ ...one, severity: 'note' }, { ...one, file: 'a,b:c%.piece', message: '50 %\nmore' }]), 'github');
    expect(text).toBe('::error file=a%2Cb%3Ac%25.piece,line=3,endLine=3,col=5,endColumn=8,title=mixed-kinds::50 %25%0Amore\n'
      + '::notice file=bags/a.piece,line=3,endLine=3,col=5,endColumn=8,title=mixed-kinds::A length and an angle can’t be added.\n');
  });

  it('tell no columns of what goes over several lines', () => {
    expect(renderReport(list([{ ...one, end: { line: 4, column: 2 } }]), 'github')).toContain('line=3,endLine=4,title=');
  });
});

describe('GitLab’s report', () => {
  it('has the fields that its documentation asked for, from memory, and a fingerprint that stays where lines move', () => {
    const read = (problems: readonly ReportedProblem[]): readonly Readonly<Record<string, unknown>>[] => JSON.parse(renderReport(list(problems), 'gitlab')) as Readonly<Record<string, unknown>>[];
    const [first, second] = read([one, one]);
    expect(first).toEqual({ description: one.message, check_name: 'mixed-kinds', fingerprint: expect.stringMatching(/^[0-9a-f]{32}$/) as string, severity: 'major', location: { path: 'bags/a.piece', lines: { begin: 3, end: 3 } } });
    expect(second?.['fingerprint']).not.toBe(first?.['fingerprint']);
    expect(read([{ ...one, start: { line: 30, column: 1 } }])[0]?.['fingerprint']).toBe(first?.['fingerprint']);
  });
});
