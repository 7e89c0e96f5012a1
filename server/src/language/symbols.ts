import type { Declaration, Node } from '../syntax/tree.ts';
import type { SourceFile } from '../syntax/tree.ts';

export type SymbolKind = 'pattern' | 'piece' | 'material' | 'supply' | 'value' | 'thing' | 'choice' | 'option' | 'check' | 'edge' | 'line' | 'mark';

/** Something that a file declares, for outlines and search. */
export interface FileSymbol {
  readonly name: string;
  /** What is said beside the name, such as the title. */
  readonly detail: string;
  readonly kind: SymbolKind;
  readonly start: number;
  readonly end: number;
  readonly nameStart: number;
  readonly nameEnd: number;
  readonly children: readonly FileSymbol[];
}

/** What a file declares, in the order of the text. */
export function symbols(file: SourceFile): readonly FileSymbol[] {
  return file.declarations.flatMap(({ declaration, offset }) => symbolOf(declaration, offset));
}

function symbolOf(declaration: Declaration, offset: number): readonly FileSymbol[] {
  const { tree, text } = declaration;
  const make = (kind: SymbolKind, name: string, detail: string, whole: Node, at: Node, children: readonly FileSymbol[] = []): FileSymbol => ({
    name, detail, kind, children,
    start: offset + whole.start, end: offset + whole.end, nameStart: offset + at.start, nameEnd: offset + at.end,
  });
  const words = (node: Node): string => text.slice(node.start, node.end);
  switch (tree.kind) {
    case 'pattern':
      return [make('pattern', tree.title.value === '' ? 'pattern' : tree.title.value, '', tree, tree.title)];
    case 'value':
      return [make('value', tree.name.text, `${tree.of} = ${words(tree.value)}`, tree, tree.name)];
    case 'thing':
      return [make('thing', tree.name.text, tree.title?.value ?? '', tree, tree.name)];
    case 'material':
    case 'supply':
      return [make(tree.kind, tree.name.text, tree.title?.value ?? '', tree, tree.name)];
    case 'sizes':
      return [make('choice', 'sizes', '', tree, { start: tree.start, end: tree.start + 'sizes'.length }, tree.options.map((option) => make('option', option.text, '', option, option)))];
    case 'choice':
      return [make('choice', tree.name.text, '', tree, tree.name, tree.options.map((option) => make('option', option.text, '', option, option)))];
    case 'check':
      return [make('check', words(tree.rule), '', tree, tree.rule)];
    case 'piece': {
      const children: FileSymbol[] = [];
      for (const statement of tree.body.statements) {
        if (statement.kind === 'line') children.push(make('line', statement.name.text, statement.use, statement, statement.name));
        else if (statement.kind === 'mark') children.push(make('mark', statement.name.text, statement.use, statement, statement.name));
        else if (statement.kind === 'edge') children.push(make('edge', statement.name.text, `was ${statement.edge.text}`, statement, statement.name));
        else if (statement.kind === 'outline' && statement.shape.kind === 'path') {
          for (const step of statement.shape.steps.statements) if (step.kind !== 'broken' && step.name !== undefined) children.push(make('edge', step.name.text, '', step, step.name));
        }
      }
      return [make('piece', tree.name.text, tree.title?.value ?? '', tree, tree.name, children)];
    }
    default:
      return [];
  }
}
