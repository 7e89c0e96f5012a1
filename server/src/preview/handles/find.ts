import { bounds, edgeLength, pointAlong, type Bounds } from '../../geometry/measure.ts';
import type { Edge, Point } from '../../geometry/shape.ts';
import { ahead } from '../../geometry/vector.ts';
import type { Combination } from '../../model/query/query.ts';
import type { Pattern } from '../../model/pattern.ts';
import type { PieceShape } from '../../model/piece/piece.ts';
import { spaced } from '../../model/titles.ts';
import type { Anchor, CornerStatement, Inset, NotchStatement, PathShape, PieceDeclaration, PieceStatement, Position, Shape } from '../../syntax/tree.ts';
import { edgeText } from '../../table/names.ts';
import { ofRadius } from './find-arc.ts';
import { ofAllowance, ofDart, ofPleat } from './find-edge.ts';
import { finderOf, straight, type Finder } from './finder.ts';
import type { Handle, Run } from './handle.ts';

/** All that can be taken hold of in a piece, in the order of its text; what can't be moved says why. */
export function handlesOf(pattern: Pattern, shape: PieceShape, combination: Combination): readonly Handle[] {
  const { tree } = shape.declaration;
  if (tree.kind !== 'piece') return [];
  const finder = finderOf(pattern, shape, combination);
  return [...tree.body.statements.flatMap((statement) => ofStatement(finder, tree, statement)), ...takenOver(shape, tree)];
}

function ofStatement(finder: Finder, tree: PieceDeclaration, statement: PieceStatement): readonly Handle[] {
  switch (statement.kind) {
    case 'outline':
      return ofShape(finder, statement.shape, 'outline', 'the outline');
    case 'line':
      return ofShape(finder, statement.shape, statement.name.text, `“${statement.title?.value ?? spaced(statement.name.text)}”`);
    case 'corner':
      return ofCorner(finder, tree, statement);
    case 'dart':
      return ofDart(finder, statement);
    case 'pleat':
      return ofPleat(finder, statement);
    case 'allowance':
      return ofAllowance(finder, tree, statement);
    case 'notch':
      return ofNotch(finder, statement);
    case 'notch meeting':
      return finder.shape.notches
        .filter(({ place }) => place.chunk === finder.shape.declaration && place.start === statement.start)
        .map(({ point }, index) => ({ id: `notch ${statement.edge.text} meeting ${statement.line.text} ${index + 1}`, title: `notch on ${spaced(statement.edge.text)}`, at: point, numbers: [], fixed: `set where “${spaced(statement.line.text)}” meets the edge` }));
    case 'mark':
      return ofPosition(finder, `mark ${statement.name.text}`, `${statement.use === 'drill' ? 'drill hole' : 'mark'} “${statement.title?.value ?? spaced(statement.name.text)}”`, statement.at);
    default:
      return [];
  }
}

// ------------------------------------------------------------------------------------------------ points

const [rightwards, upwards]: readonly [Point, Point] = [{ x: 1, y: 0 }, { x: 0, y: 1 }];

function ofPosition({ worth, number }: Finder, id: string, title: string, { x, y }: Position): readonly Handle[] {
  const [across, up] = [worth(x)?.amount, worth(y)?.amount];
  if (across === undefined || up === undefined) return [];
  return [{ id, title, at: { x: across, y: up }, numbers: [number('x', x, across, straight(rightwards)), number('y', y, up, straight(upwards))] }];
}

function ofPath(finder: Finder, { from, steps }: PathShape, id: string, title: string): readonly Handle[] {
  const point = (what: string, position: Position): readonly Handle[] => ofPosition(finder, `${id} ${what}`, `${what} of ${title}`, position);
  const along = steps.statements.flatMap((step, index) => {
    if (step.kind === 'broken' || step.kind === 'close step') return [];
    const ordinal = index + 2;
    const bends = step.kind === 'curve step'
      ? [...point(`first control of point ${ordinal}`, step.control1), ...point(`second control of point ${ordinal}`, step.control2)]
      : step.kind === 'arc step' && step.through !== undefined ? point(`middle of the arc to point ${ordinal}`, step.through) : [];
    const before = steps.statements[index - 1];
    const start = index === 0 ? from : before !== undefined && 'to' in before ? before.to : undefined;
    const radius = start === undefined ? [] : ofRadius(finder, start, step, `${id} radius of the arc to point ${ordinal}`, `radius of the arc to point ${ordinal} of ${title}`);
    return [...bends, ...radius, ...point(`point ${ordinal}`, step.to)];
  });
  return [...point('point 1', from), ...along];
}

// ------------------------------------------------------------------------------------------------ shapes

function ofShape(finder: Finder, shape: Shape, id: string, title: string): readonly Handle[] {
  switch (shape.kind) {
    case 'rectangle':
      return [...ofSizes(finder, shape, id, title), ...ofAnchor(finder, shape.anchor, id, title)];
    case 'round':
      return [...(shape.part === undefined ? ofSizes(finder, shape, id, title) : []), ...ofAnchor(finder, shape.anchor, id, title)];
    case 'polygon':
    case 'open':
      return shape.points.flatMap((position, index) => ofPosition(finder, `${id} point ${index + 1}`, `point ${index + 1} of ${title}`, position));
    case 'path':
      return ofPath(finder, shape, id, title);
    case 'inset':
      return ofInset(finder, shape, id, title);
    case 'across': {
      const at = finder.worth(shape.at)?.amount;
      const [first, last] = finder.shape.lines.find(({ name }) => name === id)?.points ?? [];
      if (at === undefined || first === undefined || last === undefined) return [];
      const runs = straight(shape.way === 'level' ? upwards : rightwards);
      return [{ id: `${id} place`, title: `place of ${title}`, at: { x: (first.x + last.x) / 2, y: (first.y + last.y) / 2 }, numbers: [finder.number(shape.way === 'level' ? 'y' : 'x', shape.at, at, runs)] }];
    }
  }
}

const ofAnchor = (finder: Finder, anchor: Anchor | undefined, id: string, title: string): readonly Handle[] =>
  (anchor === undefined ? [] : ofPosition(finder, `${id} place`, `${anchor.by === 'middle' ? 'middle' : 'lower left'} of ${title}`, anchor.position));

/** Where a rectangle or a round shape says its sizes, each at the middle of the side that moves. */
function ofSizes(finder: Finder, shape: Extract<Shape, { kind: 'rectangle' | 'round' }>, id: string, title: string): readonly Handle[] {
  const [width, height] = [finder.worth(shape.width)?.amount, finder.worth(shape.height ?? shape.width)?.amount];
  const lowerLeft = width === undefined || height === undefined ? undefined : cornerOf(finder, shape.anchor, id, { width, height });
  if (width === undefined || height === undefined || lowerLeft === undefined) return [];
  const { x, y } = lowerLeft;
  // What stands on its middle grows to both sides.
  const share = shape.anchor?.by === 'middle' || (shape.anchor === undefined && id !== 'outline') ? 0.5 : 1;
  // A circle that stands on its lower left grows upwards too, and its handle with it.
  const rises = shape.height === undefined && share === 1 ? 0.5 : 0;
  return [
    { id: `${id} width`, title: `width of ${title}`, at: { x: x + width, y: y + height / 2 }, numbers: [finder.number('width', shape.width, width, straight({ x: share, y: rises }), true)] },
    ...(shape.height === undefined ? [] : [{ id: `${id} height`, title: `height of ${title}`, at: { x: x + width / 2, y: y + height }, numbers: [finder.number('height', shape.height, height, straight({ x: 0, y: share }), true)] }]),
  ];
}

/** The lower left of a shape of a certain size; a line that says no place is centred in the piece. */
function cornerOf({ worth, shape }: Finder, anchor: Anchor | undefined, id: string, { width, height }: { readonly width: number; readonly height: number }): Point | undefined {
  if (anchor === undefined) {
    if (id === 'outline') return { x: 0, y: 0 };
    const box = bounds(shape.drawn);
    return { x: (box.minX + box.maxX - width) / 2, y: (box.minY + box.maxY - height) / 2 };
  }
  const [x, y] = [worth(anchor.position.x)?.amount, worth(anchor.position.y)?.amount];
  if (x === undefined || y === undefined) return undefined;
  return anchor.by === 'corner' ? { x, y } : { x: x - width / 2, y: y - height / 2 };
}

/** At the middle of an edge that has no distance of its own, as far inside as it says. */
function ofInset({ shape, worth, number }: Finder, { distance, except, of }: Inset, id: string, title: string): readonly Handle[] {
  const far = worth(distance)?.amount;
  const edge = shape[of ?? 'cutting'].edges.find(({ name }) => name !== shape.fold && !except.some((one) => one.edge.text === name));
  const middle = edge && pointAlong(edge, edgeLength(edge) / 2);
  if (far === undefined || middle === undefined) return [];
  const inward = { x: -middle.tangent.y, y: middle.tangent.x };
  return [{ id: `${id} inset`, title: `inset of ${title}`, at: ahead(middle.point, inward, far), numbers: [number('inset', distance, far, straight(inward), true)] }];
}

// ------------------------------------------------------------------------------------------------ corners

/** At the corner that comes first at the upper right: where what is taken off it begins. */
function ofCorner(finder: Finder, tree: PieceDeclaration, { which, size, size2, treatment }: CornerStatement): readonly Handle[] {
  const outline = tree.body.statements.find((one) => one.kind === 'outline');
  if (outline?.shape.kind !== 'rectangle') return [];
  const [across, up] = [finder.worth(size)?.amount, finder.worth(size2 ?? size)?.amount];
  const box = rectangleBox(finder, outline.shape);
  if (across === undefined || up === undefined || box === undefined) return [];
  const words = which.text.split('_');
  const [isLeft, isBottom] = [words.includes('left'), words.includes('bottom')];
  const [x, y] = [isLeft ? box.minX : box.maxX, isBottom ? box.minY : box.maxY];
  const [inX, inY] = [{ x: isLeft ? 1 : -1, y: 0 }, { x: 0, y: isBottom ? 1 : -1 }];
  const title = `${treatment === 'round' ? 'rounding' : treatment} of the corner “${spaced(which.text)}”`;
  return [
    { id: `corner ${which.text} across`, title, at: { x: x + inX.x * across, y }, numbers: [finder.number(treatment === 'round' ? 'radius' : 'across', size, across, straight(inX), true)] },
    ...(size2 === undefined ? [] : [{ id: `corner ${which.text} up`, title, at: { x, y: y + inY.y * up }, numbers: [finder.number('up', size2, up, straight(inY), true)] }]),
  ];
}

function rectangleBox(finder: Finder, shape: Extract<Shape, { kind: 'rectangle' }>): Bounds | undefined {
  const [width, height] = [finder.worth(shape.width)?.amount, finder.worth(shape.height)?.amount];
  const corner = width === undefined || height === undefined ? undefined : cornerOf(finder, shape.anchor, 'outline', { width, height });
  return width === undefined || height === undefined || corner === undefined ? undefined : { minX: corner.x, minY: corner.y, maxX: corner.x + width, maxY: corner.y + height };
}

// ------------------------------------------------------------------------------------------------ notches

function ofNotch({ shape, worth, number }: Finder, statement: NotchStatement): readonly Handle[] {
  const edge = shape.drawn.edges.find(({ name }) => name === statement.edge.text);
  const notch = shape.notches.find(({ place }) => place.chunk === shape.declaration && place.start === statement.start);
  const found = worth(statement.at);
  if (edge === undefined || notch === undefined || found === undefined) return [];
  const runs: Run = { kind: 'along', edge, from: statement.from, isShare: found.isShare };
  const ordinal = shape.notches.filter((one) => one.edge === notch.edge).indexOf(notch) + 1;
  return [{ id: `notch ${notch.edge} ${ordinal}`, title: `notch on ${edgeText(shape, edge.name)}`, at: notch.point, numbers: [number(`from the ${statement.from}`, statement.at, found.amount, runs)] }];
}

// ------------------------------------------------------------------------------------------------ what a parent hands on

/** What is written in another piece is changed there. */
function takenOver(shape: PieceShape, { parent, body }: PieceDeclaration): readonly Handle[] {
  if (parent === undefined) return [];
  const fixed = `taken from piece “${parent.name.text}”: change it there`;
  const hasOutline = body.statements.some(({ kind }) => kind === 'outline');
  const isTaken = ({ place }: PieceShape['marks'][number] | PieceShape['notches'][number]): boolean => place.chunk !== shape.declaration;
  return [
    ...(hasOutline ? [] : shape.drawn.edges.map(({ start }: Edge, index) => ({ id: `outline point ${index + 1}`, title: `point ${index + 1} of the outline`, at: start, numbers: [], fixed }))),
    ...shape.marks.filter(isTaken).map(({ name, title, point }) => ({ id: `mark ${name}`, title: `mark “${title}”`, at: point, numbers: [], fixed })),
    ...shape.notches.filter(isTaken).map(({ edge, point }, index) => ({ id: `notch taken ${index + 1}`, title: `notch on ${edgeText(shape, edge)}`, at: point, numbers: [], fixed })),
  ];
}
