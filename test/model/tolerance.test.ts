import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { analyse } from '../support/spec.ts';

// Many specs are computed here, which takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const read = (name: string): string => readFileSync(new URL(`../../samples/${name}`, import.meta.url), 'utf8');
const files = { 'studio/materials.piece': read('studio/materials.piece') };
const samples = ['orchard-wallet', 'harvest-bunting', 'market-apron', 'potters-roll', 'tidal-crossbody'].map((name) => read(`${name}.piece`));

describe('one broken line', () => {
  it.each([
    ['  outline rectangel wrap_w by wallet_h', '  outline rectangle wrap_w by wallet_h', ['wrap', 'edging']],
    ['  cut 1 1 canvas', '  cut 1 canvas', ['wrap']],
    ['length wallet_h = ', 'length wallet_h = 6 1/2', ['wrap', 'inside', 'edging']],
    ['  note "not closed', '  cut 1 poplin\n', ['inside']],
    ['supply thread Polyester {', 'supply thread "Polyester thread" {', []],
    ['    arc too 0, 0 through', '    arc to 0, 0 through', ['leaf']],
  ])('leaves everything else as it was: %s', (broken, whole, hanging) => {
    const text = samples[0] ?? '';
    expect(text).toContain(whole);
    const before = analyse(text, files);
    const found = analyse(text.replace(whole, broken), files);
    expect(found.problems.filter((one) => one.severity === 'error')).toHaveLength(1);
    const pieces = (one: typeof found): readonly string[] => one.rows().map((row) => `${row.pieceName} ${row.materialName} ${row.size}`);
    const lost = pieces(before).filter((row) => !pieces(found).includes(row));
    const names = new Set(lost.map((row) => row.split(' ')[0]));
    // What is lost hangs on the broken line; other pieces are as they were.
    expect(pieces(found).length).toBeGreaterThan(0);
    expect([...names].filter((name) => !hanging.includes(name ?? ''))).toEqual([]);
    expect(pieces(found)).toContain('packet_pocket print 4 1/4 in × 10 3/4 in');
  });

  it('in a block left open ends at the next declaration', () => {
    const found = analyse('pattern "T"\nrevision 1\nallowance none\npiece a {\n  outline rectangle 2 by 1\n\npiece b {\n  outline rectangle 4 by 3\n}\nlength w = a.width + b.width\ncheck w = 6');
    expect(found.faults).toEqual(['unclosed-block: {']);
    expect(found.inches('w')).toBe('6');
  });
});

/** Sizes of everything that does not lie in a stretch of the text, by the name of its declaration. */
function sizes(text: string): ReadonlyMap<string, string> {
  const found = analyse(text, files);
  const all = new Map<string, string>();
  for (const name of found.pattern.world.names.keys()) {
    const value = found.pattern.value(name, new Map());
    if (value !== undefined) all.set(name, value.amount.toFraction());
    const shape = found.pattern.shape(name, new Map());
    if (shape !== undefined) all.set(name, shape.cutting.edges.map((edge) => `${edge.name} ${edge.start.x.toFixed(3)} ${edge.start.y.toFixed(3)}`).join(' '));
  }
  found.table();
  return all;
}

describe('any slip', () => {
  it('neither throws nor hangs, and what does not hang on it still computes', () => {
    const independent = ['length alone = 3 + 1/4', 'piece alone_piece {\n  outline circle across alone\n  allowance 1/4\n}'];
    fc.assert(fc.property(fc.constantFrom(...samples), fc.nat(), (sample, at) => {
      const index = at % sample.length;
      const slipped = sample.slice(0, index) + sample.slice(index + 1);
      const text = `unit in\n${independent.join('\n')}\n${slipped.replace(/^unit \w+$/m, '').replace(/^drawn to stitching$/m, '')}`;
      const all = sizes(text);
      expect(all.get('alone')).toBe('1651/20');
      expect(all.get('alone_piece')).toBeDefined();
    }), { numRuns: 15 });
  });

  it('stays in its own declaration, but for what is built on it', () => {
    // Names so unlike that no slip turns one into another.
    const nameOf = (n: number): string => String.fromCharCode(97 + n).repeat(4);
    const text = Array.from({ length: 12 }, (_, n) => `piece ${nameOf(n)} {\n  outline rectangle ${n + 1} by 2\n  corner top round 1/4\n  line core = inset 1/8\n  notch bottom at 50%\n  grain up\n  cut 1 canvas\n}\n`);
    const head = 'pattern "T"\nrevision 1\nallowance 1/4\nuse "studio/materials.piece"\n';
    const before = sizes(head + text.join(''));
    expect(before.get('llll')).toBeDefined();
    fc.assert(fc.property(fc.nat(11), fc.nat(), fc.constantFrom('', '"', '{', '}', '#', ',', '9', ' '), (n, at, put) => {
      const own = text[n] ?? '';
      const index = at % own.length;
      const changed = [...text];
      changed[n] = own.slice(0, index) + put + own.slice(index + 1);
      const after = sizes(head + changed.join(''));
      for (let other = 0; other < n; other++) expect(after.get(nameOf(other))).toBe(before.get(nameOf(other)));
      // A brace too few may take the next declaration with it, until the next line that starts one.
      for (let other = n + 2; other < 12; other++) expect(after.get(nameOf(other))).toBe(before.get(nameOf(other)));
    }), { numRuns: 30 });
  });

  it('or any nonsense is survived', () => {
    const words = fc.constantFrom('piece', 'length', 'a', '{', '}', '"', '=', 'by', 'in', '1/0', '7 1/2', ',', '\n', '#', 'from', 'outline', 'rectangle', 'path', '(', ')', 'cut', 'sizes', 'S', 'for', 'otherwise', 'check', 'line', 'to', '\u0000', '½', '\ud800', 'é', '.', '%', 'use', '-');
    fc.assert(fc.property(fc.array(words, { maxLength: 60 }), (parts) => {
      const found = analyse(parts.join(' '));
      for (const combination of found.pattern.combinations().slice(0, 3)) found.pattern.resolve(combination);
      found.table();
      for (const one of found.problems) expect(one.message).not.toMatch(/undefined|NaN|\[object/);
    }), { numRuns: 200 });
  });

  it('brackets nested too deep, long chains and huge numbers are survived', () => {
    for (const line of [`length a = ${'('.repeat(5000)}1${')'.repeat(5000)}`, `length a = ${'-'.repeat(5000)}1`, `length a = 1${' + 1'.repeat(5000)}`, `check ${'not '.repeat(5000)}1 = 1`, `length a = ${'9'.repeat(400)}`, `length a = 1 / ${'9'.repeat(400)}`]) {
      const found = analyse(`pattern "T"\nrevision 1\n${line}\nlength b = 2\ncheck b = 2`);
      expect(found.inches('b')).toBe('2');
      expect(found.problems.length).toBeLessThan(4);
    }
    const huge = analyse(`pattern "T"\nrevision 1\nallowance 1/4\npiece a {\n  outline rectangle ${'9'.repeat(400)} by 1\n}`);
    expect(() => huge.table()).not.toThrow();
  });
});
