import { nearestName } from '../../problems/near.ts';
import type { Unread } from '../../problems/unread.ts';
import { problem, replacement, type Fix, type Problem } from '../../problems/problem.ts';
import type { Declaration, Mend } from '../../syntax/tree.ts';
import { placeOf } from '../settings.ts';

const blocks: Readonly<Record<string, string>> = { piece: 'a piece', material: 'a material', supply: 'a supply', path: 'a path' };

const mended = (declaration: Declaration, { title, start, end, newText }: Mend, safe: boolean): Fix => replacement(title, { chunk: declaration, start, end }, newText, safe);

const tooMuch = { 'too long': 'length', 'too deep': 'depth', 'too many terms': 'operators' } as const;

/** What could not be read of a declaration, in the words of the catalogue. */
export function syntaxProblems(declaration: Declaration): readonly Problem[] {
  return declaration.problems.map((one) => {
    const place = placeOf(declaration, one);
    const fixes = one.mend === undefined ? [] : [mended(declaration, one.mend, one.kind === 'unclosed block')];
    if (one.kind === 'unclosed block') return problem('unclosed-block', place, { what: blocks[one.found] ?? '' }, { fixes });
    if (one.kind === 'unopened block') {
      const what = blocks[/^\s*(\w+)/.exec(declaration.tree.kind === 'broken' ? declaration.tree.text : '')?.[1] ?? ''] ?? 'a path';
      return problem('unopened-block', place, { what, below: one.found === '{', bracket: one.found === '{' ? '' : one.found, closes: declaration.tree.kind === 'broken' || !one.expected.includes('}') }, { fixes });
    }
    if (one.kind === 'unclosed text') return problem('unclosed-text', place, { brace: one.found === '{' }, { fixes: [replacement('Close the text', { chunk: declaration, start: place.end, end: place.end }, '"', false)] });
    if (one.kind === 'unreadable file') return problem('unreadable-file', place, { why: one.found as Unread });
    if (one.kind === 'file too long') return problem('file-too-long', place, { most: one.found });
    if (one.kind === 'too long' || one.kind === 'too deep' || one.kind === 'too many terms') return problem('too-much', place, { of: tooMuch[one.kind] });
    const near = one.hint === undefined ? nearestName(one.found, one.expected.filter((word) => !word.includes(' '))) : undefined;
    return problem('unreadable-line', place, { ...one, near }, { fixes: near === undefined ? fixes : [replacement(`Change to “${near}”`, place, near, false)] });
  });
}
