import { limits } from '../problems/limits.ts';
import type { Unread } from '../problems/unread.ts';
import type { SourceFile } from './tree.ts';

/** A file that is there and can’t be read: nothing but a problem that says why. */
export function unreadableFile(path: string, why: Unread | 'too long'): SourceFile {
  const place = { start: 0, end: 0 };
  const declaration = {
    file: path, text: '', tree: { kind: 'broken' as const, text: '', leading: [], ...place },
    problems: [why === 'too long' ? { kind: 'file too long' as const, found: `${limits.textLength / 1_000_000} million characters`, expected: [], ...place } : { kind: 'unreadable file' as const, found: why, expected: [], ...place }],
  };
  return { path, text: '', declarations: [{ declaration, offset: 0 }], trailing: [], conflicts: [] };
}
