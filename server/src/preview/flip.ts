import type { DrawnPart, PieceDrawing, PreviewLayer } from './drawing-data.ts';

/**
 * A piece as its wrong side shows it: turned over about an upright line, so that what lies to the right is at the left, and
 * with what is on its right side behind it.
 */
export const flipped = (drawing: PieceDrawing, layers: readonly PreviewLayer[] = []): PieceDrawing => ({
  ...drawing,
  box: { ...drawing.box, x: -drawing.box.x - drawing.box.width },
  area: { cutting: flippedPath(drawing.area.cutting), stitching: flippedPath(drawing.area.stitching) },
  room: { ...drawing.room, x: -drawing.room.x },
  wide: { ...drawing.wide, x: -drawing.wide.x },
  whole: { ...drawing.whole, x: -drawing.whole.x },
  parts: drawing.parts.map((part) => flippedPart(isOnRightSide(part, layers) ? { ...part, behind: true, title: `${part.title}, on the right side` } : part)),
  description: `${drawing.description}; seen on the wrong side`,
});

/** Marks and places are drawn as the right side shows them, unless something is laid there on the wrong side; so is a line along which all that is laid on is on the right side. What is cut, folded or drilled is on both. */
function isOnRightSide({ kind, name }: DrawnPart, layers: readonly PreviewLayer[]): boolean {
  if (kind !== 'mark' && kind !== 'placement' && kind !== 'line') return false;
  const sides = layers.filter(({ line }) => line === name).map(({ side }) => side);
  return sides.length === 0 ? kind !== 'line' : sides.every((side) => side === 'right');
}

export const flippedLayer = (layer: PreviewLayer): PreviewLayer => ({ ...layer, path: flippedPath(layer.path) });

const flippedPart = (part: DrawnPart): DrawnPart => ({
  ...part,
  path: flippedPath(part.path),
  twin: flippedPath(part.twin),
  label: part.label && { ...part.label, x: -part.label.x },
  ...(part.signs === undefined ? {} : { signs: part.signs.map((sign) => ({ ...sign, x: -sign.x, shape: flippedPath(sign.shape) })) }),
});

/** SVG path data of the commands that drawings have, M, L, l, C, A and Z, with every x turned round; an arc then turns the other way. */
export const flippedPath = (path: string): string => path.replace(/([MLlCA])([^MLlCAZ]*)/g, (_, command: string, data: string) => {
  const numbers = (data.match(/-?[\d.]+/g) ?? []).map(Number);
  const turned = command === 'A'
    ? numbers.map((value, at) => (at % 7 === 2 || at % 7 === 5 ? opposite(value) : at % 7 === 4 ? 1 - value : value))
    : numbers.map((value, at) => (at % 2 === 0 ? opposite(value) : value));
  return `${command}${turned.join(' ')}`;
});

/** Never minus nothing. */
const opposite = (value: number): number => (value === 0 ? 0 : -value);
