import { edgeLength, pointAlong } from '../../geometry/measure.ts';
import { ahead, between, distance, minus, times, unit } from '../../geometry/vector.ts';
import { spaced } from '../../model/titles.ts';
import type { AllowanceStatement, DartStatement, PieceDeclaration, PleatStatement } from '../../syntax/tree.ts';
import { edgeText } from '../../table/names.ts';
import { straight, type Finder } from './finder.ts';
import type { Handle } from './handle.ts';

/** Of a dart its place on the edge, how wide it is, and how deep, at its tip. */
export function ofDart({ shape, worth, number }: Finder, { name, title, edge: on, at, width, depth }: DartStatement): readonly Handle[] {
  const edge = shape.stitching.edges.find((one) => one.name === on.text);
  const [first, tip, last] = shape.lines.find((one) => one.name === name.text && one.isDart === true)?.points ?? [];
  const [place, wide, deep] = [worth(at), worth(width)?.amount, worth(depth)?.amount];
  if (edge === undefined || first === undefined || tip === undefined || last === undefined || place === undefined || wide === undefined || deep === undefined) return [];
  const middle = pointAlong(edge, place.isShare ? place.amount * edgeLength(edge) : place.amount)?.point;
  if (middle === undefined || distance(first, last) === 0) return [];
  const [id, words] = [`dart ${name.text}`, `the dart “${title?.value ?? spaced(name.text)}”`];
  return [
    { id: `${id} place`, title: `place of ${words}`, at: middle, numbers: [number('from the start', at, place.amount, { kind: 'along', edge, from: 'start', isShare: place.isShare })] },
    // It grows to both sides of its middle.
    { id: `${id} width`, title: `width of ${words}`, at: last, numbers: [number('width', width, wide, straight(times(unit(minus(last, first)), 0.5)), true)] },
    { id: `${id} depth`, title: `tip of ${words}`, at: tip, numbers: [number('depth', depth, deep, straight(unit(minus(tip, between(first, last, 0.5)))), true)] },
  ];
}

/** Of a pleat its place on the edge, how deep it is, at its fold, and of a tuck how far it is sewn down, at the end of that. */
export function ofPleat({ shape, worth, number }: Finder, { name, title, edge: on, at, depth, stitched }: PleatStatement): readonly Handle[] {
  const edge = shape.stitching.edges.find((one) => one.name === on.text);
  const [fold, inFold] = shape.lines.find((one) => one.name === name.text && one.pleat !== undefined)?.points ?? [];
  const [place, deep, long] = [worth(at), worth(depth)?.amount, stitched && worth(stitched)?.amount];
  if (edge === undefined || fold === undefined || inFold === undefined || place === undefined || deep === undefined) return [];
  const middle = pointAlong(edge, place.isShare ? place.amount * edgeLength(edge) : place.amount)?.point;
  if (middle === undefined || distance(middle, fold) === 0) return [];
  const [id, words] = [`pleat ${name.text}`, `the pleat “${title?.value ?? spaced(name.text)}”`];
  return [
    { id: `${id} place`, title: `place of ${words}`, at: middle, numbers: [number('from the start', at, place.amount, { kind: 'along', edge, from: 'start', isShare: place.isShare })] },
    { id: `${id} depth`, title: `fold of ${words}`, at: fold, numbers: [number('depth', depth, deep, straight(unit(minus(fold, middle))), true)] },
    ...(stitched === undefined || long === undefined ? [] : [{ id: `${id} length`, title: `end of ${words}`, at: inFold, numbers: [number('sewn down', stitched, long, straight(unit(minus(inFold, fold))), true)] }]),
  ];
}

/** At the middle of the edge that it is for, or of the first that says no other, where the other line runs. */
export function ofAllowance({ shape, worth, number }: Finder, { body }: PieceDeclaration, { edge: of, size }: AllowanceStatement): readonly Handle[] {
  const own = new Set(body.statements.flatMap((one) => (one.kind === 'allowance' && one.edge !== undefined ? [one.edge.text] : [])));
  const edge = shape.drawn.edges.find(({ name }) => name !== shape.fold && (of === undefined ? !own.has(name) : name === of.text));
  const wide = size && worth(size)?.amount;
  const middle = edge && pointAlong(edge, edgeLength(edge) / 2);
  if (size === undefined || wide === undefined || middle === undefined) return [];
  const way = shape.drawnTo === 'cutting' ? 1 : -1;
  const goes = { x: -middle.tangent.y * way, y: middle.tangent.x * way };
  const title = of === undefined ? 'allowance of all edges' : `allowance of ${edgeText(shape, of.text)}`;
  return [{ id: `allowance ${of?.text ?? ''}`.trim(), title, at: ahead(middle.point, goes, wide), numbers: [number('width', size, wide, straight(goes), true)] }];
}
