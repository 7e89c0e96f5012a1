import { directions, facings, priceUnits, roles, supplyKinds, weights } from '../syntax/statements/vocabulary.ts';
import type { TextContext } from './context.ts';

/** The forms of the statements, as the reference gives them. */
export interface Form {
  readonly block: TextContext['block'];
  readonly start: RegExp;
  readonly documentation: string;
  /** Parts of the form with what each means; words between parts stand for themselves. */
  readonly parts: readonly (string | FormPart)[];
}

interface FormPart {
  readonly part: string;
  readonly meaning: string;
  /** Found in what is written once this part is begun; the last one found is the one being written. */
  readonly after: RegExp;
}

const value = String.raw`[^",{}]+?`;
const name = String.raw`[\p{L}_][\p{L}\p{M}\p{N}_]*`;
const pattern = (text: string): RegExp => new RegExp(text.replaceAll('VALUE', value).replaceAll('NAME', name), 'u');
const part = (text: string, meaning: string, after: string): FormPart => ({ part: text, meaning, after: pattern(after) });

const position = 'x, y';
const conditionPart = part('[when CONDITION]', 'in which sizes and choices', '\\bwhen\\s');
const edgeNamePart = part('[as NAME]', 'the edge’s name', '\\bas\\s');
const anchorPart = part('[at x, y | centred at x, y]', 'where its lower left corner, or its middle, is', '\\bat\\s');
const roundPart = part('[from ANGLE to ANGLE [through middle]]', 'the part of it, from the right and turning left, closed straight across or through the middle', '\\bfrom\\s');
const joinPart = (after: string): FormPart => part('[mitred [limit NUMBER] | bevelled | rounded]', 'how its corners are made', `${after}|\\b(?:mitred|bevelled|rounded)`);

// ------------------------------------------------------------------------------------------------ shapes

const lineWords = {
  line: 'Draws a line inside the piece.',
  placement: 'Draws where something is sewn on.',
  foldline: 'Draws where the piece is folded.',
  window: 'Draws what can be cut out of a layer.',
};

const shapeForm = (words: string, documentation: string, parts: Form['parts']): Form => ({
  block: 'piece', start: pattern(`^(?:outline\\s+|(?:line|placement|foldline|window)\\s+NAME\\s*=\\s*)${words.replaceAll(' ', '\\s+')}\\s`), documentation, parts: [`${words} `, ...parts],
});

const shapes: readonly Form[] = [
  shapeForm('rectangle', 'A rectangle.', [part('WIDTH', 'from left to right', '\\brectangle\\s'), ' by ', part('HEIGHT', 'from bottom to top', '\\bby\\s'), ' ', anchorPart]),
  shapeForm('circle across', 'A circle, or a part of one.', [part('DIAMETER', 'how wide it is', '\\bacross\\s'), ' ', roundPart, ' ', anchorPart]),
  shapeForm('ellipse', 'An ellipse, or a part of one.', [part('WIDTH', 'from left to right', '\\bellipse\\s'), ' by ', part('HEIGHT', 'from bottom to top', '\\bby\\s'), ' ', roundPart, ' ', anchorPart]),
  ...[['polygon from', 'Corners joined by straight lines.', 'the first corner', 'the next corner', 'more corners'] as const,
    ['from', 'Points joined by straight lines.', 'where it starts', 'the next point', 'more points'] as const].map(([words, documentation, first, next, more]) => shapeForm(words, documentation, [
    part(position, first, '\\bfrom\\s'), ' to ', part(position, next, '\\bto\\s'), ' ', part('[to x, y …]', more, '\\bto\\s.*\\bto\\s'),
  ])),
  shapeForm('path from', 'Lines and curves, one step after the other.', [part(position, 'where it starts', '\\bfrom\\s'), ' {']),
  shapeForm('inset', 'A smaller copy.', [
    part('DISTANCE', 'how far in', '\\binset\\s'), ' ', part('[except EDGE DISTANCE, …]', 'edges with a distance of their own', '\\bexcept\\s'), ' ', part('[from cutting | stitching]', 'the line that is measured from', '\\bfrom\\s'),
  ]),
  shapeForm('level at', 'A line right across the piece.', [part('HEIGHT', 'how far above 0', '\\bat\\s')]),
  shapeForm('upright at', 'A line right up the piece.', [part('DISTANCE', 'how far to the right of 0', '\\bat\\s')]),
  { block: 'piece', start: /^outline\s/, documentation: 'Draws the piece.', parts: [
    'outline ', part('rectangle | circle across | ellipse | polygon from | path from', 'its shape', '^outline\\s'),
  ] },
  ...Object.entries(lineWords).map(([word, documentation]): Form => ({ block: 'piece', start: pattern(`^${word}\\s`), documentation, parts: [
    `${word} `, part('NAME', 'its name', `^${word}\\s`), ' = ', part('rectangle | circle across | ellipse | polygon from | path from | from | inset | level at | upright at', 'its shape', '='),
  ] })),
];

// ------------------------------------------------------------------------------------------------ pieces

const pieceLines: readonly Form[] = [
  { block: 'piece', start: /^cut\s/, documentation: 'Says how many are cut from a material.', parts: [
    'cut ', part('COUNT', 'how many, a whole number', '^cut\\s+'), ' ', part('MATERIAL', 'what it is cut from', '^cut\\s+\\S+(?:\\s*[+*/-]\\s*\\S+)*\\s+'), ' ',
    part('[along LINE]', 'the line that it is cut along, in place of the cutting line', '^cut\\s+\\S+(?:\\s*[+*/-]\\s*\\S+)*\\s+[^\\s+*/-]+\\s+'), ' ',
    part('[twins | mirrored]', 'in pairs, or all flipped', '\\b(?:twins|mirrored)'), ' ',
    part('[on fold]', 'with the fold edge on a fold of the cloth', '\\bon\\s+fold'), ' ',
    part('[on right side | wrong side [of CLOTH]]', 'the side of the cloth that a layer goes on', '\\bon\\s+(?:right|wrong)'), ' ',
    part('[without WINDOW]', 'windows that are left out', '\\bwithout\\s'), ' ',
    part('[sized W by H]', 'a size of its own', '\\bsized\\s'), ' ',
    part('[large by SIZE]', 'how much larger all round', '\\blarge\\s'), ' ',
    conditionPart, ' ',
    part('[note "…"]', 'shown in the cutting table', '\\bnote\\s'),
  ] },
  { block: 'piece', start: /^notch\s/, documentation: 'Sets a notch on an edge.', parts: [
    'notch ', part('EDGE', 'the edge that it is on', '^notch\\s+'), ' at ', part('PLACE', 'a length along the edge, or a share of it such as 50%', '\\bat\\s'), ' ',
    part('[from start | end]', 'the end that is measured from', '\\bat\\s+VALUE\\s+(?=from|$)'),
  ] },
  { block: 'piece', start: /^corner\s/, documentation: 'Changes corners of a rectangle.', parts: [
    'corner ', part('WHICH', 'all, a side or one corner', '^corner\\s+'), ' ', part('round | chamfer | box', 'how', '^corner\\s+\\S+\\s+'), ' ',
    part('SIZE', 'the radius, or how much is cut off', '^corner\\s+\\S+\\s+\\S+\\s+'), ' ', part('[by SIZE]', 'how much along the other side', '\\bby\\s'),
  ] },
  ...Object.entries({ mark: 'Sets a mark.', drill: 'Sets a hole.' }).map(([word, documentation]): Form => ({ block: 'piece', start: pattern(`^${word}\\s`), documentation, parts: [
    `${word} `, part('NAME', 'its name', `^${word}\\s+`), ' ', part('[for snap SIZE]', 'the diameter of the snap that it is for', '\\bfor\\s'), ' at ', part(position, 'where, from the piece’s lower left', '\\bat\\s'),
  ] })),
  { block: 'piece', start: /^allowance\s/, documentation: 'Sets the seam allowance.', parts: [
    'allowance ', part('[EDGE]', 'one edge only', '^allowance\\s+'), ' ', part('SIZE | none', 'how wide', '^allowance\\s+(?:[\\p{L}_]\\S*\\s+|[\\d.])'), ' ', joinPart('^allowance\\s+.*\\d\\s+'),
  ] },
  { block: 'piece', start: /^edge\s/, documentation: 'Gives an edge another name.', parts: ['edge ', part('EDGE', 'the name that it has', '^edge\\s+'), ' as ', part('NAME', 'its new name', '\\bas\\s')] },
  { block: 'piece', start: /^on\s+fold\s/, documentation: 'The piece is drawn as half.', parts: ['on fold ', part('EDGE', 'the edge in the middle of the whole piece, which must be straight', '^on\\s+fold\\s')] },
  { block: 'piece', start: /^grain\s/, documentation: 'How the lengthwise grain runs.', parts: [
    'grain ', part('up | across | bias | none | ANGLE', 'the way that it runs on the piece; an angle leans to the left of upright', '^grain\\s+'), ' ', part('[or across]', 'that the piece may also lie across', '^grain\\s+VALUE\\s+'),
  ] },
];

const pathSteps: readonly Form[] = [
  { block: 'path', start: /^line\s/, documentation: 'Goes straight to a point.', parts: ['line to ', part(position, 'the point', '\\bto\\s'), ' ', edgeNamePart] },
  { block: 'path', start: /^arc\s/, documentation: 'Goes to a point on part of a circle.', parts: [
    'arc to ', part(position, 'the point', '\\bto\\s'), ' ', part('through x, y | radius SIZE left | right', 'a point on the way, or the radius and the side that it turns to', '\\b(?:through|radius)\\s'), ' ', edgeNamePart,
  ] },
  { block: 'path', start: /^curve\s/, documentation: 'Goes to a point on a curve.', parts: [
    'curve to ', part(position, 'the point', '\\bto\\s'), ' by ', part(position, 'the first control point', '\\bby\\s'), ' and ', part(position, 'the second control point', '\\band\\s'), ' ', edgeNamePart,
  ] },
];

// ------------------------------------------------------------------------------------------------ the file's own lines

const checkEnd: Form['parts'] = [' ', conditionPart, ' ', part('[else error | warning | note "…"]', 'how a failure is told', '\\belse\\s')];

const valueWords = { length: 'Names a length.', count: 'Names a whole number.', ratio: 'Names a number.', angle: 'Names an angle.', area: 'Names an area.' };

const fileLines: readonly Form[] = [
  { block: 'file', start: /^thing\s/, documentation: 'Something that a piece must hold.', parts: [
    'thing ', part('NAME', 'its name', '^thing\\s+'), ' ', part('["TITLE"]', 'its title', '^thing\\s+\\S+\\s+'), ' = ', part('WIDTH', 'its width', '=\\s*'), ' by ', part('HEIGHT', 'its height', '\\bby\\s'),
  ] },
  { block: 'file', start: /^sizes\s/, documentation: 'Lists the sizes that the pattern comes in.', parts: ['sizes ', part('SIZE', 'the first, which is shown unless another is chosen', '^sizes\\s'), part('[, SIZE …]', 'the others', ',')] },
  { block: 'file', start: /^choice\s/, documentation: 'Names a choice and its options.', parts: [
    'choice ', part('NAME', 'its name', '^choice\\s+'), ' is ', part('OPTION', 'the usual one', '\\bis\\s'), ' ', part('or OPTION …', 'the others', '\\bis\\s+NAME\\s*(?:,|\\sor\\s)'),
  ] },
  ...Object.entries(valueWords).map(([word, documentation]): Form => ({ block: 'file', start: pattern(`^${word}\\s`), documentation, parts: [
    `${word} `, part('NAME', 'its name', `^${word}\\s+`), ' = ', part('FORMULA', 'its value', '='), ' ', part('[for OPTION]', 'the size or option that has this value', '\\bfor\\s'),
    part('[, FORMULA for OPTION …]', 'the other options with their values', '\\bfor\\s[^,]*,'), part('[, FORMULA otherwise]', 'the value of all others', '\\botherwise\\b'),
  ] })),
  { block: 'file', start: /^allowance\s/, documentation: 'Sets the seam allowance of every edge that says nothing itself.', parts: ['allowance ', part('SIZE | none', 'how wide', '^allowance\\s+'), ' ', joinPart('^allowance\\s+VALUE\\s+')] },
  { block: 'file', start: /^material\s/, documentation: 'What pieces are cut from.', parts: ['material ', part('NAME', 'its name', '^material\\s+'), ' ', part('["TITLE"]', 'its title', '^material\\s+\\S+\\s+'), ' {'] },
  { block: 'file', start: /^supply\s/, documentation: 'What is bought and not cut.', parts: [
    'supply ', part('NAME', 'its name', '^supply\\s+'), ' ', part('["TITLE"]', 'its title', '^supply\\s+\\S+\\s+'), ' ', conditionPart, ' {',
  ] },
  { block: 'file', start: /^piece\s/, documentation: 'A piece of the pattern.', parts: [
    'piece ', part('NAME', 'its name', '^piece\\s+'), ' ', part('["TITLE"]', 'its title', '^piece\\s+\\S+\\s+'), ' ', part('[from PIECE]', 'the piece that it is a copy of', '\\bfrom\\s'), ' ',
    part('[mirrored | inset DISTANCE | above LINE | below LINE | left of LINE | right of LINE]', 'what is changed, one after the other', '\\bfrom\\s+NAME\\s'), ' ', conditionPart, ' {',
  ] },
  { block: 'file', start: /^check\s.*\bmatches\s/, documentation: 'Both lengths must be the same.', parts: [
    'check ', part('LENGTH', 'the one length', '^check\\s'), ' matches ', part('LENGTH', 'the other', '\\bmatches\\s'), ' ', part('[eased by SIZE]', 'how much longer the first is', '\\beased\\s'), ' ',
    part('[within SIZE]', 'the difference that is allowed', '\\bwithin\\s'), ...checkEnd,
  ] },
  { block: 'file', start: /^check\s.*\bclears\s/, documentation: 'One line must keep away from another.', parts: [
    'check ', part('PIECE.LINE', 'the inner line', '^check\\s'), ' clears ', part('PIECE.LINE', 'the outer line', '\\bclears\\s'), ' by ', part('SIZE', 'at least so much', '\\bby\\s'), ...checkEnd,
  ] },
  { block: 'file', start: /^check\s.*\bholds\s/, documentation: 'There must be room for a thing.', parts: [
    'check ', part('PIECE', 'what holds it: a piece, or a line in it', '^check\\s'), ' holds ', part('THING | W by H', 'what it holds', '\\bholds\\s'), ' ', part('[with ease SIZE]', 'room to spare', '\\bwith\\s'), ...checkEnd,
  ] },
  { block: 'file', start: /^check\s.*\bmates\s/, documentation: 'Two stitching lines must be mirror images.', parts: ['check ', part('PIECE', 'the one piece', '^check\\s'), ' mates ', part('PIECE', 'the other', '\\bmates\\s'), ...checkEnd] },
  { block: 'file', start: /^check\s/, documentation: 'Says what must be true of the pattern.', parts: [
    'check ', part('CONDITION | LENGTH matches LENGTH | LINE clears LINE by SIZE | PIECE holds THING | PIECE mates PIECE', 'what must hold', '^check\\s'), ...checkEnd,
  ] },
];

// ------------------------------------------------------------------------------------------------ materials and supplies

const words = (all: readonly string[]): string => all.join(' | ');
const fact = (block: 'material' | 'supply', word: string, documentation: string, what: string, meaning: string): Form => ({
  block, start: pattern(`^${word.replaceAll(' ', '\\s+')}\\s`), documentation, parts: [`${word} `, part(what, meaning, '\\s')],
});

/** How something is sold is said alike of materials and supplies. */
const sold = (block: 'material' | 'supply'): readonly Form[] => [
  { block, start: /^bought\s/, documentation: 'How it is sold.', parts: ['bought in ', part('lengths | panels | sheets', 'the form', '\\bin\\s'), ' of ', part('SIZE', 'the step of length, or the width', '\\bof\\s'), ' ', part('[by HEIGHT]', 'of panels and sheets', '\\bby\\s')] },
  { block, start: /^price\s/, documentation: 'What it costs.', parts: ['price ', part('AMOUNT', 'a number, in the currency of the pattern', '^price\\s'), ' per ', part(words(priceUnits), 'what the price is for', '\\bper\\s')] },
];

const materialLines: readonly Form[] = [
  { block: 'material', start: /^width\s/, documentation: 'How wide the cloth is.', parts: ['width ', part('SIZE', 'from selvedge to selvedge', '^width\\s'), ' ', part('[usable SIZE]', 'what can be cut from', '\\busable\\s')] },
  { block: 'material', start: /^shrinks\s/, documentation: 'How much it shrinks in the wash.', parts: ['shrinks ', part('SHARE', 'along the grain', '^shrinks\\s'), ' ', part('[by SHARE]', 'across it', '\\bby\\s')] },
  fact('material', 'role', 'What the material is for.', words(roles), 'cloth, or a layer that goes on cloth'),
  fact('material', 'weight', 'How heavy it is.', words(weights), 'how heavy'),
  fact('material', 'faces', 'Whether its two sides differ.', words(facings), 'a right and a wrong side, none, or one with glue'),
  fact('material', 'direction', 'How pieces may lie on it.', words(directions), 'along the grain either end up, one end up only, or in any turn'),
  ...sold('material'),
];

const supplyLines: readonly Form[] = [
  fact('supply', 'kind', 'What kind of supply it is.', words(supplyKinds), 'its kind'),
  fact('supply', 'count', 'How many are needed.', 'COUNT', 'how many, a whole number'),
  fact('supply', 'across', 'How wide it is.', 'SIZE', 'diameter of a snap, inner width of a ring, width of a band'),
  fact('supply', 'length', 'The length of one.', 'SIZE', 'how long'),
  fact('supply', 'finished', 'The length of a zip when made up.', 'SIZE', 'from stop to stop'),
  { block: 'supply', start: /^from\s/, documentation: 'What a zip is made from.', parts: ['from ', part('closed | tape', 'a closed zip, or a length of tape', '^from\\s'), ' ', part('SIZE', 'how long that must be', '^from\\s+(?:closed|tape)\\s')] },
  { block: 'supply', start: /^at\s/, documentation: 'The marks that it is set at.', parts: ['at ', part('PIECE.MARK', 'a mark of a piece', '^at\\s'), part('[, PIECE.MARK …]', 'more marks', ',')] },
  fact('supply', 'fits', 'The supply that must run through it.', 'SUPPLY', 'a strap'),
  ...sold('supply'),
];

/** Every form; the first one that fits what is written counts, so that the more particular stand first. */
export const forms: readonly Form[] = [...shapes, ...pieceLines, ...pathSteps, ...fileLines, ...materialLines, ...supplyLines];
