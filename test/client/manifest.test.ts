import { existsSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

interface Manifest {
  readonly contributes: {
    readonly commands: readonly { readonly command: string; readonly category: string }[];
    readonly menus: Readonly<Record<string, readonly { readonly command: string }[]>>;
    readonly problemPatterns: readonly { readonly regexp: string }[];
  };
}

const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
const { contributes } = JSON.parse(text) as Manifest;

it('names only files that are there', () => {
  const files = [...text.matchAll(/"(?:\.\/)?(client\/[^"]+\.[a-zA-Z.]+)"/g)].map(([, file]) => file ?? '');
  expect(files.length).toBeGreaterThan(8);
  expect(files.filter((file) => !existsSync(new URL(`../../${file}`, import.meta.url)))).toEqual([]);
});

it('offers only its own commands, all under one name', () => {
  const commands = new Set(contributes.commands.map(({ command }) => command));
  expect(contributes.commands.map(({ category }) => category)).toEqual([...commands].map(() => 'Piecewright'));
  const used = [...Object.values(contributes.menus).flat().map(({ command }) => command), ...[...text.matchAll(/command:(piecewright\.\w+)/g)].map(([, name]) => name ?? '')];
  expect(used.filter((command) => !commands.has(command))).toEqual([]);
});

it('reads the lines that the check prints', () => {
  const pattern = new RegExp(contributes.problemPatterns[0]?.regexp ?? '');
  const line = 'studio/a b.piece:12:5 warning unused-name The length “ease” is never used.';
  expect(pattern.exec(line)?.slice(1)).toEqual(['studio/a b.piece', '12', '5', 'warning', 'unused-name', 'The length “ease” is never used.']);
  expect(pattern.exec('2 errors, 1 warning')).toBeNull();
});
