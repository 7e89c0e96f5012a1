import { arcByRadius, arcThrough } from '../../geometry/arcs.ts';
import { ellipse } from '../../geometry/ellipse.ts';
import { bounds } from '../../geometry/measure.ts';
import { path, polygon, type PathStep as GeometryStep } from '../../geometry/path.ts';
import { rectangle, type Corner, type CornerName } from '../../geometry/rectangle.ts';
import type { Edge, Outline, Point, Segment } from '../../geometry/shape.ts';
import { moveOutline, translation } from '../../geometry/transform.ts';
import { cornerWords } from '../../syntax/statements/vocabulary.ts';
import type { Anchor, CornerStatement, PathShape, PolygonShape, Position, RectangleShape, RoundShape } from '../../syntax/tree.ts';
import { allDefined, evaluateAs, positiveLength } from '../formulas/evaluate.ts';
import { lengthText, placeIn, report, type Scope } from '../query/scope.ts';
import type { Place } from '../../problems/place.ts';
import type { CornerFact, ExactSize } from './piece.ts';

/** A closed shape, as drawn. */
export interface Drawn {
  readonly outline: Outline;
  readonly rectangle: ExactSize | undefined;
  readonly edgePlaces: ReadonlyMap<string, Place>;
  readonly corners: readonly CornerFact[];
}

export type ClosedShape = RectangleShape | RoundShape | PolygonShape | PathShape;

/** A point of the spec, in millimetres. */
export function pointOf(scope: Scope, position: Position): Point | undefined {
  const x = evaluateAs(scope, position.x, 'length');
  const y = evaluateAs(scope, position.y, 'length');
  return x && y && { x: x.amount.valueOf(), y: y.amount.valueOf() };
}

/**
 * Draws a closed shape.
 *
 * @param middle where a shape that says no position is centred; without it, its lower left corner is at 0, 0
 */
export function drawShape(scope: Scope, shape: ClosedShape, corners: readonly CornerStatement[], middle?: Point): Drawn | undefined {
  const noPlaces: Drawn['edgePlaces'] = new Map();
  if (shape.kind !== 'rectangle' && corners[0] !== undefined) report(scope, 'corner-needs-rectangle', corners[0], {});
  switch (shape.kind) {
    case 'rectangle': {
      const drawn = drawRectangle(scope, shape, corners);
      const outline = drawn && anchored(scope, drawn.outline, shape.anchor, middle);
      return outline && { ...drawn, outline, edgePlaces: noPlaces };
    }
    case 'round': {
      const outline = drawRound(scope, shape);
      const moved = outline && anchored(scope, outline, shape.anchor, middle);
      return moved && { outline: moved, rectangle: undefined, edgePlaces: noPlaces, corners: [] };
    }
    case 'polygon': {
      const points = allDefined(shape.points.map((position) => pointOf(scope, position)));
      if (points === undefined) return undefined;
      const outline = polygon(points);
      if (outline === undefined) report(scope, 'empty-outline', shape, {});
      return outline && { outline, rectangle: undefined, edgePlaces: noPlaces, corners: [] };
    }
    case 'path': {
      const drawn = drawPath(scope, shape);
      if (drawn === undefined) return undefined;
      const outline = path(drawn.start, drawn.steps);
      if (outline === undefined) report(scope, 'empty-outline', shape, {});
      return outline && { outline, rectangle: undefined, edgePlaces: drawn.places, corners: [] };
    }
  }
}

/** A path that stays open: the run of its steps as one edge. */
export function drawOpenPath(scope: Scope, shape: PathShape): Edge | undefined {
  const drawn = drawPath(scope, shape);
  return drawn && { name: '', start: drawn.start, segments: drawn.steps.map((step) => step.segment), measuredFrom: 'start' };
}

function anchored(scope: Scope, outline: Outline, anchor: Anchor | undefined, middle: Point | undefined): Outline | undefined {
  if (anchor === undefined && middle === undefined) return outline;
  const box = bounds(outline);
  const centre = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
  if (anchor === undefined) return middle && moveOutline(translation(middle.x - centre.x, middle.y - centre.y), outline);
  const to = pointOf(scope, anchor.position);
  const from = anchor.by === 'middle' ? centre : { x: box.minX, y: box.minY };
  return to && moveOutline(translation(to.x - from.x, to.y - from.y), outline);
}

// ------------------------------------------------------------------------------------------------ rectangles

const cornersOf: Readonly<Record<(typeof cornerWords)[number], readonly CornerName[]>> = {
  all: ['bottom_left', 'bottom_right', 'top_right', 'top_left'],
  top: ['top_left', 'top_right'],
  bottom: ['bottom_left', 'bottom_right'],
  left: ['bottom_left', 'top_left'],
  right: ['bottom_right', 'top_right'],
  top_left: ['top_left'],
  top_right: ['top_right'],
  bottom_left: ['bottom_left'],
  bottom_right: ['bottom_right'],
};

function drawRectangle(scope: Scope, shape: RectangleShape, statements: readonly CornerStatement[]): Omit<Drawn, 'edgePlaces'> | undefined {
  const width = positiveLength(scope, shape.width, 'A width');
  const height = positiveLength(scope, shape.height, 'A height');
  const corners: Partial<Record<CornerName, Corner>> = {};
  const facts: CornerFact[] = [];
  let faulty = false;
  for (const statement of statements) {
    const which = cornerWords.find((word) => word === statement.which.text);
    const names = which && cornersOf[which];
    if (names === undefined) report(scope, 'unknown-corner', statement.which, { name: statement.which.text });
    const corner = cornerOf(scope, statement);
    if (names === undefined || corner === undefined) faulty = true;
    else {
      facts.push({ which: statement.which.text, ...corner.fact });
      for (const name of names) corners[name] = corner.corner;
    }
  }
  if (width === undefined || height === undefined || faulty) return undefined;
  const drawn = rectangle(width.amount.valueOf(), height.amount.valueOf(), corners);
  switch (drawn.kind) {
    case 'ok':
      return {
        outline: drawn.outline,
        corners: facts,
        rectangle: statements.length > 0 ? undefined : { width: width.amount, height: height.amount, exact: width.exact && height.exact },
      };
    case 'not_positive':
      report(scope, 'empty-outline', shape, {});
      return undefined;
    case 'overflow':
      report(scope, 'corner-too-large', statements.at(-1) ?? shape, { side: drawn.side, over: lengthText(scope, drawn.by) });
      return undefined;
    case 'crossing':
      report(scope, 'self-crossing', statements.at(-1) ?? shape, { at: pointText(scope, drawn.at) });
      return undefined;
  }
}

function cornerOf(scope: Scope, statement: CornerStatement): { readonly corner: Corner; readonly fact: Omit<CornerFact, 'which'> } | undefined {
  const size = positiveLength(scope, statement.size, 'A corner');
  const size2 = statement.size2 === undefined ? size : positiveLength(scope, statement.size2, 'A corner');
  if (size === undefined || size2 === undefined) return undefined;
  const across = size.amount.valueOf();
  const up = size2.amount.valueOf();
  const fact = { treatment: statement.treatment, across: size.amount, up: size2.amount };
  switch (statement.treatment) {
    case 'round':
      return { fact, corner: { kind: 'round', radius: across } };
    case 'chamfer':
      return { fact, corner: { kind: 'chamfer', alongX: across, alongY: up } };
    case 'box':
      return { fact, corner: { kind: 'box', across, up } };
  }
}

export function pointText(scope: Scope, point: Point): string {
  return `${lengthText(scope, point.x)}, ${lengthText(scope, point.y)}`;
}

// ------------------------------------------------------------------------------------------------ circles, ellipses

function drawRound(scope: Scope, shape: RoundShape): Outline | undefined {
  const width = positiveLength(scope, shape.width, 'A diameter');
  const height = shape.height === undefined ? width : positiveLength(scope, shape.height, 'A height');
  const from = shape.part && evaluateAs(scope, shape.part.from, 'angle');
  const to = shape.part && evaluateAs(scope, shape.part.to, 'angle');
  if (width === undefined || height === undefined || (shape.part !== undefined && (from === undefined || to === undefined))) return undefined;
  const outline = ellipse(
    width.amount.valueOf(), height.amount.valueOf(),
    from?.amount.valueOf() ?? 0, to?.amount.valueOf() ?? 360,
    shape.part?.throughMiddle === true ? 'centre' : 'straight',
  );
  if (outline === undefined) report(scope, 'empty-outline', shape, {});
  return outline;
}

// ------------------------------------------------------------------------------------------------ paths

interface DrawnPath {
  readonly start: Point;
  readonly steps: readonly GeometryStep[];
  readonly places: Map<string, Place>;
}

function drawPath(scope: Scope, shape: PathShape): DrawnPath | undefined {
  const start = pointOf(scope, shape.from);
  let at = start;
  const steps: GeometryStep[] = [];
  const places = new Map<string, Place>();
  let whole = start !== undefined;
  for (const step of shape.steps.statements) {
    if (step.kind === 'broken') {
      whole = false;
      continue;
    }
    const name = step.name === undefined ? {} : { name: step.name.text };
    const to = step.kind === 'close step' ? start : pointOf(scope, step.to);
    const segment = to && at && segmentOf(scope, step, at, to);
    if (segment === undefined) whole = false;
    else steps.push({ segment, ...name });
    places.set(step.name?.text ?? `side${steps.length}`, placeIn(scope, step.name ?? step));
    at = to;
  }
  return whole && start !== undefined ? { start, steps, places } : undefined;
}

function segmentOf(scope: Scope, step: Exclude<PathShape['steps']['statements'][number], { kind: 'broken' }>, from: Point, to: Point): Segment | undefined {
  switch (step.kind) {
    case 'line step':
    case 'close step':
      return { kind: 'line', to };
    case 'curve step': {
      const control1 = pointOf(scope, step.control1);
      const control2 = pointOf(scope, step.control2);
      return control1 && control2 && { kind: 'cubic', control1, control2, to };
    }
    case 'arc step': {
      if (step.through !== undefined) {
        const via = pointOf(scope, step.through);
        const arc = via && arcThrough(from, via, to);
        if (via !== undefined && arc === undefined) report(scope, 'bad-arc', step.through, { why: 'the three points lie on one straight line' });
        return arc;
      }
      if (step.radius === undefined) return undefined;
      const radius = positiveLength(scope, step.radius.length, 'A radius');
      const arc = radius && arcByRadius(from, to, radius.amount.valueOf(), step.radius.turn);
      if (radius !== undefined && arc === undefined) {
        report(scope, 'bad-arc', step.radius.length, { why: `its ends are ${lengthText(scope, Math.hypot(to.x - from.x, to.y - from.y))} apart, more than twice the radius` });
      }
      return arc;
    }
  }
}
