import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { format } from '../../server/src/language/format.ts';
import { cuttingTable } from '../../server/src/table/table.ts';
import { Workspace } from '../../server/src/workspace/workspace.ts';
import type { Snapshot } from '../../server/src/workspace/snapshot.ts';
import { pouch, materials } from '../support/pouch.ts';
import { generateSpec } from '../support/generate.ts';

/** Everything that a snapshot says, with absolute places, so that it can be compared with another one. */
function said(snapshot: Snapshot): unknown {
  const { pattern } = snapshot;
  const place = (one: Parameters<Snapshot['locate']>[0]): unknown => {
    const at = snapshot.locate(one);
    expect(at, 'every place is still in a file').toBeDefined();
    return at;
  };
  const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value, (key, part: unknown) => (typeof part === 'bigint' ? String(part) : key === 'place' ? undefined : part)));
  return {
    problems: pattern.problems.map((one) => [one.code, one.severity, one.message, one.when, place(one.place), one.related.map((other) => [other.message, place(other.place)])]),
    tables: pattern.combinations().map((combination) => plain(cuttingTable(pattern, combination))),
    values: [...pattern.world.names.keys()].map((name) => pattern.value(name, new Map())?.amount.toFraction()),
  };
}

function clean(texts: ReadonlyMap<string, string>, path: string): Snapshot {
  const workspace = new Workspace();
  for (const [one, text] of texts) workspace.setDisk(one, text);
  const snapshot = workspace.snapshot(path);
  if (snapshot === undefined) throw new Error('no snapshot');
  return snapshot;
}

type Edit = (text: string) => string;

/** One change of a text: letters, lines, braces, quotes, names, whole declarations. */
const edit: fc.Arbitrary<Edit> = fc.oneof(
  fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom('{', '}', '"', '#', '\n', ' ', '1', 'x', '.', ',', '=', '\r\n', '(', 'é', '🧵')).map(([at, letter]): Edit => (text) => {
    const offset = Math.floor(at * text.length);
    return text.slice(0, offset) + letter + text.slice(offset);
  }),
  fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 1, max: 12 })).map(([at, length]): Edit => (text) => {
    const offset = Math.floor(at * text.length);
    return text.slice(0, offset) + text.slice(offset + length);
  }),
  fc.double({ min: 0, max: 0.999, noNaN: true }).map((at): Edit => (text) => {
    const lines = text.split('\n');
    lines.splice(Math.floor(at * lines.length), 1);
    return lines.join('\n');
  }),
  fc.tuple(fc.double({ min: 0, max: 0.999, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })).map(([from, to]): Edit => (text) => {
    const lines = text.split('\n');
    lines.splice(Math.floor(to * lines.length), 0, lines[Math.floor(from * lines.length)] ?? '');
    return lines.join('\n');
  }),
  fc.constantFrom<readonly [string, string]>(['base', 'wide'], ['front', 'shell'], ['canvas', 'crisp'], ['hem', 'top'], ['core', 'view'], ['flap', 'cord'], ['S,', 'S, M,'], ['unit in', 'unit cm'], ['3/8', '1/4'])
    .chain(([from, to]) => fc.boolean().map((all): Edit => (text) => (all ? text.replaceAll(from, to) : text.replace(from, to)))),
  fc.double({ min: 0, max: 0.999, noNaN: true }).map((at): Edit => (text) => {
    const blocks = text.split('\n\n');
    const index = Math.floor(at * blocks.length);
    return [...blocks.slice(0, index), blocks[index] ?? '', ...blocks.slice(index)].join('\n\n');
  }),
);

describe('a snapshot after edits is that of a clean start', () => {
  test('whatever the edits', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom('main.piece', 'main.piece', 'main.piece', 'materials.piece'), edit), { minLength: 1, maxLength: 8 }), (edits) => {
        const texts = new Map([['main.piece', pouch], ['materials.piece', materials]]);
        const workspace = new Workspace();
        for (const [path, text] of texts) workspace.open(path, text);
        workspace.snapshot('main.piece');
        const met: { readonly path: string; readonly text: string }[] = [];
        for (const [path, change] of edits) {
          met.push({ path, text: texts.get(path) ?? '' });
          texts.set(path, change(texts.get(path) ?? ''));
          workspace.open(path, texts.get(path) ?? '');
          const snapshot = workspace.snapshot('main.piece');
          if (snapshot === undefined) throw new Error('no snapshot');
          expect(said(snapshot)).toEqual(said(clean(texts, 'main.piece')));
        }
        // And back again, step by step.
        for (const { path, text } of met.reverse()) {
          texts.set(path, text);
          workspace.open(path, text);
        }
        const snapshot = workspace.snapshot('main.piece');
        expect(snapshot && said(snapshot)).toEqual(said(clean(texts, 'main.piece')));
      }),
      { numRuns: 120 },
    );
  }, 120_000);

  test('in a larger text, with every edit at another place', () => {
    let text = generateSpec(300);
    const workspace = new Workspace();
    workspace.open('a.piece', text);
    workspace.snapshot('a.piece');
    fc.assert(fc.property(edit, (change) => {
      const now = change(text);
      workspace.open('a.piece', now);
      const snapshot = workspace.snapshot('a.piece');
      if (snapshot === undefined) throw new Error('no snapshot');
      expect(said(snapshot)).toEqual(said(clean(new Map([['a.piece', now]]), 'a.piece')));
      workspace.open('a.piece', text);
      text = now.length < 20_000 ? text : generateSpec(300);
    }), { numRuns: 15 });
  }, 120_000);
});

describe('texts', () => {
  test('an open text hides the one on disk until it is closed', () => {
    const workspace = new Workspace();
    workspace.setDisk('a.piece', 'length a = 1\n');
    workspace.open('a.piece', 'length a = 2\n');
    expect(workspace.text('a.piece')).toBe('length a = 2\n');
    workspace.close('a.piece');
    expect(workspace.text('a.piece')).toBe('length a = 1\n');
  });

  test('a snapshot stays the same object until a text that it uses changes', () => {
    const workspace = new Workspace();
    workspace.open('main.piece', 'use "m.piece"\nlength a = b\n');
    const before = workspace.snapshot('main.piece');
    workspace.open('other.piece', 'length x = 1\n');
    expect(workspace.snapshot('main.piece')).toBe(before);
    workspace.setDisk('m.piece', 'length b = 1\n');
    const after = workspace.snapshot('main.piece');
    expect(after).not.toBe(before);
    expect(before?.pattern.problems.map((one) => one.code)).toContain('missing-file');
    expect(after?.pattern.problems.map((one) => one.code)).not.toContain('missing-file');
    workspace.setDisk('m.piece', 'length b = 1\n');
    expect(workspace.snapshot('main.piece')).toBe(after);
  });

  test('wanted are the files that nobody has said anything of, by way of others too', () => {
    const workspace = new Workspace();
    workspace.open('a/main.piece', 'use "b.piece"\nuse "../../out.piece"\n');
    expect(workspace.wanted('a/main.piece')).toEqual(['a/b.piece']);
    workspace.setDisk('a/b.piece', 'use "../c.piece"\n');
    expect(workspace.wanted('a/main.piece')).toEqual(['c.piece']);
    workspace.setDisk('c.piece', undefined);
    expect(workspace.wanted('a/main.piece')).toEqual([]);
    expect(workspace.usersOf('c.piece')).toEqual(['a/b.piece', 'a/main.piece']);
  });

  test('a text that is too long is not read, and goes out as it came in', () => {
    const workspace = new Workspace();
    const text = 'length a = 1\n'.repeat(400_000);
    workspace.open('a.piece', text);
    const snapshot = workspace.snapshot('a.piece');
    expect(snapshot?.pattern.problems.map((one) => one.code)).toEqual(['file-too-long']);
    expect(snapshot?.pattern.world.names.size).toBe(0);
    expect(snapshot && format(snapshot)).toEqual([]);
  });

  test('a chain of values longer than any stack is deep is computed', () => {
    const chain = Array.from({ length: 5000 }, (_, index) => `length v${index} = v${index + 1} + 1`).join('\n');
    const workspace = new Workspace();
    workspace.open('a.piece', `${chain}\nlength v5000 = 1\n`);
    expect(workspace.snapshot('a.piece')?.pattern.value('v0', new Map())?.amount.div(254).mul(10).toFraction()).toBe('5001');
  });

  test.each([
    ['a sum of many terms', `length a = ${Array.from({ length: 20_000 }, () => '1').join(' + ')}\n`],
    ['many brackets', `length a = ${'('.repeat(20_000)}1${')'.repeat(20_000)}\n`],
    ['many signs', `length a = ${'-'.repeat(20_000)}1\n`],
    ['many braces', `piece a {\n  x ${'{'.repeat(20_000)}\n`],
    ['many conditions', `check ${'not '.repeat(20_000)}a is b\n`],
    ['pieces from pieces', `${Array.from({ length: 2000 }, (_, index) => `piece p${index} from p${index + 1} {\n}`).join('\n')}\npiece p2000 {\n  outline rectangle 3 by 3\n}\n`],
  ])('%s neither fail nor hang', (_, text) => {
    const workspace = new Workspace();
    workspace.open('a.piece', text);
    expect(workspace.snapshot('a.piece')?.pattern.problems.length).toBeGreaterThan(0);
  }, 30_000);
});
