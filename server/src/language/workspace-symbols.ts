import type { SourceFile } from '../syntax/tree.ts';
import { symbols, type FileSymbol } from './symbols.ts';

export interface WorkspaceSymbol {
  readonly file: string;
  readonly symbol: FileSymbol;
  /** The name of what it is part of. */
  readonly container: string | undefined;
}

/** At most so many are found; a longer query finds fewer. */
const most = 500;

/** What several files declare whose name or title holds the query's letters in their order; the nearest first. */
export function workspaceSymbols(files: readonly SourceFile[], query: string): readonly WorkspaceSymbol[] {
  const found: { readonly one: WorkspaceSymbol; readonly rank: number }[] = [];
  const look = (file: SourceFile, list: readonly FileSymbol[], container: string | undefined): void => {
    for (const symbol of list) {
      const rank = Math.min(rankOf(symbol.name, query), rankOf(symbol.detail, query) + 0.5);
      if (rank < Infinity && symbol.kind !== 'check') found.push({ one: { file: file.path, symbol, container }, rank });
      look(file, symbol.children, symbol.name);
    }
  };
  for (const file of files) look(file, symbols(file), undefined);
  return found.sort((a, b) => a.rank - b.rank || (a.one.symbol.name < b.one.symbol.name ? -1 : a.one.symbol.name > b.one.symbol.name ? 1 : 0)).slice(0, most).map(({ one }) => one);
}

/** 0 for the very name, then its beginning, any part of it, its letters in order; infinite where they aren't in it. */
function rankOf(name: string, query: string): number {
  const [text, wanted] = [name.toLowerCase(), query.toLowerCase()];
  if (text === wanted) return 0;
  if (text.startsWith(wanted)) return 1;
  if (text.includes(wanted)) return 2;
  let at = 0;
  for (const letter of wanted) {
    at = text.indexOf(letter, at) + 1;
    if (at === 0) return Infinity;
  }
  return 3;
}
