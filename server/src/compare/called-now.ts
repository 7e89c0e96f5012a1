import { boundsOfPoints, edgeLength } from '../geometry/measure.ts';
import { partOfEdge } from '../geometry/part.ts';
import type { ResolvedPiece } from '../model/pattern.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { polygonOf } from '../model/piece/polygons.ts';
import { edgeText } from '../table/names.ts';

/** An edge, or a line inside, that is called otherwise while it is the same. */
export interface OtherName {
  readonly was: string;
  readonly now: string;
}

/**
 * Edges of a piece with the names and the titles that they have now, by the names that they had: in as many edges, those at the same
 * place of which neither name stands for another edge.
 */
function edgesNow(was: PieceShape, now: PieceShape): ReadonlyMap<string, string> {
  const edges = ({ drawn }: PieceShape): readonly string[] => drawn.edges.map(({ name }) => name);
  const [old, fresh] = [edges(was), edges(now)];
  const [boxes, boxesNow] = [edgeBoxes(was), edgeBoxes(now)];
  if (old.length !== fresh.length) return new Map(old.filter((name) => fresh.includes(name)).map((name) => [name, edgeText(now, name)]));
  return new Map(old.flatMap((name, index) => {
    const other = fresh[index] ?? name;
    if (fresh.includes(name)) return [[name, edgeText(now, name)] as const];
    // Drawn from another corner, the edge of that number is another one.
    const isThere = boxes[index]?.every((side, at) => Math.abs(side - (boxesNow[index]?.[at] ?? Infinity)) < 0.05) === true;
    return old.includes(other) || !isThere ? [] : [[name, edgeText(now, other)] as const];
  }));
}

/** The box round each edge, in millimetres from the lower left of its piece. */
function edgeBoxes({ drawn }: PieceShape): readonly (readonly number[])[] {
  const all = boundsOfPoints(polygonOf(drawn));
  return drawn.edges.map((edge) => {
    const { minX, minY, maxX, maxY } = boundsOfPoints(partOfEdge(edge, 0, edgeLength(edge)));
    return [minX - all.minX, minY - all.minY, maxX - all.minX, maxY - all.minY];
  });
}

/** The same of windows, which are told by their lines. */
function windowsNow(was: PieceShape, now: PieceShape): ReadonlyMap<string, string> {
  const windows = ({ lines }: PieceShape): PieceShape['lines'] => lines.filter(({ use }) => use === 'window');
  const [old, fresh] = [windows(was), windows(now)];
  const [gone, come] = [old.filter(({ name }) => !fresh.some((one) => one.name === name)), fresh.filter(({ name }) => !old.some((one) => one.name === name))];
  const called = gone.length === 1 && come.length === 1 ? come[0] : undefined;
  return new Map(old.map(({ name, title }) => [name, (fresh.find((one) => one.name === name) ?? called)?.title ?? title]));
}

/** A piece of before, and what is cut of it, with the names that its edges and its windows have now; the very same where none is another. */
export function withNamesNow(was: ResolvedPiece, now: ResolvedPiece): ResolvedPiece {
  if (calledOtherwise(was.shape, now.shape).length === 0) return was;
  const shape = { ...calledAsNow(was.shape, now.shape), title: was.shape.title };
  return { ...was, shape, cuts: was.cuts.map((line) => ({ ...line, piece: shape })) };
}

/** A piece of before with the titles that it, its edges and its windows have now. */
export function calledAsNow(was: PieceShape, now: PieceShape): PieceShape {
  const windows = windowsNow(was, now);
  return {
    ...was, title: now.title,
    edgeTitles: new Map([...was.edgeTitles, ...edgesNow(was, now)]),
    lines: was.lines.map((line) => ({ ...line, title: windows.get(line.name) ?? line.title })),
  };
}

/** Edges and windows of a piece that tables call otherwise. */
export const calledOtherwise = (was: PieceShape, now: PieceShape): readonly OtherName[] => [
  ...[...edgesNow(was, now)].map(([name, text]): OtherName => ({ was: edgeText(was, name), now: text })),
  ...was.lines.flatMap(({ name, title }): readonly OtherName[] => [{ was: title, now: windowsNow(was, now).get(name) ?? title }]),
].filter((one) => one.was !== one.now);
