import type { World } from '../model/names/world.ts';
import { leavesOf } from '../syntax/leaves.ts';
import { tokensOf, type Token as WrittenToken } from '../syntax/tokens.ts';
import type { Declaration, Node } from '../syntax/tree.ts';
import { nameUses, type NameUse } from '../syntax/walk.ts';
import type { Snapshot } from '../workspace/snapshot.ts';

/** The names that the protocol has for them: a piece is a class, a material a type, a choice an enum. */
export const tokenTypes = ['keyword', 'number', 'string', 'comment', 'variable', 'type', 'class', 'struct', 'interface', 'property', 'enumMember', 'enum', 'function', 'operator'] as const;
export type TokenType = (typeof tokenTypes)[number];
export const tokenModifiers = ['declaration', 'readonly'] as const;
export type TokenModifier = (typeof tokenModifiers)[number];

export interface Token {
  readonly start: number;
  readonly length: number;
  readonly type: TokenType;
  readonly modifiers: readonly TokenModifier[];
}

/** What each word of the file is, in the order of the text. No token goes over a line end. */
export function semanticTokens(snapshot: Snapshot): readonly Token[] {
  const { world } = snapshot.pattern;
  const tokens: Token[] = [];
  for (const { declaration, offset } of snapshot.file.declarations) {
    for (const token of tokensIn(world, declaration)) tokens.push({ ...token, start: token.start + offset });
  }
  const last = snapshot.file.declarations.at(-1);
  const rest = last === undefined ? 0 : last.offset + last.declaration.text.length;
  for (const match of snapshot.file.text.slice(rest).matchAll(/#[^\n\r]*/g)) tokens.push({ start: rest + match.index, length: match[0].length, type: 'comment', modifiers: [] });
  return tokens;
}

function tokensIn(world: World, declaration: Declaration): readonly Token[] {
  const named = namedTokens(world, declaration);
  const measured = leavesOf(declaration.tree).flatMap((leaf) => (leaf.is === 'measured' ? [leaf.formula] : []));
  const tokens: Token[] = [];
  let past = 0;
  for (const written of tokensOf(declaration.text).flatMap((token) => (token.kind === 'text' ? parted(token, measured) : [token]))) {
    const type = typeOfPlain(written);
    if (type === undefined || written.start < past) continue;
    const token = named.get(written.start) ?? { start: written.start, length: written.end - written.start, type, modifiers: [] };
    tokens.push(token);
    past = token.start + token.length;
  }
  return tokens;
}

/** A text, parted by the formulas in it. */
function parted(text: WrittenToken, measured: readonly Node[]): readonly WrittenToken[] {
  const tokens: WrittenToken[] = [];
  let past = text.start;
  const upTo = (end: number): void => {
    if (end > past) tokens.push({ kind: 'text', text: text.text.slice(past - text.start, end - text.start), start: past, end });
  };
  for (const { start, end } of measured.filter((formula) => formula.start > text.start && formula.end < text.end)) {
    upTo(start);
    tokens.push(...tokensOf(text.text.slice(start - text.start, end - text.start)).map((token) => ({ ...token, start: token.start + start, end: token.end + start })));
    past = end;
  }
  upTo(text.end);
  return tokens;
}

/** What something is by its letters alone; undefined for brackets, commas and what is no part of the language. */
function typeOfPlain({ kind, text }: WrittenToken): TokenType | undefined {
  if (kind === 'word') return 'keyword';
  if (kind === 'text') return 'string';
  if (kind !== 'sign') return kind;
  return /^(?:<=|>=|!=|[-+*/<>=])$/.test(text) ? 'operator' : undefined;
}

/** The names and the fixed words of a declaration by where they start. */
function namedTokens(world: World, declaration: Declaration): ReadonlyMap<number, Token> {
  const tokens = new Map<number, Token>();
  for (const use of nameUses(declaration.tree)) {
    tokens.set(use.name.start, { start: use.name.start, length: use.name.end - use.name.start, ...typeOf(world, declaration, use) });
  }
  for (const leaf of leavesOf(declaration.tree)) {
    if (leaf.is === 'word') tokens.set(leaf.word.start, { start: leaf.word.start, length: leaf.word.end - leaf.word.start, type: 'enumMember', modifiers: ['readonly'] });
  }
  return tokens;
}

const ofKind = { value: 'variable', thing: 'struct', material: 'type', supply: 'interface', piece: 'class', seam: 'function' } as const;
const ofRole = { material: 'type', piece: 'class', supply: 'interface', thing: 'struct', choice: 'enum', option: 'enumMember', edge: 'property', line: 'property', mark: 'property', function: 'function' } as const;

function typeOf(world: World, declaration: Declaration, use: NameUse): { readonly type: TokenType; readonly modifiers: readonly TokenModifier[] } {
  const { tree } = declaration;
  if (use.role === 'declared') {
    const modifiers = ['declaration', 'readonly'] as const;
    if (tree.kind === 'sizes' || (tree.kind === 'choice' && use.name !== tree.name)) return { type: 'enumMember', modifiers };
    return { type: tree.kind in ofKind ? ofKind[tree.kind as keyof typeof ofKind] : 'enum', modifiers };
  }
  if (use.role !== 'any') return { type: ofRole[use.role], modifiers: use.declares ? ['declaration', 'readonly'] : [] };
  if (use.path.length > 0) return { type: 'property', modifiers: [] };
  const kind = world.names.get(use.name.text)?.tree.kind;
  return { type: kind === undefined ? 'variable' : ofKind[kind], modifiers: [] };
}
