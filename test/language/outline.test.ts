import { describe, expect, test } from 'vitest';
import { diagnose } from '../../server/src/language/diagnostics.ts';
import { signature } from '../../server/src/language/signature.ts';
import { symbols, type FileSymbol } from '../../server/src/language/symbols.ts';
import { workspaceSymbols } from '../../server/src/language/workspace-symbols.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { marked } from '../support/marked.ts';
import { pouch, materials } from '../support/pouch.ts';

describe('signature', () => {
  function form(input: string): string | undefined {
    const { snapshot, offset } = marked(input);
    const found = signature(snapshot, offset);
    if (found === undefined) return undefined;
    const active = found.active === undefined ? undefined : found.parameters[found.active];
    return active === undefined ? found.label : `${found.label.slice(0, active.start)}<${found.label.slice(active.start, active.end)}>${found.label.slice(active.end)}`;
  }
  test('of functions', () => {
    expect(form('length a = round(|')).toBe('round(<value>, step)');
    expect(form('length a = round(3 + (1 / 2), |')).toBe('round(value, <step>)');
    expect(form('length a = min(1, 2, 3, |')).toBe('min(a, b, <…>)');
    expect(form('length a = max(round(2, 1), |')).toBe('max(a, <b>, …)');
    expect(form('length a = (|')).toContain('length NAME = <FORMULA>');
  });
  test('of statements', () => {
    expect(form('piece p {\n  notch |')).toContain('notch <EDGE> at');
    expect(form('piece p {\n  notch top at |')).toContain('at <PLACE>');
    expect(form('piece p {\n  cut |')).toContain('cut <COUNT> MATERIAL');
    expect(form('piece p {\n  cut 2 |')).toContain('cut COUNT <MATERIAL>');
    expect(form('piece p {\n  corner all |')).toContain('corner WHICH <round SIZE | chamfer | box SIZE [by SIZE]>');
    expect(form('piece p {\n  outline rectangle 3 by |')).toContain('by <HEIGHT>');
    expect(form('piece p {\n  outline path from 0, 0 {\n    arc to 3, 1 through |')).toContain('through <x, y> [as NAME]');
    expect(form('material m {\n  width 44 in usable |')).toContain('<[usable SIZE]>');
    expect(form('check a.top matches |')).toContain('matches <LENGTH>');
  });
});

describe('symbols', () => {
  const names = (list: readonly FileSymbol[]): unknown[] => list.map(({ name, kind, children }) => (children.length === 0 ? `${kind} ${name}` : [`${kind} ${name}`, names(children)]));
  test('what a file declares, parts inside their piece', () => {
    expect(names(symbols(parseFile('main.piece', pouch)))).toEqual([
      'pattern Pouch', ['choice sizes', ['option S', 'option L']], ['choice closing', ['option flap', 'option cord']], 'value base', 'value high', 'value rows',
      ['piece front', ['edge hem', 'line core', 'line view', 'mark catch']], 'piece lining', 'supply catch_set',
      'check front.hem matches lining.hem', 'check front holds card',
    ]);
  });
  test('names lie inside of what they name', () => {
    const all = (list: readonly FileSymbol[]): FileSymbol[] => list.flatMap((one) => [one, ...all(one.children)]);
    for (const symbol of all(symbols(parseFile('main.piece', pouch)))) {
      expect(symbol.start).toBeLessThanOrEqual(symbol.nameStart);
      expect(symbol.nameEnd).toBeLessThanOrEqual(symbol.end);
    }
  });
  test('a search finds names and titles, the nearest first', () => {
    const found = workspaceSymbols([parseFile('main.piece', pouch), parseFile('materials.piece', materials)], 'c');
    expect(found.map(({ symbol }) => symbol.name).slice(0, 3)).toEqual(['canvas', 'card', 'catch']);
    expect(workspaceSymbols([parseFile('main.piece', pouch)], 'frnt').map(({ symbol }) => symbol.name)).toEqual(['front']);
    expect(workspaceSymbols([parseFile('main.piece', pouch)], 'qqq')).toEqual([]);
  });
});

describe('diagnostics', () => {
  test('of the file alone; errors elsewhere are told at the use line', () => {
    const { snapshot, text } = marked(`|${pouch}`, { 'materials.piece': `${materials}material silk {\n}\nlength bad = missing\n` });
    const found = diagnose(snapshot);
    expect(found.map(({ found: { code }, start, end }) => [code, text.slice(start, end)])).toEqual([['faults-in-file', '"materials.piece"']]);
    expect(found[0]?.message).toBe('“materials.piece” has 2 errors of its own.');
    expect(found[0]?.related.map(({ file }) => file)).toEqual(['materials.piece', 'materials.piece']);
  });
  test('say when they arise', () => {
    const { snapshot } = marked(`|${pouch.replace('length high = base / 2 + 1', 'length high = base - 6')}`, { 'materials.piece': materials });
    expect(diagnose(snapshot).map(({ message }) => message).find((message) => message.endsWith('(only when size is S)'))).toBeDefined();
  });
});
