import { takesFromEdge } from '../piece/darts.ts';
import type { Declaration, Name } from '../../syntax/tree.ts';
import type { NamedDeclaration } from '../names/world.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { shapeOf } from '../piece/shape.ts';
import { allSeams } from '../query/inputs.ts';
import type { Query } from '../query/query.ts';
import { report, scopeOf, type Scope } from '../query/scope.ts';
import { finishesOf } from '../seams/finishes.ts';
import { seamOf } from '../seams/read-seam.ts';
import { piecesOf } from '../seams/seam.ts';
import type { Supply, SupplyKind } from '../stock/supply.ts';
import type { PieceShape } from '../piece/piece.ts';
import { orderOf, type NumberedStep, type OrderFault } from '../work/order.ts';
import { taskName } from '../work/work-step.ts';

/** What a step does can be done there, and for the first time. */
export const workStepChecks: Query<Declaration, boolean> = {
  name: 'work step checks',
  input: false,
  compute: (context, declaration) => {
    const scope = scopeOf(context, declaration);
    const faults = context.get(orderOf, 'all').faults.get(declaration) ?? [];
    for (const fault of faults) reportFault(scope, fault);
    return faults.length === 0;
  },
};

function reportFault(scope: Scope, fault: OrderFault): void {
  const { task: { place }, task } = fault;
  const name = taskName(task);
  switch (fault.kind) {
    case 'done twice':
      report(scope, 'done-twice', place, { name }, { related: [{ place: fault.earlier.place, message: 'This step does it.' }] });
      return;
    case 'not joined': {
      const { seam, pieces: [one, other] } = fault;
      report(scope, 'not-yet-joined', place, { seam: seam.name, one: one.name, other: other.name }, { related: [{ place: seam.place, message: 'This seam runs over both.' }] });
      return;
    }
    case 'unfinished':
      report(scope, 'not-yet-finished', place, { row: name, needs: fault.needs, how: fault.how });
      return;
    case 'dart open':
      report(scope, 'dart-open', place, { seam: fault.seam.name, dart: `${fault.piece.name}.${fault.dart.name}`, isPleat: fault.dart.pleat !== undefined }, { related: [{ place: fault.dart.place, message: fault.dart.pleat === undefined ? 'The dart.' : 'The pleat.' }] });
      return;
    case 'too late': {
      const { piece, earlier, by } = fault;
      const related = [{ place: earlier.place, message: 'From this step on.' }];
      if (task.kind === 'supply') report(scope, 'supply-too-late', place, { supply: name, piece: piece.name, isByEnds: by.kind === 'ends' }, { related });
      else report(scope, 'too-late', place, { name, sewn: by.kind === 'edge' ? `${piece.name}.${by.edge}` : piece.name, by: by.kind, closing: 'seam' in by ? [by.seam.name] : closingIn(earlier, piece) }, { related });
    }
  }
}

/** The seams of a step that close a piece in. */
const closingIn = ({ tasks }: NumberedStep, piece: PieceShape): readonly string[] => tasks.flatMap((task) => (task.kind === 'seam' && piecesOf(task.seam).has(piece) ? [task.seam.name] : []));

/** A seam that is there must be sewn in some step, once the steps say what they do. */
export function checkSeamDone(scope: Scope, declaration: NamedDeclaration): void {
  const { name } = declaration.tree;
  leftOut(scope, name, [name.text]);
}

/** What is at hand all along, not set in one step. */
const atHand: readonly SupplyKind[] = ['thread', 'glue'];

/** So must a supply be set. */
export function checkSupplySet(scope: Scope, { name, kind }: Supply): void {
  const { tree } = scope.declaration;
  if (!atHand.includes(kind) && tree.kind === 'supply') leftOut(scope, tree.name, [name]);
}

/** Of a piece, its layers and the finishes of its edges must be done, and it must be used at all. */
export function checkPieceUsed(scope: Scope, lines: readonly CutLine[], declaration: NamedDeclaration): void {
  const { context } = scope;
  const name = declaration.tree.name.text;
  if (lines.length === 0 || context.get(orderOf, 'all').doneIn.has(name)) return;
  const layers = lines.some(({ layer }) => layer !== undefined) ? [`${name}.layers`] : [];
  const finishes = [...context.get(finishesOf, declaration)].filter(([, { kind, namesSupply }]) => kind !== 'raw' && kind !== 'caught' && !namesSupply).map(([edge]) => `${name}.${edge}`);
  const shape = context.get(shapeOf, declaration);
  const darts = (shape?.lines ?? []).filter(takesFromEdge).map((dart) => `${name}.${dart.name}`);
  const stitches = (shape?.stitchRows ?? []).map((row) => `${name}.${row.name}`);
  const own = [...darts, ...layers, ...finishes, ...stitches];
  if (own.length > 0 || !isSewn(scope, declaration)) leftOut(scope, declaration.tree.name, own.length > 0 ? own : [name]);
}

/** Reports those of some tasks that no step does, where that is known. */
function leftOut(scope: Scope, at: Name, names: readonly string[]): void {
  const { isWhole, doneIn, steps } = scope.context.get(orderOf, 'all');
  const left = names.filter((name) => !doneIn.has(name));
  const last = steps.at(-1)?.declaration;
  if (!isWhole || left.length === 0 || last === undefined) return;
  const end = last.tree.end;
  report(scope, 'left-out', at, { names: left }, {
    fixes: [{ title: `Add a step that does ${left.join(', ')}`, safe: false, edits: [{ place: { chunk: last, start: end, end }, newText: `\nstep "What to do." does ${left.join(', ')}` }] }],
  });
}

/** Whether any seam is there that a piece is in, or that can't be read and may be meant for it. */
function isSewn({ context }: Scope, declaration: NamedDeclaration): boolean {
  return context.get(allSeams, 'all').some((one) => {
    const seam = context.get(seamOf, one);
    return seam !== undefined && [...piecesOf(seam)].some((piece) => piece.declaration === declaration);
  });
}
