import type { Condition, CutStatement, Declaration, DeclarationTree, Expression, NoteStatement, Sentence, Statement } from '../syntax/tree.ts';
import { evaluate, holds } from './formulas/evaluate.ts';
import { showValue, type Value } from './formulas/value.ts';
import { isWanted } from './piece/shape.ts';
import type { Query } from './query/query.ts';
import { lengthText, scopeOf, type Scope } from './query/scope.ts';

/** A text for people that may hold formulas, and whose declaration it stands in. It is worked out where it is told: what it tells of may rest on its own piece. */
export interface Note {
  readonly declaration: Declaration;
  readonly sentence: Sentence;
}

/** A text with what its formulas give in the combination at hand. */
export type Said = readonly (string | Value)[];

/** What a text says; undefined where a formula in it gives nothing, which is reported. */
export function say(scope: Scope, { parts }: Sentence): Said | undefined {
  const said = parts.map((part) => (typeof part === 'string' ? part : evaluate(scope, part)));
  return said.includes(undefined) ? undefined : said.filter((part) => part !== undefined);
}

export const isPlain = (sentence: Sentence): sentence is Sentence & { readonly parts: readonly string[] } => sentence.parts.every((part) => typeof part === 'string');

/** What a formula in a text that is told of nothing stands for. */
export const unknown = ({ text }: Pick<Declaration, 'text'>, { start, end }: Expression): string => `{${text.slice(start, end)}}`;

/** What the texts of a declaration say in the combination at hand; a formula that gives nothing stands as it is written. Of these by themselves nothing is reported: see {@link noteFaults}. */
export const saidIn: Query<Declaration, ReadonlyMap<Sentence, Said>> = {
  name: 'what notes say',
  input: false,
  compute: (context, declaration) => {
    const scope = scopeOf(context, declaration);
    return new Map(sentencesIn(declaration.tree).map(({ sentence }) => [sentence, sentence.parts.map((part) => (typeof part === 'string' ? part : evaluate(scope, part) ?? unknown(declaration, part)))]));
  },
};

/** Works out all notes of a declaration that is there, for what is to be reported of them. */
export const noteFaults: Query<Declaration, boolean> = {
  name: 'notes',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    if ((tree.kind === 'piece' || tree.kind === 'supply') && !context.get(isWanted, declaration as Parameters<typeof isWanted.compute>[1])) return false;
    const scope = scopeOf(context, declaration);
    for (const { sentence, condition } of sentencesIn(tree)) if (!isPlain(sentence) && (condition === undefined || holds(scope, condition) === true)) say(scope, sentence);
    return true;
  },
};

interface Conditional {
  readonly sentence: Sentence;
  /** In which sizes and choices it is told, if not in all. */
  readonly condition: Condition | undefined;
}

function sentencesIn(tree: DeclarationTree): readonly Conditional[] {
  switch (tree.kind) {
    case 'note':
      return [{ sentence: tree.text, condition: undefined }];
    case 'check':
      return tree.otherwise?.message === undefined ? [] : [{ sentence: tree.otherwise.message, condition: tree.condition }];
    case 'piece':
      return tree.body.statements.flatMap((statement) => (statement.kind === 'cut' ? ofCut(statement) : ofLine(statement)));
    case 'material':
    case 'supply':
      return tree.body.statements.flatMap(ofLine);
    default:
      return [];
  }
}

const ofLine = (statement: Statement & { readonly kind: string }): readonly Conditional[] => (statement.kind === 'note' ? [{ sentence: (statement as NoteStatement).text, condition: undefined }] : []);

function ofCut({ clauses }: CutStatement): readonly Conditional[] {
  const condition = clauses.find((clause) => clause.kind === 'when')?.condition;
  return clauses.flatMap((clause) => (clause.kind === 'note' ? [{ sentence: clause.text, condition }] : []));
}

/** A text in the words of the scope's file, for problems. */
export const wordsOf = (scope: Scope, said: Said): string =>
  said.map((part) => (typeof part === 'string' ? part : part.dimension === 'length' ? lengthText(scope, part.amount) : showValue(part, scope.settings.display))).join('');
