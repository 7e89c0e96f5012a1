import { conflictsIn, withFirst } from './conflicts.ts';
import { syntaxProblems } from './explain.ts';
import * as generated from './generated/parser.js';
import { splitDeclarations } from './split.ts';
import { fileTooLong, tooMuchIn } from './too-much.ts';
import type { Broken, Declaration, DeclarationTree, SourceFile, SyntaxProblem, Trivia } from './tree.ts';

/**
 * Reads a file. It never fails: what can't be read is a `broken` node with a problem, and the rest counts.
 *
 * @param path the file's path relative to the working folder
 * @param previous an earlier reading of the same file: declarations whose text is unchanged are taken from it as they
 *   are, the very same objects, however far they have moved
 */
export function parseFile(path: string, text: string, previous?: SourceFile): SourceFile {
  const tooLong = fileTooLong(text);
  if (tooLong !== undefined) return { path, text, declarations: [{ declaration: unreadFile(path, text, tooLong), offset: 0 }], trailing: [], conflicts: [] };
  const conflicts = conflictsIn(text);
  const first = conflicts.length === 0 ? undefined : readDeclarations(path, withFirst(text, conflicts), previous);
  // Of first versions that say nothing, nothing could be told: their marks are lines that don't fit.
  if (first !== undefined && first.declarations.length > 0) return { path, text, ...first, conflicts };
  return { path, text, ...readDeclarations(path, text, previous), conflicts: [] };
}

function readDeclarations(path: string, text: string, previous: SourceFile | undefined): Pick<SourceFile, 'declarations' | 'trailing'> {
  const slices = [...splitDeclarations(text)];
  const last = slices.at(-1);
  const trailing = last && parseTrivia(text.slice(last.start, last.end));
  if (trailing !== undefined) slices.pop();
  const old = previous?.declarations ?? [];
  const same = (index: number, oldIndex: number): boolean => {
    const slice = slices[index];
    const before = old[oldIndex]?.declaration.text;
    return slice !== undefined && before !== undefined && before.length === slice.end - slice.start && text.startsWith(before, slice.start);
  };
  // An edit leaves a beginning and an end as they were; what lies between is looked up by its text.
  let from = 0;
  while (same(from, from)) from++;
  let to = slices.length;
  let oldTo = old.length;
  while (to > from && oldTo > from && same(to - 1, oldTo - 1)) {
    to--;
    oldTo--;
  }
  const known = declarationsByText(old.slice(from, oldTo));
  const declarations: { declaration: Declaration; offset: number }[] = [];
  slices.forEach(({ start, end }, index) => {
    const kept = index < from ? old[index] : index >= to ? old[index - to + oldTo] : undefined;
    const own = kept === undefined ? detached(text.slice(start, end)) : '';
    declarations.push({ declaration: kept?.declaration ?? known.get(own)?.pop() ?? parseDeclaration(path, own), offset: start });
  });
  return { declarations, trailing: trailing ?? [] };
}

/**
 * A part of a text that doesn't hold on to the whole: engines keep a slice as a view, and a declaration outlives by far the
 * text that it was read from.
 */
const detached = (part: string): string => ` ${part}`.slice(1);

function declarationsByText(declarations: SourceFile['declarations']): Map<string, Declaration[]> {
  const known = new Map<string, Declaration[]>();
  // From the last to the first, so that equal declarations are taken again in their old order.
  for (const { declaration } of [...declarations].reverse()) {
    const same = known.get(declaration.text);
    if (same === undefined) known.set(declaration.text, [declaration]);
    else same.push(declaration);
  }
  return known;
}

/** All of a file that is too long to be read: one broken line, and one problem. */
function unreadFile(file: string, text: string, most: string): Declaration {
  const tree = brokenWhole(text);
  return { file, text, tree, problems: [{ kind: 'file too long', start: tree.start, end: tree.start + Math.min(tree.text.length, 1), found: most, expected: [] }] };
}

/** Reads one declaration from its own text. */
export function parseDeclaration(file: string, text: string): Declaration {
  const tooMuch = tooMuchIn(text);
  const tree = (tooMuch === undefined ? read<DeclarationTree>(text, 'Declaration') : undefined) ?? brokenWhole(text);
  let problems: readonly SyntaxProblem[] | undefined;
  return {
    file, text, tree,
    get problems() {
      return (problems ??= tooMuch === undefined ? syntaxProblems(text, tree) : [tooMuch]);
    },
  };
}

/** The comments and blank lines of a text that holds nothing else. */
function parseTrivia(text: string): readonly Trivia[] | undefined {
  // Told at a glance of most files: to fail takes the parser as long as a declaration.
  if (/(?:^|[\n\r])[ \t]*[^ \t\n\r#]/.test(text)) return undefined;
  return read<readonly Trivia[]>(text, 'TriviaOnly');
}

/** The one place where the generated parser's untyped result takes its type. */
function read<T>(text: string, startRule: string): T | undefined {
  try {
    return generated.parse(text, { startRule }) as T;
  } catch (error) {
    // Brackets nested too deep for the call stack can't be read either.
    if (error instanceof generated.SyntaxError || error instanceof RangeError) return undefined;
    throw error;
  }
}

function brokenWhole(text: string): Broken {
  const start = /^[ \t\r\n]*/.exec(text)?.[0].length ?? 0;
  // No regular expression: one would look at each run of spaces again from each of them.
  let end = text.length;
  while (end > start && ' \t\r\n'.includes(text.charAt(end - 1))) end--;
  const kept = text.slice(start, end);
  const leading: readonly Trivia[] = /[\n\r]/.test(text.slice(0, start)) ? [{ kind: 'blank' }] : [];
  return { kind: 'broken', text: kept, start, end: start + kept.length, leading };
}
