import { file, piece, type Slip } from '../slip.ts';

const facts = (lines: string): string => `${lines}\nmaterial canvas "Canvas" {\n  width 58\n}\npiece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\npiece back "Back" {\n  outline rectangle 9 by 7\n  cut 2 canvas\n}\n`;
const whole = facts('pattern "Slip"\nrevision 1\nunit in\nallowance 1/4');
const plain = (line: string): string => facts(`pattern "Slip"\nrevision 1\nunit in\n${line}`);
const sized = (sizes: string): string => file(`${sizes}\nlength wide = 9 for S, 10 for M\nlength high = wide for size S, 7 otherwise\npiece front "Front" {\n  outline rectangle wide by high\n  cut 2 canvas when size is S\n  cut 1 canvas when size is not S\n}`);
const lidded = (lid: string): string => file(`${lid}\nlength wide = 9 for soft, 10 for hard\npiece front "Front" when lid is soft {\n  outline rectangle wide by 7\n  cut 2 canvas\n}`);
const felted = (felt: string): string => file(`${felt}\npiece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 felt\n}`);
const felt = felted('material felt {\n  width 36\n}');

/** Lines that others hang on: what follows from one that can’t be read is not told as well. */
export const unreadSlips: readonly Slip[] = [
  {
    slip: 'sizes with titles', text: sized('sizes S «"Small"», M "Medium"'), code: 'unreadable-line', says: ['no titles', 'sizes small, large'], right: sized('sizes S, M'), fix: 'Remove the titles', mended: true, why: 'It is told once, not at each line that asks for a size.',
  },
  {
    slip: 'a list of sizes with its word misspelt', text: sized('«size» S, M'), code: 'unreadable-line', says: ['“sizes”'], right: sized('sizes S, M'), fix: 'Change to “sizes”', mended: true, why: 'The likely word is offered.',
  },
  {
    slip: 'a choice without a comma between titled options', text: lidded('choice lid is soft "Soft" «hard» "Hard"'), code: 'unreadable-line', says: ['comma'], right: lidded('choice lid is soft "Soft", hard "Hard"'), mended: true, why: 'It is told once, not at each line that asks for an option.',
  },
  {
    slip: 'a choice without its word', text: lidded('«lid» is soft or hard'), code: 'unreadable-line', says: ['choice lid is'], right: lidded('choice lid is soft or hard'), fix: 'Change to “choice lid”', mended: true, why: 'The word is written out with the name.',
  },
  {
    slip: 'an allowance with “of”', text: plain('allowance «of» 1/4'), code: 'unreadable-line', says: ['leave “of” out'], right: whole, fix: 'Remove “of”', mended: true, why: 'It is not told besides that there is no allowance.',
  },
  {
    slip: 'an allowance misspelt', text: plain('«alowance» 1/4'), code: 'unreadable-line', says: ['“allowance”'], not: ['length'], right: whole, fix: 'Change to “allowance”', mended: true, why: 'It is not taken for a value without its kind.',
  },
  {
    slip: 'an allowance in the trade’s words', text: plain('«seam» allowance 1/4'), code: 'unreadable-line', says: ['“allowance”'], right: whole, fix: 'Change to “allowance”', mended: true, why: 'The word is offered.',
  },
  {
    slip: 'an allowance of a piece that can’t be read', text: facts('pattern "Slip"\nrevision 1\nunit in').replace('7\n', '7\n  allowance«:» 1/4\n').replace('back "Back" {\n', 'back "Back" {\n  allowance 1/4\n'), code: 'unreadable-line', says: ['no colon'],
    right: facts('pattern "Slip"\nrevision 1\nunit in').replace('7\n', '7\n  allowance 1/4\n').replace('back "Back" {\n', 'back "Back" {\n  allowance 1/4\n'), fix: 'Remove “:”', mended: true, why: 'It is told of the piece once.',
  },
  {
    slip: 'a revision in another word', text: facts('pattern "Slip"\n«version» 1\nunit in\nallowance 1/4'), code: 'unreadable-line', says: ['“revision”'], not: ['length'], right: whole, fix: 'Change to “revision”', mended: true, why: 'It is not told besides that there is no revision.',
  },
  {
    slip: 'a title in another word', text: facts('«title» "Slip"\nrevision 1\nunit in\nallowance 1/4'), code: 'unreadable-line', says: ['“pattern”'], right: whole, fix: 'Change to “pattern”', mended: true, why: 'It is not told besides that there is no title.',
  },
  {
    slip: 'a cloth that is said to be something', text: felted('«felt» is wool'), code: 'unreadable-line', says: ['material felt {', 'choice felt is'], right: felt, mended: true, why: 'Both that it can be are shown; and the cut line stays quiet.',
  },
  {
    slip: 'a material on one line', text: felted('material felt «is wool»'), code: 'unreadable-line', says: ['material felt {', '“}”', 'lines of its own'], right: felt, mended: true, why: 'It shows how the first line ends, and what comes below.',
  },
  {
    slip: 'a material with nothing below', text: felted('material «felt»'), code: 'unreadable-line', says: ['stops too early', 'material felt {', '“}”'], right: felt, mended: true, why: 'As of one with something on its line.',
  },
  {
    slip: 'a value without its kind that others need', text: file('«high» = 7\npiece front "Front" {\n  outline rectangle 9 by high\n  cut 2 canvas\n}'), code: 'unreadable-line', says: ['length high ='], right: file('length high = 7\npiece front "Front" {\n  outline rectangle 9 by high\n  cut 2 canvas\n}'), fix: 'Change to “length high”', mended: true, why: 'The piece that needs it stays quiet.',
  },
  {
    slip: 'a choice in place of a material', text: file('choice shell is felt or wool\npiece front "Front" {\n  outline rectangle 9 by 7\n  cut 2 «shell»\n}'), code: 'wrong-thing', says: ['a choice', 'cut 1 canvas when shell is felt'], right: piece('cut 1 cork'), mended: true, why: 'It says what the name is, and shows a line for one option.',
  },
];
