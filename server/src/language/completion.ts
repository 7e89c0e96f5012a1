import { resolvePath } from '../model/names/paths.ts';
import { lineMeasures, pieceMeasures, seamMeasures } from '../model/formulas/reference.ts';
import { supplyMeasures } from '../model/stock/supply.ts';
import type { Dimension, StatementForm } from '../syntax/statements/elements.ts';
import type { Expectation } from '../syntax/statements/expected.ts';
import { follow } from '../syntax/statements/follow.ts';
import { statementsOf } from '../syntax/statements/table.ts';
import { tokensOf, type Token } from '../syntax/tokens.ts';
import { lengthUnits } from '../syntax/tree.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { keyword, simple, wordsOf, type Completion, type Item } from './completion-items.ts';
import { Names } from './completion-names.ts';
import { contextAt, type TextContext } from './context.ts';

/**
 * What may be written at an offset. Told from the text before it alone, so that broken lines are no hindrance; names
 * come from what of the pattern can be read.
 *
 * @param paths all files of the working folder, for `use` lines
 */
export function completion(snapshot: Snapshot, offset: number, paths: readonly string[]): readonly Completion[] {
  const context = contextAt(snapshot, offset);
  if (context.within === 'comment') return [];
  if (context.within === 'text') return inSentence(snapshot, context, offset) ?? usePaths(snapshot, offset, paths);
  const items = memberItems(snapshot, context) ?? statementItems(snapshot, context, offset);
  const seen = new Set<string>();
  return items
    .filter(({ label }) => !seen.has(label) && seen.add(label))
    .map((item) => ({ ...item, start: context.wordStart, end: offset }));
}

// ------------------------------------------------------------------------------------------------ statements

function statementItems(snapshot: Snapshot, context: TextContext, offset: number): readonly Item[] {
  const names = new Names(snapshot, context);
  const forms = context.tokens.length > 0 ? statementsOf(context.block) : statementsOf(context.block).filter((form) => !(form.once && isSaid(snapshot, form, offset)));
  return follow(context.block, context.tokens, forms).flatMap(({ expected }) => expected.flatMap(({ expectation }) => itemsFor(expectation, names)));
}

/** Whether a file, or the block at an offset, says on another line what it may say once. */
function isSaid(snapshot: Snapshot, form: StatementForm, offset: number): boolean {
  const found = snapshot.declarationAt(offset) ?? snapshot.declarationAt(offset - 1);
  if (form.blocks.includes('file') && (found === undefined || !('body' in found.declaration.tree) || offset <= found.offset + found.declaration.tree.body.start)) {
    return snapshot.file.declarations.some((one) => one.declaration.tree.kind === form.kind && one !== found);
  }
  const statements: readonly { readonly kind: string; readonly start: number; readonly end: number }[] = found !== undefined && 'body' in found.declaration.tree ? found.declaration.tree.body.statements : [];
  const inside = offset - (found?.offset ?? 0);
  return statements.some((one) => one.kind === form.kind && (inside < one.start || inside > one.end));
}

function itemsFor(expectation: Expectation, names: Names): readonly Item[] {
  switch (expectation.is) {
    case 'words':
      // A comma is not worth a proposal.
      return expectation.words === ',' ? [] : [keyword(expectation.words, expectation.word)];
    case 'word':
      return wordsOf(expectation.element.among);
    case 'name':
      return nameItems(expectation, names);
    case 'reference':
      if (expectation.to === 'work') return names.undone();
      if (expectation.to === 'strap') return [...names.of('supply'), ...names.of('piece', ['.'])];
      return expectation.to === 'piece' ? [...names.of('piece', ['.'])] : names.of('piece', ['.']);
    case 'formula':
      return expectation.samples.length > 0 ? wordsOf(expectation.samples) : expectation.dimension === 'count' ? names.values('count') : names.formula();
    case 'unit':
      return wordsOf(unitsFor(expectation.dimension), 'unit');
    case 'condition':
      return [...names.choices(), ...names.formula()];
    case 'comparison':
      return wordsOf(['<', '<=', '=', '!=', '>=', '>']);
    case 'option':
      return names.options(expectation.choice);
    case 'choice':
      return names.choices();
    default:
      // What is made up is the designer's to say.
      return [];
  }
}

function unitsFor(dimension: Dimension | undefined): readonly string[] {
  if (dimension === 'length' || dimension === 'length or share') return lengthUnits;
  if (dimension === 'angle') return ['deg'];
  return dimension === 'count' || dimension === 'ratio' ? [] : [...lengthUnits, 'deg'];
}

function nameItems({ element, owner }: Extract<Expectation, { readonly is: 'name' }>, names: Names): readonly Item[] {
  if (element.declares) return [];
  switch (element.role) {
    case 'edge':
      return element.among === undefined ? names.edges() : wordsOf(element.among, 'edge');
    case 'line':
      return [...names.lines(owner, element.use), ...(element.among ?? []).map((line) => simple(line, 'line', `the ${line} line`))];
    case 'material':
    case 'piece':
    case 'supply':
    case 'thing':
      return names.of(element.role);
    default:
      return [];
  }
}

// ------------------------------------------------------------------------------------------------ after a dot

/** What may follow `cover.` or `cover.core.`; undefined where nothing of the kind is being written. */
function memberItems(snapshot: Snapshot, context: TextContext): readonly Item[] | undefined {
  const path = pathBefore(context.tokens);
  const [owner] = path;
  if (owner === undefined) return undefined;
  const tree = snapshot.pattern.world.names.get(owner)?.tree;
  if (path.length > 1) return tree?.kind === 'piece' ? measures(lineMeasures) : [];
  switch (tree?.kind) {
    case 'piece':
      return ofPiece(new Names(snapshot, context), context, owner);
    case 'supply':
      return wordsOf(supplyMeasures, 'measure');
    case 'seam':
      return measures(seamMeasures);
    case 'thing':
      return wordsOf(['width', 'height'], 'measure');
    case 'material':
      return wordsOf(['width', 'usable'], 'measure');
    default:
      return [];
  }
}

const measures = (known: Readonly<Record<string, string>>): readonly Item[] => Object.entries(known).map(([name, meaning]) => simple(name, 'measure', meaning));

/** The parts of a piece that may be named in a line: its marks where a supply is set, its edges where they are sewn. */
function ofPiece(names: Names, { block, tokens }: TextContext, owner: string): readonly Item[] {
  const [first] = tokens;
  if (block === 'supply' && first?.text === 'at') return (names.shape(owner)?.marks ?? []).map((mark) => simple(mark.name, 'mark', mark.use));
  if (block === 'file' && first?.text === 'step' && tokens[1]?.kind === 'text') return names.undoneOf(owner);
  if (block === 'file' && first?.text === 'seam') return [...names.edgesToSew(owner), ...(tokens.some(({ text }) => text === 'onto') ? names.lines(owner) : [])];
  const outlines = first?.text === 'check' ? [simple('cutting', 'line', 'the cutting line'), simple('stitching', 'line', 'the stitching line')] : [];
  return [...names.edges(owner), ...names.lines(owner).map((line) => ({ ...line, commit: ['.'] })), ...(names.shape(owner)?.stitchRows ?? []).map((row) => simple(row.name, 'line', row.kind === 'quilt' ? 'quilting' : 'topstitching')), ...measures(pieceMeasures), ...outlines];
}

/** The names of `cover.core.`, where that is what is written last. */
function pathBefore(tokens: readonly Token[]): readonly string[] {
  const path: string[] = [];
  for (let at = tokens.length - 1; tokens[at]?.text === '.' && tokens[at - 1]?.kind === 'word' && tokens[at - 1]?.end === tokens[at]?.start; at -= 2) path.unshift(tokens[at - 1]?.text ?? '');
  return path;
}

// ------------------------------------------------------------------------------------------------ sentences

/** Whether the last token is a text that may hold formulas: of a step, a note or a check. */
const isSentence = (tokens: readonly Token[]): boolean => tokens.at(-1)?.kind === 'text' && ['step', 'note', 'else', 'error', 'warning'].includes(tokens.at(-2)?.text ?? '');

/** What may be written in the braces of a text; undefined outside of them. */
function inSentence(snapshot: Snapshot, context: TextContext, offset: number): readonly Completion[] | undefined {
  const written = isSentence(context.tokens) ? /\{([^{}]*)$/.exec(context.tokens.at(-1)?.text ?? '')?.[1] : undefined;
  if (written === undefined) return undefined;
  const all = tokensOf(written);
  const last = all.at(-1);
  const isWord = last?.kind === 'word' && last.end === written.length;
  const within = { ...context, tokens: isWord ? all.slice(0, -1) : all };
  const start = offset - (isWord ? last.text.length : 0);
  return (memberItems(snapshot, within) ?? new Names(snapshot, within).formula()).map((item) => ({ ...item, start, end: offset }));
}

// ------------------------------------------------------------------------------------------------ paths

function usePaths(snapshot: Snapshot, offset: number, paths: readonly string[]): readonly Completion[] {
  const line = snapshot.file.text.slice(0, offset).split(/[\n\r]/).at(-1) ?? '';
  const written = /^\s*use\s+"([^"]*)$/.exec(line)?.[1];
  if (written === undefined) return [];
  const depth = snapshot.path.split('/').length - 1;
  return paths.filter((path) => path !== snapshot.path).flatMap((path) => {
    const relative = relativePath(snapshot.path, path, depth);
    return resolvePath(snapshot.path, relative) === path
      ? [{ ...simple(relative, 'file'), start: offset - written.length, end: offset }] : [];
  });
}

function relativePath(from: string, to: string, depth: number): string {
  const [a, b] = [from.split('/').slice(0, -1), to.split('/')];
  let shared = 0;
  while (shared < a.length && shared < b.length - 1 && a[shared] === b[shared]) shared++;
  return `${'../'.repeat(depth - shared)}${b.slice(shared).join('/')}`;
}
