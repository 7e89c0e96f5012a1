import { file, type Slip } from '../slip.ts';

/** A pocket on an outside, with the seam that lays it on. */
const pocket = (seam: string): string => file(`piece outside {
  outline rectangle 9 by 7
  placement pocket_at = rectangle 4 by 3 at 2, 2
  edge all raw
  cut 1 canvas
}
piece pocket {
  outline rectangle 4 by 3
  drawn to stitching
  edge top raw
  cut 1 canvas
}
seam patch = ${seam}`);
const laid = pocket('pocket.left, pocket.bottom, pocket.right onto outside.pocket_at within 1/8');

const pouch = (cut: string, seam: string, fold = ''): string => file(`piece pouch {
  outline rectangle 9 by 7
  edge all raw${fold}
  cut ${cut}
}
seam side = ${seam}`);

/** What is sewn to what. */
export const seamSlips: readonly Slip[] = [
  {
    slip: 'a line of a piece behind “with”', text: pocket('pocket.left, pocket.bottom, pocket.right with outside.«pocket_at» within 1/8'), code: 'wrong-thing', says: ['a line inside the piece', '“onto outside.pocket_at”'], right: laid, fix: 'Write “onto outside.pocket_at”', mended: true, why: 'It says which word lays something on a line.',
  },
  {
    slip: 'a line of a piece before “with”', text: pocket('outside.«pocket_at» with pocket.left, pocket.bottom, pocket.right within 1/8'), code: 'wrong-thing', says: ['a line inside the piece', '“onto outside.pocket_at”'], right: laid, fix: 'Write “onto outside.pocket_at”', mended: true, why: 'The fix puts the line last as well.',
  },
  {
    slip: 'a line before “onto”', text: pocket('outside.«pocket_at» onto pocket.left, pocket.bottom, pocket.right within 1/8'), code: 'wrong-thing', says: ['behind “onto”'], right: laid, fix: 'Write “onto outside.pocket_at”', mended: true, why: 'It says on which side of the word the line stands.',
  },
  {
    slip: 'a line misspelt behind “onto”', text: pocket('pocket.left, pocket.bottom, pocket.right onto outside.«pocketat» within 1/8'), code: 'unknown-part', says: ['“pocket_at”'], right: laid, fix: 'Change to “pocket_at”', mended: true, why: 'The likely line is offered, not an edge.',
  },
  {
    slip: 'an edge with itself', text: pouch('1 canvas', 'pouch.left with «pouch.left»'), code: 'seam-with-itself', says: ['same edge', '“pouch.left”', 'only one', 'Cut 2'], right: pouch('2 canvas', 'pouch.left with pouch.left'), mended: true, why: 'It says that both are one, and what would make them two.',
  },
  {
    slip: 'part of an edge with more of it', text: pouch('1 canvas', 'pouch.left from 1 to 3 with «pouch.left from 4 to 2»'), code: 'seam-with-itself', says: ['same edge'], right: pouch('1 canvas', 'pouch.left from 1 to 3 with pouch.left from 5 to 3'), mended: true, why: 'Parts that share nothing may be sewn together.',
  },
  {
    slip: 'an edge with itself, in a run', text: pouch('1 canvas', 'pouch.left, pouch.bottom with «pouch.left», pouch.bottom within 9'), code: 'seam-with-itself', says: ['same edge'], right: pouch('1 canvas on fold', 'pouch.right with pouch.right', '\n  on fold left'), mended: true, why: 'On a fold there are both halves of it.',
  },
];
