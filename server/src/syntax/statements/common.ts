import { condition, either, formula, inside, length, optional, optionalWhere, oneOf, quoted, sentence, statement, way, words, wordAmong, word, type Element, type StatementForm } from './elements.ts';
import { priceUnits } from './vocabulary.ts';

/** What is said alike in several places. */

export const title = optional(quoted('title', '"TITLE"', 'its title'));
export const by = words('by', 'Parts a width from a height.', 'outline rectangle 9 by 7');
export const as = words('as', 'Names the edge.', 'line to 3, 0 as lower');
export const whenWord = words('when', 'Says in which sizes or choices it counts.', 'cut 2 canvas when tab is fabric', 'when ${1:choice} is ${2:option}');
export const when = optional(whenWord, condition('condition', 'CONDITION', 'in which sizes and choices'));

const noteWord = words('note', 'Adds a note that is shown in the cutting table.', 'note "Press each layer."', 'note "${1:text}"');
export const noteParts: readonly Element[] = [noteWord, sentence('text', '"…"', 'shown in the cutting table; {front.width} as that length')];
export const note = statement('note', ['piece', 'file', 'material', 'supply'], noteParts);

export const drawn = statement('drawn', ['piece', 'file'], [
  words('drawn to', 'Says whether outlines are drawn to the cutting line or to the stitching line.', 'drawn to stitching', 'drawn to ${1|cutting,stitching|}'),
  oneOf('to', ['cutting', 'stitching'], 'the line that outlines are drawn to'),
], { once: true });

export const allowanceWord = words('allowance', 'Sets the seam allowance: of all edges, or of one.', 'allowance 3/8', 'allowance ${1:3/8}');
export const allowanceSize = either(
  'how wide',
  way({ size: true }, length('size', 'SIZE', 'how wide', { but: ['none', 'mitred', 'bevelled', 'rounded', 'turned'] })),
  way({ size: false }, words('none')),
);
export const join = optional(inside('join', either(
  'how its corners are made',
  way({ kind: 'mitred' }, words('mitred'), optional(words('limit'), formula('limit', 'ratio', 'NUMBER', 'how many times the allowance a mitre may reach'))),
  way({ kind: 'bevelled' }, words('bevelled')),
  way({ kind: 'rounded' }, words('rounded')),
  way({ kind: 'turned' }, words('turned back')),
)));

/** How something is sold is said alike of materials and supplies. */
export const sold: readonly StatementForm[] = [
  statement('price', ['material', 'supply'], [
    words('price', 'Gives its price.', 'price 9 per yd', 'price ${1:9} per ${2|yd,m,ft,panel,sheet,each,pack|}'),
    formula('amount', 'ratio', 'AMOUNT', 'a number, in the currency of the pattern'),
    words('per', 'Says what the price is for.', 'price 0.80 per each'),
    wordAmong('per', priceUnits, 'what the price is for'),
  ], { once: true }),
  statement('bought', ['material', 'supply'], [either(
    'how it is sold',
    way(
      { form: 'lengths' },
      oneOf('form', { lengths: word('bought in lengths of', 'Says in what steps of length it is sold.', 'bought in lengths of 1/8 yd', 'bought in lengths of ${1:1/8 yd}') }),
      length('size', 'SIZE', 'the step of length'),
    ),
    way(
      {},
      oneOf('form', {
        panels: word('bought in panels of', 'Says that it is sold in panels of a size.', 'bought in panels of 18 in by 22 in', 'bought in panels of ${1:18 in} by ${2:22 in}'),
        sheets: word('bought in sheets of', 'Says that it is sold in sheets of a size.', 'bought in sheets of 20 in by 36 in', 'bought in sheets of ${1:20 in} by ${2:36 in}'),
      }),
      length('size', 'WIDTH', 'how wide one is'), by, length('height', 'HEIGHT', 'how high one is'),
    ),
  )], { once: true }),
];

/** Written where a part of a shape goes through its middle, and the like: fields that are only true or false. */
export const said = (field: string, text: string, meaning: string, example: string): Element => optionalWhere({ [field]: true }, words(text, meaning, example));
