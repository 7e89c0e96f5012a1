import { leavesOf } from '../syntax/leaves.ts';
import type { Declaration, Name, Node, PieceDeclaration, Quoted, SourceFile } from '../syntax/tree.ts';

export type SymbolKind = 'pattern' | 'piece' | 'material' | 'supply' | 'value' | 'thing' | 'seam' | 'step' | 'choice' | 'option' | 'check' | 'edge' | 'line' | 'mark';

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

const titleText = ({ title }: { readonly title?: Quoted }): string => title?.value ?? '';

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
    case 'seam':
    case 'thing':
      return [make(tree.kind, tree.name.text, titleText(tree), tree, tree.name)];
    case 'material':
    case 'supply':
      return [make(tree.kind, tree.name.text, titleText(tree), tree, tree.name)];
    case 'sizes':
      return [make('choice', 'sizes', '', tree, { start: tree.start, end: tree.start + 'sizes'.length }, tree.options.map((option) => make('option', option.text, '', option, option)))];
    case 'choice':
      return [make('choice', tree.name.text, titleText(tree), tree, tree.name, tree.options.map((option) => make('option', option.text, titleText(option), option, option)))];
    case 'work step':
      return [make('step', words(tree.text), '', tree, tree.text)];
    case 'check':
      return [make('check', words(tree.rule), '', tree, tree.rule)];
    case 'piece':
      return [make('piece', tree.name.text, titleText(tree), tree, tree.name, partsOf(tree).map(({ kind, name, detail, whole }) => make(kind, name.text, detail, whole, name)))];
    default:
      return [];
  }
}

interface NamedPart {
  readonly kind: 'edge' | 'line' | 'mark';
  readonly name: Name;
  readonly detail: string;
  readonly whole: Node;
}

/** The parts that a piece's lines, and the steps of its outline, give a name. */
function partsOf({ body }: PieceDeclaration): readonly NamedPart[] {
  return body.statements.flatMap((statement) => {
    const lines = statement.kind === 'outline' && statement.shape.kind === 'path' ? statement.shape.steps.statements : [statement];
    return lines.flatMap((whole): readonly NamedPart[] => {
      const [given] = leavesOf(whole).flatMap((leaf) => (leaf.is === 'name' && leaf.declares && (leaf.role === 'edge' || leaf.role === 'line' || leaf.role === 'mark') ? [{ kind: leaf.role, name: leaf.name }] : []));
      return given === undefined ? [] : [{ ...given, whole, detail: 'use' in whole ? whole.use : whole.kind === 'edge' ? `was ${whole.edge.text}` : '' }];
    });
  });
}
