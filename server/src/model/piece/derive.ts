import type { Note } from '../notes.ts';
import { pointInside } from '../../geometry/inside.ts';
import { distancePointToBoundary } from '../../geometry/distance.ts';
import { bounds } from '../../geometry/measure.ts';
import { offsetOutline } from '../../geometry/offset.ts';
import type { Outline, Point, Polyline } from '../../geometry/shape.ts';
import { splitOutline } from '../../geometry/split.ts';
import { edgeEnd } from '../../geometry/edge.ts';
import { unfold } from '../../geometry/unfold.ts';
import { mirroring, mirroringAcross, moveOutline, movePoint, movePolyline } from '../../geometry/transform.ts';
import { nearestName } from '../../problems/near.ts';
import { problem } from '../../problems/problem.ts';
import type { Part } from '../../syntax/tree.ts';
import { measured } from '../../units/rational.ts';
import { isTooFar, positiveLength } from '../formulas/evaluate.ts';
import { lengthText, placeIn, report, type Scope } from '../query/scope.ts';
import type { EdgeAllowance, ExactSize, Grain, InnerLine, Mark, Notch, PieceShape, StitchFact } from './piece.ts';
import { fitsIn, partsText } from './lines.ts';
import { openedLines, openedMarks, twinName } from './opened-parts.ts';
import { polygonOf } from './polygons.ts';

/** What a piece starts from: what its parent hands on, or nothing. */
export interface Base {
  readonly parent: PieceShape;
  readonly outline: Outline;
  readonly drawnTo: 'cutting' | 'stitching';
  readonly rectangle: ExactSize | undefined;
  readonly corners: PieceShape['corners'];
  readonly fold: string | undefined;
  readonly allowances: ReadonlyMap<string, EdgeAllowance>;
  readonly generalAllowance: EdgeAllowance | undefined;
  readonly edgeTitles: PieceShape['edgeTitles'];
  /** Names of all the lines and marks that the parent has, those included that there is no room for. */
  readonly parts: readonly string[];
  readonly lines: readonly InnerLine[];
  /** Drawn anew on the copy's own edges. */
  readonly stitchRows: readonly StitchFact[];
  readonly notches: readonly Notch[];
  readonly marks: readonly Mark[];
  readonly notes: readonly Note[];
  readonly grain: Grain | undefined;
  readonly thisWayUp: boolean;
}

/** A copy of a parent, changed as the parts say, one after the other. */
export function deriveBase(scope: Scope, parent: PieceShape, parts: readonly Part[]): Base | undefined {
  let base: Base | undefined = {
    parent,
    outline: parent.drawn,
    drawnTo: parent.drawnTo,
    rectangle: parent.rectangle?.[parent.drawnTo],
    // A copy that is turned over, parted or made smaller has other corners than those written.
    corners: parts.length === 0 ? parent.corners : [],
    fold: parent.fold,
    // An edge on the fold has none of its own; a copy that isn't folded there needs one like any other edge.
    allowances: new Map([...parent.allowances].filter(([edge]) => edge !== parent.fold)),
    generalAllowance: parent.generalAllowance,
    edgeTitles: parent.edgeTitles,
    parts: [...parent.lines, ...parent.marks, ...parent.stitchRows].map((one) => one.name),
    lines: parent.lines,
    stitchRows: parent.stitchRows,
    notches: parent.notches,
    marks: parent.marks,
    // What is said of one piece need not hold for another: “the left side” of a mirrored copy is its right one.
    notes: [],
    grain: parent.grain.given ? parent.grain : undefined,
    thisWayUp: parent.thisWayUp,
  };
  for (const part of parts) {
    if (base === undefined) break;
    switch (part.kind) {
      case 'mirrored':
        base = mirrored(base);
        break;
      case 'side':
        base = sideOf(scope, base, parent, part);
        break;
      case 'inset':
        base = insetOf(scope, base, parent, part);
    }
  }
  // Only now: a line that ends on the parent's cutting line reaches past its stitching line, and may be parted along yet.
  return base === undefined || parts.every(({ kind }) => kind === 'mirrored') ? base : withinOutline(base);
}

function mirrored(base: Base): Base {
  // Opened out, a piece drawn as half is its own mirror image.
  if (base.fold !== undefined) return base;
  const box = bounds(base.outline);
  const flip = mirroring((box.minX + box.maxX) / 2);
  const turn = (points: Polyline, closed: boolean): Polyline => (closed ? [...movePolyline(flip, points)].reverse() : movePolyline(flip, points));
  return {
    ...base,
    outline: moveOutline(flip, base.outline),
    lines: base.lines.map((line) => ({ ...line, points: turn(line.points, line.closed), ...(line.across?.way === 'upright' ? { across: { ...line.across, at: box.minX + box.maxX - line.across.at } } : {}) })),
    notches: base.notches.map((notch) => ({ ...notch, point: movePoint(flip, notch.point), inward: { x: -notch.inward.x, y: notch.inward.y } })),
    marks: base.marks.map((mark) => ({ ...mark, point: movePoint(flip, mark.point) })),
    grain: base.grain && { ...base.grain, angle: base.grain.angle === undefined ? undefined : -base.grain.angle },
  };
}

function sideOf(scope: Scope, half: Base, parent: PieceShape, part: Extract<Part, { kind: 'side' }>): Base | undefined {
  const base = openedBase(half, parent);
  const line = base.lines.find((one) => one.name === part.line.text);
  if (line === undefined) {
    const near = nearestName(part.line.text, base.lines.map((one) => one.name));
    report(scope, 'unknown-part', part.line, { owner: parent.name, name: part.line.text, near, known: base.lines.map((one) => one.name) });
    return undefined;
  }
  const misses = (why: string): undefined => {
    scope.context.report(problem('split-misses', placeIn(scope, part.line), { line: line.name, why }, { related: [{ place: line.place, message: 'The line is drawn here.' }] }));
    return undefined;
  };
  if (line.closed) return misses('it is closed');
  const first = line.points[0];
  const last = line.points.at(-1);
  if (first === undefined || last === undefined) return misses('it has no length');
  const upright = part.side === 'above' || part.side === 'below';
  // The left of a line that runs to the right is above it; the left of one that runs up is left of it.
  const forward = upright ? last.x > first.x : last.y > first.y;
  if (upright ? last.x === first.x : last.y === first.y) return misses(upright ? 'it runs straight up, so nothing is above or below it' : 'it runs level, so nothing is left or right of it');
  const wantsLeft = part.side === 'above' || part.side === 'left of';
  // Parting happens on the stitching line, so that the seam that joins the parts again takes nothing from the whole.
  const result = splitOutline(stitchingOf(base, parent), line.points, wantsLeft === forward ? 'left' : 'right', line.name);
  if (result.kind !== 'ok') return misses(result.kind === 'misses' ? 'it doesn’t run through' : 'it parts it more than once');
  // The line has become an edge.
  const lines = base.lines.filter((one) => one !== line);
  const edgeTitles = new Map([...base.edgeTitles, [line.name, line.title]]);
  return { ...base, lines, edgeTitles, outline: result.outline, drawnTo: 'stitching', rectangle: rectangleSize(result.outline) };
}

/** A base on a fold as it is opened out, drawn to its stitching line, with all that lies on its other half; any other as it is. */
function openedBase(base: Base, parent: PieceShape): Base {
  const { fold } = base;
  const half = stitchingOf(base, parent);
  const edge = half.edges.find((one) => one.name === fold);
  if (fold === undefined || edge === undefined) return base;
  const whole = unfold(half, fold);
  // That the parent can be opened out was told with the parent.
  if (whole.kind !== 'ok') return base;
  const mirror = mirroringAcross(edge.start, edgeEnd(edge));
  const [lines, marks] = [openedLines(mirror, base.lines), openedMarks(mirror, base.marks)];
  const parts = [...new Set([...base.parts, ...[...lines, ...marks].map((one) => one.name)])];
  return { ...base, outline: whole.outline, drawnTo: 'stitching', rectangle: undefined, fold: undefined, allowances: withTwins(base.allowances), parts, lines, marks };
}

/** Opened out, an edge and its twin across the fold have the same allowance. */
function withTwins(allowances: Base['allowances']): Base['allowances'] {
  return new Map([...allowances].flatMap(([edge, allowance]) => [[edge, allowance], [twinName(edge), allowance]] as const));
}

/** The stitching line of what has become of the parent so far: only a mirrored copy can differ from the parent's own. */
function stitchingOf(base: Base, parent: PieceShape): Outline {
  if (base.drawnTo === 'stitching') return base.outline;
  if (base.outline === parent.drawn) return parent.stitching;
  const box = bounds(base.outline);
  return moveOutline(mirroring((box.minX + box.maxX) / 2), parent.stitching);
}

function insetOf(scope: Scope, base: Base, parent: PieceShape, part: Extract<Part, { kind: 'inset' }>): Base | undefined {
  const distance = positiveLength(scope, part.distance, 'An inset');
  if (distance === undefined || isTooFar(scope, distance, part.distance, 'an inset')) return undefined;
  const by = distance.amount.valueOf();
  const result = offsetOutline(stitchingOf(base, parent), (edge) => (edge === base.fold ? 0 : -by), () => ({ kind: 'mitre', limit: 4 }));
  if (result.kind !== 'ok') {
    report(scope, 'inset-vanishes', part.distance, { value: lengthText(scope, distance.amount) });
    return undefined;
  }
  if (result.others.length > 0) report(scope, 'inset-parts', part.distance, partsText(scope, result.outline, result.others));
  const exact = parent.rectangle?.stitching;
  const rectangle = exact === undefined || base.rectangle === undefined ? rectangleSize(result.outline)
    : { width: exact.width.sub(distance.amount.mul(2)), height: exact.height.sub(distance.amount.mul(2)), exact: exact.exact && distance.exact };
  return { ...base, outline: result.outline, drawnTo: 'stitching', rectangle };
}

/** Leaves out the lines and marks that another outline has no room for, and the notches, which lay on the edges before; a line that ran right across need not do so now. */
export function withinOutline(base: Base): Base {
  const polygon = polygonOf(base.outline);
  const inside = (point: Point): boolean => pointInside(point, polygon) && distancePointToBoundary(point, polygon) > 0.01;
  return {
    ...base,
    lines: base.lines.filter((line) => fitsIn(polygon, line)).map(({ across: _, ...line }) => line),
    marks: base.marks.filter((mark) => inside(mark.point)),
    notches: [],
  };
}

/** The size of an outline of four sides along x and y; undefined for any other. */
export function rectangleSize(outline: Outline): ExactSize | undefined {
  if (outline.edges.length !== 4) return undefined;
  for (const edge of outline.edges) {
    const [segment, ...more] = edge.segments;
    if (segment?.kind !== 'line' || more.length > 0) return undefined;
    if (Math.abs(segment.to.x - edge.start.x) > 1e-9 && Math.abs(segment.to.y - edge.start.y) > 1e-9) return undefined;
  }
  const box = bounds(outline);
  return { width: measured(box.maxX - box.minX), height: measured(box.maxY - box.minY), exact: false };
}
