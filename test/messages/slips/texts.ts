import { file, piece, type Slip } from '../slip.ts';

const whole = (first: string): string => `${first}\nrevision 1\nunit in\nallowance 1/4\n`;
const turned = (lines: string): string => file(`length hem_turn = 1/2\n${lines}`);

/** Quotes of texts, and braces in them. */
export const textSlips: readonly Slip[] = [
  {
    slip: 'no opening quote of a title', text: whole('pattern «Small» pouch"'), code: 'unreadable-line', says: ['quote is missing', '"Small pouch"'], right: whole('pattern "Small pouch"'), fix: 'Add the opening quote', mended: true, why: 'It stands where the quote goes, and the text is written out with it.',
  },
  {
    slip: 'no opening quote of a piece’s title', text: file('piece front «Front» side" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}'), code: 'unreadable-line', says: ['quote is missing', '"Front side"'], right: file('piece front "Front side" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}'), fix: 'Add the opening quote', mended: true, why: 'It is not taken for a name of several words.',
  },
  {
    slip: 'no opening quote of a step', text: piece('edge all raw').concat('step «Press» it" does front\n'), code: 'unreadable-line', says: ['quote is missing', '"Press it"'], right: piece('edge all raw').concat('step "Press it" does front\n'), fix: 'Add the opening quote', mended: true, why: 'It stands at the first word, which could also be a size that is rounded to.',
  },
  {
    slip: 'no opening quote of a note on a cut line', text: piece('cut 1 cork note «flip» it" # both'), code: 'unreadable-line', says: ['quote is missing', '"flip it"'], right: piece('cut 1 cork note "flip it" # both'), fix: 'Add the opening quote', mended: true, why: 'The text ends at its closing quote.',
  },
  {
    slip: 'a quote behind a word that has none before it', text: piece('grain up«"»'), code: 'unreadable-line', says: ['no quote is needed'], right: piece('grain up'), fix: 'Remove “"”', mended: true, why: 'It names the sign that is too many.',
  },
  {
    slip: 'a brace in a text that nothing closes', text: turned('note "Turn «{»hem_turn under."'), code: 'unreadable-line', says: ['“{”', 'no “}”', '{hem_turn}', '\\{'], right: turned('note "Turn \\{hem_turn under."'), fix: 'Change to “\\{”', mended: true, why: 'It marks the brace, and says how to close it and how to write it as a letter.',
  },
  {
    slip: 'a brace in a step that nothing closes', text: piece('edge all raw').concat('step "Turn «{»front.top {2} and" does front\n'), code: 'unreadable-line', says: ['“{”', 'no “}”'], right: piece('edge all raw').concat('step "Turn {front.top} {2} and" does front\n'), mended: true, why: 'Of two braces the one is marked that is open.',
  },
  {
    slip: 'nothing between the braces of a text', text: file('note "Turn «{}» under."'), code: 'unreadable-line', says: ['a formula stands between braces', '\\{'], right: file('note "Turn \\{} under."'), fix: 'Change to “\\{”', mended: true, why: 'It says what stands between braces.',
  },
  {
    slip: 'words between the braces of a text', text: turned('note "Turn {hem_turn} under, \\{ «{see below}»."'), code: 'unreadable-line', says: ['“{see below}”', 'formula', '\\{'], right: turned('note "Turn {hem_turn} under, \\{ \\{see below}."'), fix: 'Change to “\\{”', mended: true, why: 'Only what can’t be read is marked.',
  },
  {
    slip: 'neither a closing quote nor a closing brace', text: piece('note «"Turn {3 cm»\nnote "Press."'), code: 'unclosed-text', says: ['closing quote', '“{” no “}”', '\\{'], right: piece('note "Turn {3 cm}"\nnote "Press."'), mended: true, why: 'Both are told at once, and the piece goes on below.',
  },
];
