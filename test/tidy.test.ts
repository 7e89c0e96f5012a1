import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { core, rooms } from '../.config/layers.mjs';
import { coreFaults } from './mutants/core-faults.ts';
import { previewFaults } from './mutants/preview-faults.ts';
import { catalogue } from '../server/src/problems/catalogue.ts';

/** House rules that no compiler knows. */
const root = fileURLToPath(new URL('..', import.meta.url));
const read = (path: string): string => readFileSync(`${root}${path}`, 'utf8');

function filesIn(folder: string, ending: RegExp): readonly string[] {
  return readdirSync(root + folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && ending.test(entry.name))
    .map((entry) => `${entry.parentPath}/${entry.name}`.slice(root.length).replaceAll('\\', '/').replaceAll('//', '/'))
    .filter((path) => !path.includes('/generated/'))
    .sort();
}

const server = filesIn('server/src', /\.ts$/);
const layerOf = (path: string): string => path.split('/')[2] ?? '';

interface Import {
  readonly file: string;
  readonly from: string;
}

const imports: readonly Import[] = server.flatMap((file) =>
  [...read(file).matchAll(/^(?:import|export)\b[^'"\n;]*?(?:\bfrom\s+)?['"]([^'"\n]+)['"]|\bimport\(\s*['"]([^'"\n]+)['"]/gm)].map((match) => ({ file, from: match[1] ?? match[2] ?? '' })));

/** The folder under server/src that a relative import leads to. */
function target({ file, from }: Import): string {
  const parts = file.split('/').slice(0, -1);
  for (const part of from.split('/')) {
    if (part === '..') parts.pop();
    else if (part !== '.') parts.push(part);
  }
  return layerOf(parts.join('/'));
}

describe('imports', () => {
  it('are found', () => {
    expect(imports.length).toBeGreaterThan(300);
    expect(server.map(layerOf).every((layer) => layer in rooms)).toBe(true);
  });

  it('point one way', () => {
    const wrong = imports.filter((one) => {
      const layer = layerOf(one.file);
      if (!one.from.startsWith('.') || target(one) === layer) return false;
      return !rooms[layer]?.includes(target(one));
    });
    expect(wrong).toEqual([]);
  });

  it('keep the core from editors, files and processes', () => {
    const outside = imports.filter(({ file, from }) => layerOf(file) in core && /^(?:node:|vscode)/.test(from));
    expect(outside).toEqual([]);
    const inCli = imports.filter(({ file, from }) => layerOf(file) === 'cli' && from.startsWith('vscode'));
    expect(inCli).toEqual([]);
  });
});

describe('the core', () => {
  it('gives the same for the same text: no chance, and no clock but for a worker’s signs of life', () => {
    const guilty = server.filter((path) => layerOf(path) in core && path !== 'server/src/workers/runner.ts' && /Math\.random|Date\.now|new Date\b|performance\.now|setTimeout|setInterval|process\./.test(read(path).replace(/^\s*(?:\/\/|\*|\/\*).*$/gm, '')));
    expect(guilty).toEqual([]);
  });
});

describe('files', () => {
  /** Longer ones, each with a reason. */
  const long: Readonly<Record<string, string>> = {
    'server/src/syntax/tree.ts': 'the types of the whole tree, one after the other',
    'server/src/lay/rectangles/beam.ts': 'one search, its moves and its score',
  };
  it('are short', () => {
    const all = [...server, ...filesIn('client', /\.(?:ts|mjs)$/), ...filesIn('test', /\.(?:ts|mts)$/), ...filesIn('grammar', /\.mjs$/)];
    expect(all.length).toBeGreaterThan(150);
    expect(all.filter((path) => !(path in long) && read(path).split('\n').length > 450)).toEqual([]);
    expect(Object.keys(long).filter((path) => !existsSync(root + path))).toEqual([]);
  });
});

describe('problems', () => {
  const codes = Object.keys(catalogue);

  it('are all reported somewhere', () => {
    const text = server.filter((path) => !path.endsWith('catalogue.ts')).map(read).join('\n');
    expect(codes.filter((code) => !text.includes(`'${code}'`))).toEqual([]);
  });

  it('have each a section of the language reference, and no section stands for none', () => {
    const sections = [...read('grammar/reference.md').matchAll(/^#{3,4} `?([a-z-]+)`?$/gm)].map((match) => match[1] ?? '');
    expect(codes.filter((code) => !sections.includes(code))).toEqual([]);
    expect(sections.filter((section) => !codes.includes(section))).toEqual([]);
    expect(new Set(sections).size).toBe(sections.length);
  });
});

describe.each(['README.md', 'DEVELOPERS.md'])('%s', (document) => {
  it('names files that are there', () => {
    const text = read(document).replace(/^```[^]*?^```$/gm, '');
    const named = [...text.matchAll(/`([^`\n]+)`|\]\(([^)\s]+)\)/g)].map((match) => match[1] ?? match[2] ?? '');
    const paths = named.filter((name) => /^[\w.-]+(?:\/[\w.-]+)*\/?$/.test(name) && (name.includes('/') || /\.(?:ts|mjs|md|json|piece|png)$/.test(name)) && !/^\.[a-z]+$/.test(name));
    // What is built or fetched is not there before that.
    const kept = paths.filter((path) => !/^(?:dist|build|node_modules|\.editors)\//.test(path));
    // A bare name of a file or a folder may stand for one further down.
    const everything = new Set([...server, ...filesIn('test', /./), ...filesIn('client', /./)].flatMap((path) => path.split('/').map((part, index, all) => (index === all.length - 1 ? part : `${part}/`))));
    expect(kept.length).toBeGreaterThan(2);
    expect(kept.filter((path) => !existsSync(root + path) && !everything.has(path))).toEqual([]);
  });
});

describe('the faults that tests are tried with', () => {
  it.each([...coreFaults, ...previewFaults])('are of a line that stands there once: $what', ({ file, before, after, tests }) => {
    expect(read(file).split(before)).toHaveLength(2);
    expect(after).not.toBe(before);
    expect(tests.filter((test) => !existsSync(root + test))).toEqual([]);
  });
});
