import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { analyse, stock } from '../support/spec.ts';

// Many specs are computed here, which takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const materials = readFileSync(new URL('../../samples/studio/materials.piece', import.meta.url), 'utf8');
const folio = readFileSync(new URL('../../samples/harbour-folio.piece', import.meta.url), 'utf8');
const digest = (text: string, list = materials): string => analyse(text, { 'studio/materials.piece': list }).pattern.digest;

describe('the digest', () => {
  it('is twelve hexadecimal digits', () => {
    expect(digest(folio)).toMatch(/^[0-9a-f]{12}$/);
  });

  it('stays with other comments, spaces and line ends', () => {
    const before = digest(folio);
    expect(digest(folio.replaceAll('\n', '\r\n'))).toBe(before);
    expect(digest(folio.replaceAll('\n', '\r'))).toBe(before);
    expect(digest(folio.replace(/ *#.*$/gm, ''))).toBe(before);
    expect(digest(folio.replaceAll('\n  ', '\n\t    '))).toBe(before);
    expect(digest(`# More\n\n${folio}\n\n# and more\n`)).toBe(before);
    expect(digest(folio.replaceAll('\n}\n', '\n\n  # inside\n}\n'))).toBe(before);
    expect(digest(folio, materials.replaceAll('\n', '\r\n'))).toBe(before);
  });

  it('stays with another revision, and with what was issued', () => {
    const before = digest(folio);
    expect(digest(folio.replace('revision 3', 'revision 4'))).toBe(before);
    expect(digest(folio.replace('revision 3', 'revision 3\nissued 3 as "0123456789ab"'))).toBe(before);
  });

  it('changes with any word of the pattern or of its lists', () => {
    const before = digest(folio);
    const changes = [
      folio.replace('9 1/2', '9 5/8'), folio.replace('cut 1 canvas', 'cut 2 canvas'), folio.replace('Harbour', 'Harbor'), folio.replace('allowance 3/8', 'allowance 1/2'),
      folio.replace('Press each', 'Iron each'), folio.replace('this way up', ''), folio.replace('else warning', 'else note'), folio.replace('at 50%', 'at 40%'),
    ];
    const digests = [before, ...changes.map((text) => digest(text)), digest(folio, materials.replace('shrinks 2%', 'shrinks 3%'))];
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
