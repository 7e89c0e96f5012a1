import { file, outlined, type Slip } from '../slip.ts';

const path = (opening: string, closing: string): string => outlined(`outline path from 0, 0${opening}\n  line to 9, 0 as base\n  arc to 0, 0 through 4 1/2, 6${closing}\ngrain up`);

/** Braces that are missing, too many, or in another place. */
export const blockSlips: readonly Slip[] = [
  {
    slip: 'a path without its opening brace',
    text: outlined('outline path from 0, «0»\n  line to 9, 0 as base\n  arc to 0, 0 through 4 1/2, 6\n}\ngrain up'),
    code: 'unopened-block', says: ['path', '“{”'], right: path(' {', '\n}'), fix: 'Add “{”', mended: true,
    why: 'It names the path and the brace, and stands at the very place where the brace goes.',
  },
  {
    slip: 'a path without either brace',
    text: outlined('outline path from 0, «0»\n  line to 9, 0 as base\n  arc to 0, 0 through 4 1/2, 6\ngrain up'),
    code: 'unopened-block', says: ['path', '“{”', '“}”'], right: path(' {', '\n}'), fix: 'Add “{” and “}”', mended: true,
    why: 'Both braces are named, and the steps that belong between them are those below.',
  },
  {
    slip: 'a path without its closing brace',
    text: outlined('outline path from 0, 0 «{»\n  line to 9, 0 as base\n  arc to 0, 0 through 4 1/2, 6\ngrain up'),
    code: 'unclosed-block', says: ['path', '“}”'], not: ['piece'], right: path(' {', '\n}'), fix: 'Close the block', mended: true,
    why: 'It speaks of the path, not of the piece, and the fix puts the brace below its last step.',
  },
  {
    slip: 'a piece without its opening brace',
    text: file('piece front "Front«"»\n  outline rectangle 9 by 7\n  cut 2 canvas\n}'),
    code: 'unopened-block', says: ['A piece', '“{”', 'first line'], right: file('piece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}'), fix: 'Add “{”', mended: true,
    why: 'It says which sign is missing, and where.',
  },
  {
    slip: 'a piece without its closing brace',
    text: file('piece front "Front" «{»\n  outline rectangle 9 by 7\n  cut 2 canvas\n\npiece back "Back" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}'),
    code: 'unclosed-block', says: ['a piece', '“}”'], right: file('piece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\n\npiece back "Back" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}'), fix: 'Close the block', mended: true,
    why: 'The brace that has no partner is marked, and the fix closes the block below its last line.',
  },
  {
    slip: 'a piece’s brace on the next line',
    text: file('piece front "Front"\n«{»\n  outline rectangle 9 by 7\n  cut 2 canvas\n}'),
    code: 'unopened-block', says: ['“{”', 'end of the line above'], right: file('piece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}'), fix: 'Move “{” up', mended: true,
    why: 'The brace is marked, and it is told where it goes.',
  },
  {
    slip: 'a piece between brackets',
    text: file('piece front "Front" «(»\n  outline rectangle 9 by 7\n  cut 2 canvas\n)'),
    code: 'unopened-block', says: ['“{”', '“(”', '“}”'], right: file('piece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}'), fix: 'Change to “{” and “}”', mended: true,
    why: 'Both braces are named, and it is told once that the piece is left out.',
  },
  {
    slip: 'a piece between square brackets',
    text: file('piece front «[»\n  outline rectangle 9 by 7\n  cut 2 canvas\n]\nlength strap = 20'),
    code: 'unopened-block', says: ['“{”', '“[”', '“}”'], right: file('piece front {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\nlength strap = 20'), fix: 'Change to “{” and “}”', mended: true,
    why: 'As with round ones, and the line below the piece still counts.',
  },
  {
    slip: 'a path’s brace on the next line',
    text: outlined('outline path from 0, 0\n«{»\n  line to 9, 0 as base\n  arc to 0, 0 through 4 1/2, 6\n}\ngrain up'),
    code: 'unopened-block', says: ['“{”', 'end of the line above'], right: path(' {', '\n}'), fix: 'Move “{” up', mended: true,
    why: 'The brace is marked, and it is told where it goes.',
  },
  {
    slip: 'a piece within a piece',
    text: outlined('outline rectangle 9 by 7\n«piece» back "Back" {\n  outline rectangle 9 by 7\n}'),
    code: 'unreadable-line', says: ['can’t stand inside', '“}”'], right: file('piece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\npiece back "Back" {\n  outline rectangle 9 by 7\n}'), mended: true,
    why: 'It says that pieces don’t nest, and to close the one around first.',
  },
  {
    slip: 'a closing brace too many',
    text: file('piece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\n«}»'),
    code: 'unreadable-line', says: ['nothing is open', 'leave it out'], right: file('piece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\n'), fix: 'Remove “}”', mended: true,
    why: 'It says why the brace has no use, and to leave it out.',
  },
  {
    slip: 'a piece on one line',
    text: file('piece front "Front" { «outline» rectangle 9 by 7 }'),
    code: 'unreadable-line', says: ['new line after “{”'], right: file('piece front "Front" {\n  outline rectangle 9 by 7\n}'), mended: true,
    why: 'It says what is wrong with the place and not with the word.',
  },
  {
    slip: 'a path without its closing brace, above a value',
    text: `${outlined('outline path from 0, 0 «{»\n  line to 9, 0 as base\n  arc to 0, 0 through 4 1/2, 6\ngrain up')}length strap = 20\n`,
    code: 'unclosed-block', says: ['path', '“}”'], not: ['piece'], right: `${path(' {', '\n}')}length strap = 20\n`, fix: 'Close the block', mended: true,
    why: 'As above, and the line below the piece still counts.',
  },
];
