import type { Change } from '../compare/change.ts';

/** What is told of some changes side by side, without why: what none of them has takes no column. */
export function columnsOf(changes: readonly Change[]): { readonly heads: readonly string[]; readonly cells: (change: Change) => readonly string[] } {
  const all: readonly { readonly head: string; readonly text: (change: Change) => string | undefined }[] = [
    { head: 'Of', text: ({ subject }) => subject },
    { head: 'What', text: ({ what }) => what },
    { head: 'Pieces', text: ({ pieces }) => pieces },
    { head: 'Was', text: ({ was }) => was },
    { head: 'Now', text: ({ now }) => now },
    { head: 'Only when', text: ({ when }) => when },
  ];
  const there = all.filter(({ text }) => changes.some((change) => text(change) !== undefined));
  return { heads: there.map(({ head }) => head), cells: (change) => there.map(({ text }) => text(change) ?? '') };
}
