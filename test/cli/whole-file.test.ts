import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { holdSignals, writeNewFile } from '../../server/src/platform/whole-file.ts';

let folder: string;
let release: () => void;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'piecewright-'));
  release = holdSignals();
});
afterEach(() => {
  release();
  rmSync(folder, { recursive: true, force: true });
});

it('writes a file that is not there yet, and leaves nothing beside it', () => {
  expect(writeNewFile(join(folder, 'new.md'), 'one\n', 0o600)).toBe(true);
  expect(readdirSync(folder)).toEqual(['new.md']);
  expect(readFileSync(join(folder, 'new.md'), 'utf8')).toBe('one\n');
  if (process.platform !== 'win32') expect(statSync(join(folder, 'new.md')).mode & 0o777).toBe(0o600);
});

it('leaves alone whatever stands there, a link that leads nowhere among it', () => {
  writeFileSync(join(folder, 'old.md'), 'before');
  expect(writeNewFile(join(folder, 'old.md'), 'after')).toBe(false);
  expect(readFileSync(join(folder, 'old.md'), 'utf8')).toBe('before');
  if (process.platform === 'win32') return;
  symlinkSync(join(folder, 'elsewhere.md'), join(folder, 'link.md'));
  expect(writeNewFile(join(folder, 'link.md'), 'after')).toBe(false);
  expect(existsSync(join(folder, 'elsewhere.md'))).toBe(false);
});

it('writes nothing where it can’t write all of it, or where a signal could come between', () => {
  expect(writeNewFile(join(folder, 'nowhere', 'new.md'), 'one')).toBe(false);
  release();
  expect(writeNewFile(join(folder, 'new.md'), 'one')).toBe(false);
  expect(readdirSync(folder)).toEqual([]);
  release = holdSignals();
});
