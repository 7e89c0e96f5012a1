import { describe, expect, it } from 'vitest';
import { writeWhole, type Files } from '../../client/src/whole-file.ts';

type Uri = Parameters<Files['stat']>[0];
const at = (path: string): Uri => ({ path, with: ({ path: other = path }: { path?: string }) => at(other) }) as unknown as Uri;
const [earlier, later] = ['earlier', 'later'].map((text) => new TextEncoder().encode(text)) as [Uint8Array, Uint8Array];

/** Files in memory; `full` takes half of what is written and then fails, `fixed` puts none in another’s place. */
function memory(fault?: 'full' | 'fixed', type = 1): { readonly held: Map<string, Uint8Array>; readonly seen: string[]; readonly files: Files } {
  const held = new Map([['/a/bag.pdf', earlier]]);
  const seen: string[] = [];
  const note = (): void => { seen.push(new TextDecoder().decode(held.get('/a/bag.pdf'))); };
  return {
    held, seen,
    files: {
      stat: ({ path }) => (held.has(path) ? Promise.resolve({ type, ctime: 0, mtime: 0, size: 0 }) : Promise.reject(new Error('none'))),
      writeFile: ({ path }, bytes) => {
        held.set(path, fault === 'full' ? bytes.slice(0, 2) : bytes);
        note();
        return fault === 'full' ? Promise.reject(new Error('The disk is full.')) : Promise.resolve();
      },
      rename: (from, to) => {
        if (fault === 'fixed') return Promise.reject(new Error('No permission.'));
        held.set(to.path, held.get(from.path)!);
        held.delete(from.path);
        note();
        return Promise.resolve();
      },
      delete: ({ path }) => (held.delete(path) ? Promise.resolve() : Promise.reject(new Error('none'))),
    },
  };
}

describe('a file that the editor writes', () => {
  it('is at every moment what it was or all of what it becomes, and nothing is left beside it', async () => {
    const { held, seen, files } = memory();
    await writeWhole(files, at('/a/bag.pdf'), later);
    expect(seen).toEqual(['earlier', 'later']);
    expect([...held]).toEqual([['/a/bag.pdf', later]]);
    await writeWhole(files, at('/a/new.pdf'), later);
    expect([...held.keys()]).toEqual(['/a/bag.pdf', '/a/new.pdf']);
  });

  it.each(['full', 'fixed'] as const)('stays as it was where it can’t be written (%s), and nothing is left beside it', async (fault) => {
    const { held, files } = memory(fault);
    await expect(writeWhole(files, at('/a/bag.pdf'), later)).rejects.toThrow(/full|permission/);
    expect([...held]).toEqual([['/a/bag.pdf', earlier]]);
  });

  it('is written through a link, which stays one', async () => {
    const { held, seen, files } = memory(undefined, 1 | 64);
    await writeWhole(files, at('/a/bag.pdf'), later);
    expect([seen, [...held.keys()]]).toEqual([['later'], ['/a/bag.pdf']]);
  });
});
