import type { Value } from '../model/formulas/value.ts';
import type { Declaration, Expression } from '../syntax/tree.ts';
import type { Display } from '../units/length.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { inFewWords } from '../table/combinations.ts';
import type { Hover } from './hover.ts';
import { inPlace, shown } from './hover-lengths.ts';
import { nodesAt } from './nodes.ts';
import { isFormula, wantedOf } from './wanted.ts';

/** The values of a formula that must give a length, in few words. */
export function shownValue(snapshot: Snapshot, declaration: Declaration, formula: Expression): string {
  const display = snapshot.pattern.world.settings.get(declaration.file)?.display ?? snapshot.pattern.display;
  const texts = snapshot.pattern.evaluations(declaration, formula).map(({ value }) => (value === undefined ? '?' : shown(inPlace(value, 'length', display), display)));
  return inFewWords(texts, true);
}

/** A formula with its value in each way that choices make a difference to it, and where each value comes from. */
export function formulaText(snapshot: Snapshot, declaration: Declaration, formula: Expression): string | undefined {
  const display = snapshot.pattern.world.settings.get(declaration.file)?.display ?? snapshot.pattern.display;
  const wanted = wantedOf(declaration.tree, formula);
  const written = declaration.text.slice(formula.start, formula.end).replace(/\s*[\n\r]\s*/g, ' ');
  const variants = snapshot.pattern.evaluations(declaration, formula);
  const parts = variants.slice(0, mostVariants).map(({ options, value }) => {
    const when = [...options].map(([choice, option]) => `${choice} is ${option}`).join(', ');
    if (value === undefined) return when === '' ? undefined : `- when ${when}: no value`;
    const text = shown(inPlace(value, wanted, display), display);
    return `${when === '' ? '' : `when ${when}: `}\`${written}\` = **${text}**\n${trail(snapshot, value, display)}`;
  });
  if (variants.length > mostVariants) parts.push(`and ${variants.length - mostVariants} more`);
  const known = parts.filter((part) => part !== undefined);
  return known.length === 0 ? undefined : known.join('\n\n');
}

const mostVariants = 6;
const deepest = 6;
const mostLines = 24;

/** The named values that a value comes from, each with its own formula, nested. */
function trail(snapshot: Snapshot, value: Value, display: Display): string {
  const lines: string[] = [];
  const told = new Set<string>();
  const walk = (one: Value, depth: number): void => {
    for (const source of one.from) {
      if (source.name === undefined || source.place.chunk === value.place.chunk && source.name === value.name) {
        walk(source, depth);
        continue;
      }
      // A reference leads to the declared value of the same name, and that to its formula.
      const declared = source.from.find((from) => from.name === source.name) ?? source;
      const formula = declared.from[0];
      const text = formula === undefined ? '' : formula.place.chunk.text.slice(formula.place.start, formula.place.end).replace(/\s*[\n\r]\s*/g, ' ');
      if (told.has(source.name) || lines.length >= mostLines) continue;
      told.add(source.name);
      const plain = formula !== undefined && formula.from.length === 0;
      lines.push(`${'  '.repeat(depth)}- \`${source.name}\` = ${text === '' || plain ? '' : `\`${text}\` = `}${shown(source, display)}`);
      if (depth < deepest && formula !== undefined) walk(formula, depth + 1);
    }
  };
  walk(value, 0);
  return lines.join('\n');
}

/** What is known of the formula, or the number, at an offset. */
export function aboutFormula(snapshot: Snapshot, offset: number): Hover | undefined {
  const at = snapshot.declarationAt(offset);
  if (at === undefined) return undefined;
  const around = nodesAt(at.declaration.tree, offset - at.offset).filter(isFormula);
  // A number alone says what it is; the formula that it stands in says more.
  const node = around.at(-1)?.kind === 'number' && around.length > 1 ? around.at(-2) : around.at(-1);
  if (node === undefined) return undefined;
  // A count says nothing that isn’t written.
  if (node.kind === 'number' && node.unit === undefined && wantedOf(at.declaration.tree, node) === undefined) return undefined;
  const markdown = formulaText(snapshot, at.declaration, node);
  return markdown === undefined ? undefined : { start: at.offset + node.start, end: at.offset + node.end, markdown };
}
