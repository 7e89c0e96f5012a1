import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { cloned, type Clone } from '../support/clone.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });
let clone: Clone;
let packed: Readonly<Record<string, Uint8Array>>;
beforeAll(() => {
  clone = cloned();
  clone.npm(['run', 'package'], clone.folder);
  packed = unzipSync(readFileSync(join(clone.folder, 'dist/piecewright.vsix')));
});
afterAll(() => { clone.end(); });

const text = (name: string): string => new TextDecoder().decode(packed[`extension/${name}`]);

describe('the packed extension', () => {
  it('carries an icon of our own', () => {
    const { icon } = JSON.parse(text('package.json')) as { icon: string };
    expect(new TextDecoder().decode(packed['extension.vsixmanifest'])).toContain(`<Icon>extension/${icon}</Icon>`);
    const bytes = Buffer.from(packed[`extension/${icon}`] ?? []);
    expect(bytes.subarray(1, 4).toString('latin1')).toBe('PNG');
    const [width, height] = [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
    expect([width, width >= 128, width <= 256]).toEqual([height, true, true]);
  });

  it('carries a readme without links that lead nowhere where it is shown', () => {
    const readme = text('readme.md');
    expect(readme).toContain('# Piecewright');
    // The editor shows it alone: what it links to in its folder can’t be opened, nor pictures be loaded.
    expect([...readme.matchAll(/\]\(([^)]*)\)|<img[^>]*src="([^"]*)"/g)].map(([, link, picture]) => link ?? picture).filter((link) => !/^https:|^#/.test(link ?? ''))).toEqual([]);
    // Nor does it speak of commands to be run in the repository.
    expect(readme).not.toMatch(/npm (ci|run)/);
  });

  it('carries the licence, the notices and every file that its manifest names', () => {
    expect(text('LICENSE.txt')).toContain('MIT');
    expect(text('dist/THIRD-PARTY-NOTICES.txt')).toContain('vscode-languageclient');
    const named = [...text('package.json').matchAll(/"\.\/((?:client|dist)\/[^"]+)"/g)].map(([, name]) => name ?? '');
    expect(named.length).toBeGreaterThan(5);
    expect(named.filter((name) => packed[`extension/${name}`] === undefined)).toEqual([]);
  });

  it('runs without Node’s own modules in the web', () => {
    for (const name of ['dist/extension-web.js', 'dist/server-web.js', 'dist/preview.js']) expect(text(name)).not.toMatch(/require\("(?:node:|fs|path|worker_threads)/);
  });
});
