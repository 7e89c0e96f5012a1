import { allowanceSize, allowanceWord, as, by, join, noteParts, said, title, when, whenWord } from './common.ts';
import {
  block, condition, declares, either, formula, head, inside, length, list, many, name, oneOf, optional, optionalWhere, position, quoted, reference, self, statement, way, word,
  words, type Element, type StatementForm,
} from './elements.ts';
import { at, lineShape, outlineShape } from './shapes.ts';
import { cornerWords } from './vocabulary.ts';

const edgeOf = (field: string, meaning: string): Element => name(field, 'edge', 'EDGE', meaning);
const edge = (meaning: string): Element => edgeOf('edge', meaning);
const mirrored = words('mirrored', 'Flips it from left to right.', 'cut 1 lining mirrored');

/** A piece's first line. */
export const piece = statement('piece', ['file'], [
  words('piece', 'Declares a piece of the pattern.', 'piece front "Front" {', 'piece ${1:name} "${2:Title}" {\n\toutline rectangle ${3:6} by ${4:4}\n\tcut ${5:1} ${6:material}\n\t$0\n}'),
  declares('name', 'declared', 'NAME', 'its name'),
  head(
    title,
    optional(inside(
      'parent',
      words('from', 'Starts the piece from another one.', 'piece inside "Inside" from cover {', 'from ${1:piece}'),
      name('name', 'piece', 'PIECE', 'the piece that it is a copy of'),
      many(
        'parts',
        way({ kind: 'mirrored' }, mirrored),
        way({ kind: 'inset' }, words('inset', 'A smaller copy, a distance in from the edge.', 'piece inner from cover inset 1/8 {', 'inset ${1:1/2}'), length('distance', 'DISTANCE', 'how far in')),
        way({ kind: 'side' }, oneOf('side', {
          above: word('above', 'Takes the part above a line of the other piece.', 'piece zip_top from zip_panel above zip_line {', 'above ${1:line}'),
          below: word('below', 'Takes the part below a line of the other piece.', 'piece zip_base from zip_panel below zip_line {', 'below ${1:line}'),
          'left of': word('left of', 'Takes the part left of a line of the other piece.', 'piece half from cover left of spine {', 'left of ${1:line}'),
          'right of': word('right of', 'Takes the part right of a line of the other piece.', 'piece half from cover right of spine {', 'right of ${1:line}'),
        }), name('line', 'line', 'LINE', 'a line of the other piece', { of: 'name' })),
      ),
    )),
    when,
  ),
  block('body', 'piece'),
]);

const cut = statement('cut', ['piece'], [
  words('cut', 'Says how many are cut from a material.', 'cut 2 canvas', 'cut ${1:1} ${2:material}'),
  formula('count', 'count', 'COUNT', 'how many, a whole number'),
  name('material', 'material', 'MATERIAL', 'what it is cut from'),
  many(
    'clauses',
    way(
      { kind: 'along' },
      words('along', 'Cuts along an inner line, or along the stitching line, in place of the cutting line.', 'cut 1 board along core', 'along ${1:stitching}'),
      name('line', 'line', 'LINE', 'an inner line, or the stitching line', { among: ['cutting', 'stitching'] }),
    ),
    way({ kind: 'twins' }, words('twins', 'Cuts them in pairs, half of them flipped.', 'cut 2 canvas twins')),
    way({ kind: 'mirrored' }, mirrored),
    way({ kind: 'fold' }, words('on fold', 'Cuts it with its fold edge on a fold of the cloth.', 'cut 1 print on fold')),
    way(
      { kind: 'side' },
      oneOf('side', {
        right: word('on right side', 'Sets a layer on the right side of its shell.', 'cut 1 fleece on right side'),
        wrong: word('on wrong side', 'Sets a layer on the wrong side of its shell, which is usual.', 'cut 1 crisp on wrong side of canvas'),
      }),
      optional(words('of'), name('of', 'material', 'CLOTH', 'the cloth that it goes on')),
    ),
    way(
      { kind: 'without' },
      words('without', 'Leaves windows out of it.', 'cut 1 stay along stiff without zip_box', 'without ${1:window}'),
      list('windows', [name(self, 'line', 'WINDOW', 'a window that is left out', { use: 'window' })], 'and', { label: '[and WINDOW …]', meaning: 'more windows' }),
    ),
    way(
      { kind: 'sized' },
      words('sized', 'Gives a layer a size of its own.', 'cut 1 crisp sized 4 1/2 by 2 3/4', 'sized ${1:4} by ${2:3}'),
      length('width', 'WIDTH', 'how wide'), by, length('height', 'HEIGHT', 'how high'),
    ),
    way(
      { kind: 'large' },
      words('large by', 'Cuts it larger all round, to be trimmed later.', 'cut 1 fleece large by 1/4', 'large by ${1:1/4}'), length('by', 'SIZE', 'how much larger all round'),
    ),
    way({ kind: 'into the seam' }, words('into the seam', 'Says that a stiff layer is meant to be caught in the seams round it.', 'cut 1 fleece into the seam')),
    way({ kind: 'way up' }, words('this way up', 'Says that what this line cuts may not be turned upside down.', 'cut 4 print this way up')),
    way({ kind: 'when' }, whenWord, condition('condition', 'CONDITION', 'in which sizes and choices')),
    { ...way({ kind: 'note' }, ...noteParts), again: true },
  ),
]);

const line = statement('line', ['piece'], [
  oneOf('use', {
    line: word('line', 'Draws a line inside the piece, to cut a layer along or to measure.', 'line core = inset 1/2', 'line ${1:name} = inset ${2:1/2}'),
    placement: word('placement', 'Draws where something is placed on the piece.', 'placement slot = rectangle 4 by 2 at 1, 1', 'placement ${1:name} = rectangle ${2:2} by ${3:1} at ${4:1, 1}'),
    foldline: word('foldline', 'Draws a line that the piece is folded along.', 'foldline spine = upright at 4', 'foldline ${1:name} = ${2|level,upright|} at ${3:2}'),
    window: word('window', 'Draws a closed shape that layers may be cut without.', 'window zip_box = rectangle 4 by 3/8 at 1, 5', 'window ${1:name} = rectangle ${2:4} by ${3:3/8} at ${4:1, 1}'),
  }),
  declares('name', 'line', 'NAME', 'its name'), title, words('='), lineShape,
]);

const mark = statement('mark', ['piece'], [
  oneOf('use', {
    mark: word('mark', 'Sets a mark, such as for a snap.', 'mark clasp for snap 14 mm at 2, 3', 'mark ${1:name} at ${2:1, 1}'),
    drill: word('drill', 'Sets a small hole to be pierced through the layers.', 'drill stop at 2, 3', 'drill ${1:name} at ${2:1, 1}'),
  }),
  declares('name', 'mark', 'NAME', 'its name'), title,
  optional(words('for snap', 'Says what snap the mark is for, by its diameter.', 'mark clasp for snap 14 mm at 2, 3', 'for snap ${1:14 mm} at ${2:1, 1}'), length('snap', 'SIZE', 'the diameter of the snap')),
  at, position('at', 'where, from the piece’s lower left'),
]);

const corner = statement('corner', ['piece'], [
  words('corner', 'Rounds corners of a rectangle, cuts them off, or boxes them out.', 'corner bottom round 1/2', 'corner ${1|all,top,bottom,left,right,top_left,top_right,bottom_left,bottom_right|} ${2|round,chamfer,box|} ${3:1/2}'),
  name('which', 'edge', 'WHICH', 'all, a side or one corner', { among: cornerWords }),
  either(
    'how',
    way({ treatment: 'round' }, oneOf('treatment', ['round'], 'how'), length('size', 'SIZE', 'the radius')),
    way({}, oneOf('treatment', ['chamfer', 'box'], 'how'), length('size', 'SIZE', 'how much is cut off'), optional(by, length('size2', 'SIZE', 'how much along the other side'))),
  ),
]);

const notch = statement('notch', ['piece'], [
  words('notch', 'Sets a notch on an edge, at a length or a share of it.', 'notch top at 50%', 'notch ${1:top} at ${2:50%}'),
  edge('the edge that it is on'), { ...at, snippet: 'at ${1:50%}' }, formula('at', 'length or share', 'PLACE', 'a length along the edge, or a share of it such as 50%'),
  optionalWhere({ from: 'end' }, oneOf('from', { start: { words: 'from start' }, end: { words: 'from end' } }, 'the end that is measured from')),
]);

/** The lines of a piece, those in most use first. */
export const pieceLines: readonly StatementForm[] = [
  cut,
  statement('outline', ['piece'], [words('outline', 'Draws the piece.', 'outline rectangle 9 by 7', 'outline rectangle ${1:6} by ${2:4}'), outlineShape], { once: true }),
  line,
  mark,
  notch,
  corner,
  statement('allowance', ['piece'], [allowanceWord, optional(name('edge', 'edge', 'EDGE', 'one edge only', { but: ['none'] })), allowanceSize, join]),
  statement('on fold', ['piece'], [
    words('on fold', 'Says which edge lies on a fold, so that the piece is drawn as half.', 'on fold left', 'on fold ${1:left}'),
    edge('the edge in the middle of the whole piece, which must be straight'),
  ], { once: true }),
  statement('grain', ['piece'], [
    words('grain', 'Says how the piece lies to the grain of its cloth.', 'grain up or across', 'grain ${1|up,across,bias,none|}'),
    either(
      'the way that it runs on the piece; an angle leans to the left of upright',
      way({ angle: false }, oneOf('way', ['up', 'across', 'bias', 'none'])),
      way({}, formula('angle', 'angle', 'ANGLE', 'how far it leans to the left of upright')),
    ),
    said('orAcross', 'or across', 'Says that the piece may also lie across.', 'grain up or across'),
  ], { once: true }),
  statement('way up', ['piece'], [words('this way up', 'Says that the piece may not be turned upside down on any of its cloths.', 'this way up')], { once: true }),
  statement('template folded', ['piece'], [words('template folded', 'Cuts a part of another piece from that one’s template, folded where the part ends.', 'template folded')], { once: true }),
  statement('edge', ['piece'], [
    words('edge', 'Gives an edge a name of your own.', 'edge top as hem', 'edge ${1:top} as ${2:name}'),
    edge('the name that it has'), as, declares('name', 'edge', 'NAME', 'its new name'), title,
  ]),
  statement('edge title', ['piece'], [
    words('edge', 'Gives an edge a title that is shown in the cutting table.', 'edge top "Upper edge"', 'edge ${1:top} "${2:Title}"'),
    edge('the edge'), quoted('title', '"TITLE"', 'its title'),
  ]),
  statement('edge finish', ['piece'], [
    words('edge', 'Says what becomes of an edge that is sewn to no other.', 'edge top hemmed 1/2', 'edge ${1:top} ${2|hemmed 1/2,bound,faced,raw|}'),
    name('edge', 'edge', 'EDGE', 'the edge, a window, or all', { among: ['all'] }),
    either(
      'what becomes of it',
      way({ finish: 'hemmed' }, oneOf('finish', ['hemmed']), length('size', 'SIZE', 'how wide the hem finishes'), optional(words('with', 'Names what runs through the hem, such as an elastic.', 'edge top hemmed 3/4 with band', 'with ${1:supply}'), name('supply', 'supply', 'SUPPLY', 'what runs through it'))),
      way(
        { finish: 'bound' }, oneOf('finish', ['bound']),
        optional(words('with'), name('supply', 'supply', 'SUPPLY', 'a binding')),
      ),
      way({ finish: 'caught' }, words('caught in', 'Folds the edge into the hem of another piece’s edge, together with that.', 'edge top caught in front.top', 'caught in ${1:piece.edge}'), reference('hem', 'edge', 'EDGE', 'the edge whose hem it is folded into')),
      way({ finish: 'takes' }, oneOf('finish', ['takes']), name('supply', 'supply', 'SUPPLY', 'what is sewn to it')),
      way({}, oneOf('finish', ['faced', 'raw'], 'what becomes of it')),
    ),
  ]),
  statement('notch meeting', ['piece'], [
    words('notch', 'Sets a notch where a line of the piece meets an edge.', 'notch left meeting crease', 'notch ${1:left} meeting ${2:crease}'),
    edge('the edge that it is on'), words('meeting'), name('line', 'line', 'LINE', 'a line of the piece'),
  ]),
  statement('dart', ['piece'], [
    words('dart', 'Takes a wedge out of an edge, to be sewn together.', 'dart waist on top at 3 wide 1 deep 3', 'dart ${1:name} on ${2:top} at ${3:50%} wide ${4:1} deep ${5:3}'),
    declares('name', 'line', 'NAME', 'its name'), title, words('on'), edge('the edge that it is on'),
    words('at'), formula('at', 'length or share', 'PLACE', 'where its middle lies on the stitching line: a length along the edge, or a share of it'),
    words('wide', 'Says how much of the edge the dart takes.', 'dart waist on top at 3 wide 1 deep 3'), length('width', 'SIZE', 'how much of the edge it takes'),
    words('deep', 'Says how far into the piece the dart reaches.', 'dart waist on top at 3 wide 1 deep 3'), length('depth', 'SIZE', 'how far its tip lies from the edge'),
  ]),
  statement('pleat', ['piece'], [
    words('pleat', 'Folds cloth over along an edge, to lie double on what is beside it.', 'pleat front on top at 3 deep 3/4 towards end', 'pleat ${1:name} on ${2:top} at ${3:50%} deep ${4:3/4} towards ${5|end,start|}'),
    declares('name', 'line', 'NAME', 'its name'), title, words('on'), edge('the edge that it is on'),
    words('at'), formula('at', 'length or share', 'PLACE', 'where its middle lies on the stitching line before it is folded: a length along the edge, or a share of it'),
    words('deep', 'Says how far the fold lies from where it is turned back; the pleat takes twice as much from the edge.', 'pleat front on top at 3 deep 3/4 towards end'), length('depth', 'SIZE', 'how deep it is; it takes twice as much from the edge'),
    words('towards', 'Says to which end of the edge the fold is laid.', 'pleat front on top at 3 deep 3/4 towards end'), oneOf('towards', ['start', 'end'], 'to which end of the edge its fold is laid'),
    optional(words('stitched', 'Sews the pleat down so far from the edge: a tuck.', 'pleat front on top at 3 deep 1/4 towards end stitched 4', 'stitched ${1:4}'), length('stitched', 'SIZE', 'how far from the edge it is sewn down')),
  ]),
  statement('topstitch', ['piece'], [
    words('topstitch', 'Sews a row of stitches that is seen, so far inside finished edges, or beside folds and windows.', 'topstitch rim 1/8 from left, bottom, right', 'topstitch ${1:name} ${2:1/8} from ${3:top}'),
    declares('name', 'line', 'NAME', 'its name'), title,
    either(
      'where it lies',
      way({ lines: true }, words('along', 'Sews along lines of the piece themselves.', 'topstitch pens along pen', 'along ${1:line}'), list('lines', [name(self, 'line', 'LINE', 'a line of the piece')], ',', { label: '[, LINE …]', meaning: 'what it is sewn along next' })),
      way(
        {},
        length('distance', 'SIZE', 'how far from the finished edge, which is the stitching line, from the fold or the window', { but: ['along'] }),
        words('from', 'Says which edges, straight folds or windows the row runs beside.', 'topstitch rim 1/8 from left, bottom, right'),
        list('edges', [edgeOf(self, 'an edge, a straight fold line or a window; all for every edge')], ',', { label: '[, EDGE …]', meaning: 'what it runs beside next' }),
      ),
    ),
  ]),
  statement('quilt', ['piece'], [
    words('quilt', 'Sews rows of stitches through all layers, so far apart.', 'quilt rows 1 1/2 apart along middle', 'quilt ${1:name} ${2:1} apart along ${3:line}'),
    declares('name', 'line', 'NAME', 'its name'), title, length('distance', 'SIZE', 'how far it is from one row to the next'),
    words('apart along', 'Says which straight line is one of the rows; the others run beside it.', 'quilt rows 1 1/2 apart along middle'), name('line', 'line', 'LINE', 'a straight line of the piece, which is one of the rows'),
  ]),
  statement('folded', ['piece'], [
    words('folded', 'Says along which straight lines the piece is folded before it is sewn, in this order.', 'folded half', 'folded ${1:line}'),
    list('lines', [name(self, 'line', 'LINE', 'a straight line of the piece')], ',', { label: '[, LINE …]', meaning: 'what it is folded along next' }),
  ], { once: true }),
  statement('without', ['piece'], [
    words('without', 'Leaves out lines, marks or notches that a copy would take over.', 'without clasp, notches', 'without ${1:clasp}'),
    list('names', [name(self, 'line', 'NAME', 'a line or mark of the other piece', { among: ['notches'] })], ',', { label: '[, NAME …]', meaning: 'more of them' }),
  ]),
];
