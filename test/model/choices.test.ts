import { describe, expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

const sized = 'sizes S, M, L\nchoice shell is canvas or cork_shell\n';

describe('sizes and choices', () => {
  it('make every combination, sizes first', () => {
    const found = pattern(`choice lid is flap or zip\n${sized}`);
    expect([...found.pattern.choices]).toEqual([['size', ['S', 'M', 'L']], ['lid', ['flap', 'zip']], ['shell', ['canvas', 'cork_shell']]]);
    const all = found.pattern.combinations().map((one) => [...one.values()].join(' '));
    expect(all).toHaveLength(12);
    expect(new Set(all).size).toBe(12);
    expect(all[0]).toBe('S flap canvas');
    expect(all.at(-1)).toBe('L zip cork_shell');
  });

  it('give a value for each, and one for all others', () => {
    const found = pattern(`${sized}length a = 4 for S, 5 for M, 6 for L\nlength b = 1 for cork_shell, 2 otherwise\nlength c = a + b`);
    const c = (size: string, shell: string): string => found.inches('c', { size, shell });
    expect([c('S', 'canvas'), c('M', 'canvas'), c('L', 'canvas')]).toEqual(['6', '7', '8']);
    expect([c('S', 'cork_shell'), c('M', 'cork_shell'), c('L', 'cork_shell')]).toEqual(['5', '6', '7']);
  });

  it('take their first option where none is chosen', () => {
    expect(pattern(`${sized}length a = 4 for S, 5 otherwise`).inches('a')).toBe('4');
  });

  it('are chosen in the middle of a formula too', () => {
    const found = pattern(`${sized}length a = 1 + (2 for S, 3 otherwise) * 2\nlength b = max(2 for S, 5 otherwise, 4)`);
    expect([found.inches('a', { size: 'S' }), found.inches('a', { size: 'L' })]).toEqual(['5', '7']);
    expect([found.inches('b', { size: 'S' }), found.inches('b', { size: 'L' })]).toEqual(['4', '5']);
  });

  it('say which option has no value', () => {
    const found = pattern(`${sized}length a = 4 for S, 5 for M`).only('missing-option');
    expect(found.message).toBe('No value is given for L. Add one for each, or one “otherwise”.');
    expect(found.when).toBe('size is L');
  });

  it('say in which of them a fault holds', () => {
    const body = `${sized}length w = 2 for S, 1 for M, 3 for L
piece front {
  outline rectangle w by 2
  corner all round 3/4
  cut 1 cloth
}`;
    expect(pattern(body).only('corner-too-large').when).toBe('size is M');
  });

  it('say it for several at once, with no choice named that makes no difference', () => {
    const body = (rule: string): string => `${sized}length w = 2 for S, 1 for M, 3 for L
piece front when shell is canvas {
  outline rectangle w by 2
  cut 1 cloth
}
piece other when shell is cork_shell {
  outline rectangle w by 2
  cut 1 cork
}
check ${rule}`;
    expect(pattern(body('w > 1')).only('check-failed').when).toBe('size is M');
    const whens = (rule: string): readonly (string | undefined)[] => pattern(body(rule)).problems.filter((one) => one.code === 'check-failed').map((one) => one.when);
    // The words tell the values, so they differ from size to size.
    expect(whens('w > 2')).toEqual(['size is S', 'size is M']);
    expect(whens('not (w = 2 or w = 3)')).toEqual(['size is S or size is L']);
    expect(whens('not (w > 0)')).toEqual([undefined]);
    expect(whens('not (w = 2 or w = 3) when shell is canvas')).toEqual(['shell is canvas, size is S or shell is canvas, size is L']);
  });

  it('need their choice named where two have an option of that name', () => {
    const twice = 'choice shell is canvas or cork_shell\nchoice strap is canvas or webbing\n';
    const fault = pattern(`${twice}length a = 1 for canvas, 2 otherwise`).only('ambiguous-option');
    expect(fault.marked).toBe('canvas');
    expect(fault.message).toContain('“canvas” is an option of shell and strap');
    const found = pattern(`${twice}length a = 1 for strap canvas, 2 otherwise`);
    expect(found.codes).not.toContain('ambiguous-option');
    expect(found.inches('a', { shell: 'canvas', strap: 'webbing' })).toBe('2');
    expect(found.inches('a', { shell: 'cork_shell', strap: 'canvas' })).toBe('1');
  });

  it('tell an unknown option, with the near miss', () => {
    expect(pattern(`${sized}length a = 1 for canvs, 2 otherwise`).only('unknown-option').message).toContain('Did you mean “canvas”?');
    expect(pattern(`${sized}length a = 1 for shell S, 2 otherwise`).only('unknown-option').message).toContain('not an option of “shell”');
    expect(pattern(`${sized}length a = 1 for shel canvas, 2 otherwise`).only('unknown-name').message).toContain('Did you mean “shell”?');
  });

  it('decide which pieces, cut lines and supplies there are', () => {
    const found = pattern(`${sized}
piece front {
  outline rectangle 3 by 2
  cut 1 cloth when shell is canvas
  cut 2 cork when shell is not canvas and (size is S or L)
}
piece flap when size is M or L {
  outline rectangle 3 by 2
  cut 1 cloth
}
supply snap when not (size is S) {
  kind snap
  across 14 mm
}`);
    const table = (size: string, shell: string): string => {
      const { cuts, supplies } = found.table({ size, shell });
      return [...cuts.map((row) => `${row.pieceName} ${row.count} ${row.materialName}`), ...supplies.map((row) => row.supply)].join(', ');
    };
    expect(table('S', 'canvas')).toBe('front 1 cloth');
    expect(table('M', 'canvas')).toBe('front 1 cloth, flap 1 cloth, snap');
    expect(table('S', 'cork_shell')).toBe('front 2 cork');
    expect(table('M', 'cork_shell')).toBe('flap 1 cloth, snap');
    expect(table('L', 'cork_shell')).toBe('front 2 cork, flap 1 cloth, snap');
  });

  it('leave out an option that is written twice', () => {
    const found = pattern('choice lid is flap, flap, zip');
    expect(found.only('duplicate-name').marked).toBe('flap');
    expect(found.pattern.combinations()).toHaveLength(2);
  });
});
