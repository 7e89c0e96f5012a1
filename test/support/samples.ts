import { readFileSync } from 'node:fs';
import { libraryOf } from '../../server/src/model/names/files.ts';
import { Analyst, type Pattern } from '../../server/src/model/pattern.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { snapshotOf, type Snapshot } from '../../server/src/workspace/snapshot.ts';

/** The text of a sample by its path in the folder of samples. */
export const sample = (path: string): string => readFileSync(new URL(`../../samples/${path}`, import.meta.url), 'utf8');

const shared = 'studio/materials.piece';

/** A pattern computed from a text, with the studio's materials at hand and any other files given. */
export function patternOf(text: string, others: Readonly<Record<string, string>> = {}): Pattern {
  return new Analyst().analyse(parseFile('a.piece', text), libraryOf(new Map([[shared, sample(shared)], ...Object.entries(others)])));
}

export const snapshotOfText = (text: string, others: Readonly<Record<string, string>> = {}): Snapshot => snapshotOf(patternOf(text, others));

/** All that a pattern computes: problems without their places, cut sizes and counts, supplies, checks, in every combination. */
export function computed(pattern: Pattern): unknown {
  return {
    problems: pattern.problems.map((one) => [one.code, one.message, one.when ?? '']),
    combinations: pattern.combinations().map((combination) => {
      const { materials, pieces, supplies, checks } = pattern.resolve(combination);
      return {
        materials: materials.map((one) => [one.name, one.width?.toFraction(), one.usable?.toFraction(), one.shrinkage.along.toFraction(), one.purchase]),
        pieces: pieces.map(({ shape, cuts }) => [shape.name, ...cuts.map((cut) => [cut.material.name, cut.count.toFraction(), cut.along, cut.hand, sizeText(cut)])]),
        supplies: supplies.map((one) => [one.name, one.count.toFraction(), one.finished?.toFraction(), one.across?.toFraction(), one.length?.toFraction()]),
        checks: checks.map((one) => one.outcome),
      };
    }),
  };
}

type Cut = ReturnType<Pattern['resolve']>['pieces'][number]['cuts'][number];

export function sizeText(cut: Cut): string {
  return cut.rectangle === undefined ? `${cut.bounds.width.toFixed(6)} by ${cut.bounds.height.toFixed(6)}` : `${cut.rectangle.width.toFraction()} by ${cut.rectangle.height.toFraction()}`;
}
