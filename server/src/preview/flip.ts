import type { DrawnPart, PieceDrawing, PreviewLayer } from './drawing-data.ts';

/** A piece as its wrong side shows it: turned over about an upright line, so that what lies to the right is at the left. */
export const flipped = (drawing: PieceDrawing): PieceDrawing => ({
  ...drawing,
  box: { ...drawing.box, x: -drawing.box.x - drawing.box.width },
  area: { cutting: flippedPath(drawing.area.cutting), stitching: flippedPath(drawing.area.stitching) },
  room: { ...drawing.room, x: -drawing.room.x },
  wide: { ...drawing.wide, x: -drawing.wide.x },
  parts: drawing.parts.map(flippedPart),
  description: `${drawing.description}; seen on the wrong side`,
});

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
