import { nearestName } from '../../problems/near.ts';
import type { Unread } from '../../problems/unread.ts';
import { problem, replacement, type Problem } from '../../problems/problem.ts';
import type { Declaration } from '../../syntax/tree.ts';
import { placeOf } from '../settings.ts';

const blockWords: Readonly<Record<string, string>> = { piece: 'a piece', material: 'a material', supply: 'a supply' };

const tooMuch = { 'too long': 'length', 'too deep': 'depth', 'too many terms': 'operators' } as const;

/** What could not be read of a declaration, in the words of the catalogue. */
export function syntaxProblems(declaration: Declaration): readonly Problem[] {
  return declaration.problems.map((one) => {
    const place = placeOf(declaration, one);
    if (one.kind === 'unclosed block') {
      const end = declaration.text.trimEnd().length;
      return problem('unclosed-block', place, { what: blockWords[declaration.tree.kind] ?? '' }, {
        fixes: [{ title: 'Close the block', edits: [{ place: { chunk: declaration, start: end, end }, newText: '\n}' }], safe: true }],
      });
    }
    if (one.kind === 'unopened block') {
      return problem('unopened-block', place, { what: blockWords[/^\s*(\w+)/.exec(declaration.text.slice(declaration.tree.start))?.[1] ?? ''] ?? '' }, {
        fixes: [{ title: 'Add “{”', edits: [{ place: { chunk: declaration, start: place.end, end: place.end }, newText: ' {' }], safe: false }],
      });
    }
    if (one.kind === 'unclosed text') {
      return problem('unclosed-text', place, { hint: one.hint }, { fixes: [replacement('Close the text', { chunk: declaration, start: place.end, end: place.end }, '"', false)] });
    }
    if (one.kind === 'unreadable file') return problem('unreadable-file', place, { why: one.found as Unread });
    if (one.kind === 'file too long') return problem('file-too-long', place, { most: one.found });
    if (one.kind === 'too long' || one.kind === 'too deep' || one.kind === 'too many terms') return problem('too-much', place, { of: tooMuch[one.kind] });
    const near = nearestName(one.found, one.expected);
    return problem('unreadable-line', place, { ...one, near }, near === undefined ? {} : { fixes: [replacement(`Change to “${near}”`, place, near, false)] });
  });
}
