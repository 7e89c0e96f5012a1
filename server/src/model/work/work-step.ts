import type { Place } from '../../problems/place.ts';
import type { Said } from '../notes.ts';
import type { NamedDeclaration } from '../names/world.ts';
import type { PieceShape, StitchRow } from '../piece/piece.ts';
import type { Seam } from '../seams/seam.ts';

/** Something that a step does. */
export type Task = { readonly place: Place } & (
  | { readonly kind: 'seam'; readonly seam: Seam }
  | { readonly kind: 'supply'; readonly supply: NamedDeclaration }
  /** What becomes of an edge that is sewn to no other. */
  | { readonly kind: 'edge'; readonly piece: PieceShape; readonly edge: string }
  | { readonly kind: 'dart'; readonly piece: PieceShape; readonly dart: string }
  /** Topstitching or quilting. */
  | { readonly kind: 'stitches'; readonly piece: PieceShape; readonly row: StitchRow }
  /** All that goes on the cloth of a piece. */
  | { readonly kind: 'layers'; readonly piece: PieceShape }
  /** The folds of a piece, in their order. */
  | { readonly kind: 'folded'; readonly piece: PieceShape }
  /** All that a piece needs of itself: its layers, and what becomes of its edges. */
  | { readonly kind: 'piece'; readonly piece: PieceShape }
);

/** One step of the order of work. */
export interface WorkStep {
  readonly place: Place;
  /** Its sentence: what is written, and what the formulas in it give. */
  readonly says: Said;
  readonly tasks: readonly Task[];
}

/** The name that a task goes by in the text, which is also what tells it from any other. */
export function taskName(task: Task): string {
  switch (task.kind) {
    case 'seam': return task.seam.name;
    case 'supply': return task.supply.tree.name.text;
    case 'edge': return `${task.piece.name}.${task.edge}`;
    case 'dart': return `${task.piece.name}.${task.dart}`;
    case 'stitches': return `${task.piece.name}.${task.row.name}`;
    case 'layers': return `${task.piece.name}.layers`;
    case 'folded': return `${task.piece.name}.folded`;
    case 'piece': return task.piece.name;
  }
}
