import { file, material, outlined, supply, type Slip } from '../slip.ts';

const whole = (first: string): string => `${first}\nrevision 1\nunit in\nallowance 1/4\n`;

/** What stands at the left margin, materials and supplies. */
export const fileSlips: readonly Slip[] = [
  {
    slip: 'a title without quotes', text: whole('pattern «Small» pouch'), code: 'unreadable-line', says: ['quotes', 'pattern "Small pouch"'], right: whole('pattern "Small pouch"'), fix: 'Put it in quotes', mended: true, why: 'The line is written out with its quotes.',
  },
  {
    slip: 'curly quotes', text: whole('pattern ««Small pouch»»').replace('««', '«“').replace('»»', '”»'), code: 'unreadable-line', says: ['straight quotes'], right: whole('pattern "Small pouch"'), fix: 'Use straight quotes', mended: true, why: 'It says which quotes are read.',
  },
  {
    slip: 'single quotes', text: whole("pattern «'Small pouch'»"), code: 'unreadable-line', says: ['straight quotes', '"'], right: whole('pattern "Small pouch"'), fix: 'Use straight quotes', mended: true, why: 'It says which quotes are read.',
  },
  {
    slip: 'a note without quotes', text: file('note «Press» first.'), code: 'unreadable-line', says: ['quotes', 'note "Press first."'], right: file('note "Press first."'), fix: 'Put it in quotes', mended: true, why: 'The line is written out with its quotes.',
  },
  {
    slip: 'no closing quote', text: file('note «"Press first.»'), code: 'unclosed-text', says: ['closing quote'], right: file('note "Press first."'), fix: 'Close the text', mended: true, why: 'The text is marked up to where the quote is missing.',
  },
  {
    slip: 'a unit spelt out', text: 'pattern "Slip"\nrevision 1\nunit «inches»\nallowance 1/4\n', code: 'unreadable-line', says: ['“in”'], right: 'pattern "Slip"\nrevision 1\nunit in\nallowance 1/4\n', fix: 'Change to “in”', mended: true, why: 'The right unit is offered.',
  },
  {
    slip: 'units for unit', text: 'pattern "Slip"\nrevision 1\n«units» cm\nallowance 1\n', code: 'unreadable-line', says: ['“unit”'], right: 'pattern "Slip"\nrevision 1\nunit cm\nallowance 1\n', fix: 'Change to “unit”', mended: true, why: 'The right word is offered.',
  },
  {
    slip: 'a revision that is a letter', text: 'pattern "Slip"\nrevision «A»\nunit in\nallowance 1/4\n', code: 'unreadable-line', says: ['number'], right: 'pattern "Slip"\nrevision 1\nunit in\nallowance 1/4\n', mended: true, why: 'It says that a number stands there.',
  },
  {
    slip: 'seam allowance in two words', text: 'pattern "Slip"\nrevision 1\nunit in\n«seam» allowance 3/8\n', code: 'unreadable-line', says: ['“allowance”'], right: 'pattern "Slip"\nrevision 1\nunit in\nallowance 3/8\n', fix: 'Change to “allowance”', mended: true, why: 'The right word is offered.',
  },
  {
    slip: 'no allowance', text: 'pattern "Slip"\nrevision 1\nunit in\nmaterial canvas {\n  width 58\n}\n«piece» front {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\n', code: 'missing-allowance', says: ['allowance 1/4 in', 'allowance none'], right: 'pattern "Slip"\nrevision 1\nunit in\nallowance 3/8\nmaterial canvas {\n  width 58\n}\npiece front {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\n', fix: 'Add “allowance 3/8”', mended: true, why: 'It says what is missing and writes out a line.',
  },
  {
    slip: 'a comment of another kind', text: file('«/»/ front and back'), code: 'unreadable-line', says: ['#'], right: file('# front and back'), fix: 'Change to “#”', mended: true, why: 'It says what a comment starts with.',
  },
  {
    slip: 'a space that a web page puts in', text: file('length strap =«\u00A0»20'), code: 'unreadable-line', says: ['space'], right: file('length strap = 20'), fix: 'Change to an ordinary space', mended: true, why: 'What can’t be seen is named.',
  },
  {
    slip: 'a capital letter', text: file('«Piece» front "Front" {\n  outline rectangle 9 by 7\n}'), code: 'unreadable-line', says: ['“piece”', 'small letters'], right: file('piece front "Front" {\n  outline rectangle 9 by 7\n}'), fix: 'Change to “piece”', mended: true, why: 'It says what is wrong with the word.',
  },
  {
    slip: 'a piece’s name with a space', text: file('piece front «pocket» {\n  outline rectangle 9 by 7\n}'), code: 'unreadable-line', says: ['front_pocket'], right: file('piece front_pocket {\n  outline rectangle 9 by 7\n}'), fix: 'Change to “front_pocket”', mended: true, why: 'The name is written out as it may be.',
  },
  {
    slip: 'a piece with a title and no name', text: file('piece «"Front pocket"» {\n  outline rectangle 9 by 7\n}'), code: 'unreadable-line', says: ['name', 'front_pocket "Front pocket"'], right: file('piece front_pocket "Front pocket" {\n  outline rectangle 9 by 7\n}'), fix: 'Add the name “front_pocket”', mended: true, why: 'It says what is missing and where it stands.',
  },
  {
    slip: 'a piece copied from a name misspelt', text: file('piece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\npiece back "Back" from «frnot» {\n  cut 2 canvas\n}'), code: 'unknown-name', says: ['piece', '“front”'], right: file('piece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\npiece back "Back" from front {\n  cut 2 canvas\n}'), fix: 'Change to “front”', mended: true, why: 'The likely piece is offered.',
  },
  {
    slip: 'a measure misspelt', text: `${outlined('outline rectangle 9 by 7')}length across_it = front.«widht»\n`, code: 'unknown-part', says: ['“width”'], right: `${outlined('outline rectangle 9 by 7')}length across_it = front.width\n`, fix: 'Change to “width”', mended: true, why: 'The likely measure is offered.',
  },
  {
    slip: 'a role that there is not', text: material('role «cotton»'), code: 'unknown-word', says: ['main', 'lining', 'non-fray'], right: material('role main'), mended: true, why: 'All roles are listed, and “main” comes first.',
  },
  {
    slip: 'a width with its sign for inches', text: file('material felt "Felt" {\n  width 40«"»\n}'), code: 'unreadable-line', says: ['inches', '“in”'], right: file('material felt "Felt" {\n  width 40 in\n}'), fix: 'Change to “in”', mended: true, why: 'It guesses what was meant, and says what to write.',
  },
  {
    slip: 'a price with its sign', text: material('price «$»12 per yd'), code: 'unreadable-line', says: ['currency "'], right: `${material('price 12 per yd')}currency "USD"\n`, mended: true, why: 'It says to leave the sign out, and where it goes.',
  },
  {
    slip: 'a zipper', text: supply('kind «zipper»\nfinished 8'), code: 'unknown-word', says: ['“zip”'], right: supply('kind zip\nfinished 8'), fix: 'Change to “zip”', mended: true, why: 'The right word is offered.',
  },
  {
    slip: 'one snap’s size wrong, at three marks',
    text: file('piece front "Front" {\n  outline rectangle 9 by 7\n  mark left_snap for snap 12 mm at 2, 1\n  mark middle_snap for snap 12 mm at 4, 1\n  mark right_snap for snap 12 mm at 6, 1\n  cut 2 canvas\n}\nsupply snap "Snap" {\n  kind snap\n  across «14 mm»\n  at front.left_snap, front.middle_snap, front.right_snap\n}'),
    code: 'mark-mismatch', says: ['14 mm', '12 mm', 'left_snap'], right: file('piece front "Front" {\n  outline rectangle 9 by 7\n  mark left_snap for snap 12 mm at 2, 1\n  mark middle_snap for snap 12 mm at 4, 1\n  mark right_snap for snap 12 mm at 6, 1\n  cut 2 canvas\n}\nsupply snap "Snap" {\n  kind snap\n  across 12 mm\n  at front.left_snap, front.middle_snap, front.right_snap\n}'), mended: true,
    why: 'It is told once, at the size that all the marks disagree with.',
  },
  { slip: 'a piece without the word', text: file('«front» {\n  outline rectangle 9 by 7\n}'), code: 'unreadable-line', says: ['piece front {'], right: file('piece front {\n  outline rectangle 9 by 7\n}'), fix: 'Change to “piece front”', mended: true, why: 'The first line is written out.' },
  { slip: 'a price for a yard', text: material('price 12 «a» yd'), code: 'unreadable-line', says: ['“per”'], right: material('price 12 per yd'), fix: 'Change to “per”', mended: true, why: 'The right word is offered.' },
  { slip: 'titles of sizes', text: file('sizes S «"Small"», L "Large"'), code: 'unreadable-line', says: ['no titles', 'sizes small, large'], right: file('sizes small, large'), mended: true, why: 'It says what is wrong and writes the line out.' },
  { slip: 'a zip for each size, where it is bought', text: file('sizes S, L\nsupply zip "Zip" {\n  kind zip\n  finished 8\n  from closed 9 «for» S, 12 for L\n}'), code: 'unreadable-line', says: ['a name outside', 'length wide = 9 for S'], right: file('sizes S, L\nlength wide = 9 for S, 12 for L\nsupply zip "Zip" {\n  kind zip\n  finished 8\n  from closed wide\n}'), mended: true, why: 'It says that the value gets a name, and shows the line.' },
  { slip: 'when before what a step does', text: file('piece front {\n  outline rectangle 4 by 5\n  cut 1 canvas\n}\nstep "Cut it." when tab is single «does» front'), code: 'unreadable-line', says: ['before “when”'], right: file('piece front {\n  outline rectangle 4 by 5\n  cut 1 canvas\n}\nstep "Cut it." does front'), mended: true, why: 'It says which comes first.' },
];
