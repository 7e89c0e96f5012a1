import { blockSlips } from './blocks.ts';
import { cutSlips } from './cut-lines.ts';
import { nameSlips } from './names.ts';
import { numberSlips } from './numbers.ts';
import { shapeSlips } from './shapes.ts';
import { signSlips } from './signs.ts';
import { readingOf, type Misread, type Slip } from './slip.ts';
import { textSlips } from './texts.ts';
import { seamAllowance, wordSlips } from './words.ts';

/** All slips that are seen, those first that say most. */
const recognisers = [seamAllowance, ...blockSlips, ...textSlips, ...numberSlips, ...cutSlips, ...shapeSlips, ...nameSlips, ...wordSlips, ...signSlips];

/** A usual slip where a line could not be read on, with what to write instead; undefined where none is seen. */
export function slipIn(misread: Misread): Slip | undefined {
  const reading = readingOf(misread);
  for (const recognise of recognisers) {
    const seen = recognise(reading);
    if (seen !== undefined) return seen;
  }
  return undefined;
}
