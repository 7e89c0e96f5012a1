import type { Polygon } from '../../geometry/shape.ts';
import type { Resolved } from '../../model/pattern.ts';
import { cutTo, linesOf, settable, widthOf } from '../letters/letters.ts';
import { down, polylineSteps } from '../path.ts';
import { groupItem, textItem, type Item } from '../sheet.ts';
import { hatching, lookOf, type Look } from './hatch.ts';
import { filledShape, scaledRings } from './piece-picture.ts';
import { shelved } from './shelves.ts';

/** Everything that is cut, material by material: numbered, filled as its material, at one scale. */
export interface KeyPicture {
  /** One for each material, with its height. */
  readonly rows: readonly { readonly height: number; readonly items: readonly Item[] }[];
  /** `1 : 4`. */
  readonly scale: string;
}

interface Cell {
  readonly rings: readonly Polygon[];
  readonly width: number;
  readonly height: number;
  readonly shapeWidth: number;
  readonly shapeHeight: number;
  readonly words: string;
  readonly caption: string;
  readonly figure: string;
}

const gap = 5;
const captionSize = 2.5;
const labelWidth = 38;
/** The largest piece is drawn no larger than this, millimetres. */
const largest = { width: 95, height: 62 };

/** Numbers of the pieces that are cut, in the order of the text. */
export function pieceNumbers(resolved: Resolved): ReadonlyMap<string, number> {
  return new Map(resolved.pieces.filter(({ cuts }) => cuts.length > 0).map(({ shape }, index) => [shape.name, index + 1]));
}

/** Looks of the materials that something is cut from, by their names. */
export function materialLooks(resolved: Resolved): ReadonlyMap<string, Look> {
  const used = resolved.materials.filter(({ name }) => resolved.pieces.some(({ cuts }) => cuts.some(({ material }) => material.name === name)));
  return new Map(used.map(({ name }, index) => [name, lookOf(index)]));
}

export function keyPicture(resolved: Resolved, width: number): KeyPicture {
  const numbers = pieceNumbers(resolved);
  const looks = materialLooks(resolved);
  const lines = resolved.pieces.flatMap(({ cuts }) => cuts);
  const scale = roundScale(Math.min(1 / 2, ...lines.map(({ bounds }) => Math.min(largest.width / bounds.width, largest.height / bounds.height))));
  const rows = [...looks].map(([name, look]) => {
    const own = lines.filter(({ material }) => material.name === name);
    const cells = own.map((line): Cell => {
      const { rings, width: shapeWidth, height: shapeHeight } = scaledRings([line.outline, ...line.holes].map((ring) => ring.map(down)), scale);
      const number = numbers.get(line.piece.name) ?? 0;
      const caption = cutTo(settable(`${number}  ${line.piece.title}, ${Number(line.count.n)} ×`), Math.max(shapeWidth, 46), captionSize);
      return { rings, shapeWidth, shapeHeight, words: String(number), caption, figure: `Number ${number}: ${line.piece.title}, ${Number(line.count.n)} × ${line.material.title}, as it is cut.`, width: Math.max(shapeWidth, widthOf(caption, captionSize)), height: shapeHeight + 1 + captionSize * 1.4 };
    });
    const { placed, height } = shelved(cells, width - labelWidth, gap);
    const title = own[0]?.material.title ?? name;
    return {
      height: Math.max(height, 12) + 5,
      items: [
        ...swatch(look),
        ...wrappedTitle(title),
        ...placed.map(({ of, x, y }) => groupItem(of.caption, [
          ...filledShape(of.rings, look, of.words, 3, true),
          textItem(of.caption, { x: 0, y: of.shapeHeight + 1 + captionSize }, { size: captionSize, role: 'picture', tag: 'Caption' }),
        ], { x: labelWidth + x, y }, { figure: of.figure })),
      ],
    };
  });
  return { rows, scale: `1 : ${Math.round(1 / scale)}` };
}

/** Scales that a ruler has: 1 : 2, 3, 4, 5 … */
const roundScale = (scale: number): number => 1 / Math.ceil(1 / scale - 1e-9);

function swatch(look: Look): readonly Item[] {
  const ring = [{ x: 0, y: 0 }, { x: 12, y: 0 }, { x: 12, y: 7 }, { x: 0, y: 7 }];
  return [
    ...(look.tone < 1 ? [{ kind: 'fill', role: 'picture', name: '', path: polylineSteps(ring, true), tone: look.tone } as const] : []),
    ...look.lines.map(({ angle, apart, pen }): Item => ({ kind: 'line', role: 'picture', name: '', path: hatching([ring], angle, apart), pen })),
    { kind: 'line', role: 'picture', name: 'swatch', path: polylineSteps(ring, true), pen: { width: 0.2, dashes: [], tone: 0 } },
  ];
}

function wrappedTitle(title: string): readonly Item[] {
  const [first = '', ...more] = linesOf(settable(title), labelWidth - 4, 2.9, 'bold');
  const lines = more.length === 0 ? [first] : [first, cutTo(more.join(' '), labelWidth - 4, 2.9, 'bold')];
  return lines.map((line, index) => textItem(line, { x: 0, y: 10.6 + index * 3.8 }, { size: 2.9, weight: 'bold', role: 'picture', tag: 'P' }));
}
