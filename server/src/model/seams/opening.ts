import { edgeLength } from '../../geometry/measure.ts';
import type { Edge } from '../../geometry/shape.ts';
import type { SeamDeclaration } from '../../syntax/tree.ts';
import { evaluate, evaluateAs, positiveLength } from '../formulas/evaluate.ts';
import { dartsOn } from '../piece/darts.ts';
import { lengthText, report, type Scope } from '../query/scope.ts';
import { walkedRuns } from './notches.ts';
import { sewnAlong, stretchLength, type Opening, type Run, type Seam, type Stretch } from './seam.ts';

/** By how much an opening may reach beyond its seam, in millimetres: rounding. */
const slack = 0.05;

/** Part of an edge, in millimetres from where the outline reaches it. */
export type Part = Pick<Stretch, 'piece' | 'edge' | 'from' | 'to'>;

/** What an opening is measured along: the run that isn't eased, or what is laid on a line. */
const measuredOn = ({ first, second }: Pick<Seam, 'first' | 'second'>): Run => (second.line === undefined ? second : first);

/** How much of a seam stays open, and where; undefined where that can't be, which is reported. */
export function openingOf(scope: Scope, { open, openOn, openAt }: SeamDeclaration, runs: Pick<Seam, 'first' | 'second'>, tolerance: number): Opening | undefined {
  if (open === undefined) return { length: 0, from: undefined };
  const length = positiveLength(scope, open, 'An opening')?.amount.valueOf();
  if (length === undefined) return undefined;
  const whole = runs.second.length;
  if (length >= whole - tolerance) {
    report(scope, 'open-too-long', open, { open: lengthText(scope, length), seam: lengthText(scope, whole) });
    return undefined;
  }
  if (openAt === undefined) return { length, from: undefined };
  const run = measuredOn(runs);
  const stretch = openOn && [...runs.second.stretches, ...runs.first.stretches].find(({ piece, edge }) => openOn.path.map(({ text }) => text).join('.') === `${piece.name}.${edge}`);
  if (openOn !== undefined && stretch === undefined) {
    report(scope, 'open-elsewhere', openOn, { edge: openOn.path.map(({ text }) => text).join('.'), known: [...new Set([...runs.second.stretches, ...runs.first.stretches].map(({ piece, edge }) => `${piece.name}.${edge}`))] });
    return undefined;
  }
  const along = placeAlong(scope, openAt, stretch === undefined ? run.length : edgeLength(edgeOf(stretch)));
  const middle = along === undefined || stretch === undefined ? along : alongRun(runs, stretch, along);
  if (middle === undefined) return undefined;
  const from = middle - length / 2;
  if (from >= -slack && from + length <= run.length + slack) return { length, from: Math.max(0, from) };
  report(scope, 'open-beyond', openAt, { open: lengthText(scope, length), seam: lengthText(scope, run.length) });
  return undefined;
}

function placeAlong(scope: Scope, at: NonNullable<SeamDeclaration['openAt']>, whole: number): number | undefined {
  const value = evaluate(scope, at);
  return value?.dimension === 'number' ? value.amount.valueOf() * whole : value && evaluateAs(scope, at, 'length')?.amount.valueOf();
}

/** How far along what an opening is measured on a place of an edge lies that is given from where that edge is measured. */
function alongRun(runs: Pick<Seam, 'first' | 'second'>, stretch: Stretch, along: number): number {
  const own = runs.second.stretches.includes(stretch) ? runs.second : runs.first;
  const edge = edgeOf(stretch);
  const raw = edge.measuredFrom === 'start' ? along : edgeLength(edge) - along;
  let behind = 0;
  for (const one of own.stretches) {
    if (one === stretch) break;
    behind += stretchLength(one);
  }
  const inside = sewnAlong(stretch, raw);
  const at = behind + (wayOf(stretch) === -1 ? stretchLength(stretch) - inside : inside);
  const run = measuredOn(runs);
  return (at / own.length) * run.length;
}

/** What of a run is sewn; undefined where it isn't known where its opening lies, or nothing is left open. */
export function sewnParts(seam: Seam, run: Run): readonly Part[] | undefined {
  const { length, from } = seam.opening;
  if (length === 0 || from === undefined) return undefined;
  const share = run.length / measuredOn(seam).length;
  const [a, b] = [from * share, (from + length) * share];
  return partsBut(run, run === seam.first && meetsTurned(seam) && measuredOn(seam) === seam.second ? [run.length - b, run.length - a] : [a, b]);
}

/** What of a run an opening takes. */
export function openParts(seam: Seam): readonly Part[] {
  const { length, from } = seam.opening;
  if (length === 0 || from === undefined) return [];
  return spans(measuredOn(seam)).flatMap((span) => within(span, from, from + length));
}

interface Span {
  readonly stretch: Stretch;
  /** Along the run. */
  readonly start: number;
  readonly end: number;
}

function spans({ stretches }: Run): readonly Span[] {
  let behind = 0;
  return stretches.map((stretch) => {
    const start = behind;
    behind += stretchLength(stretch);
    return { stretch, start, end: behind };
  });
}

const partsBut = (run: Run, [a, b]: readonly [number, number]): readonly Part[] => spans(run).flatMap((span) => [...within(span, span.start, a), ...within(span, b, span.end)]);

/** What of a stretch lies between two places along its run. */
function within({ stretch, start, end }: Span, a: number, b: number): readonly Part[] {
  const [from, to] = [Math.max(a, start) - start, Math.min(b, end) - start];
  if (to - from < slack) return [];
  const long = end - start;
  const [near, far] = wayOf(stretch) === -1 ? [long - to, long - from] : [from, to];
  return [{ piece: stretch.piece, edge: stretch.edge, from: rawAt(stretch, near, false), to: rawAt(stretch, far, true) }];
}

/** Where along an edge a place of a stretch lies, its darts laid open; one that ends there is left out where it is the end. */
function rawAt(stretch: Stretch, sewn: number, isEnd: boolean): number {
  let raw = stretch.from + sewn;
  for (const { from, to } of dartsOn(stretch.piece, stretch.edge)) {
    const begin = Math.max(from, stretch.from);
    if (to > stretch.from && (isEnd ? raw > begin + slack : raw >= begin - slack)) raw += to - begin;
  }
  return Math.min(raw, stretch.to);
}

const edgeOf = ({ piece, edge }: Stretch): Edge => piece.whole.stitching.edges.find(({ name }) => name === edge) ?? { name: edge, start: { x: 0, y: 0 }, segments: [], measuredFrom: 'start' };

/** An edge of which the spec doesn't say where it begins is taken to begin where it is measured from: below, or at the left. */
const wayOf = (stretch: Stretch): 1 | -1 => stretch.way ?? (edgeOf(stretch).measuredFrom === 'end' ? -1 : 1);

/** Whether the end of the second run meets the beginning of the first, as its notches tell. */
function meetsTurned(seam: Seam): boolean {
  const [walked, own] = [walkedRuns(seam)?.second.stretches[0], seam.second.stretches];
  const first = own[0];
  return walked !== undefined && first !== undefined && own.length === 1 && walked.way !== wayOf(first);
}
