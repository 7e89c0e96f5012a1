import { stepText } from '../buying/purchase.ts';
import { escapeMarkdown } from '../formats/escape.ts';
import { polygonArea } from '../geometry/measure.ts';
import type { Material } from '../model/stock/material.ts';
import type { Combination } from '../model/query/query.ts';
import type { Pattern, Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { Purchase } from '../model/stock/purchase.ts';
import { isPattern } from '../model/names/unused.ts';
import { exactLength, type Display } from '../units/length.ts';
import { measured, zero, type Rational } from '../units/rational.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { combinationsToShow } from '../table/combinations.ts';
import { bothAreas, bothUnits } from './hover-lengths.ts';

/** What planning the lay knows of a material in one combination, in words, such as the length to buy. */
export type MaterialTotal = (material: string, combination: Combination) => string | undefined;

/** What a material is, and what is cut from it in each way that sizes and choices make a difference to it. */
export function aboutMaterial({ pattern }: Snapshot, name: string, total: MaterialTotal | undefined): string | undefined {
  const { combinations, all } = combinationsToShow(pattern);
  const resolved = combinations.map((combination) => pattern.resolve(combination));
  const material = resolved[0]?.materials.find((one) => one.name === name);
  if (material === undefined) return undefined;
  const cuts = resolved.map((one) => cutText(one, material, pattern.display, total));
  return [
    `**${name}** “${escapeMarkdown(material.title)}”`,
    factsOf(material, pattern.display).map((fact) => `- ${fact}`).join('\n'),
    cutsText(pattern, resolved, cuts, all),
  ].filter((part) => part !== '').join('\n\n');
}

function factsOf(material: Material, display: Display): readonly string[] {
  return [
    `${material.role}, ${material.direction === 'any' ? 'pieces may lie any way' : material.direction}`,
    ...(material.width === undefined ? [] : [`width ${bothUnits(material.width, display)}${material.usable === undefined ? '' : `, usable ${bothUnits(material.usable, display)}`}`]),
    boughtText(material.purchase, display),
    ...(material.fold === undefined ? [] : [`folded ${material.fold.way === 'partial' ? `in part, double for ${bothUnits(material.fold.depth, display)}` : material.fold.way}`]),
  ];
}

function boughtText(purchase: Purchase, display: Display): string {
  return purchase.form === 'lengths'
    ? `bought in lengths of ${stepText(purchase.step, display)}`
    : `bought in ${purchase.form} of ${exactLength(purchase.width, display.unit)} by ${exactLength(purchase.height, display.unit)}`;
}

// ------------------------------------------------------------------------------------------------ what is cut from it

const nothing = 'nothing';

function cutsText(pattern: Pattern, resolved: readonly Resolved[], cuts: readonly string[], all: boolean): string {
  if (cuts.every((text) => text === nothing)) {
    // A list of materials is there for others to cut from.
    return isPattern(pattern.world) ? 'Nothing is cut from it.' : '';
  }
  const telling = [...pattern.choices.keys()].filter((choice) => makesDifference(choice, resolved, cuts));
  const byOptions = new Map(resolved.map(({ combination }, index) => [optionsText(combination, telling), cuts[index] ?? nothing]));
  const lines = [...byOptions].map(([options, text]) => `- ${options === '' ? '' : `${options}: `}${text}`);
  return `Cut from it${all ? '' : ' (first options)'}:\n${lines.join('\n')}`;
}

const optionsText = (combination: Combination, choices: readonly string[]): string => choices.map((choice) => `${choice} is ${combination.get(choice) ?? ''}`).join(', ');

/** Whether what is cut differs anywhere between two combinations that differ in this choice alone. */
function makesDifference(choice: string, resolved: readonly Resolved[], cuts: readonly string[]): boolean {
  const met = new Map<string, string | undefined>();
  return resolved.some(({ combination }, index) => {
    const others = JSON.stringify([...combination].filter(([name]) => name !== choice));
    if (met.has(others)) return met.get(others) !== cuts[index];
    met.set(others, cuts[index]);
    return false;
  });
}

/** `1 × Cover, 2 × Lining; in all 3 pieces, 120 sq in (774.2 sq cm); at 56 in (142.2 cm) usable: found 0.62 yd, buy 5/8 yd`. */
function cutText({ pieces, combination }: Resolved, material: Material, display: Display, total: MaterialTotal | undefined): string {
  const cuts = pieces.flatMap((piece) => piece.cuts).filter((cut) => cut.material.name === material.name && cut.count.n > 0n);
  if (cuts.length === 0) return nothing;
  const counts = new Map<string, Rational>();
  for (const { piece, count } of cuts) counts.set(piece.title, (counts.get(piece.title) ?? zero).add(count));
  const count = cuts.reduce((sum, cut) => sum.add(cut.count), zero);
  const area = cuts.reduce((sum, cut) => sum.add(areaOf(cut).mul(cut.count)), zero);
  const toBuy = total?.(material.name, combination);
  const width = material.purchase.form === 'lengths' ? material.usable ?? material.width : undefined;
  return [
    [...counts].map(([title, each]) => `${each.toFraction()} × ${escapeMarkdown(title)}`).join(', '),
    `in all ${count.toFraction()} ${count.equals(1) ? 'piece' : 'pieces'}, ${bothAreas(area, display)}`,
    ...(toBuy === undefined ? [] : [`${width === undefined ? '' : `at ${bothUnits(width, display)} usable: `}${toBuy}`]),
  ].join('; ');
}

export function areaOf(line: CutLine): Rational {
  const holes = line.holes.reduce((sum, hole) => sum + Math.abs(polygonArea(hole)), 0);
  return line.rectangle !== undefined && holes === 0 ? line.rectangle.width.mul(line.rectangle.height) : measured(Math.abs(polygonArea(line.outline)) - holes);
}
