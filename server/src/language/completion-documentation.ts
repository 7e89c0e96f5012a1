import { edgeLength } from '../geometry/measure.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { sizeOfPiece } from '../model/piece/size.ts';
import type { Declaration } from '../syntax/tree.ts';
import { showLength } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import { sidesText } from '../units/sides.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { combinationsToShow } from '../table/combinations.ts';
import { valueText } from './inlay-hints.ts';

/** What is known of a name that is offered, in a line: cheap enough to be told of all names at once. */
export function aboutName(snapshot: Snapshot, name: string): string {
  const { pattern } = snapshot;
  const declaration = pattern.world.names.get(name);
  const tree = declaration?.tree;
  switch (tree?.kind) {
    case 'value': {
      const formula = `\`${oneLine(declaration?.text.slice(tree.value.start, tree.value.end) ?? '')}\``;
      const value = tree.value.kind === 'number' ? undefined : valueText(snapshot, name, combinationsToShow(pattern));
      return value === undefined ? formula : `${formula} = ${value}`;
    }
    case 'thing':
      return declaration === undefined ? '' : oneLine(declaration.text.slice(tree.width.start, tree.height.end));
    case 'material':
      return facts(declaration, tree.body.statements, ['role', 'width']);
    case 'supply':
      return facts(declaration, tree.body.statements, ['supply kind', 'finished', 'across', 'length']);
    case 'piece':
      // In the first options: shapes of all of them would take too long.
      return cutSize(pattern.shape(name, new Map()), pattern.display, pattern.choices.size > 0);
    default:
      return '';
  }
}

/** How long an edge of a piece is. */
export function aboutEdge({ pattern }: Snapshot, shape: PieceShape | undefined, name: string): string {
  const edge = shape?.stitching.edges.find((one) => one.name === name);
  return edge === undefined ? '' : `${showLength(measured(edgeLength(edge)), pattern.display)} along the stitching line`;
}

const oneLine = (text: string): string => text.replace(/\s*[\n\r]\s*/g, ' ');

/** Facts of a block as they are written. */
function facts(declaration: Declaration | undefined, statements: readonly { readonly kind: string; readonly start: number; readonly end: number }[], kinds: readonly string[]): string {
  return statements.filter(({ kind }) => kinds.includes(kind)).map(({ start, end }) => oneLine(declaration?.text.slice(start, end) ?? '')).join(', ');
}

function cutSize(shape: PieceShape | undefined, display: Snapshot['pattern']['display'], choices: boolean): string {
  if (shape === undefined) return '';
  const { width, height, circle } = sizeOfPiece(shape, 'cutting');
  return `${sidesText(circle, showLength(width, display), showLength(height, display))} as cut${choices ? ' (first options)' : ''}`;
}
