import { file, piece, type Slip } from '../slip.ts';

/** Lines that say what is cut. */
export const cutSlips: readonly Slip[] = [
  {
    slip: 'the count after the material', text: piece('cut cork «1»'), code: 'unreadable-line', says: ['how many', 'cut 1 cork'], right: piece('cut 1 cork'), fix: 'Change to “cut 1 cork”', mended: true,
    why: 'The line is written out as it should be.',
  },
  {
    slip: 'no count', text: piece('cut «cork»'), code: 'unreadable-line', says: ['how many', 'cut 1 cork'], right: piece('cut 1 cork'), fix: 'Change to “cut 1 cork”', mended: true,
    why: 'It says what is missing, with the line’s own material in the example.',
  },
  {
    slip: 'no count before a clause', text: piece('cut «cork» mirrored'), code: 'wrong-thing', says: ['how many', 'cut 1 cork'], right: piece('cut 1 cork mirrored'), fix: 'Change to “cut 1 cork”', mended: true,
    why: 'As without the clause.',
  },
  {
    slip: 'the word cut last', text: piece('«2» cork cut'), code: 'unreadable-line', says: ['“cut”', 'cut 2 cork'], right: piece('cut 2 cork'), fix: 'Change to “cut 2 cork”', mended: true,
    why: 'The line is written out as it should be.',
  },
  {
    slip: 'no material', text: piece('cut «2»'), code: 'unreadable-line', says: ['what it is cut from', 'cut 2 canvas'], right: piece('cut 2 cork'), mended: true,
    why: 'It says what is missing, and shows a whole line.',
  },
  {
    slip: 'an x after the count', text: piece('cut 2 «x» cork'), code: 'unreadable-line', says: ['leave “x” out', 'cut 2 cork'], right: piece('cut 2 cork'), fix: 'Remove “x”', mended: true,
    why: 'It names the word that is too many.',
  },
  {
    slip: '“of” after the count', text: piece('cut 2 «of» cork'), code: 'unreadable-line', says: ['leave “of” out', 'cut 2 cork'], right: piece('cut 2 cork'), fix: 'Remove “of”', mended: true,
    why: 'It names the word that is too many.',
  },
  {
    slip: 'a material misspelt', text: piece('cut 2 «cavnas»'), code: 'unknown-name', says: ['“canvas”'], right: piece('cut 2 canvas'), fix: 'Change to “canvas”', mended: true,
    why: 'The likely name is offered.',
  },
  {
    slip: 'a material that is not declared', text: piece('cut 2 «leather»'), code: 'unknown-name', says: ['no material', 'material leather {'], right: file('material leather {\n  width 44\n}\n\npiece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n  cut 2 leather\n}'), fix: 'Declare “leather”', mended: true,
    why: 'It says that a material must be declared, and how such a line begins.',
  },
  {
    slip: 'a count in words', text: piece('cut «two» cork'), code: 'unknown-name', says: ['“2”'], right: piece('cut 2 cork'), fix: 'Change to “2”', mended: true,
    why: 'The figure is offered.',
  },
  {
    slip: '“if” for “when”', text: piece('cut 2 cork «if» tab is double'), code: 'unreadable-line', says: ['“when”'], right: piece('cut 2 cork when tab is double'), fix: 'Change to “when”', mended: true,
    why: 'The right word is offered.',
  },
  {
    slip: '“else” on a cut line', text: piece('cut 2 cork when tab is double «else» canvas'), code: 'unreadable-line', says: ['line of its own', 'is not'], right: piece('cut 2 cork when tab is double\ncut 2 canvas when tab is not double'), mended: true,
    why: 'It says that the other case is a line of its own, and with which words.',
  },
  {
    slip: 'an equals sign after a choice', text: piece('cut 2 cork when tab «=» double'), code: 'choice-compared', says: ['“tab” is a choice', 'tab is double'], right: piece('cut 2 cork when tab is double'), fix: 'Change to “is”', mended: true,
    why: 'It says why the sign doesn’t fit, and writes the condition out.',
  },
  {
    slip: 'two equals signs', text: piece('cut 2 cork when tab «==» double'), code: 'unreadable-line', says: ['“is”', '“=”'], right: piece('cut 2 cork when tab is double'), fix: 'Change to “is”', mended: true,
    why: 'It says which word asks for an option, and which sign compares sizes.',
  },
  {
    slip: 'an option misspelt', text: piece('cut 2 cork when tab is «duoble»'), code: 'unknown-option', says: ['“double”'], right: piece('cut 2 cork when tab is double'), fix: 'Change to “double”', mended: true,
    why: 'The likely option is offered.',
  },
  {
    slip: 'a choice misspelt', text: piece('cut 2 cork when «tabb» is double'), code: 'unknown-name', says: ['choice', '“tab”'], right: piece('cut 2 cork when tab is double'), fix: 'Change to “tab”', mended: true,
    why: 'The likely choice is offered.',
  },
  {
    slip: 'two materials with a comma', text: piece('cut 1 canvas«,» 1 cork'), code: 'unreadable-line', says: ['line of its own'], right: piece('cut 1 canvas\ncut 1 cork'), mended: true,
    why: 'It says that each material has its own cut line.',
  },
  {
    slip: 'two materials with “and”', text: piece('cut 1 canvas «and» 1 cork'), code: 'unreadable-line', says: ['line of its own'], right: piece('cut 1 canvas\ncut 1 cork'), mended: true,
    why: 'It says that each material has its own cut line.',
  },
  {
    slip: '“fold” without “on”', text: piece('on fold left\ncut 1 cork «fold»'), code: 'unreadable-line', says: ['“on fold”'], right: piece('on fold left\ncut 1 cork on fold'), fix: 'Change to “on fold”', mended: true,
    why: 'The right words are offered.',
  },
  {
    slip: '“mirror” for “mirrored”', text: piece('cut 2 cork «mirror»'), code: 'unreadable-line', says: ['“mirrored”'], right: piece('cut 2 cork mirrored'), fix: 'Change to “mirrored”', mended: true,
    why: 'The right word is offered.',
  },
  {
    slip: '“pair” for “twins”', text: piece('corner top_left round 1\ncut 2 cork «pair»'), code: 'unreadable-line', says: ['“twins”', 'a left and a right'], right: piece('corner top_left round 1\ncut 2 cork twins'), fix: 'Change to “twins”', mended: true,
    why: 'It offers the word and says what it means.',
  },
  {
    slip: 'a semicolon at the end', text: piece('cut 2 cork«;»'), code: 'unreadable-line', says: ['no “;”'], right: piece('cut 2 cork'), fix: 'Remove “;”', mended: true,
    why: 'It says that the sign is not needed.',
  },
  {
    slip: 'a colon after the word', text: piece('cut«:» 2 cork'), code: 'unreadable-line', says: ['no colon'], right: piece('cut 2 cork'), fix: 'Remove “:”', mended: true,
    why: 'It says that the sign is not needed.',
  },
  {
    slip: 'a capital letter', text: piece('«Cut» 2 cork'), code: 'unreadable-line', says: ['“cut”', 'small letters'], right: piece('cut 2 cork'), fix: 'Change to “cut”', mended: true,
    why: 'It says what is wrong with the word, and offers the right one.',
  },
  {
    slip: 'a letter too many', text: piece('«cutt» 2 cork'), code: 'unreadable-line', says: ['“cut”'], right: piece('cut 2 cork'), fix: 'Change to “cut”', mended: true,
    why: 'The right word is offered.',
  },
  {
    slip: 'a material’s name in two words', text: piece('cut 1 cork «sheet»'), code: 'unreadable-line', says: ['cork_sheet', 'one word'], right: piece('cut 1 cork'), mended: true,
    why: 'It says that a name has no spaces, and what may come after it.',
  },
  {
    slip: 'a pair', text: piece('corner top_left round 1\ncut 1 «pair» cork'), code: 'unreadable-line', says: ['cut 2 cork twins'], right: piece('corner top_left round 1\ncut 2 cork twins'), mended: true,
    why: 'The line is written out.',
  },
  {
    slip: 'along, and no line', text: piece('cut 1 cork «along»'), code: 'unreadable-line', says: ['a name is missing', 'inner line'], right: piece('cut 1 cork along stitching'), mended: true,
    why: 'It says what must follow.',
  },
  {
    slip: 'a condition that asks nothing', text: piece('cut 1 cork when «tab»'), code: 'unreadable-line', says: ['“is”', 'tab is'], right: piece('cut 1 cork when tab is double'), mended: true,
    why: 'It says how the condition goes on.',
  },
  {
    slip: 'a side without on', text: piece('cut 1 cork\ncut 1 canvas «wrong» side'), code: 'unreadable-line', says: ['“on wrong side”'], right: piece('cut 1 cork\ncut 1 canvas on wrong side'), fix: 'Change to “on wrong side”', mended: true,
    why: 'The right words are offered.',
  },
  {
    slip: 'a cut line outside of a piece', text: file('«cut» 2 canvas'), code: 'unreadable-line', says: ['inside a piece'], right: piece('grain up'), mended: true,
    why: 'It says where the line belongs.',
  },
  {
    slip: 'a word of the language with letters after it', text: piece('cut 1 cork «larger» by 1/4'), code: 'unreadable-line', says: ['“large”'], right: piece('cut 1 cork large by 1/4'), fix: 'Change to “large”', mended: true,
    why: 'The right word is offered, and all of the wrong one is marked.',
  },
];
