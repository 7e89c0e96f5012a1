import { escapeMarkdown } from '../formats/escape.ts';
import { functions } from '../model/formulas/evaluate.ts';
import type { ResolvedPiece } from '../model/pattern.ts';
import { sizeOfPiece } from '../model/piece/size.ts';
import type { Declaration, DeclarationTree, OptionName } from '../syntax/tree.ts';
import { sidesText } from '../units/sides.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { combinationsToShow, inFewWords } from '../table/combinations.ts';
import { aboutConflict } from './hover-conflict.ts';
import { aboutFormula, formulaText, shownValue } from './hover-formula.ts';
import { bothAreas, bothUnits, bothUnitsUp } from './hover-lengths.ts';
import { aboutMaterial, areaOf, type MaterialTotal } from './hover-material.ts';
import { aboutPart } from './hover-parts.ts';
import { aboutSeam } from './hover-seam.ts';
import { aboutStep } from './hover-step.ts';
import { aboutWord } from './hover-word.ts';
import { nameAt, textOf, type FoundName } from './names.ts';

export interface Hover {
  readonly start: number;
  readonly end: number;
  readonly markdown: string;
}

/**
 * What is known of the name, formula or word at an offset.
 *
 * @param total where lays are planned, what is needed of a material in all
 */
export function hover(snapshot: Snapshot, offset: number, total?: MaterialTotal): Hover | undefined {
  const conflict = aboutConflict(snapshot, offset);
  if (conflict !== undefined) return conflict;
  const found = nameAt(snapshot, offset);
  if (found !== undefined) {
    const markdown = aboutName(snapshot, found, total);
    const start = found.offset + found.use.name.start;
    if (markdown !== undefined) return { start, end: start + found.use.name.text.length, markdown };
  }
  return aboutFormula(snapshot, offset) ?? aboutStep(snapshot, offset) ?? aboutWord(snapshot, offset);
}

// ------------------------------------------------------------------------------------------------ names

function aboutName(snapshot: Snapshot, found: FoundName, total: MaterialTotal | undefined): string | undefined {
  const { target } = found;
  switch (target.kind) {
    case 'named':
      return aboutNamed(snapshot, target.declaration, total);
    case 'choice':
      return `**${target.choice}**${titleOf(target.declaration.tree.kind === 'choice' ? target.declaration.tree.title : undefined)}, a choice: ${(snapshot.pattern.choices.get(target.choice) ?? []).join(' or ')}`;
    case 'option':
      return `**${textOf(target)}**${titleOf(optionNamed(target.declaration, textOf(target))?.title)}, ${target.choice === 'size' ? 'a size' : `an option of **${target.choice}**`}`;
    case 'function': {
      const known = Object.hasOwn(functions, target.text) ? functions[target.text] : undefined;
      return known && `\`${known.usage}\`\n\n${known.doc}`;
    }
    case 'measure':
    case 'part':
    case 'side':
      return aboutPart(snapshot, found, target);
  }
}

const kindWords: Readonly<Record<string, string>> = { length: 'a length', count: 'a count', ratio: 'a ratio', angle: 'an angle', area: 'an area' };

function aboutNamed(snapshot: Snapshot, declaration: Declaration, total: MaterialTotal | undefined): string | undefined {
  const { tree } = declaration;
  switch (tree.kind) {
    case 'value': {
      const value = formulaText(snapshot, declaration, tree.value);
      return [`**${tree.name.text}**, ${kindWords[tree.of] ?? 'a value'}`, value].filter((part) => part !== undefined).join('\n\n');
    }
    case 'thing': {
      const sizes = [tree.width, tree.height].map((side) => shownValue(snapshot, declaration, side));
      return `**${tree.name.text}**${titleOf(tree.title)}, a thing to be held\n\n${sizes.join(' × ')}`;
    }
    case 'material':
      return aboutMaterial(snapshot, tree.name.text, total);
    case 'supply':
      return aboutSupply(snapshot, tree.name.text);
    case 'piece':
      return aboutPiece(snapshot, tree.name.text);
    case 'seam':
      return aboutSeam(snapshot, tree.name.text);
    default:
      return undefined;
  }
}

const optionNamed = ({ tree }: Declaration, name: string): OptionName | undefined => (tree.kind === 'choice' ? tree.options.find(({ text }) => text === name) : undefined);

const titleOf = (title: { readonly value: string } | undefined): string => (title === undefined ? '' : ` “${escapeMarkdown(title.value)}”`);

// ------------------------------------------------------------------------------------------------ supplies, pieces

function aboutSupply(snapshot: Snapshot, name: string): string | undefined {
  const { pattern } = snapshot;
  const supplies = combinationsToShow(pattern).combinations.flatMap((combination) => pattern.resolve(combination).supplies.filter((one) => one.name === name));
  const [first] = supplies;
  if (first === undefined) return `**${name}**, a supply that is not wanted in any combination`;
  const sizes = (['finished', 'across', 'length'] as const).flatMap((kind) => {
    const texts = supplies.flatMap((supply) => (supply[kind] === undefined ? [] : [bothUnits(supply[kind], pattern.display)]));
    return texts.length === 0 ? [] : [`- ${kind} ${inFewWords(texts, true)}`];
  });
  return [`**${name}** “${escapeMarkdown(first.title)}”, ${first.kind}`, [`- count ${inFewWords(supplies.map((supply) => supply.count.toFraction()), true)}`, ...sizes].join('\n')].join('\n\n');
}

function aboutPiece(snapshot: Snapshot, name: string): string | undefined {
  const { pattern } = snapshot;
  const { display } = pattern;
  const { combinations, all } = combinationsToShow(pattern);
  const tree: DeclarationTree | undefined = pattern.world.names.get(name)?.tree;
  const measures = combinations.map((combination) => pattern.shape(name, combination)).filter((shape) => shape !== undefined);
  const title = tree?.kind === 'piece' ? titleOf(tree.title) : '';
  if (measures.length === 0) return `**${name}**${title}, a piece whose shape can’t be worked out`;
  const size = (of: 'cutting' | 'stitching'): string => inFewWords(measures.map((shape) => {
    const { width, height, plain, circle } = sizeOfPiece(shape, of);
    const isWithin = !plain && !circle;
    // As in the cutting table, a template must fit into the size shown.
    const show = of === 'cutting' && isWithin ? bothUnitsUp : bothUnits;
    return `${isWithin ? 'within ' : ''}${sidesText(circle, show(width, display), show(height, display))}`;
  }), all);
  const pieces = combinations.flatMap((combination) => pattern.resolve(combination).pieces.filter((piece) => piece.shape.name === name));
  const area = inFewWords(pieces.flatMap(({ cuts }) => (cuts[0] === undefined ? [] : [bothAreas(areaOf(cuts[0]), display)])), all);
  return [
    `**${name}**${title}`,
    [`- cut size ${size('cutting')}`, `- finished size ${size('stitching')}`, ...(area === '' ? [] : [`- area ${area}`])].join('\n'),
    layersText(pieces),
  ].filter((part) => part !== '').join('\n\n');
}

/** What is cut of a piece, each layer once, however many combinations have it. */
function layersText(pieces: readonly ResolvedPiece[]): string {
  const lines = new Set<string>();
  for (const { cuts } of pieces) {
    for (const line of cuts) {
      const shell = line.layer === undefined ? undefined : cuts[line.layer.shell];
      lines.add(`- ${line.count.toFraction()} × ${escapeMarkdown(line.material.title)}${line.along === undefined || line.along === 'cutting' ? '' : ` along ${line.along}`}${shell === undefined ? '' : `, on ${escapeMarkdown(shell.material.title)}`}`);
    }
  }
  return [...lines].join('\n');
}
