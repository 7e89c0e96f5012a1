import type { Resolved } from '../model/pattern.ts';
import { titleText } from '../model/titles.ts';
import { taskName, type Task } from '../model/work/work-step.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { edgeText, lineText } from './names.ts';
import { saidText } from './said-text.ts';

/** One step of the order of work, as its maker reads it. */
export interface StepRow {
  /** Counted from 1 among those that are there. */
  readonly number: number;
  /** The sentence, with its measures worked out. */
  readonly text: string;
  /** What is done in it, in the order of the spec. */
  readonly does: readonly { readonly kind: Task['kind']; readonly name: string; readonly title: string }[];
  readonly place: Place;
}

/** The steps that are there, in the order of the spec. */
export const stepRows = ({ steps }: Resolved, display: Display): readonly StepRow[] => steps.map(({ number, says, tasks, place }) => ({
  number, place,
  text: saidText(says, display),
  does: tasks.map((task) => ({ kind: task.kind, name: taskName(task), title: taskTitle(task) })),
}));

function taskTitle(task: Task): string {
  switch (task.kind) {
    case 'seam': return task.seam.title;
    case 'supply': {
      const { tree } = task.supply;
      return tree.kind === 'supply' ? titleText(tree.title, tree.name) : tree.name.text;
    }
    case 'edge': return `${task.piece.title}: ${edgeText(task.piece, task.edge)}`;
    case 'dart': return `${task.piece.title}: ${lineText(task.piece, task.dart)}`;
    case 'stitches': return `${task.piece.title}: ${task.row.title}`;
    case 'layers': return `${task.piece.title}: layers`;
    case 'folded': return `${task.piece.title}: folds`;
    case 'piece': return task.piece.title;
  }
}
