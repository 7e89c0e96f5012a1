/**
 * The words of the language: what each means, with an example. Hover and completion share this table.
 */

/** Where a word may stand: as a line of a file or a block, or further on in one. */
export type WordPlace = 'file' | 'piece' | 'material' | 'supply' | 'path' | 'shape' | 'cut' | 'head' | 'check' | 'formula' | 'condition';

export interface Keyword {
  readonly words: string;
  readonly places: readonly WordPlace[];
  /** One sentence. */
  readonly meaning: string;
  readonly example: string;
  /** What completion writes, with `${1:…}` for what is to be filled in; the words alone where it is left out. */
  readonly snippet?: string;
}

const word = (words: string, places: readonly WordPlace[], meaning: string, example: string, snippet?: string): Keyword => ({
  words, places, meaning, example, ...(snippet === undefined ? {} : { snippet }),
});

export const keywords: readonly Keyword[] = [
  // Lines of a file
  word('pattern', ['file'], 'Gives the pattern its title.', 'pattern "Small pouch"', 'pattern "${1:Title}"'),
  word('revision', ['file'], 'Counts the versions that were given out, so that a printed copy can be told from a later one.', 'revision 2', 'revision ${1:1}'),
  word('issued', ['file'], 'Says which revision was given out last, with the digest of what it said.', 'issued 1 as "0a1b2c3d4e5f"'),
  word('unit', ['file'], 'Sets the unit that bare numbers are in and that sizes are shown in.', 'unit in', 'unit ${1|in,cm,mm|}'),
  word('step', ['file'], 'Sets the step that shown sizes are rounded to.', 'step 1/16', 'step ${1:1/8}'),
  word('currency', ['file'], 'Says what prices are in.', 'currency "EUR"', 'currency "${1:EUR}"'),
  word('drawn to', ['file', 'piece'], 'Says whether outlines are drawn to the cutting line or to the stitching line.', 'drawn to stitching', 'drawn to ${1|cutting,stitching|}'),
  word('allowance', ['file', 'piece'], 'Sets the seam allowance: of all edges, or of one.', 'allowance 3/8', 'allowance ${1:3/8}'),
  word('note', ['file', 'piece', 'material', 'supply', 'cut'], 'Adds a note that is shown in the cutting table.', 'note "Press each layer."', 'note "${1:text}"'),
  word('use', ['file'], 'Takes the materials, things, values, sizes and choices of another file.', 'use "studio/materials.piece"', 'use "${1:materials.piece}"'),
  word('sizes', ['file'], 'Lists the sizes that the pattern is made in.', 'sizes S, M, L', 'sizes ${1:S, M, L}'),
  word('choice', ['file'], 'Names a choice and its options; the first is the usual one.', 'choice closing is tab or zip', 'choice ${1:name} is ${2:one} or ${3:other}'),
  word('length', ['file'], 'Names a length.', 'length seam = 3/8', 'length ${1:name} = ${2:1}'),
  word('count', ['file'], 'Names a whole number.', 'count rows = 2', 'count ${1:name} = ${2:1}'),
  word('ratio', ['file'], 'Names a number without a unit.', 'ratio fullness = 1.5', 'ratio ${1:name} = ${2:1}'),
  word('angle', ['file'], 'Names an angle in degrees.', 'angle slant = 15 deg', 'angle ${1:name} = ${2:45 deg}'),
  word('area', ['file'], 'Names an area.', 'area patch = 3 in * 4 in', 'area ${1:name} = ${2:3 in * 4 in}'),
  word('thing', ['file'], 'Names something that a piece must hold, with its size.', 'thing card "Bank card" = 85.6 mm by 53.98 mm', 'thing ${1:name} "${2:Title}" = ${3:4 in} by ${4:3 in}'),
  word('material', ['file'], 'Declares a material that pieces are cut from.', 'material canvas "Canvas" {', 'material ${1:name} "${2:Title}" {\n\trole ${3|main,accent,lining,fusible,stabiliser,foam,non-fray|}\n\twidth ${4:44 in} usable ${5:42 in}\n\t$0\n}'),
  word('supply', ['file'], 'Declares something to buy that is not cut from cloth.', 'supply zip "Coil zip" {', 'supply ${1:name} "${2:Title}" {\n\tkind ${3|zip,snap,ring,webbing,binding,thread,elastic,other|}\n\t$0\n}'),
  word('piece', ['file'], 'Declares a piece of the pattern.', 'piece front "Front" {', 'piece ${1:name} "${2:Title}" {\n\toutline rectangle ${3:6} by ${4:4}\n\tcut ${5:1} ${6:material}\n\t$0\n}'),
  word('check', ['file'], 'States what must hold; where it doesn’t, that is a problem.', 'check front.top matches lining.top', 'check ${1:front.top} matches ${2:lining.top}'),

  // Lines of a piece
  word('outline', ['piece'], 'Draws the piece.', 'outline rectangle 9 by 7', 'outline rectangle ${1:6} by ${2:4}'),
  word('corner', ['piece'], 'Rounds corners of a rectangle, cuts them off, or boxes them out.', 'corner bottom round 1/2', 'corner ${1|all,top,bottom,left,right,top_left,top_right,bottom_left,bottom_right|} ${2|round,chamfer,box|} ${3:1/2}'),
  word('edge', ['piece'], 'Gives an edge a name of your own.', 'edge top as hem', 'edge ${1:top} as ${2:name}'),
  word('on fold', ['piece'], 'Says which edge lies on a fold, so that the piece is drawn as half.', 'on fold left', 'on fold ${1:left}'),
  word('grain', ['piece'], 'Says how the piece lies to the grain of its cloth.', 'grain up or across', 'grain ${1|up,across,bias,none|}'),
  word('this way up', ['piece'], 'Says that the piece may not be turned upside down on a one-way cloth.', 'this way up'),
  word('line', ['piece'], 'Draws a line inside the piece, to cut a layer along or to measure.', 'line core = inset 1/2', 'line ${1:name} = inset ${2:1/2}'),
  word('placement', ['piece'], 'Draws where something is placed on the piece.', 'placement slot = rectangle 4 by 2 at 1, 1', 'placement ${1:name} = rectangle ${2:2} by ${3:1} at ${4:1, 1}'),
  word('foldline', ['piece'], 'Draws a line that the piece is folded along.', 'foldline spine = upright at 4', 'foldline ${1:name} = ${2|level,upright|} at ${3:2}'),
  word('window', ['piece'], 'Draws a closed shape that layers may be cut without.', 'window zip_box = rectangle 4 by 3/8 at 1, 5', 'window ${1:name} = rectangle ${2:4} by ${3:3/8} at ${4:1, 1}'),
  word('notch', ['piece'], 'Sets a notch on an edge, at a length or a share of it.', 'notch top at 50%', 'notch ${1:top} at ${2:50%}'),
  word('mark', ['piece'], 'Sets a mark, such as for a snap.', 'mark clasp for snap 14 mm at 2, 3', 'mark ${1:name} at ${2:1, 1}'),
  word('drill', ['piece'], 'Sets a small hole to be pierced through the layers.', 'drill stop at 2, 3', 'drill ${1:name} at ${2:1, 1}'),
  word('cut', ['piece'], 'Says how many are cut from a material.', 'cut 2 canvas', 'cut ${1:1} ${2:material}'),

  // Lines of a material
  word('role', ['material'], 'Says what the material is for.', 'role lining', 'role ${1|main,accent,lining,fusible,stabiliser,foam,non-fray|}'),
  word('width', ['material'], 'Gives the width of the cloth, and how much of it is usable.', 'width 44 in usable 42 in', 'width ${1:44 in} usable ${2:42 in}'),
  word('faces', ['material'], 'Says whether its two sides differ, are alike, or one has glue.', 'faces glued', 'faces ${1|differ,alike,glued|}'),
  word('direction', ['material'], 'Says how pieces may lie on it.', 'direction one way', 'direction ${1|two ways,one way,any|}'),
  word('weight', ['material'], 'Says how heavy it is.', 'weight light', 'weight ${1|light,medium,heavy|}'),
  word('shrinks', ['material'], 'Gives its shrinkage along the grain, and across it.', 'shrinks 4% by 2%', 'shrinks ${1:4%} by ${2:2%}'),
  word('bought in lengths of', ['material', 'supply'], 'Says in what steps of length it is sold.', 'bought in lengths of 1/8 yd', 'bought in lengths of ${1:1/8 yd}'),
  word('bought in panels of', ['material', 'supply'], 'Says that it is sold in panels of a size.', 'bought in panels of 18 in by 22 in', 'bought in panels of ${1:18 in} by ${2:22 in}'),
  word('bought in sheets of', ['material', 'supply'], 'Says that it is sold in sheets of a size.', 'bought in sheets of 20 in by 36 in', 'bought in sheets of ${1:20 in} by ${2:36 in}'),
  word('price', ['material', 'supply'], 'Gives its price.', 'price 9 per yd', 'price ${1:9} per ${2|yd,m,ft,panel,sheet,each|}'),
  word('usable', ['material'], 'Gives the width that can be cut from, between the selvedges.', 'width 44 in usable 42 in'),
  word('per', ['material', 'supply'], 'Says what the price is for.', 'price 0.80 per each'),

  // Lines of a supply
  word('kind', ['supply'], 'Says what kind of supply it is.', 'kind zip', 'kind ${1|zip,snap,ring,webbing,binding,thread,elastic,other|}'),
  word('count', ['supply'], 'Says how many are needed.', 'count 2', 'count ${1:1}'),
  word('finished', ['supply'], 'Gives the length of a zip once made up, from stop to stop.', 'finished 4', 'finished ${1:4}'),
  word('across', ['supply'], 'Gives a snap’s diameter, a ring’s inner width, or the width of a band.', 'across 14 mm', 'across ${1:14 mm}'),
  word('length', ['supply'], 'Gives the length of one.', 'length 24 in', 'length ${1:24 in}'),
  word('from closed', ['supply'], 'Says how long a closed zip must at least be to be made up from.', 'from closed 6', 'from closed ${1:6}'),
  word('from tape', ['supply'], 'Says how much zip tape it is made up from.', 'from tape 6', 'from tape ${1:6}'),
  word('at', ['supply'], 'Says at which marks it is set.', 'at front.clasp, tab.cap', 'at ${1:piece.mark}'),
  word('fits', ['supply'], 'Says which strap runs through it.', 'fits strap', 'fits ${1:strap}'),

  // Steps of a path
  word('line to', ['path'], 'Goes straight to a point.', 'line to 3, 0 as lower', 'line to ${1:3, 0}'),
  word('arc to', ['path'], 'Goes to a point on part of a circle.', 'arc to 3, 1 through 3 1/2, 1/2', 'arc to ${1:3, 1} through ${2:3 1/2, 1/2}'),
  word('curve to', ['path'], 'Goes to a point on a curve with two control points.', 'curve to 3, 2 by 4, 0 and 4, 2', 'curve to ${1:3, 2} by ${2:4, 0} and ${3:4, 2}'),
  word('close', ['path'], 'Goes straight back to the start.', 'close as root'),
  word('as', ['path', 'piece'], 'Names the edge.', 'line to 3, 0 as lower'),
  word('through', ['path'], 'Gives a point that the arc runs through.', 'arc to 3, 1 through 3 1/2, 1/2'),
  word('radius', ['path'], 'Gives the arc’s radius and the side that it turns to.', 'arc to 3, 1 radius 2 left', 'radius ${1:2} ${2|left,right|}'),

  // Shapes
  word('rectangle', ['shape'], 'A rectangle of a width and a height.', 'outline rectangle 9 by 7', 'rectangle ${1:6} by ${2:4}'),
  word('circle across', ['shape'], 'A circle of a diameter.', 'outline circle across 6', 'circle across ${1:6}'),
  word('ellipse', ['shape'], 'An ellipse of a width and a height.', 'outline ellipse 8 by 6', 'ellipse ${1:8} by ${2:6}'),
  word('polygon from', ['shape'], 'A closed shape through its corners.', 'outline polygon from 0, 0 to 6, 0 to 3, 5', 'polygon from ${1:0, 0} to ${2:6, 0} to ${3:3, 5}'),
  word('path from', ['shape'], 'A shape of lines, arcs and curves, one step after the other.', 'outline path from 0, 0 {', 'path from ${1:0, 0} {\n\tline to ${2:6, 0}\n\tline to ${3:6, 4}\n\tclose\n}'),
  word('inset', ['shape', 'head'], 'A smaller copy, a distance in from the edge.', 'line core = inset 1/2', 'inset ${1:1/2}'),
  word('level at', ['shape'], 'A level line right across the piece, at a height.', 'foldline row = level at 1', 'level at ${1:1}'),
  word('upright at', ['shape'], 'An upright line right across the piece, at a distance from the left.', 'foldline spine = upright at 4', 'upright at ${1:4}'),
  word('except', ['shape'], 'Gives an edge of an inset a distance of its own.', 'line core = inset 1/2 except top 0', 'except ${1:top} ${2:0}'),
  word('centred at', ['shape'], 'Sets a shape by its middle.', 'placement patch = circle across 1 centred at 2, 2', 'centred at ${1:2, 2}'),
  word('at', ['shape', 'piece'], 'Sets a shape by its lower left corner, or says where something is.', 'placement slot = rectangle 4 by 2 at 1, 1', 'at ${1:1, 1}'),

  // The rest of a cut line
  word('along', ['cut'], 'Cuts along an inner line, or along the stitching line, in place of the cutting line.', 'cut 1 board along core', 'along ${1:stitching}'),
  word('twins', ['cut'], 'Cuts them in pairs, half of them flipped.', 'cut 2 canvas twins'),
  word('mirrored', ['cut', 'head'], 'Flips it from left to right.', 'cut 1 lining mirrored'),
  word('on fold', ['cut'], 'Cuts it with its fold edge on a fold of the cloth.', 'cut 1 print on fold'),
  word('on right side', ['cut'], 'Sets a layer on the right side of its shell.', 'cut 1 fleece on right side'),
  word('on wrong side', ['cut'], 'Sets a layer on the wrong side of its shell, which is usual.', 'cut 1 crisp on wrong side of canvas'),
  word('without', ['cut'], 'Leaves windows out of it.', 'cut 1 stay along stiff without zip_box', 'without ${1:window}'),
  word('sized', ['cut'], 'Gives a layer a size of its own.', 'cut 1 crisp sized 4 1/2 by 2 3/4', 'sized ${1:4} by ${2:3}'),
  word('large by', ['cut'], 'Cuts it larger all round, to be trimmed later.', 'cut 1 fleece large by 1/4', 'large by ${1:1/4}'),
  word('when', ['cut', 'head', 'check'], 'Says in which sizes or choices it counts.', 'cut 2 canvas when tab is fabric', 'when ${1:choice} is ${2:option}'),

  // A piece's first line
  word('from', ['head'], 'Starts the piece from another one.', 'piece inside "Inside" from cover {', 'from ${1:piece}'),
  word('above', ['head'], 'Takes the part above a line of the other piece.', 'piece zip_top from zip_panel above zip_line {', 'above ${1:line}'),
  word('below', ['head'], 'Takes the part below a line of the other piece.', 'piece zip_base from zip_panel below zip_line {', 'below ${1:line}'),
  word('left of', ['head'], 'Takes the part left of a line of the other piece.', 'piece half from cover left of spine {', 'left of ${1:line}'),
  word('right of', ['head'], 'Takes the part right of a line of the other piece.', 'piece half from cover right of spine {', 'right of ${1:line}'),

  // Checks
  word('matches', ['check'], 'Both lengths must be the same.', 'check front.top matches lining.top within 1/16', 'matches ${1:piece.edge}'),
  word('clears', ['check'], 'One line must keep away from another.', 'check cover.core clears cover.cutting by 1/2', 'clears ${1:piece.cutting} by ${2:1/2}'),
  word('holds', ['check'], 'A piece, or a line in it, must have room for a thing.', 'check pocket holds card with ease 1/8', 'holds ${1:thing}'),
  word('mates', ['check'], 'Two pieces must be mirror images along their stitching lines.', 'check left mates right', 'mates ${1:piece}'),
  word('with ease', ['check'], 'Adds room to spare.', 'check pocket holds card with ease 1/8', 'with ease ${1:1/8}'),
  word('within', ['check'], 'Allows a small difference.', 'check front.top matches lining.top within 1/16', 'within ${1:1/16}'),
  word('eased by', ['check'], 'The first length is longer by so much, to be eased in.', 'check sleeve matches armhole eased by 1/2', 'eased by ${1:1/2}'),
  word('else', ['check'], 'Says how grave a failure is, and in which words it is told.', 'check row < high else warning "Too high"', 'else ${1|error,warning,note|} "${2:message}"'),

  // Formulas and conditions
  word('for', ['formula'], 'Gives a value for one size or option.', 'length base = 6 in for S, 7 in otherwise', 'for ${1:option}'),
  word('otherwise', ['formula'], 'Gives the value for everything not named.', 'length base = 6 in for S, 7 in otherwise'),
  word('is', ['condition'], 'Asks which option of a choice is taken.', 'cut 1 cork when tab is cork'),
  word('and', ['condition'], 'Both must hold.', 'when size is L and tab is cork'),
  word('or', ['condition'], 'One of them must hold.', 'when size is M or L'),
  word('not', ['condition'], 'It must not hold.', 'when tab is not cork'),
  word('by', ['formula', 'shape'], 'Parts a width from a height.', 'outline rectangle 9 by 7'),
];

/** The words for one place, in the order of the table. */
export const keywordsFor = (place: WordPlace): readonly Keyword[] => keywords.filter(({ places }) => places.includes(place));
