import { boundsOfPoints } from '../../geometry/measure.ts';
import type { Point, Polyline } from '../../geometry/shape.ts';
import { grainArrow } from '../../pages/grain.ts';
import type { TemplateSet } from '../../pages/pages.ts';
import { Room } from '../../pages/room.ts';
import type { Stroke } from '../../pages/strokes.ts';
import type { Template, Variant } from '../../pages/templates.ts';
import { blockRecord, circleEntity, dxfText, insertEntity, layerTable, lineEntity, pointEntity, polylineEntity, section, textEntity, type Group } from './records.ts';

/**
 * Layers by their numbers, as ASTM D6673-10 (Sewn Products Pattern Data Interchange, withdrawn 2019) and the AAMA
 * practice before it have them. The numbers are from memory: the standard’s own text was not at hand.
 */
const layers = { boundary: '1', notch: '4', mirror: '6', grain: '7', internal: '8', cutout: '11', drill: '13', sew: '14', annotation: '15' } as const;

/** Room between two pieces, millimetres. */
const apart = 30;

/** Templates as a DXF file for cutters and plotters: a block for each piece in each size, laid out in a row. */
export function toDxf({ templates, headline }: TemplateSet): string {
  const names = new Set<string>();
  const blocks: Group[] = [];
  const inserts: Group[] = [...textEntity(layers.boundary, { x: 0, y: -20 }, 5, `STYLE NAME: ${headline.title}`), ...textEntity(layers.boundary, { x: 0, y: -28 }, 5, 'UNITS: METRIC')];
  let x = 0;
  for (const template of templates) {
    for (const variant of template.variants) {
      const name = blockName(template, variant, names);
      const box = boundsOfPoints(variant.drawing.outline);
      blocks.push(...blockRecord(name, layers.boundary, pieceEntities(template, variant)));
      inserts.push(...insertEntity(layers.boundary, name, { x: x - box.minX, y: box.maxY }));
      x += box.maxX - box.minX + apart;
    }
  }
  return dxfText([
    // A comment (DXF reference, group code 999), for whoever opens the file and sees nothing else of this.
    [999, 'Layers by the numbers of ASTM D6673 as remembered, not checked against its text: try them with your cutter before you cut cloth.'],
    // Seven-bit signs, and millimetres: 4 in the list of drawing units.
    ...section('HEADER', [[9, '$ACADVER'], [1, 'AC1009'], [9, '$INSUNITS'], [70, 4], [9, '$MEASUREMENT'], [70, 1]]),
    ...section('TABLES', layerTable(Object.values(layers))),
    ...section('BLOCKS', blocks),
    ...section('ENTITIES', inserts),
    [0, 'EOF'],
  ]);
}

/** Unique, of letters that every program takes: `T03_card_pocket_M`. */
function blockName({ number, pieceName }: Template, { sizes }: Variant, taken: Set<string>): string {
  const plain = [`T${String(number).padStart(2, '0')}`, pieceName, ...sizes].map((part) => part.replace(/[^A-Za-z0-9]+/g, '_')).join('_').slice(0, 31).replace(/_+$/, '');
  let name = plain;
  for (let count = 2; taken.has(name); count++) name = `${plain.slice(0, 28)}_${count}`;
  taken.add(name);
  return name;
}

/** From a sheet’s y downwards to y upwards. */
const up = ({ x, y }: Point): Point => ({ x, y: -y || 0 });
const upAll = (points: Polyline): Polyline => points.map(up);

function pieceEntities({ title, number, line }: Template, { drawing, sizes, cuts, shape, oneWay }: Variant): readonly Group[] {
  const box = boundsOfPoints(drawing.outline);
  const words = [
    `PIECE NAME: ${title}`, ...(sizes.length === 0 ? [] : [`SIZE: ${sizes.join(', ')}`]),
    ...cuts.map((text) => `ANNOTATION: ${text}`), `ANNOTATION: template ${number}, ${line}`,
  ];
  const grain = grainArrow(new Room(drawing.outline), drawing.outline, shape.grain, oneWay).strokes.filter(({ filled }) => !filled);
  return [
    ...polylineEntity(layers.boundary, upAll(drawing.outline), true),
    ...(drawing.fold === undefined ? [] : lineEntity(layers.mirror, up(drawing.fold[0]), up(drawing.fold[1]))),
    ...drawing.strokes.flatMap(strokeEntities),
    ...grain.flatMap(({ points: [from, to] }) => (from === undefined || to === undefined ? [] : lineEntity(layers.grain, up(from), up(to)))),
    ...words.flatMap((text, index) => textEntity(index < 2 ? layers.boundary : layers.annotation, up({ x: box.minX + 5, y: (box.minY + box.maxY) / 2 + index * 5 }), 3, text)),
  ];
}

function strokeEntities(stroke: Stroke): readonly Group[] {
  const { role, points, closed, name } = stroke;
  switch (role) {
    case 'cutting':
      // The boundary is written from the outline; what is left is cut out of it.
      return name.endsWith(': cut out') ? polylineEntity(layers.cutout, upAll(points), true) : [];
    case 'stitching':
      return polylineEntity(layers.sew, upAll(points), closed);
    case 'line': case 'placement': case 'foldline': case 'partfold': case 'window': case 'topstitch': case 'ghost':
      return polylineEntity(layers.internal, upAll(points), closed);
    case 'notch': {
      const [one, tip, other] = points;
      return one === undefined || tip === undefined || other === undefined ? [] : lineEntity(layers.notch, up({ x: (one.x + other.x) / 2, y: (one.y + other.y) / 2 }), up(tip));
    }
    case 'mark': case 'drill':
      return markEntities(stroke);
    default:
      return [];
  }
}

function markEntities({ role, points, path }: Stroke): readonly Group[] {
  const box = boundsOfPoints(points);
  const centre = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
  if (role === 'drill') return pointEntity(layers.drill, up(centre));
  const rim = path.find((step) => step.kind === 'cubic');
  const radius = rim?.kind === 'cubic' ? Math.hypot(rim.to.x - centre.x, rim.to.y - centre.y) : undefined;
  return [
    ...lineEntity(layers.internal, up({ x: box.minX, y: centre.y }), up({ x: box.maxX, y: centre.y })),
    ...lineEntity(layers.internal, up({ x: centre.x, y: box.minY }), up({ x: centre.x, y: box.maxY })),
    ...(radius === undefined ? [] : circleEntity(layers.internal, up(centre), radius)),
  ];
}
