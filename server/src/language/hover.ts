import { functions } from '../model/evaluate.ts';
import type { Combination } from '../model/memo.ts';
import type { ResolvedPiece } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { Purchase } from '../model/purchase.ts';
import { lineMeasures, pieceMeasures } from '../model/reference.ts';
import { showArea, showValue, type Value } from '../model/value.ts';
import { polygonArea } from '../geometry/measure.ts';
import type { Declaration, DeclarationTree, Expression } from '../syntax/tree.ts';
import { exactLength, roundedFrom, showLength, usualDisplay, type Display } from '../units/length.ts';
import { measured, zero, type Rational } from '../units/rational.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { combinationsToShow, inFewWords } from './combinations.ts';
import { keywords, type Keyword, type WordPlace } from './keywords.ts';
import { nameAt, textOf, type FoundName, type Target } from './names.ts';
import { nodesAt, type AnyNode } from './nodes.ts';

export interface Hover {
  readonly start: number;
  readonly end: number;
  readonly markdown: string;
}

/** What planning the lay knows of a material in one combination, in words, such as the length to buy. */
export type MaterialTotal = (material: string, combination: Combination) => string | undefined;

/**
 * What is known of the name, formula or word at an offset.
 *
 * @param total where lays are planned, what is needed of a material in all
 */
export function hover(snapshot: Snapshot, offset: number, total?: MaterialTotal): Hover | undefined {
  const found = nameAt(snapshot, offset);
  if (found !== undefined) {
    const markdown = aboutName(snapshot, found, total);
    const start = found.offset + found.use.name.start;
    if (markdown !== undefined) return { start, end: start + found.use.name.text.length, markdown };
  }
  return aboutFormula(snapshot, offset) ?? aboutWord(snapshot, offset);
}

// ------------------------------------------------------------------------------------------------ names

function aboutName(snapshot: Snapshot, found: FoundName, total: MaterialTotal | undefined): string | undefined {
  const { target } = found;
  switch (target.kind) {
    case 'named':
      return aboutNamed(snapshot, target.declaration, total);
    case 'choice':
      return `**${target.choice}**, a choice: ${(snapshot.pattern.choices.get(target.choice) ?? []).join(' or ')}`;
    case 'option':
      return `**${textOf(target)}**, ${target.choice === 'size' ? 'a size' : `an option of **${target.choice}**`}`;
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
    default:
      return undefined;
  }
}

const titleOf = (title: { readonly value: string } | undefined): string => (title === undefined ? '' : ` “${title.value}”`);

/** A length in the pattern's unit and in the other one. */
function bothUnits(amount: Rational, display: Display): string {
  return `${showLength(amount, display)} (${showLength(amount, usualDisplay(display.unit === 'in' ? 'cm' : 'in'))})`;
}

function shown(value: Value, display: Display): string {
  if (value.dimension === 'area') return bothAreas(value.amount, display);
  if (value.dimension !== 'length') return showValue(value, display);
  const from = value.exact ? roundedFrom(value.amount, display) : undefined;
  return `${bothUnits(value.amount, display)}${from === undefined ? '' : `, exactly ${from}`}`;
}

function bothAreas(amount: Rational, display: Display): string {
  const other = usualDisplay(display.unit === 'in' ? 'cm' : 'in');
  return `${showArea(amount, display)} (${showArea(amount, other)})`;
}

// ------------------------------------------------------------------------------------------------ formulas

function shownValue(snapshot: Snapshot, declaration: Declaration, formula: Expression): string {
  const display = snapshot.pattern.world.settings.get(declaration.file)?.display ?? snapshot.pattern.display;
  const texts = snapshot.pattern.evaluations(declaration, formula).map(({ value }) => (value === undefined ? '?' : shown(asLength(value, display), display)));
  return inFewWords(texts, true);
}

/** A bare number of a file is in the file's unit wherever a length is needed. */
function asLength(value: Value, display: Display): Value {
  if (value.dimension !== 'bare') return value;
  const factor = { in: 254n, cm: 100n, mm: 10n }[display.unit];
  return { ...value, dimension: 'length', amount: value.amount.mul(factor).div(10) };
}

/** A formula with its value in each way that choices make a difference to it, and where each value comes from. */
function formulaText(snapshot: Snapshot, declaration: Declaration, formula: Expression): string | undefined {
  const display = snapshot.pattern.world.settings.get(declaration.file)?.display ?? snapshot.pattern.display;
  const lengthWanted = declaration.tree.kind === 'value' && declaration.tree.of === 'length' && declaration.tree.value === formula;
  const written = declaration.text.slice(formula.start, formula.end).replace(/\s*[\n\r]\s*/g, ' ');
  const variants = snapshot.pattern.evaluations(declaration, formula);
  const parts = variants.slice(0, mostVariants).map(({ options, value }) => {
    const when = [...options].map(([choice, option]) => `${choice} is ${option}`).join(', ');
    if (value === undefined) return when === '' ? undefined : `- when ${when}: no value`;
    const text = shown(lengthWanted ? asLength(value, display) : value, display);
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

const formulaKinds = new Set(['number', 'reference', 'binary', 'negation', 'call', 'selection', 'group']);
const isFormula = (node: AnyNode): node is AnyNode & Expression => typeof node.kind === 'string' && formulaKinds.has(node.kind);

function aboutFormula(snapshot: Snapshot, offset: number): Hover | undefined {
  const at = snapshot.declarationAt(offset);
  if (at === undefined) return undefined;
  const around = nodesAt(at.declaration.tree, offset - at.offset).filter(isFormula);
  // A number alone says what it is; the formula that it stands in says more.
  const node = around.at(-1)?.kind === 'number' && around.length > 1 ? around.at(-2) : around.at(-1);
  if (node === undefined) return undefined;
  if (node.kind === 'number' && node.unit === undefined) return undefined;
  const markdown = formulaText(snapshot, at.declaration, node);
  return markdown === undefined ? undefined : { start: at.offset + node.start, end: at.offset + node.end, markdown };
}

// ------------------------------------------------------------------------------------------------ parts and measures

function aboutPart(snapshot: Snapshot, { declaration, use }: FoundName, target: Extract<Target, { kind: 'measure' | 'part' | 'side' }>): string {
  const text = textOf(target);
  const owner = 'name' in target.declaration.tree ? target.declaration.tree.name.text : '';
  const what = target.kind === 'measure'
    ? `${meaningOf(target, text)} of **${target.of}**`
    : target.kind === 'side' ? `a side of **${owner}**` : `${target.part === 'edge' ? 'an edge' : `a ${target.part}`} of **${owner}**`;
  const path = use.path.length > 0 ? [...use.path, use.name] : undefined;
  const [first] = path ?? [];
  if (path === undefined || first === undefined) return `**${text}**, ${what}`;
  const reference: Expression = { kind: 'reference', path, start: first.start, end: use.name.end };
  const value = snapshot.pattern.evaluations(declaration, reference).some((one) => one.value !== undefined) ? shownValue(snapshot, declaration, reference) : undefined;
  return `**${text}**, ${what}${value === undefined ? '' : `\n\n${value}`}`;
}

function meaningOf(target: Extract<Target, { kind: 'measure' }>, text: string): string {
  const meanings = target.declaration.tree.kind === 'piece' ? (target.of.includes('.') ? lineMeasures : pieceMeasures) : {};
  return Object.hasOwn(meanings, text) ? `the ${meanings[text] ?? text}` : `the ${text}`;
}

// ------------------------------------------------------------------------------------------------ materials, supplies, pieces

function aboutMaterial(snapshot: Snapshot, name: string, total: MaterialTotal | undefined): string | undefined {
  const { pattern } = snapshot;
  const { display } = pattern;
  const { combinations, all } = combinationsToShow(pattern);
  const resolved = combinations.map((combination) => pattern.resolve(combination));
  const material = resolved[0]?.materials.find((one) => one.name === name);
  if (material === undefined) return undefined;
  const facts = [
    `${material.role}, ${material.direction === 'any' ? 'pieces may lie any way' : material.direction}`,
    ...(material.width === undefined ? [] : [`width ${bothUnits(material.width, display)}${material.usable === undefined ? '' : `, usable ${bothUnits(material.usable, display)}`}`]),
    boughtText(material.purchase, display),
  ];
  const lines = [`**${name}** “${material.title}”`, facts.map((fact) => `- ${fact}`).join('\n')];
  const cut = new Map<string, string[]>();
  const areas: string[] = [];
  const totals: string[] = [];
  for (const one of resolved) {
    const cuts = one.pieces.flatMap((piece) => piece.cuts.filter((line) => line.material.name === name));
    for (const line of cuts) cut.set(line.piece.title, [...(cut.get(line.piece.title) ?? []), line.count.toFraction()]);
    const when = [...one.combination].map(([choice, option]) => `${choice} is ${option}`).join(', ');
    areas.push(`- ${when === '' ? 'in all' : when}: ${bothAreas(cuts.reduce((sum, line) => sum.add(areaOf(line).mul(line.count)), zero), display)}`);
    const length = total?.(name, one.combination);
    if (length !== undefined) totals.push(`- ${when === '' ? 'to buy' : when}: ${length}`);
  }
  if (cut.size === 0) return [...lines, 'Nothing is cut from it.'].join('\n\n');
  lines.push(`Cut from it: ${[...cut].map(([title, counts]) => `${inFewWords(counts, true)} × ${title}`).join(', ')}`);
  lines.push(`Area of what is cut${all ? '' : ' (first options)'}:\n${[...new Set(areas)].join('\n')}`);
  if (totals.length > 0) lines.push(totals.join('\n'));
  return lines.join('\n\n');
}

function areaOf(line: CutLine): Rational {
  const holes = line.holes.reduce((sum, hole) => sum + Math.abs(polygonArea(hole)), 0);
  return line.rectangle !== undefined && holes === 0 ? line.rectangle.width.mul(line.rectangle.height) : measured(Math.abs(polygonArea(line.outline)) - holes);
}

function boughtText(purchase: Purchase, display: Display): string {
  return purchase.form === 'lengths'
    ? `bought in lengths of ${exactLength(purchase.step, display.unit)}`
    : `bought in ${purchase.form} of ${exactLength(purchase.width, display.unit)} by ${exactLength(purchase.height, display.unit)}`;
}

function aboutSupply(snapshot: Snapshot, name: string): string | undefined {
  const { pattern } = snapshot;
  const supplies = combinationsToShow(pattern).combinations.flatMap((combination) => pattern.resolve(combination).supplies.filter((one) => one.name === name));
  const [first] = supplies;
  if (first === undefined) return `**${name}**, a supply that is not wanted in any combination`;
  const sizes = (['finished', 'across', 'length'] as const).flatMap((kind) => {
    const texts = supplies.flatMap((supply) => (supply[kind] === undefined ? [] : [bothUnits(supply[kind], pattern.display)]));
    return texts.length === 0 ? [] : [`- ${kind} ${inFewWords(texts, true)}`];
  });
  return [`**${name}** “${first.title}”, ${first.kind}`, [`- count ${inFewWords(supplies.map((supply) => supply.count.toFraction()), true)}`, ...sizes].join('\n')].join('\n\n');
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
    const known = shape.rectangle?.[of];
    if (known !== undefined) return `${bothUnits(known.width, display)} × ${bothUnits(known.height, display)}`;
    const points = shape.whole[of].edges.flatMap((edge) => [edge.start, ...edge.segments.map((segment) => segment.to)]);
    const span = (axis: 'x' | 'y'): Rational => measured(Math.max(...points.map((point) => point[axis])) - Math.min(...points.map((point) => point[axis])));
    return `within ${bothUnits(span('x'), display)} × ${bothUnits(span('y'), display)}`;
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
      lines.add(`- ${line.count.toFraction()} × ${line.material.title}${line.along === undefined || line.along === 'cutting' ? '' : ` along ${line.along}`}${shell === undefined ? '' : `, on ${shell.material.title}`}`);
    }
  }
  return [...lines].join('\n');
}

// ------------------------------------------------------------------------------------------------ words

/** The word of the language at an offset, in the sense that it has in its block. */
function aboutWord(snapshot: Snapshot, offset: number): Hover | undefined {
  const { text } = snapshot.file;
  const lineStart = Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
  const line = /^[^\n\r]*/.exec(text.slice(lineStart))?.[0] ?? '';
  const code = line.replace(/"(?:[^"\\]|\\.)*"?|#.*$/g, (hidden) => ' '.repeat(hidden.length));
  const inside = offset - lineStart;
  const tree = snapshot.declarationAt(offset)?.declaration.tree;
  const first = /^\s*/.exec(code)?.[0].length ?? 0;
  let best: { readonly keyword: Keyword; readonly start: number; readonly end: number; readonly rank: number } | undefined;
  for (const keyword of keywords) {
    for (const match of code.matchAll(new RegExp(`(?<![\\p{L}\\p{M}\\p{N}_.])${keyword.words.replaceAll(' ', '[ \\t]+')}(?![\\p{L}\\p{M}\\p{N}_])`, 'gu'))) {
      const end = match.index + match[0].length;
      if (inside < match.index || inside > end) continue;
      const fits = keyword.places.some((place) => placeFits(place, tree, match.index === first)) ? 1000 : 0;
      const rank = fits + match[0].length;
      if (best === undefined || rank > best.rank) best = { keyword, start: match.index, end, rank };
    }
  }
  if (best === undefined) return undefined;
  return {
    start: lineStart + best.start, end: lineStart + best.end,
    markdown: `**${best.keyword.words}**\n\n${best.keyword.meaning}\n\n\`\`\`piecewright\n${best.keyword.example}\n\`\`\``,
  };
}

function placeFits(place: WordPlace, tree: DeclarationTree | undefined, startsLine: boolean): boolean {
  const block = tree?.kind === 'piece' || tree?.kind === 'material' || tree?.kind === 'supply' ? tree.kind : 'file';
  switch (place) {
    case 'file':
      // The first word of a block's own line is a word of the file.
      return startsLine;
    case 'piece':
    case 'material':
    case 'supply':
      return block === place;
    case 'path':
      return block === 'piece' && startsLine;
    case 'check':
      return tree?.kind === 'check';
    default:
      return !startsLine;
  }
}
