import type { Resolved } from '../model/pattern.ts';
import { drawnName, piecesOf, type Run } from '../model/seams/seam.ts';
import type { NumberedStep } from '../model/work/order.ts';
import type { Task } from '../model/work/work-step.ts';
import { stepRows } from '../table/steps.ts';
import type { Display } from '../units/length.ts';
import type { PreviewStep } from './drawing-data.ts';
import type { PlaceWriter } from './places.ts';

/** The steps with what each works on, and what hangs together once it is done. */
export function previewSteps(resolved: Resolved, display: Display, { ref }: PlaceWriter): readonly PreviewStep[] {
  const rows = stepRows(resolved, display);
  let groups: readonly ReadonlySet<string>[] = [];
  return resolved.steps.map((step, index) => {
    groups = joinedBy(step, groups);
    const { declaration } = step;
    return {
      number: step.number,
      text: rows[index]?.text ?? '',
      span: ref({ chunk: declaration, start: declaration.tree.start, end: declaration.tree.end }),
      lights: Object.fromEntries([...lightsOf(step, resolved)].map(([piece, parts]) => [piece, [...parts]])),
      joined: groups.map((group) => [...group]),
    };
  });
}

/** What hung together, and the pieces of the seams that the step sews. */
function joinedBy({ tasks }: NumberedStep, before: readonly ReadonlySet<string>[]): readonly ReadonlySet<string>[] {
  let groups = before;
  for (const task of tasks) {
    if (task.kind !== 'seam') continue;
    const own = new Set([...piecesOf(task.seam)].map(({ name }) => name));
    if (own.size < 2) continue;
    const touched = groups.filter((group) => [...own].some((name) => group.has(name)));
    groups = [...groups.filter((group) => !touched.includes(group)), new Set([...touched.flatMap((group) => [...group]), ...own])];
  }
  return groups;
}

function lightsOf({ tasks }: NumberedStep, resolved: Resolved): ReadonlyMap<string, ReadonlySet<string>> {
  const lights = new Map<string, Set<string>>();
  const add = (piece: string, ...parts: readonly string[]): void => void lights.set(piece, new Set([...(lights.get(piece) ?? []), ...parts]));
  for (const task of tasks) addTask(task, resolved, add);
  return lights;
}

function addTask(task: Task, { supplies, pieces }: Resolved, add: (piece: string, ...parts: readonly string[]) => void): void {
  switch (task.kind) {
    case 'seam':
      for (const run of [task.seam.first, task.seam.second]) addRun(run, add);
      return;
    case 'edge':
      return add(task.piece.name, task.edge);
    case 'dart':
      return add(task.piece.name, task.dart);
    case 'stitches':
      return add(task.piece.name, task.row.name);
    case 'layers':
    case 'folded':
    case 'piece':
      return add(task.piece.name);
    case 'supply': {
      const name = task.supply.tree.name.text;
      for (const { path: [piece, mark] } of supplies.find((one) => one.name === name)?.marks ?? []) if (piece !== undefined && mark !== undefined) add(piece.text, mark.text);
      for (const { shape, finishes } of pieces) for (const [edge, { supply }] of finishes) if (supply === task.supply) add(shape.name, edge);
    }
  }
}

function addRun({ stretches, line }: Run, add: (piece: string, ...parts: readonly string[]) => void): void {
  for (const { piece, edge } of stretches) add(piece.name, drawnName(edge));
  if (line !== undefined) add(line.piece.name, line.line.name);
}
