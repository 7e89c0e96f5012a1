import type { NumberLiteral } from '../../syntax/tree.ts';
import { nameUses } from '../../syntax/walk.ts';
import { millimetresIn } from '../../units/length.ts';
import { parseNumber } from '../../units/number-text.ts';
import type { Rational } from '../../units/rational.ts';
import type { Snapshot } from '../../workspace/snapshot.ts';
import { combinationsToShow } from '../../table/combinations.ts';
import type { Action, TextRange } from '../results.ts';
import { placedFormulas, placedParts } from './dimensions.ts';

/** At most so many names are offered for one size. */
const mostOffers = 4;

/**
 * Offers names for a size that is written out: named lengths that are just as long whatever is chosen, or else two that
 * add up to it.
 */
export function sizeFormulaActions(snapshot: Snapshot, selection: TextRange): readonly Action[] {
  const found = snapshot.declarationAt(selection.start);
  if (found === undefined) return [];
  const { declaration, offset } = found;
  const { world } = snapshot.pattern;
  for (const { expression, wanted } of placedFormulas(world, declaration.tree).flatMap((whole) => [...placedParts(world, whole)])) {
    if (expression.kind !== 'number' || wanted !== 'length' || offset + expression.start > selection.start || offset + expression.end < selection.end) continue;
    const size = lengthOf(snapshot, expression);
    if (size === undefined || size.n === 0n) return [];
    const ownName = 'name' in declaration.tree ? declaration.tree.name.text : undefined;
    return formulasFor(snapshot, size, ownName).map((formula) => ({
      title: `Write this size as ${formula}`,
      kind: 'rewrite',
      edits: [{ file: snapshot.path, start: offset + expression.start, end: offset + expression.end, newText: formula.includes(' ') && !isWhole(declaration.tree, expression) ? `(${formula})` : formula }],
    }));
  }
  return [];
}

/** Whether a number stands alone, so that a sum in its place needs no brackets. */
function isWhole(tree: Parameters<typeof placedFormulas>[1], number: NumberLiteral): boolean {
  return tree.kind === 'value' && tree.value === number;
}

function lengthOf(snapshot: Snapshot, number: NumberLiteral): Rational | undefined {
  if (number.unit === '%' || number.unit === 'deg') return undefined;
  return parseNumber(number.digits)?.mul(millimetresIn[number.unit ?? snapshot.pattern.display.unit]);
}

function formulasFor(snapshot: Snapshot, size: Rational, ownName: string | undefined): readonly string[] {
  const lengths = fixedLengths(snapshot, ownName);
  const same = lengths.filter(({ length }) => length.equals(size)).map(({ name }) => name);
  if (same.length > 0) return same.slice(0, mostOffers);
  const sums: string[] = [];
  lengths.forEach((first, index) => {
    for (const second of lengths.slice(index)) {
      if (first.length.add(second.length).equals(size)) sums.push(first === second ? `2 * ${first.name}` : `${first.name} + ${second.name}`);
    }
  });
  return sums.slice(0, mostOffers);
}

/** Named lengths that are the same in every combination and don't need the declaration that is being changed. */
function fixedLengths(snapshot: Snapshot, ownName: string | undefined): readonly { readonly name: string; readonly length: Rational }[] {
  const { pattern } = snapshot;
  const shown = combinationsToShow(pattern);
  if (!shown.all) return [];
  return [...pattern.world.names].flatMap(([name, { tree }]) => {
    if (tree.kind !== 'value' || tree.of !== 'length' || needs(snapshot, name, ownName)) return [];
    const values = shown.combinations.map((combination) => pattern.value(name, combination)?.amount);
    const [length] = values;
    return length !== undefined && length.compare(0) > 0 && values.every((value) => value?.equals(length) === true) ? [{ name, length }] : [];
  });
}

/** Whether a value comes, by whatever way, from a name. */
function needs(snapshot: Snapshot, name: string, wanted: string | undefined): boolean {
  const met = new Set([name]);
  for (const one of met) {
    if (one === wanted) return true;
    const declaration = snapshot.pattern.world.names.get(one);
    if (declaration === undefined) continue;
    for (const use of nameUses(declaration.tree)) if (use.path.length === 0 && use.role !== 'declared') met.add(use.name.text);
  }
  return false;
}
