import { allowanceSize, allowanceWord, by, join, title, when } from './common.ts';
import {
  condition, declares, either, formula, inside, length, list, name, number, oneOf, optional, quoted, reference, self, sentence, statement, way, word, words, type Element,
  type StatementForm,
} from './elements.ts';

/** The lines of a file that have no block. */

const once = { once: true };

/** What a file begins with. */
export const facts: readonly StatementForm[] = [
  statement('pattern', ['file'], [words('pattern', 'Gives the pattern its title.', 'pattern "Small pouch"', 'pattern "${1:Title}"'), quoted('title', '"TITLE"', 'its title')], once),
  statement('revision', ['file'], [
    words('revision', 'Counts the versions that were given out, so that a printed copy can be told from a later one.', 'revision 2', 'revision ${1:1}'), number('number', 'NUMBER', 'a whole number'),
  ], once),
  statement('unit', ['file'], [
    words('unit', 'Sets the unit that bare numbers are in and that sizes are shown in.', 'unit in', 'unit ${1|in,cm,mm|}'), oneOf('unit', ['in', 'cm', 'mm'], 'inches, centimetres or millimetres'),
    optional(words('and', 'Shows sizes in another unit too.', 'unit in and cm'), oneOf('also', ['in', 'cm', 'mm'], 'a unit that exports give beside it')),
  ], once),
];

/** What names something. */
export const value = statement('value', ['file'], [
  oneOf('of', {
    length: word('length', 'Names a length.', 'length seam = 3/8', 'length ${1:name} = ${2:1}'),
    count: word('count', 'Names a whole number.', 'count rows = 2', 'count ${1:name} = ${2:1}'),
    ratio: word('ratio', 'Names a number without a unit.', 'ratio fullness = 1.5', 'ratio ${1:name} = ${2:1}'),
    angle: word('angle', 'Names an angle in degrees.', 'angle slant = 15 deg', 'angle ${1:name} = ${2:45 deg}'),
    area: word('area', 'Names an area.', 'area patch = 3 in * 4 in', 'area ${1:name} = ${2:3 in * 4 in}'),
  }),
  declares('name', 'declared', 'NAME', 'its name'), words('='), formula('value', { field: 'of' }, 'FORMULA', 'its value', { arms: true }),
]);

export const thing = statement('thing', ['file'], [
  words('thing', 'Names something that a piece must hold, with its size.', 'thing card "Bank card" = 85.6 mm by 53.98 mm', 'thing ${1:name} "${2:Title}" = ${3:4 in} by ${4:3 in}'),
  declares('name', 'declared', 'NAME', 'its name'), title, words('='), length('width', 'WIDTH', 'its width'), by, length('height', 'HEIGHT', 'its height'),
]);

export const choices: readonly StatementForm[] = [
  statement('choice', ['file'], [
    words('choice', 'Names a choice and its options; the first is the usual one.', 'choice closing is tab or zip', 'choice ${1:name} is ${2:one} or ${3:other}'),
    declares('name', 'declared', 'NAME', 'its name'), title, words('is'),
    list('options', [declares(self, 'declared', 'OPTION', 'the usual one', { of: 'name' }), title], ',', { label: 'or OPTION …', meaning: 'the others' }, { last: 'or' }),
  ]),
  statement('sizes', ['file'], [
    words('sizes', 'Lists the sizes that the pattern is made in.', 'sizes S, M, L', 'sizes ${1:S, M, L}'),
    list('options', [declares(self, 'declared', 'SIZE', 'the first, which is shown unless another is chosen')], ',', { label: '[, SIZE …]', meaning: 'the others' }),
  ], once),
];

export const check = statement('check', ['file'], [
  words('check', 'States what must hold; where it doesn’t, that is a problem.', 'check front.top matches lining.top', 'check ${1:front.top} matches ${2:lining.top}'),
  inside('rule', either(
    'what must hold',
    way(
      { kind: 'matches' },
      length('left', 'LENGTH', 'the one length'), words('matches', 'Both lengths must be the same.', 'check front.top matches lining.top within 1/16', 'matches ${1:piece.edge}'),
      length('right', 'LENGTH', 'the other'),
      optional(words('eased by', 'The first length is longer by so much, to be eased in.', 'check sleeve matches armhole eased by 1/2', 'eased by ${1:1/2}'), length('eased', 'SIZE', 'how much longer the first is')),
      optional(words('within', 'Allows a small difference.', 'check front.top matches lining.top within 1/16', 'within ${1:1/16}'), length('within', 'SIZE', 'the difference that is allowed')),
    ),
    way(
      { kind: 'holds' },
      reference('holder', 'piece', 'PIECE', 'what holds it: a piece, or a line in it'),
      words('holds', 'A piece, or a line in it, must have room for a thing.', 'check pocket holds card with ease 1/8', 'holds ${1:thing}'),
      either(
        'what it holds',
        way({ size: false }, name('thing', 'thing', 'THING', 'what it holds')),
        way({}, inside('size', length('width', 'WIDTH', 'how wide it is'), by, length('height', 'HEIGHT', 'how high it is'))),
      ),
      optional(words('with ease', 'Adds room to spare.', 'check pocket holds card with ease 1/8', 'with ease ${1:1/8}'), length('ease', 'SIZE', 'room to spare')),
    ),
    way(
      { kind: 'clears' },
      reference('inner', 'line', 'PIECE.LINE', 'the inner line'),
      words('clears', 'One line must keep away from another.', 'check cover.core clears cover.cutting by 1/2', 'clears ${1:piece.cutting} by ${2:1/2}'),
      reference('outer', 'line', 'PIECE.LINE', 'the outer line'), words('by'), length('by', 'SIZE', 'at least so much'),
    ),
    way(
      { kind: 'mates' },
      name('left', 'piece', 'PIECE', 'the one piece'), words('mates', 'Two pieces must be mirror images along their stitching lines.', 'check left mates right', 'mates ${1:piece}'), name('right', 'piece', 'PIECE', 'the other'),
    ),
    way({ kind: 'condition' }, condition('condition', 'CONDITION', 'what must hold')),
  )),
  when,
  optional(inside(
    'otherwise',
    words('else', 'Says how grave a failure is, and in which words it is told.', 'check row < high else warning "Too high"', 'else ${1|error,warning,note|} "${2:message}"'),
    optional(oneOf('severity', ['error', 'warning', 'note'], 'how grave a failure is')), optional(sentence('message', '"MESSAGE"', 'how it is told')),
  )),
]);

/** Where part of an edge begins or ends. */
const bound = (field: 'from' | 'to', meaning: string): Element => inside(field, either(
  meaning,
  way({ endOf: true }, oneOf('endOf', ['start', 'end'], meaning)),
  way({}, formula('place', 'length or share', 'PLACE', meaning, { but: ['start', 'end'] })),
));

const run = (field: 'first' | 'second', meaning: string): Element => list(field, [
  reference('edge', 'edge', 'PIECE.EDGE', meaning),
  either(
    'which part of it',
    way(
      { from: true },
      words('from', 'Takes part of an edge, or says which end comes first.', 'seam mouth = front.top from 2 to 8 with flap.top', 'from ${1:start} to ${2:end}'),
      bound('from', 'where it begins: an end of the edge, a length along it, or a share of it'), words('to'), bound('to', 'where it ends'),
    ),
    way({ folded: true }, words('folded', 'Takes all of an edge as it lies once its piece is folded: the end of a strap, laid on something.', 'seam strap_end = strap.bottom folded onto front.side from 2 to 3')),
    way({}),
  ),
], ',', { label: '[, PIECE.EDGE …]', meaning: 'the edges that go on from it' });

export const seam = statement('seam', ['file'], [
  words('seam', 'Says which edges are sewn to which.', 'seam side "Side seam" = front.left with back.left', 'seam ${1:name} "${2:Title}" = ${3:piece.edge} with ${4:piece.edge}'),
  declares('name', 'declared', 'NAME', 'its name'), title, words('='),
  run('first', 'an edge that is sewn; the one that is eased or gathered'),
  oneOf('way', {
    with: word('with', 'Sews edges to edges, to be opened out.', 'seam side = front.left with back.left', 'with ${1:piece.edge}'),
    onto: word('onto', 'Lays edges on edges, or on a line of a piece, with their right sides up.', 'seam patch = pocket.edge onto front.pocket_at', 'onto ${1:piece.line}'),
  }, 'sewn together, or laid on'),
  run('second', 'what it is sewn to'),
  either(
    'how the first is longer',
    way({ eased: true }, words('eased by', 'The first run is longer by so much, or by such a share, to be eased in.', 'seam cap = sleeve.cap with body.armhole eased by 3%', 'eased by ${1:3%}'), formula('eased', 'length or share', 'SIZE', 'how much longer the first is')),
    way({ gathered: true }, words('gathered', 'The first run is gathered to the second’s length.', 'seam frill = frill.top with skirt.hem gathered')),
    way({}),
  ),
  optional(words('open', 'Leaves so much of it open, such as for turning.', 'seam base = lining.bottom with lining.bottom open 4', 'open ${1:4}'), length('open', 'SIZE', 'how much is left open'), optional(
    optional(words('on', 'Says which edge is measured along to where the opening lies.', 'seam base = lining.bottom with back.bottom open 4 on lining.bottom at 50%', 'on ${1:piece.edge} at ${2:50%}'), reference('openOn', 'edge', 'EDGE', 'the edge that it is measured along')),
    words('at', 'Says where the middle of the opening lies.', 'seam base = lining.bottom with back.bottom open 4 at 50%', 'at ${1:50%}'), formula('openAt', 'length or share', 'PLACE', 'where its middle lies: a length along the seam or the edge, or a share of it'),
  )),
  optional(words('within', 'Allows a small difference.', 'seam side = front.left with back.left within 1/16', 'within ${1:1/16}'), length('within', 'SIZE', 'the difference that is allowed')),
  optional(inside(
    'smooth',
    words('smooth', 'The outline runs on without a bend where the seam ends.', 'seam side = front.left with back.right smooth at end'),
    optional(oneOf('at', {
      start: { words: 'at start', meaning: 'Only where the seam starts.', example: 'seam side = front.left with back.right smooth at start' },
      end: { words: 'at end', meaning: 'Only where the seam ends.', example: 'seam side = front.left with back.right smooth at end' },
    }, 'at which of its ends, if not at both')),
    optional(words('within', 'Allows a small bend.', 'seam side = front.left with back.right smooth within 5 deg', 'within ${1:5 deg}'), formula('within', 'angle', 'ANGLE', 'how much of a bend there may be')),
  )),
  when,
]);

export const workStep = statement('work step', ['file'], [
  words('step', 'Says what is done next, in the order in which it is made.', 'step "Sew the side, {side.length} long." does side', 'step "${1:What to do.}" does ${2:seam}'),
  sentence('text', '"SENTENCE"', 'what is done; {side.length} is shown as that length'),
  optional(
    words('does', 'Names the seams, supplies, edges and layers that are done in this step.', 'step "Hem the top and sew the pocket on." does pocket.top, patch', 'does ${1:seam}'),
    list('does', [reference(self, 'work', 'SEAM', 'a seam, a supply, a piece’s edge, or a piece’s layers')], ',', { label: '[, SEAM …]', meaning: 'what else is done' }),
  ),
  when,
]);

export const use = statement('use', ['file'], [
  words('use', 'Takes the materials, things, values, sizes and choices of another file.', 'use "studio/materials.piece"', 'use "${1:materials.piece}"'), quoted('path', '"PATH"', 'where the file is, from this one'),
]);

/** The pattern has no edges of its own, so its allowance names none. */
export const usualAllowance = statement('allowance', ['file'], [allowanceWord, allowanceSize, join], { ...once, where: { edge: false } });

/** What few patterns say. */
export const rareFacts: readonly StatementForm[] = [
  statement('step', ['file'], [
    words('step', 'Sets the step that shown sizes are rounded to.', 'step 1/16', 'step ${1:1/8}'), length('size', 'SIZE', 'what shown sizes are rounded to', { samples: ['1/8', '1/16', '1/32', '0.5', '1'] }),
  ], once),
  statement('currency', ['file'], [words('currency', 'Says what prices are in.', 'currency "EUR"', 'currency "${1:EUR}"'), quoted('text', '"CURRENCY"', 'its name or sign')], once),
  statement('issued', ['file'], [
    words('issued', 'Says which revision was given out last, with the digest of what it said.', 'issued 1 as "0a1b2c3d4e5f"'),
    number('number', 'NUMBER', 'the revision'), words('as'), quoted('digest', '"DIGEST"', 'the digest of what it said'),
  ], once),
];
