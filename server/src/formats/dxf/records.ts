import type { Point, Polyline } from '../../geometry/shape.ts';

/**
 * Groups and entities of a DXF file of release 12 (Autodesk, DXF Reference): a code on a line of its own, and its value on
 * the next. That release every program reads. Millimetres, y upwards.
 */
export type Group = readonly [code: number, value: string | number];

const coordinate = (value: number): string => (Math.round(value * 1e4) / 1e4 || 0).toFixed(4);

const place = (code: number, { x, y }: Point): readonly Group[] => [[code, coordinate(x)], [code + 10, coordinate(y)]];

export const lineEntity = (layer: string, from: Point, to: Point): readonly Group[] => [[0, 'LINE'], [8, layer], ...place(10, from), ...place(11, to)];

export const pointEntity = (layer: string, at: Point): readonly Group[] => [[0, 'POINT'], [8, layer], ...place(10, at)];

export const circleEntity = (layer: string, centre: Point, radius: number): readonly Group[] => [[0, 'CIRCLE'], [8, layer], ...place(10, centre), [40, coordinate(radius)]];

export const textEntity = (layer: string, at: Point, height: number, words: string): readonly Group[] => [[0, 'TEXT'], [8, layer], ...place(10, at), [40, coordinate(height)], [1, asciiText(words)]];

export function polylineEntity(layer: string, points: Polyline, closed: boolean): readonly Group[] {
  return [
    [0, 'POLYLINE'], [8, layer], [66, 1], ...place(10, { x: 0, y: 0 }), [70, closed ? 1 : 0],
    ...points.flatMap((point): readonly Group[] => [[0, 'VERTEX'], [8, layer], ...place(10, point)]),
    [0, 'SEQEND'], [8, layer],
  ];
}

export const insertEntity = (layer: string, block: string, at: Point): readonly Group[] => [[0, 'INSERT'], [8, layer], [2, block], ...place(10, at)];

export function blockRecord(name: string, layer: string, entities: readonly Group[]): readonly Group[] {
  return [[0, 'BLOCK'], [8, layer], [2, name], [70, 0], ...place(10, { x: 0, y: 0 }), [3, name], ...entities, [0, 'ENDBLK'], [8, layer]];
}

export const section = (name: string, groups: readonly Group[]): readonly Group[] => [[0, 'SECTION'], [2, name], ...groups, [0, 'ENDSEC']];

export const layerTable = (layers: readonly string[]): readonly Group[] => [
  [0, 'TABLE'], [2, 'LAYER'], [70, layers.length],
  ...layers.flatMap((layer): readonly Group[] => [[0, 'LAYER'], [2, layer], [70, 0], [62, 7], [6, 'CONTINUOUS']]),
  [0, 'ENDTAB'],
];

/** Groups as the text of a file. */
export const dxfText = (groups: readonly Group[]): string => `${groups.map(([code, value]) => `${String(code).padStart(3)}\r\n${value}`).join('\r\n')}\r\n`;

/** Letters of a text that are written: of a longer one some programs read no more than 255 signs (from memory). */
export const longestText = 240;

/**
 * A text of seven-bit signs on one line; others are written by their numbers, as the format has it. So are a backslash and
 * the first of two per cent signs, which would make something else of what stands after them (`%%d` is a degree sign).
 */
export function asciiText(words: string): string {
  const plain = Array.from(words.replace(/[\p{Cc}\p{Cf}\s]+/gu, ' ')).slice(0, longestText).join('');
  return plain.replace(/[^\u0020-\u007E]|\\|%(?=%)/gu, (sign) => Array.from({ length: sign.length }, (_, index) => `\\U+${sign.charCodeAt(index).toString(16).toUpperCase().padStart(4, '0')}`).join(''));
}
