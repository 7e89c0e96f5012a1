import type { Declaration } from '../../syntax/tree.ts';
import { placesSetAt } from '../stock/set-at.ts';
import { supplyOf } from '../stock/supply.ts';
import { finishesOf } from '../seams/finishes.ts';
import { cutsOf } from '../piece/cuts.ts';
import { dartsOn } from '../piece/darts.ts';
import type { InnerLine, PieceShape, StitchRow } from '../piece/piece.ts';
import { isWanted, shapeOf } from '../piece/shape.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { allPieces, allSeams, allSteps, declarationOf } from '../query/inputs.ts';
import type { Context, Query } from '../query/query.ts';
import { seamOf, usualTolerance } from '../seams/read-seam.ts';
import { drawnName, laysFolded, piecesOf, type Run, type Seam, type Stretch } from '../seams/seam.ts';
import { workStepOf } from './read-step.ts';
import { threadedOn } from './threaded.ts';
import { taskName, type Task, type WorkStep } from './work-step.ts';

/** What can't be done where a step does it. */
export type OrderFault =
  | { readonly kind: 'done twice'; readonly task: Task; readonly earlier: NumberedStep }
  /** A run goes over two pieces that nothing has joined yet. */
  | { readonly kind: 'not joined'; readonly task: Task; readonly seam: Seam; readonly pieces: readonly [PieceShape, PieceShape] }
  | { readonly kind: 'dart open'; readonly task: Task; readonly seam: Seam; readonly dart: InnerLine; readonly piece: PieceShape }
  /** What a row of stitches runs beside, or through, is only made later. */
  | { readonly kind: 'unfinished'; readonly task: Task; readonly needs: string; readonly how: 'sewn' | 'finished' | 'folded' | 'layers' | 'casing' }
  | { readonly kind: 'too late'; readonly task: Task; readonly piece: PieceShape; readonly earlier: NumberedStep; readonly by: Barrier };

/** What stands in the way of a task by then. */
export type Barrier =
  /** The piece lies between seams: sewn to others all round, sewn down on another, or both its ends are sewn. */
  | { readonly kind: 'round' | 'down' | 'ends' }
  /** The edge that something is to be caught on is sewn. */
  | { readonly kind: 'edge'; readonly edge: string; readonly seam: Seam }
  /** The piece doesn't lie flat any more. */
  | { readonly kind: 'seam'; readonly seam: Seam };

const round: Barrier = { kind: 'round' };
const down: Barrier = { kind: 'down' };

/** Tasks by their names, and the steps that do them. */
type Done = ReadonlyMap<string, NumberedStep>;

export interface NumberedStep extends WorkStep {
  /** Counted from 1. */
  readonly number: number;
  readonly declaration: Declaration;
}

/** The order of work in the combination at hand. */
export interface Order {
  readonly steps: readonly NumberedStep[];
  /** Whether every step could be read, and any says what it does: only then is it known what none of them does. */
  readonly isWhole: boolean;
  /** In which step each task is done, by its name. */
  readonly doneIn: Done;
  readonly faults: ReadonlyMap<Declaration, readonly OrderFault[]>;
}

export const orderOf: Query<'all', Order> = {
  name: 'order of work',
  input: false,
  compute: (context) => {
    const declarations = context.get(allSteps, 'all');
    const read = declarations.map((declaration) => ({ declaration, step: context.get(workStepOf, declaration) }));
    const there = read.flatMap(({ declaration, step }) => (step === undefined || step === 'not there' ? [] : [{ ...step, declaration }]));
    const steps = there.map((step, index) => ({ ...step, number: index + 1 }));
    const isRead = read.every(({ step }) => step !== undefined);
    return { steps, isWhole: isRead && steps.some(({ tasks }) => tasks.length > 0), ...new Walk(context, isRead, steps).through(steps) };
  },
};

/** A step with its number; undefined where it isn't there. */
export const numberedStepOf: Query<Declaration, NumberedStep | undefined> = {
  name: 'numbered step',
  input: false,
  compute: (context, declaration) => context.get(orderOf, 'all').steps.find((step) => step.declaration === declaration),
};

/** Goes through the steps in their order, and keeps what is done. */
class Walk {
  readonly #context: Context;
  readonly #doneIn = new Map<string, NumberedStep>();
  readonly #isRead: boolean;
  /** All that any step does. */
  readonly #all: ReadonlySet<string>;
  readonly #joined = new Joined();
  /** All seams of the pattern that are there. */
  readonly #seams: readonly Seam[];
  readonly #faults = new Map<Declaration, OrderFault[]>();

  /** @param isRead whether there is no step that may do more than is known */
  constructor(context: Context, isRead: boolean, steps: readonly NumberedStep[]) {
    this.#all = new Set(steps.flatMap(({ tasks }) => tasks.map(taskName)));
    this.#context = context;
    this.#isRead = isRead;
    this.#seams = context.get(allSeams, 'all').map((one) => context.get(seamOf, one)).filter((seam) => seam !== undefined);
  }

  through(steps: readonly NumberedStep[]): Pick<Order, 'doneIn' | 'faults'> {
    for (const step of steps) {
      const { declaration, tasks } = step;
      const before = new Map(this.#doneIn);
      const within = new Set(tasks.map(taskName));
      for (const task of tasks) {
        const fault = this.#faultOf(task, before, within);
        if (fault !== undefined) this.#faults.set(declaration, [...(this.#faults.get(declaration) ?? []), fault]);
        if (task.kind === 'seam') this.#joined.join(piecesOf(task.seam));
        if (!this.#doneIn.has(taskName(task))) this.#doneIn.set(taskName(task), step);
      }
    }
    return { doneIn: this.#doneIn, faults: this.#faults };
  }

  /**
   * @param before what was done in earlier steps: within one, the order is left to its sentence
   * @param within all that this step does
   */
  #faultOf(task: Task, before: Done, within: ReadonlySet<string>): OrderFault | undefined {
    const earlier = this.#doneBefore(task);
    if (earlier !== undefined) return { kind: 'done twice', task, earlier };
    switch (task.kind) {
      case 'seam':
        return this.#notJoined(task, task.seam) ?? this.#dartOpen(task, task.seam) ?? this.#seamTooLate(task, task.seam, before, within);
      case 'supply': {
        const open = this.#casingOpen(task, task.supply, within);
        if (open !== undefined) return open;
        const pieces = this.#piecesAt(task.supply.tree.name.text);
        const closed = pieces.map((piece) => this.#tooLate(task, piece, this.#sewnRound(piece, before), round));
        return (closed.includes(undefined) ? undefined : closed[0]) ?? this.#threadedTooLate(task, task.supply, before);
      }
      case 'layers':
      case 'folded':
        return this.#tooLate(task, task.piece, this.#sewnRound(task.piece, before), round) ?? this.#tooLate(task, task.piece, this.#laidDown(task.piece, before), down);
      case 'edge':
        return this.#tooLate(task, task.piece, this.#laidDown(task.piece, before), down);
      case 'stitches':
        return this.#unfinished(task, task.piece, task.row, within) ?? this.#stitchedTooLate(task, task.piece, task.row, before);
      case 'piece':
        // It stands for its layers too, where no step puts those on.
        return this.#hasLayers(task.piece) && !this.#all.has(`${task.piece.name}.layers`) ? this.#tooLate(task, task.piece, this.#sewnRound(task.piece, before), round) : undefined;
      case 'dart':
        return undefined;
    }
  }

  /** The step that does a task already, itself or with all of its piece. */
  #doneBefore = (task: Task): NumberedStep | undefined =>
    this.#doneIn.get(taskName(task)) ?? ('piece' in task && task.kind !== 'piece' ? this.#doneIn.get(task.piece.name) : undefined);

  /** A cord is drawn in once its casing is stitched; an elastic may be laid in and stitched over. */
  #casingOpen(task: Task, declaration: NamedDeclaration, within: ReadonlySet<string>): OrderFault | undefined {
    if (!this.#isRead || this.#context.get(supplyOf, declaration)?.kind === 'elastic') return undefined;
    for (const one of this.#context.get(allPieces, 'all')) {
      if (!this.#context.get(isWanted, one)) continue;
      for (const [edge, { kind, supply }] of this.#context.get(finishesOf, one)) {
        const hem = `${one.tree.name.text}.${edge}`;
        if (kind === 'hemmed' && supply === declaration && !within.has(hem) && this.#isLater(hem)) return { kind: 'unfinished', task, needs: hem, how: 'casing' };
      }
    }
    return undefined;
  }

  /** An edge is sewn, hemmed or folded before it is topstitched; layers are on before cloth is quilted. */
  #unfinished(task: Task, piece: PieceShape, { kind, from }: StitchRow, within: ReadonlySet<string>): OrderFault | undefined {
    if (!this.#isRead) return undefined;
    const fault = (needs: string, how: 'sewn' | 'finished' | 'folded' | 'layers'): OrderFault => ({ kind: 'unfinished', task, needs, how });
    /** What a step of its own does, or else the one that does all of its piece. */
    const isLater = (name: string): boolean => {
      const by = this.#all.has(name) ? name : piece.name;
      return !within.has(by) && this.#isLater(by);
    };
    if (kind === 'quilt') {
      const layers = `${piece.name}.layers`;
      return this.#hasLayers(piece) && isLater(layers) ? fault(layers, 'layers') : undefined;
    }
    const finishes = this.#context.get(finishesOf, piece.declaration);
    for (const name of from) {
      const seam = this.#seams.find((one) => one.way === 'with' && takesEdge(one, piece, name) && !within.has(one.name) && this.#isLater(one.name));
      if (seam !== undefined) return fault(seam.name, 'sewn');
      const finish = finishes.get(name);
      const made = finish?.supply?.tree.name.text ?? `${piece.name}.${name}`;
      if (finish !== undefined && finish.kind !== 'raw' && isLater(made)) return fault(made, 'finished');
      const folded = `${piece.name}.folded`;
      if (this.#all.has(folded) && isLater(folded) && piece.lines.some((line) => line.name === name && line.use === 'foldline')) return fault(folded, 'folded');
    }
    return undefined;
  }

  /** Cloth is quilted from edge to edge, so before any of them is sewn; what is sewn down by its other edges would be sewn shut by topstitching. */
  #stitchedTooLate(task: Task, piece: PieceShape, { kind, from }: StitchRow, before: Done): OrderFault | undefined {
    if (kind === 'quilt') {
      const seam = this.#seams.find((one) => runsOver(one, piece) && before.has(one.name));
      return seam && this.#tooLate(task, piece, before.get(seam.name), { kind: 'seam', seam });
    }
    const laid = this.#tooLate(task, piece, this.#laidDown(piece, before), down);
    const isByThese = this.#seams.some((seam) => seam.way === 'onto' && from.some((name) => seam.first.stretches.some((stretch) => stretch.piece === piece && drawnName(stretch.edge) === name)));
    return isByThese ? undefined : laid;
  }

  #hasLayers = ({ declaration }: PieceShape): boolean => this.#context.get(cutsOf, declaration).some(({ layer }) => layer !== undefined);

  #tooLate(task: Task, piece: PieceShape, earlier: NumberedStep | undefined, by: Barrier): OrderFault | undefined {
    return earlier === undefined ? undefined : { kind: 'too late', task, piece, earlier, by };
  }

  /** A ring goes on over an end that nothing holds yet. */
  #threadedTooLate(task: Task, declaration: NamedDeclaration, before: Done): OrderFault | undefined {
    const supply = this.#context.get(supplyOf, declaration);
    const threaded = supply && threadedOn(this.#context, supply);
    if (threaded === undefined || threaded.ends.length === 0) return undefined;
    const { piece, ends } = threaded;
    const holds = ({ way, first, second }: Seam, end: string): boolean =>
      [...first.stretches, ...(way === 'with' ? second.stretches : [])].some((stretch) => stretch.piece === piece && stretch.edge === end);
    const holding = ends.map((end) => firstOf(this.#seams.filter((seam) => piecesOf(seam).size > 1 && holds(seam, end)), before));
    return holding.includes(undefined) ? undefined : this.#tooLate(task, piece, latest(holding), { kind: 'ends' });
  }

  /** Of a run over several pieces, those that follow one another must be in one by then. */
  #notJoined(task: Task, seam: Seam): OrderFault | undefined {
    if (!this.#isRead) return undefined;
    for (const { stretches } of [seam.first, seam.second]) {
      for (const [index, { piece }] of stretches.entries()) {
        const next = stretches[index + 1]?.piece;
        if (next !== undefined && next !== piece && !this.#joined.are(piece, next)) return { kind: 'not joined', task, seam, pieces: [piece, next] };
      }
    }
    return undefined;
  }

  /** A dart is closed before the edge that it takes from is sewn; one that no step closes is told where it is left out. */
  #dartOpen(task: Task, seam: Seam): OrderFault | undefined {
    if (!this.#isRead) return undefined;
    for (const { piece, edge, from, to } of [...seam.first.stretches, ...seam.second.stretches]) {
      const open = dartsOn(piece, edge).find((dart) => Math.min(dart.to, to) > Math.max(dart.from, from) && this.#isLater(`${piece.name}.${dart.line.name}`, piece.name));
      if (open !== undefined) return { kind: 'dart open', task, seam, dart: open.line, piece };
    }
    return undefined;
  }

  /** Whether one of some tasks is done, but none of them yet. */
  #isLater = (...names: readonly string[]): boolean => names.some((name) => this.#all.has(name)) && !names.some((name) => this.#doneIn.has(name));

  /** What lies on a line inside a piece is sewn on while that lies flat; and a corner of a patch is closed before it is laid on. */
  #seamTooLate(task: Task, seam: Seam, before: Done, within: ReadonlySet<string>): OrderFault | undefined {
    const under = seam.second.line?.piece;
    if (under !== undefined) return this.#tooLate(task, under, this.#sewnRound(under, before), round);
    if (seam.way === 'onto') return this.#caughtTooLate(task, seam, before, within);
    const [own, ...others] = piecesOf(seam);
    return own === undefined || others.length > 0 ? undefined : this.#tooLate(task, own, this.#laidDown(own, before), down);
  }

  /** What is laid on an edge is caught in the seam of that edge, unless it hangs on it already, as a waistband does that is turned over the seam. */
  #caughtTooLate(task: Task, seam: Seam, before: Done, within: ReadonlySet<string>): OrderFault | undefined {
    for (const { piece, edge, from, to } of seam.second.stretches) {
      const over = (stretch: Stretch): boolean => stretch.piece === piece && stretch.edge === edge && Math.min(to, stretch.to) - Math.max(from, stretch.from) > usualTolerance;
      const closing = this.#seams.find(({ name, way, first, second }) => way === 'with' && before.has(name) && [...first.stretches, ...second.stretches].some(over));
      if (closing === undefined || (!laysFolded(seam) && this.#hangsOn(seam.first, piece, before, within))) continue;
      return this.#tooLate(task, piece, before.get(closing.name), { kind: 'edge', edge: drawnName(edge), seam: closing });
    }
    return undefined;
  }

  /** Whether seams edge to edge have joined what a run takes to a piece by then. */
  #hangsOn({ stretches }: Run, piece: PieceShape, before: Done, within: ReadonlySet<string>): boolean {
    const joined = new Joined();
    for (const seam of this.#seams) if (seam.way === 'with' && (before.has(seam.name) || within.has(seam.name))) joined.join(piecesOf(seam));
    return stretches.some((stretch) => stretch.piece === piece || joined.are(stretch.piece, piece));
  }

  /** The step after which every edge of a piece that is sewn to another is so. */
  #sewnRound = (piece: PieceShape, before: Done): NumberedStep | undefined =>
    lastOf(this.#seams.filter((seam) => seam.way === 'with' && runsOver(seam, piece)), before);

  /** The step after which a piece is sewn down on another with all the edges that it is sewn down by. */
  #laidDown = (piece: PieceShape, before: Done): NumberedStep | undefined =>
    lastOf(this.#seams.filter((seam) => seam.way === 'onto' && isIn(seam.first, piece)), before);

  /** The pieces that a supply is set on: those with its marks, and those with edges that take it. */
  #piecesAt(name: string): readonly PieceShape[] {
    const declaration = this.#context.get(declarationOf, name);
    const supply = declaration && this.#context.get(supplyOf, declaration);
    const marked = (supply === undefined ? undefined : placesSetAt(this.#context, supply.marks)) ?? [];
    const taking = [...new Set(this.#seams.flatMap((seam) => [...piecesOf(seam)]))].filter((piece) =>
      this.#context.get(isWanted, piece.declaration) && this.#context.get(shapeOf, piece.declaration) !== undefined
      && [...this.#context.get(finishesOf, piece.declaration).values()].some((finish) => finish.kind === 'takes' && finish.supply === declaration));
    return [...new Set([...marked.map(({ piece }) => piece), ...taking])];
  }
}

/** The last step in which some seams are done; undefined where there are none, or one isn't done. */
function lastOf(seams: readonly Seam[], before: Done): NumberedStep | undefined {
  const steps = seams.map(({ name }) => before.get(name));
  return steps.includes(undefined) ? undefined : latest(steps);
}

/** The first step in which one of some seams is done. */
const firstOf = (seams: readonly Seam[], before: Done): NumberedStep | undefined =>
  seams.map(({ name }) => before.get(name)).filter((step) => step !== undefined).sort((a, b) => a.number - b.number)[0];

const latest = (steps: readonly (NumberedStep | undefined)[]): NumberedStep | undefined =>
  steps.filter((step) => step !== undefined).sort((a, b) => b.number - a.number)[0];

/** Whether a seam sews an edge of a piece, or part of it, on either half. */
const takesEdge = ({ first, second }: Seam, piece: PieceShape, edge: string): boolean =>
  [...first.stretches, ...second.stretches].some((stretch) => stretch.piece === piece && drawnName(stretch.edge) === edge);

const isIn = ({ stretches }: Run, piece: PieceShape): boolean => stretches.some((stretch) => stretch.piece === piece);
const runsOver = ({ first, second }: Seam, piece: PieceShape): boolean => isIn(first, piece) || isIn(second, piece);

/** Which pieces are in one, by the seams that are done. */
class Joined {
  readonly #groups = new Map<PieceShape, Set<PieceShape>>();

  join(pieces: ReadonlySet<PieceShape>): void {
    const all = new Set([...pieces].flatMap((piece) => [...(this.#groups.get(piece) ?? [piece])]));
    for (const piece of all) this.#groups.set(piece, all);
  }

  are = (one: PieceShape, other: PieceShape): boolean => this.#groups.get(one)?.has(other) === true;
}
