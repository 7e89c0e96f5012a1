import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { analyse, stock } from '../support/spec.ts';

// Many specs are computed here, which takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const materials = readFileSync(new URL('../../samples/studio/materials.piece', import.meta.url), 'utf8');
const wallet = readFileSync(new URL('../../samples/orchard-wallet.piece', import.meta.url), 'utf8');
const digest = (text: string, list = materials): string => analyse(text, { 'studio/materials.piece': list }).pattern.digest;

describe('the digest', () => {
  it('is twelve hexadecimal digits', () => {
    expect(digest(wallet)).toMatch(/^[0-9a-f]{12}$/);
  });

  it('stays with other comments, spaces and line ends', () => {
    const before = digest(wallet);
    expect(digest(wallet.replaceAll('\n', '\r\n'))).toBe(before);
    expect(digest(wallet.replaceAll('\n', '\r'))).toBe(before);
    expect(digest(wallet.replace(/ *#.*$/gm, ''))).toBe(before);
    expect(digest(wallet.replaceAll('\n  ', '\n\t    '))).toBe(before);
    expect(digest(`# More\n\n${wallet}\n\n# and more\n`)).toBe(before);
    expect(digest(wallet.replaceAll('\n}\n', '\n\n  # inside\n}\n'))).toBe(before);
    expect(digest(wallet, materials.replaceAll('\n', '\r\n'))).toBe(before);
  });

  it('stays with another revision, and with what was issued', () => {
    const before = digest(wallet);
    expect(digest(wallet.replace('revision 2', 'revision 3'))).toBe(before);
    expect(digest(wallet.replace('revision 2', 'revision 2\nissued 2 as "0123456789ab"'))).toBe(before);
  });

  it('changes with any word of the pattern or of its lists', () => {
    const before = digest(wallet);
    const changes = [
      wallet.replace('6 1/2', '6 5/8'), wallet.replace('cut 1 canvas', 'cut 2 canvas'), wallet.replace('"Orchard', '"Garden'), wallet.replace('allowance 1/4', 'allowance 3/8'),
      wallet.replace('Fuse and press', 'Fuse and iron'), wallet.replace('this way up', ''), wallet.replace('else warning', 'else note'), wallet.replace('at 50%', 'at 40%'),
    ];
    const digests = [before, ...changes.map((text) => digest(text)), digest(wallet, materials.replace('shrinks 2%', 'shrinks 3%'))];
    expect(new Set(digests).size).toBe(digests.length);
  });

  it('changes with every digit of a number', () => {
    const text = (n: number): string => `pattern "T"\nrevision 1\nlength w = ${n}`;
    fc.assert(fc.property(fc.nat(99_999), fc.nat(99_999), (a, b) => {
      fc.pre(a !== b);
      expect(digest(text(a))).not.toBe(digest(text(b)));
    }), { numRuns: 30 });
  });
});

describe('an issued revision', () => {
  const text = (revision: number, issued: string, width: number): string => `pattern "T"\nrevision ${revision}\n${issued}\nallowance none\nuse "stock.piece"\npiece a {\n  outline rectangle ${width} by 1\n  cut 1 cloth\n}`;
  const codes = (spec: string): readonly string[] => analyse(spec, { 'stock.piece': stock }).codes;
  const given = analyse(text(1, '', 4), { 'stock.piece': stock }).pattern.digest;

  it('says nothing as long as nothing has changed', () => {
    expect(codes(text(1, `issued 1 as "${given}"`, 4))).toEqual([]);
  });

  it('warns where the pattern has changed and its revision has not', () => {
    const found = analyse(text(1, `issued 1 as "${given}"`, 5), { 'stock.piece': stock });
    expect(found.codes).toEqual(['revision-not-raised']);
    expect(found.only('revision-not-raised').marked).toBe('1');
    expect(codes(text(2, `issued 1 as "${given}"`, 5))).toEqual([]);
  });

  it('must be a digest', () => {
    expect(codes(text(1, 'issued 1 as "mine"', 4))).toEqual(['bad-digest']);
  });
});
