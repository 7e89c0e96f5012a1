import { file, piece, type Slip } from '../slip.ts';

const strap = file('length strap = 20');

/** Values, formulas and choices. */
export const valueSlips: readonly Slip[] = [
  {
    slip: 'no equals sign', text: file('length strap «20»'), code: 'unreadable-line', says: ['“=”'], right: strap, fix: 'Add “=”', mended: true, why: 'It says which sign is missing.',
  },
  {
    slip: 'a colon for the equals sign', text: file('length strap«:» 20'), code: 'unreadable-line', says: ['“=”'], right: strap, fix: 'Change to “=”', mended: true, why: 'It says which sign stands there.',
  },
  {
    slip: '“is” for the equals sign', text: file('length strap «is» 20'), code: 'unreadable-line', says: ['“=”'], right: strap, fix: 'Change to “=”', mended: true, why: 'It says which sign stands there.',
  },
  {
    slip: 'a semicolon', text: file('length strap = 20«;»'), code: 'unreadable-line', says: ['no “;”'], right: strap, fix: 'Remove “;”', mended: true, why: 'It says that the sign is not needed.',
  },
  {
    slip: 'a name with a space', text: file('length front «width» = 10'), code: 'unreadable-line', says: ['front_width'], right: file('length front_width = 10'), fix: 'Change to “front_width”', mended: true, why: 'The name is written out as it may be.',
  },
  {
    slip: 'a name with a hyphen', text: file('length front«-»width = 10'), code: 'unreadable-line', says: ['front_width', 'minus'], right: file('length front_width = 10'), fix: 'Change to “front_width”', mended: true, why: 'It says why a hyphen can’t be in a name, and writes it out.',
  },
  {
    slip: 'a name that begins with a digit', text: file('length «2nd» = 10'), code: 'unreadable-line', says: ['letter'], right: file('length second = 10'), mended: true, why: 'It says what a name begins with.',
  },
  {
    slip: 'a word of the language as a name', text: file('length «in» = 10'), code: 'unreadable-line', says: ['word of the language'], right: file('length inner = 10'), mended: true, why: 'It says that this one word is taken.',
  },
  {
    slip: 'no kind of value', text: file('«strap» = 20'), code: 'unreadable-line', says: ['length strap ='], right: strap, fix: 'Change to “length strap”', mended: true, why: 'It says what stands before a name.',
  },
  {
    slip: 'a plural', text: file('«lengths» strap = 20'), code: 'unreadable-line', says: ['“length”'], right: strap, fix: 'Change to “length”', mended: true, why: 'The right word is offered.',
  },
  {
    slip: 'a unit spelt out', text: file('length strap = 20 «cms»'), code: 'unreadable-line', says: ['“cm”'], right: file('length strap = 20 cm'), fix: 'Change to “cm”', mended: true, why: 'The right unit is offered.',
  },
  {
    slip: 'a sign for inches', text: file('length strap = 20«"»'), code: 'unreadable-line', says: ['inches', '“in”'], right: file('length strap = 20 in'), fix: 'Change to “in”', mended: true, why: 'It guesses what was meant, and says what to write.',
  },
  {
    slip: 'a curly sign for inches', text: file('length strap = 20«”»'), code: 'unreadable-line', says: ['inches', '“in”'], right: file('length strap = 20 in'), fix: 'Change to “in”', mended: true, why: 'It says what to write.',
  },
  {
    slip: 'a decimal comma', text: file('length strap = 20«,»5'), code: 'unreadable-line', says: ['point', '20.5'], right: file('length strap = 20.5'), fix: 'Change to “20.5”', mended: true, why: 'The number is written out.',
  },
  {
    slip: 'a point for the space of a mixed number', text: file('length strap = «3.1/4»'), code: 'point-fraction', says: ['divided', '3 1/4'], right: file('length strap = 3 1/4'), fix: 'Change to “3 1/4”', mended: true, why: 'It says what the text comes to, and what was probably meant.',
  },
  {
    slip: 'a hyphen for the space of a mixed number', text: file('length strap = «3-1/4»'), code: 'minus-fraction', says: ['minus', '3 1/4'], right: file('length strap = 3 1/4'), fix: 'Change to “3 1/4”', mended: true, why: 'It says what the text comes to, and what was probably meant.',
  },
  {
    slip: 'a sign without its second size', text: file('length strap = 20 «+»'), code: 'unreadable-line', says: ['after “+”'], right: file('length strap = 20 + 1'), mended: true, why: 'It says what is missing, and after what.',
  },
  {
    slip: 'a bracket that is not closed', text: file('length strap = «(»20 + 2'), code: 'unreadable-line', says: ['bracket', '“)”'], right: file('length strap = (20 + 2)'), mended: true, why: 'The bracket without a partner is marked.',
  },
  {
    slip: 'a bracket too many', text: file('length strap = (20 + 2)«)»'), code: 'unreadable-line', says: ['bracket', 'leave it out'], right: file('length strap = (20 + 2)'), fix: 'Remove “)”', mended: true, why: 'It says which bracket has no partner.',
  },
  {
    slip: 'a sign of multiplication', text: file('length strap = 20 «×» 2'), code: 'unreadable-line', says: ['“*”'], right: file('length strap = 20 * 2'), fix: 'Change to “*”', mended: true, why: 'The right sign is offered.',
  },
  {
    slip: 'a space before the percent sign', text: file('ratio ease = 105 «%»'), code: 'unreadable-line', says: ['105%'], right: file('ratio ease = 105%'), fix: 'Change to “105%”', mended: true, why: 'The number is written out.',
  },
  {
    slip: 'one size', text: file('«size» S, M, L'), code: 'unreadable-line', says: ['“sizes”'], right: file('sizes S, M, L'), fix: 'Change to “sizes”', mended: true, why: 'The right word is offered.',
  },
  {
    slip: 'sizes without commas', text: file('sizes S «M» L'), code: 'unreadable-line', says: ['comma'], right: file('sizes S, M, L'), fix: 'Add commas', mended: true, why: 'It says which sign is missing.',
  },
  {
    slip: 'sizes that are numbers', text: file('sizes «36», 38'), code: 'unreadable-line', says: ['letter', 's36'], right: file('sizes s36, s38'), mended: true, why: 'It says how such a size may be called.',
  },
  {
    slip: 'an equals sign for the options of a choice', text: file('choice closing «=» zip or snap'), code: 'unreadable-line', says: ['“is”'], right: file('choice closing is zip or snap'), fix: 'Change to “is”', mended: true, why: 'The right word is offered.',
  },
  {
    slip: 'no comma between the values of sizes', text: file('sizes S, M\nlength strap = 20 for S «22» for M'), code: 'unreadable-line', says: ['comma'], right: file('sizes S, M\nlength strap = 20 for S, 22 for M'), fix: 'Add a comma', mended: true, why: 'It says which sign is missing.',
  },
  {
    slip: 'a size that there is not', text: file('sizes S, M\nlength strap = 20 for S, 22 for «XM»'), code: 'unknown-option', says: ['“XM”', 'S and M'], right: file('sizes S, M\nlength strap = 20 for S, 22 for M'), mended: true, why: 'It lists the sizes that there are, though with the options of choices among them.',
  },
  {
    slip: 'a size that is forgotten', text: file('sizes S, M, L\nlength strap = «20 for S, 22 for M»'), code: 'missing-option', says: ['L', 'otherwise'], right: file('sizes S, M, L\nlength strap = 20 for S, 22 for M, 22 for L'), fix: 'Add a value for L', mended: true, why: 'It says which size has no value.',
  },
  {
    slip: 'a name twice', text: file('length strap = 20\nlength «strap» = 22'), code: 'duplicate-name', says: ['“strap”', 'taken'], right: file('length strap = 20\nlength strap_2 = 22'), fix: 'Rename to “strap_2”', mended: true, why: 'It says that the second is left out; the editor shows the first.',
  },
  {
    slip: 'values in a circle', text: file('length «front_w» = back_w + 1\nlength «back_w» = front_w - 1'), code: 'cycle', says: ['circle', '“front_w”', '“back_w”'], right: file('length front_w = 10\nlength back_w = front_w - 1'), mended: false, why: 'It shows the way round, and both lines are marked; that one of them needs a size of its own goes unsaid.',
  },
  { slip: 'thousands with a comma', text: file('length strap = 20«,»000'), code: 'unreadable-line', says: ['no comma', '20000'], right: file('length strap = 20000'), mended: true, why: 'It says what to write for thousands, and what for a decimal.' },
  { slip: 'a colon after a name alone', text: file('«strap:» 20'), code: 'unreadable-line', says: ['length strap ='], right: strap, fix: 'Change to “length strap =”', mended: true, why: 'The beginning of the line is written out.' },
  { slip: '“else” for “otherwise”', text: file('sizes S, M\nlength strap = 20 for S, 22 «else»'), code: 'unreadable-line', says: ['“otherwise”'], right: file('sizes S, M\nlength strap = 20 for S, 22 otherwise'), fix: 'Change to “otherwise”', mended: true, why: 'The right word is offered.' },
  { slip: 'a size of a piece without its point', text: file('length strap = front «width» * 2'), code: 'unreadable-line', says: ['front.width', 'front_width'], right: `${piece('grain up')}length strap = front.width * 2\n`, mended: true, why: 'Both ways that it may be meant are written out.' },
  { slip: '“and” between options', text: file('choice closing is zip «and» snap'), code: 'unreadable-line', says: ['“or”'], right: file('choice closing is zip or snap'), fix: 'Change to “or”', mended: true, why: 'The right word is offered.' },
];
