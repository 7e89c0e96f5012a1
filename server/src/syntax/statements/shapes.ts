import { as, by, said } from './common.ts';
import { block, declares, either, formula, inside, length, list, name, oneOf, optional, position, self, statement, way, words, type Way } from './elements.ts';

/** The shapes of outlines and lines, and the steps of a path. */

export const at = words('at', 'Sets a shape by its lower left corner, or says where something is.', 'placement slot = rectangle 4 by 2 at 1, 1', 'at ${1:1, 1}');

const anchor = optional(inside('anchor', either(
  'where its lower left corner, or its middle, is',
  way({ by: 'corner' }, at, position('position', 'where its lower left corner is')),
  way({ by: 'middle' }, words('centred at', 'Sets a shape by its middle.', 'placement patch = circle across 1 centred at 2, 2', 'centred at ${1:2, 2}'), position('position', 'where its middle is')),
)));
const roundPart = optional(inside(
  'part',
  words('from', 'Keeps a part of it, from the right and turning left, closed straight across or through the middle.', 'outline circle across 6 from 0 deg to 180 deg', 'from ${1:0 deg} to ${2:180 deg}'),
  formula('from', 'angle', 'ANGLE', 'where the part begins'), words('to'), formula('to', 'angle', 'ANGLE', 'where it ends'), said('throughMiddle', 'through middle', 'Closes the part through the middle, as a slice.', 'outline circle across 6 from 0 deg to 90 deg through middle'),
));
const points = list('points', [position(self, 'a point')], 'to', { label: '[to x, y …]', meaning: 'more points' }, { least: 2 });

const outlines: readonly Way[] = [
  way(
    { kind: 'rectangle' },
    words('rectangle', 'A rectangle of a width and a height.', 'outline rectangle 9 by 7', 'rectangle ${1:6} by ${2:4}'),
    length('width', 'WIDTH', 'from left to right'), by, length('height', 'HEIGHT', 'from bottom to top'), anchor,
  ),
  way(
    { kind: 'round', height: false },
    words('circle across', 'A circle of a diameter, or a part of one.', 'outline circle across 6', 'circle across ${1:6}'),
    length('width', 'DIAMETER', 'how wide it is'), roundPart, anchor,
  ),
  way(
    { kind: 'round' },
    words('ellipse', 'An ellipse of a width and a height, or a part of one.', 'outline ellipse 8 by 6', 'ellipse ${1:8} by ${2:6}'),
    length('width', 'WIDTH', 'from left to right'), by, length('height', 'HEIGHT', 'from bottom to top'), roundPart, anchor,
  ),
  way(
    { kind: 'polygon' },
    words('polygon from', 'A closed shape through its corners.', 'outline polygon from 0, 0 to 6, 0 to 3, 5', 'polygon from ${1:0, 0} to ${2:6, 0} to ${3:3, 5}'),
    points,
  ),
  way(
    { kind: 'path' },
    words('path from', 'A shape of lines, arcs and curves, one step after the other.', 'outline path from 0, 0 {', 'path from ${1:0, 0} {\n\tline to ${2:6, 0}\n\tline to ${3:6, 4}\n\tclose\n}'),
    position('from', 'where it starts'), block('steps', 'path'),
  ),
];
const lines: readonly Way[] = [
  way(
    { kind: 'inset' },
    words('inset', 'A smaller copy, a distance in from the edge.', 'line core = inset 1/2', 'inset ${1:1/2}'),
    length('distance', 'DISTANCE', 'how far in'),
    optional(
      words('except', 'Gives an edge of an inset a distance of its own.', 'line core = inset 1/2 except top 0', 'except ${1:top} ${2:0}'),
      list('except', [name('edge', 'edge', 'EDGE', 'an edge with a distance of its own'), length('distance', 'DISTANCE', 'how far in from it')], ',', { label: ', …', meaning: 'more edges' }),
    ),
    optional(
      words('from', 'Says which line an inset is measured from.', 'line core = inset 1/2 from stitching', 'from ${1|cutting,stitching|}'),
      oneOf('of', ['cutting', 'stitching'], 'the line that is measured from'),
    ),
  ),
  way(
    { kind: 'across', way: 'level' },
    words('level at', 'A level line right across the piece, at a height.', 'foldline row = level at 1', 'level at ${1:1}'), length('at', 'HEIGHT', 'how far above 0'),
  ),
  way(
    { kind: 'across', way: 'upright' },
    words('upright at', 'An upright line right across the piece, at a distance from the left.', 'foldline spine = upright at 4', 'upright at ${1:4}'), length('at', 'DISTANCE', 'how far to the right of 0'),
  ),
  way({ kind: 'open' }, words('from', 'Points joined by straight lines.', 'placement seam = from 0, 0 to 6, 0', 'from ${1:0, 0} to ${2:6, 0}'), points),
];

/** A piece is drawn as a closed shape; any other can be read, and is a fault. */
export const outlineShape = inside('shape', either('its shape', ...outlines, ...lines.map((one) => ({ ...one, unusual: true }))));
export const lineShape = inside('shape', either('its shape', ...outlines, ...lines));

const edgeName = optional(as, declares('name', 'edge', 'NAME', 'the edge’s name'));
const to = position('to', 'the point');

export const pathSteps = [
  statement('line step', ['path'], [words('line to', 'Goes straight to a point.', 'line to 3, 0 as lower', 'line to ${1:3, 0}'), to, edgeName]),
  statement('arc step', ['path'], [
    words('arc to', 'Goes to a point on part of a circle.', 'arc to 3, 1 through 3 1/2, 1/2', 'arc to ${1:3, 1} through ${2:3 1/2, 1/2}'), to,
    either(
      'a point on the way, or the radius and the side that it turns to',
      way({ through: true }, words('through', 'Gives a point that the arc runs through.', 'arc to 3, 1 through 3 1/2, 1/2'), position('through', 'a point on the way')),
      way({ radius: true }, inside(
        'radius',
        words('radius', 'Gives the arc’s radius and the side that it turns to.', 'arc to 3, 1 radius 2 left', 'radius ${1:2} ${2|left,right|}'),
        length('length', 'SIZE', 'the radius'), oneOf('turn', ['left', 'right'], 'the side that it turns to'),
      )),
    ),
    edgeName,
  ]),
  statement('curve step', ['path'], [
    words('curve to', 'Goes to a point on a curve with two control points.', 'curve to 3, 2 by 4, 0 and 4, 2', 'curve to ${1:3, 2} by ${2:4, 0} and ${3:4, 2}'), to,
    words('by'), position('control1', 'the first control point'), words('and'), position('control2', 'the second control point'), edgeName,
  ]),
  statement('close step', ['path'], [words('close', 'Goes straight back to the start.', 'close as root'), edgeName]),
];
