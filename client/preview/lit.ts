import type { AtCursor } from './cursor.ts';
import { setAttributes, setClass } from './dom.ts';

const pieceOf = (one: Element): string => one.getAttribute('data-piece') ?? '';

/** Marks what is meant, in the drawings and the tables alike. What stays as it is, is not touched: the browser would draw it anew. */
export function markLit(root: Element, { lit, piece, inPart }: Pick<AtCursor, 'lit' | 'piece' | 'inPart'>): void {
  const current = new Set(lit.size === 0 ? [] : [...root.querySelectorAll('[data-piece]')].filter((one) => lit.has(pieceOf(one))));
  const parts = new Set([...current].flatMap((one) => (lit.get(pieceOf(one)) ?? []).flatMap((part) => [...one.querySelectorAll(`.whole[data-part="${part}"]`)])));
  for (const one of root.querySelectorAll('.lit')) {
    if (parts.has(one) || current.has(one)) continue;
    one.classList.remove('lit', 'in-part');
    one.removeAttribute('aria-current');
  }
  for (const one of current) {
    setClass(one, 'lit', true);
    setClass(one, 'in-part', inPart?.has(pieceOf(one)) === true);
    if ((pieceOf(one) === piece) !== one.hasAttribute('aria-current')) setAttributes(one, { 'aria-current': pieceOf(one) === piece ? 'true' : undefined });
  }
  for (const one of parts) setClass(one, 'lit', true);
}
