import { intersection } from '../geometry/boolean.ts';
import { convexHull } from '../geometry/hull.ts';
import { itemAt } from '../geometry/lists.ts';
import type { Polygon } from '../geometry/shape.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import { areaOf, turned } from '../lay/bounds/outline.ts';
import type { LayPoint } from '../lay/problem.ts';
import type { Material } from '../model/stock/material.ts';
import type { Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { permittedTurns, turnsTried } from '../model/piece/turns.ts';
import { simplified } from './simplify.ts';

/** How many placements there must be in each hand, as seen from one side of the cloth. */
export interface HandCount {
  readonly asDrawn: number;
  readonly mirrored: number;
  readonly either: number;
}

/**
 * A cut line as a lay takes it: millimetres, turned so that its grain runs along x, which is the length of the cloth.
 * The model draws the grain upright.
 */
export interface Requirement {
  readonly line: CutLine;
  readonly title: string;
  /** Opened out, counter-clockwise; curves within 0.05 mm, so that two neighbours stray 0.1 mm at most. */
  readonly outline: readonly LayPoint[];
  /** What is cut out of it, in the same frame. */
  readonly holes: readonly (readonly LayPoint[])[];
  /** Permitted turns from there, degrees counter-clockwise; where any is, those worth trying. */
  readonly turns: readonly number[];
  /** Whether any other turn is permitted too. */
  readonly anyTurn: boolean;
  /**
   * Where any turn is permitted, more of them for a piece that fits in none of the others: those that the check of widths
   * and panels looks at. Mirrored it may lie in their opposites.
   */
  readonly lastTurns: readonly number[];
  readonly count: HandCount;
  readonly half: Half | undefined;
  /** The same where the fold may run across the cloth. */
  readonly halfAcross: Half | undefined;
}

/** The half of a piece above its fold, which is moved to y = 0, where the fold of the cloth may be that of the piece. */
export interface Half {
  readonly outline: readonly LayPoint[];
  /** Permitted turns on the fold. */
  readonly turns: readonly number[];
  /** Permitted turns away from it, as part of the piece opened out. */
  readonly turnsOpenedOut: readonly number[];
}

/** All that is cut from one material. */
export interface MaterialNeed {
  readonly material: Material;
  readonly articles: number;
  readonly requirements: readonly Requirement[];
}

/** How far a simplified outline may stray from the drawn one, millimetres. */
const straying = 0.05;

/** What each material must give for so many articles, in the order in which the materials are declared. */
export function needsOf(resolved: Resolved, articles: number): readonly MaterialNeed[] {
  const lines = resolved.pieces.flatMap((piece) => piece.cuts);
  return resolved.materials.flatMap((material) => {
    const mine = lines.filter((line) => line.material.name === material.name);
    return mine.length === 0 ? [] : [{ material, articles, requirements: mine.map((line) => requirementOf(line, articles)) }];
  });
}

/** A line is the very same in all sizes and choices in which it is alike, and then so is what a lay takes. */
const known = new WeakMap<CutLine, Map<number, Requirement>>();

function requirementOf(line: CutLine, articles: number): Requirement {
  const ofLine = known.get(line) ?? new Map<number, Requirement>();
  known.set(line, ofLine);
  const requirement = ofLine.get(articles) ?? requirementFor(line, articles);
  ofLine.set(articles, requirement);
  return requirement;
}

function requirementFor(line: CutLine, articles: number): Requirement {
  const permitted = permittedTurns(line);
  const anyTurn = permitted === 'any';
  const angle = anyTurn ? 0 : (line.piece.grain.angle ?? 0);
  // Upright in the model becomes along x: the grain's own angle back, then a quarter turn clockwise.
  const toLay = -angle - 90;
  const plain = simplified(line.outline, straying);
  const outline = turned(drawnOutline(line, plain), false, toLay);
  const count = handsOf(line, articles);
  const turns = permitted === 'any' ? freeTurns(outline) : permitted.map((turn) => wholeTurn(turn + angle));
  const lastTurns = anyTurn ? turnsTried(line.outline).map(wholeTurn) : [];
  return { line, title: line.piece.title, outline, holes: line.holes.map((hole) => turned(hole, false, toLay)), turns, anyTurn, lastTurns, count, half: halfOf(line, plain, toLay, turns, anyTurn, 0), halfAcross: halfOf(line, plain, toLay, turns, anyTurn, 90) };
}

/** A plain rectangle exactly as computed; anything else as flattened, with corners that say nothing left out. */
function drawnOutline(line: CutLine, plain: readonly LayPoint[]): readonly LayPoint[] {
  if (line.rectangle === undefined) return plain;
  const [w, h] = [line.rectangle.width.valueOf(), line.rectangle.height.valueOf()];
  return [{ x: 0, y: 0 }, { x: w, y: 0 }, { x: w, y: h }, { x: 0, y: h }];
}

// ------------------------------------------------------------------------------------------------ hands

/**
 * Cloth is seen on its right side, glued stuff on its glued side: “as drawn, glue up” and “flipped, glue down” are the
 * same placement seen from there.
 */
function handsOf(line: CutLine, articles: number): HandCount {
  const count = Number(line.count.n) * articles;
  switch (line.wayUp) {
    case 'either':
      return { asDrawn: 0, mirrored: 0, either: count };
    case 'right side up':
    case 'glue up':
      return { asDrawn: count, mirrored: 0, either: 0 };
    case 'wrong side up':
    case 'glue down':
      return { asDrawn: 0, mirrored: count, either: 0 };
    case 'half each way':
      return { asDrawn: Math.ceil(count / 2), mirrored: Math.floor(count / 2), either: 0 };
  }
}

export const totalOf = ({ asDrawn, mirrored, either }: HandCount): number => asDrawn + mirrored + either;

// ------------------------------------------------------------------------------------------------ turns

const wholeTurn = (degrees: number): number => {
  const turn = ((degrees % 360) + 360) % 360;
  // Angles of sides are measured; a hair off a whole degree is one.
  const near = Math.round(turn);
  return Math.abs(turn - near) < 1e-9 ? near % 360 : turn;
};

/** The most sides whose angles are tried where a piece may lie in any turn. */
const mostSides = 6;

/**
 * Turns to try where any is allowed: the four quarters, and for pieces that are no rectangles those that lay one of the
 * longest sides of the hull along the cloth, with the same for the mirrored piece. A choice of ours: the best lays put
 * sides along the border or against each other.
 */
function freeTurns(outline: readonly LayPoint[]): readonly number[] {
  const quarters = [0, 90, 180, 270];
  const hull = convexHull(outline);
  const sides = hull.map((point, index) => {
    const next = hull[(index + 1) % hull.length] ?? point;
    return { length: Math.hypot(next.x - point.x, next.y - point.y), angle: (Math.atan2(next.y - point.y, next.x - point.x) * 180) / Math.PI };
  });
  const around = sides.reduce((sum, side) => sum + side.length, 0);
  const angles = sides
    .filter((side) => side.length > around / 20)
    .sort((a, b) => b.length - a.length || a.angle - b.angle)
    .slice(0, mostSides)
    .flatMap(({ angle }) => [-angle, angle, 180 - angle, 180 + angle])
    .map(wholeTurn);
  return [...quarters, ...angles].filter((turn, index, all) => all.findIndex((other) => Math.abs(other - turn) < 0.01) === index);
}

// ------------------------------------------------------------------------------------------------ halves

/**
 * The half of a piece that is drawn as half, where its fold can lie along the cloth, or at 90° across it. Both halves are
 * alike, so the one above the fold will do.
 */
function halfOf(line: CutLine, plain: readonly LayPoint[], toLay: number, turns: readonly number[], anyTurn: boolean, across: 0 | 90): Half | undefined {
  if (line.fold === undefined) return undefined;
  const fold = turned(line.fold, false, toLay);
  const [a, b] = [itemAt(fold, 0), itemAt(fold, 1)];
  const foldAngle = (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI;
  const extra = anyTurn ? across - foldAngle : turns.find((turn) => Math.abs(Math.sin(((foldAngle + turn - across) / 180) * Math.PI)) < 1e-9);
  if (extra === undefined) return undefined;
  // On a fold across the cloth the half lies a quarter turn further on than it is drawn here, with its fold along x.
  const own = extra + across;
  const start = itemAt(turned(line.fold, false, toLay + own), 0);
  const whole = turned(plain, false, toLay + own).map(({ x, y }) => ({ x, y: y - start.y }));
  const box = boundsOfPoints(whole);
  const above: Polygon = [
    { x: box.minX - 1, y: 0 }, { x: box.maxX + 1, y: 0 }, { x: box.maxX + 1, y: box.maxY + 1 }, { x: box.minX - 1, y: box.maxY + 1 },
  ];
  const [half, ...more] = intersection([whole], [above]);
  // A line that lies beside the fold, once on either side, is no half of anything.
  if (half === undefined || more.length > 0 || Math.abs(2 * areaOf(half) - areaOf(whole)) > 0.001 * areaOf(whole)) return undefined;
  const back = wholeTurn(extra + 180);
  const onFold = [wholeTurn(-across), wholeTurn(180 - across)];
  return { outline: half, turns: anyTurn || turns.includes(back) ? onFold : onFold.slice(0, 1), turnsOpenedOut: turns.map((turn) => wholeTurn(turn - own)) };
}
