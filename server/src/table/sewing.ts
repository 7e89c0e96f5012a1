import type { Resolved } from '../model/pattern.ts';
import { edgeLength } from '../geometry/measure.ts';
import { openParts } from '../model/seams/opening.ts';
import { notchesAlong } from '../model/seams/notches.ts';
import { drawnName, laysFolded, sewnLength, type Seam, type Stretch } from '../model/seams/seam.ts';
import type { Place } from '../problems/place.ts';
import { decimalNumber, type Display } from '../units/length.ts';
import { measured, nearestMultiple, rational } from '../units/rational.ts';
import { figure, listed, measure, type Measure } from './figures.ts';
import { edgeText } from './names.ts';
import { partText, runWords } from './run-words.ts';

/** A seam as its maker sews it. */
export interface SewingRow {
  readonly seam: string;
  /** `Gusset: left`, `Front: side left, base and side right`, `Gusset in Poplin: top (its left 4 in)`. */
  readonly first: string;
  readonly how: 'sewn to' | 'laid on' | 'topstitched' | 'quilted';
  /** The same, or a line with its place: `Front: pocket at (2 in from the left, 3 in from below)`; of topstitching and quilting how far from what. */
  readonly second: string;
  /** How often, for all the pieces that there are. */
  readonly times: number;
  /** Along the stitching line, of what isn't eased or gathered. */
  readonly length: Measure;
  /** `2.5 mm eased in`, `gathered, 2.2 times as long`; empty where both are as long. */
  readonly ease: string;
  /** Empty where nothing is sewn within. */
  readonly allowance: string;
  /** `2 notches`; empty where there are none. */
  readonly notches: string;
  /** `of it 4 in left open, in the middle of Lining: base`; empty where all of it is sewn. */
  readonly open: string;
  /** How much of each stays open, in millimetres. */
  readonly unsewn: number;
  readonly place: Place;
}

/** One for each seam of the pattern that is there, in the order of the spec. */
export const sewingRows = (resolved: Resolved, display: Display): readonly SewingRow[] => resolved.seams.map((seam) => ({
  seam: seam.title,
  ...runWords(seam, resolved, display),
  how: seam.way === 'with' ? 'sewn to' : 'laid on',
  times: resolved.times.get(seam.name) ?? 1,
  length: measure(measured(sewnLength(seam)), display),
  ease: easeWords(seam, display),
  allowance: allowanceWords(seam, resolved, display),
  notches: notchWords(seam),
  open: openWords(seam, display),
  unsewn: seam.opening.length,
  place: seam.place,
}));

/** How much of it is left open, and where: on one edge if it lies on one, else along the whole. */
export function openWords(seam: Seam, display: Display): string {
  const { length, from } = seam.opening;
  if (length === 0) return '';
  const show = (millimetres: number): string => figure(measured(millimetres), display);
  const much = `of it ${show(length)} left open`;
  if (from === undefined) return much;
  const [part, ...more] = openParts(seam);
  const edge = part?.piece.whole.stitching.edges.find(({ name }) => name === part.edge);
  const whole = seam.second.line === undefined ? seam.second.length : seam.first.length;
  if (part === undefined || edge === undefined || more.length > 0) return `${much}, ${Math.abs(2 * from + length - whole) < middle ? 'in its middle' : `from ${show(from)} to ${show(from + length)} along it`}`;
  const name = `${part.piece.title}: ${edgeText(part.piece, part.edge)}`;
  return Math.abs(part.from + part.to - edgeLength(edge)) < middle ? `${much}, in the middle of ${name}` : `${much}, on ${name}, ${partText(edge, part.from, part.to, display)}`;
}

/** Nearer to the middle than this, in millimetres, is in it. */
const middle = 1;

function easeWords(seam: Seam, display: Display): string {
  const { first, second, gathered, eased } = seam;
  if (gathered) return `gathered, ${decimalNumber(nearestMultiple(measured(first.length / second.length), rational(1, 10)))} times as long`;
  return eased === 0 ? '' : `${figure(measured(eased), display)} eased in`;
}

/**
 * Both sides have the same, or that is told as a problem. Of what is laid on, it is turned under, unless something else is
 * said of its edge, or it lies flat to be caught in the seam of the edge that it is laid on.
 */
function allowanceWords({ first, second, way }: Seam, { pieces, seams }: Resolved, display: Display): string {
  const isSewnIn = second.stretches.some(({ piece, edge }) => seams.some((one) => one.way === 'with' && [...one.first.stretches, ...one.second.stretches].some((other) => other.piece.name === piece.name && other.edge === edge)));
  const isTurned = ({ piece, edge, folded }: Stretch): boolean => way === 'onto' && !isSewnIn && folded === undefined && pieces.find(({ shape }) => shape.name === piece.name)?.finishes.has(drawnName(edge)) === false;
  const words = (stretch: Stretch): string | undefined => {
    const size = stretch.piece.allowances.get(drawnName(stretch.edge))?.size;
    return size && (size.n === 0n ? 'none' : `${figure(size, display)}${isTurned(stretch) ? ', turned under' : ''}`);
  };
  const runs = way === 'onto' ? [first] : [first, second];
  return listed([...new Set(runs.flatMap(({ stretches }) => stretches.map(words)).filter((text) => text !== undefined))]);
}

/** What is caught folded has no notch there, whatever the edge that it is laid on has. */
function notchWords(seam: Seam): string {
  const { first, second } = seam;
  if (laysFolded(seam)) return '';
  const [a, b] = [first, second].map((run) => notchesAlong(run).length);
  const count = Math.max(a ?? 0, b ?? 0);
  return count === 0 ? '' : `${String(count)} ${count === 1 ? 'notch' : 'notches'}`;
}
