import { resolvePath } from '../model/paths.ts';
import { functions } from '../model/evaluate.ts';
import { directions, facings, roles, weights } from '../model/material.ts';
import { cornerWords } from '../model/piece/outline.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { priceUnits } from '../model/purchase.ts';
import { lineMeasures, pieceMeasures } from '../model/reference.ts';
import { supplyKinds, supplyMeasures } from '../model/supply.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { contextAt, type TextContext } from './context.ts';
import { keywordsFor, type Keyword, type WordPlace } from './keywords.ts';

export type CompletionKind = 'keyword' | 'value' | 'material' | 'piece' | 'supply' | 'thing' | 'edge' | 'line' | 'mark' | 'measure' | 'choice' | 'option' | 'function' | 'unit' | 'word' | 'file';

export interface Completion {
  readonly label: string;
  readonly kind: CompletionKind;
  /** What is written in place of `start` to the cursor; with `${1:…}` where `isSnippet`. */
  readonly insert: string;
  readonly isSnippet: boolean;
  readonly detail: string;
  /** In Markdown. */
  readonly documentation: string;
  readonly start: number;
  readonly end: number;
  /** Letters that take it and go on. */
  readonly commit: readonly string[];
}

type Item = Omit<Completion, 'start' | 'end'>;

/**
 * What may be written at an offset. Told from the text before it alone, so that broken lines are no hindrance; names
 * come from what of the pattern can be read.
 *
 * @param paths all files of the working folder, for `use` lines
 */
export function completion(snapshot: Snapshot, offset: number, paths: readonly string[]): readonly Completion[] {
  const context = contextAt(snapshot, offset);
  if (context.within === 'comment') return [];
  if (context.within === 'text') return usePaths(snapshot, offset, paths);
  // A name that is being made up, or a number, is nobody else's to write.
  if (/[\d.]\s*$/.test(context.before) && context.word === '' && /\.\s*$/.test(context.before) && !/[\p{L}\p{M}\p{N}_]\.$/u.test(context.before)) return [];
  const items = memberItems(snapshot, context) ?? statementItems(new Names(snapshot, context), context);
  const seen = new Set<string>();
  return items
    .filter(({ label }) => !seen.has(label) && seen.add(label))
    .map((item) => ({ ...item, start: context.wordStart, end: offset }));
}

// ------------------------------------------------------------------------------------------------ items

const simple = (label: string, kind: CompletionKind, detail = '', documentation = '', commit: readonly string[] = []): Item => ({
  label, kind, insert: label, isSnippet: false, detail, documentation, commit,
});
const wordsOf = (labels: readonly string[], kind: CompletionKind = 'word'): readonly Item[] => labels.map((label) => simple(label, kind));

function keyword({ words, meaning, example, snippet }: Keyword): Item {
  return {
    label: words, kind: 'keyword', insert: snippet ?? words, isSnippet: snippet !== undefined, detail: '', commit: [],
    documentation: `${meaning}\n\n\`\`\`piecewright\n${example}\n\`\`\``,
  };
}

const keywordItems = (place: WordPlace, only?: readonly string[]): readonly Item[] =>
  keywordsFor(place).filter(({ words }) => only === undefined || only.includes(words)).map(keyword);

const units = wordsOf(['in', 'cm', 'mm', 'm', 'yd', 'ft', 'deg'], 'unit');

// ------------------------------------------------------------------------------------------------ names

/** The names of the pattern, by what they can be used for. */
class Names {
  readonly snapshot: Snapshot;
  readonly #context: TextContext;

  constructor(snapshot: Snapshot, context: TextContext) {
    this.snapshot = snapshot;
    this.#context = context;
  }

  of(kind: 'material' | 'piece' | 'supply' | 'thing', commit: readonly string[] = []): readonly Item[] {
    return [...this.snapshot.pattern.world.names.values()].flatMap(({ tree }) =>
      tree.kind === kind ? [simple(tree.name.text, kind, tree.title?.value ?? '', '', commit)] : []);
  }

  values(only?: 'count'): readonly Item[] {
    return [...this.snapshot.pattern.world.names.values()].flatMap(({ tree, text }) =>
      tree.kind === 'value' && (only === undefined || tree.of === only)
        ? [simple(tree.name.text, 'value', `${tree.of} = ${text.slice(tree.value.start, tree.value.end)}`)] : []);
  }

  /** What a formula may begin with. */
  formula(): readonly Item[] {
    return [
      ...this.values(),
      ...this.of('piece', ['.']), ...this.of('supply', ['.']), ...this.of('thing', ['.']), ...this.of('material', ['.']),
      ...Object.entries(functions).map(([name, { usage, doc }]): Item => ({
        label: name, kind: 'function', insert: `${name}($1)`, isSnippet: true, detail: usage, documentation: doc, commit: [],
      })),
      simple('pi', 'value', 'the circle’s number'),
    ];
  }

  shape(name = this.#context.owner): PieceShape | undefined {
    return name === undefined ? undefined : this.snapshot.pattern.shape(name, new Map());
  }

  edges(name?: string): readonly Item[] {
    const edges = this.shape(name)?.drawn.edges.map((edge) => edge.name) ?? [];
    return wordsOf((edges.length > 0 ? edges : ['top', 'bottom', 'left', 'right']).filter((edge) => !edge.endsWith('_twin')), 'edge');
  }

  /** The lines of a piece, from its text where its shape can't be worked out. */
  lines(name = this.#context.owner, use?: 'window'): readonly Item[] {
    const shape = this.shape(name);
    if (shape !== undefined) return shape.lines.filter((line) => use === undefined || line.use === use).map((line) => simple(line.name, 'line', line.use));
    const tree = this.snapshot.pattern.world.names.get(name ?? '')?.tree;
    return tree?.kind !== 'piece' ? [] : tree.body.statements.flatMap((statement) =>
      statement.kind === 'line' && (use === undefined || statement.use === use) ? [simple(statement.name.text, 'line', statement.use)] : []);
  }

  choices(): readonly Item[] {
    return [...this.snapshot.pattern.choices].map(([name, options]) => simple(name, 'choice', options.join(' or ')));
  }

  options(choice?: string): readonly Item[] {
    const { choices } = this.snapshot.pattern;
    const from = choice === undefined ? [...choices] : [[choice, choices.get(choice) ?? []] as const];
    return from.flatMap(([name, options]) => options.map((option) => simple(option, 'option', name)));
  }

  condition(): readonly Item[] {
    return [...this.choices(), ...keywordItems('condition', ['not']), ...this.formula()];
  }
}

// ------------------------------------------------------------------------------------------------ after a dot

function memberItems(snapshot: Snapshot, context: TextContext): readonly Item[] | undefined {
  const path = /([\p{L}_][\p{L}\p{M}\p{N}_]*)\.(?:([\p{L}_][\p{L}\p{M}\p{N}_]*)\.)?$/u.exec(context.before);
  const owner = path?.[1];
  if (owner === undefined) return undefined;
  const tree = snapshot.pattern.world.names.get(owner)?.tree;
  const measures = (known: Readonly<Record<string, string>>): readonly Item[] => Object.entries(known).map(([name, meaning]) => simple(name, 'measure', meaning));
  if (path?.[2] !== undefined) return tree?.kind === 'piece' ? measures(lineMeasures) : [];
  switch (tree?.kind) {
    case 'piece': {
      const names = new Names(snapshot, context);
      const marks = (names.shape(owner)?.marks ?? []).map((mark) => simple(mark.name, 'mark', mark.use));
      if (context.block === 'supply' && /^at\s/.test(context.before)) return marks;
      const check = /^check\s/.test(context.before);
      const outlines = check ? [simple('cutting', 'line', 'the cutting line'), simple('stitching', 'line', 'the stitching line')] : [];
      return [...names.edges(owner), ...names.lines(owner).map((line) => ({ ...line, commit: ['.'] })), ...measures(pieceMeasures), ...outlines];
    }
    case 'supply':
      return wordsOf(supplyMeasures, 'measure');
    case 'thing':
      return wordsOf(['width', 'height'], 'measure');
    case 'material':
      return wordsOf(['width', 'usable'], 'measure');
    default:
      return [];
  }
}

// ------------------------------------------------------------------------------------------------ paths

function usePaths(snapshot: Snapshot, offset: number, paths: readonly string[]): readonly Completion[] {
  const line = snapshot.file.text.slice(0, offset).split(/[\n\r]/).at(-1) ?? '';
  const written = /^\s*use\s+"([^"]*)$/.exec(line)?.[1];
  if (written === undefined) return [];
  const depth = snapshot.path.split('/').length - 1;
  return paths.filter((path) => path !== snapshot.path).flatMap((path) => {
    const relative = relativePath(snapshot.path, path, depth);
    return resolvePath(snapshot.path, relative) === path
      ? [{ ...simple(relative, 'file'), start: offset - written.length, end: offset }] : [];
  });
}

function relativePath(from: string, to: string, depth: number): string {
  const [a, b] = [from.split('/').slice(0, -1), to.split('/')];
  let shared = 0;
  while (shared < a.length && shared < b.length - 1 && a[shared] === b[shared]) shared++;
  return `${'../'.repeat(depth - shared)}${b.slice(shared).join('/')}`;
}

// ------------------------------------------------------------------------------------------------ statements

interface Rule {
  readonly when: RegExp;
  readonly give: (names: Names, match: RegExpExecArray) => readonly Item[];
}

const name = '[\\p{L}_][\\p{L}\\p{M}\\p{N}_]*';
const quoted = '"(?:[^"\\\\]|\\\\.)*"';
/** A formula without words in it that would end it. */
const sum = '[^",{}]+?';
const at = (pattern: string): RegExp => new RegExp(pattern.replaceAll('NAME', name).replaceAll('QUOTED', quoted).replaceAll('SUM', sum), 'u');

/** Where a number has just been written, a unit may follow. */
const afterNumber: Rule = { when: /(?:^|[\s(+*/,=-])[\d.][\d\s/.¼-¾⅓-⅞]*$/u, give: () => units };
const condition: readonly Rule[] = [
  { when: at('\\b(NAME)\\s+is\\s+(?:not\\s+)?(?:NAME\\s+or\\s+)*$'), give: (names, [, choice]) => [...names.options(choice), ...keywordItems('condition', ['not'])] },
  { when: at('\\b(?:when|and|or|not)\\s+\\(?\\s*$'), give: (names) => names.condition() },
  { when: at('\\bwhen\\s+(?:.*\\b(?:and|or|not)\\s+)?(NAME)\\s+$'), give: (names, [, choice]) =>
    (names.snapshot.pattern.choices.has(choice ?? '') ? keywordItems('condition', ['is']) : wordsOf(['<', '<=', '=', '!=', '>=', '>'])) },
  { when: at('\\bwhen\\s+.*\\bis\\s+(?:not\\s+)?NAME\\s+$'), give: () => keywordItems('condition', ['and', 'or']) },
];
const formulaStart: Rule = { when: /(?:[=(+*/,<>-]|\b(?:by|within|ease|inset|at|of|across|large by|sized|round|chamfer|box|radius|usable|per|to|from))\s*$/u, give: (names) => names.formula() };
const arms: readonly Rule[] = [
  { when: at('\\bfor\\s+$'), give: (names) => [...names.options(), ...names.choices()] },
  { when: at('\\bfor\\s+(NAME)\\s+$'), give: (names, [, choice]) => (names.snapshot.pattern.choices.has(choice ?? '') ? names.options(choice) : []) },
];
const shapes: readonly Rule[] = [
  { when: at('\\bexcept\\s+(?:.*,\\s*)?$'), give: (names) => names.edges() },
  { when: at('^(?:outline|(?:line|placement|foldline|window)\\s+NAME\\s*=)\\s*$'), give: (_, [text]) =>
    keywordItems('shape', ['rectangle', 'circle across', 'ellipse', 'polygon from', 'path from', ...(text.startsWith('outline') ? [] : ['inset', 'level at', 'upright at'])]) },
  { when: at('\\binset\\s+SUM\\s+from\\s+$'), give: () => wordsOf(['cutting', 'stitching']) },
  { when: at('=\\s*inset\\s+SUM\\s+$'), give: () => [...units, ...keywordItems('shape', ['except']), ...keywordItems('head', ['from']).map((item) => ({ ...item, insert: 'from ${1|cutting,stitching|}' }))] },
  { when: at('\\b(?:rectangle|ellipse)\\s+SUM\\s+by\\s+SUM\\s+$'), give: () => [...keywordItems('shape', ['at', 'centred at']), ...units] },
  { when: at('\\bcircle\\s+across\\s+SUM\\s+$'), give: () => [...keywordItems('shape', ['at', 'centred at']), ...units] },
  { when: at('\\b(?:rectangle|ellipse)\\s+SUM\\s+$'), give: () => [...keywordItems('formula', ['by']), ...units] },
  { when: at('\\b(?:rectangle|ellipse)\\s+$'), give: (names) => names.formula() },
];
const cutClauses: readonly Rule[] = [
  { when: at('\\balong\\s+$'), give: (names) => [...names.lines(), simple('cutting', 'line', 'the cutting line'), simple('stitching', 'line', 'the stitching line')] },
  { when: at('\\bwithout\\s+(?:NAME\\s+and\\s+)*$'), give: (names) => names.lines(undefined, 'window') },
  { when: at('\\bon\\s+$'), give: () => wordsOf(['fold', 'right side', 'wrong side'], 'keyword') },
  { when: at('\\bon\\s+(?:right|wrong)\\s+side\\s+of\\s+$'), give: (names) => names.of('material') },
  { when: at('\\bsized\\s+SUM\\s+$'), give: () => [...keywordItems('formula', ['by']), ...units] },
];

const rules: Readonly<Record<TextContext['block'], readonly Rule[]>> = {
  file: [
    { when: /^$/, give: () => keywordItems('file') },
    { when: /^unit\s+$/, give: () => wordsOf(['in', 'cm', 'mm'], 'unit') },
    { when: /^step\s+$/, give: () => wordsOf(['1/8', '1/16', '1/32', '0.5', '1']) },
    { when: /^drawn\s+$/, give: () => wordsOf(['to'], 'keyword') },
    { when: /^drawn\s+to\s+$/, give: () => wordsOf(['cutting', 'stitching']) },
    { when: at('^choice\\s+NAME\\s+$'), give: () => keywordItems('condition', ['is']) },
    { when: at('^(?:pattern|use|note|currency|issued|revision|sizes|choice|length|count|ratio|angle|area|thing|material|supply|piece)\\s+$'), give: () => [] },
    { when: /^(?:sizes|choice)\s/, give: () => [] },
    { when: at('^(?:length|count|ratio|angle|area)\\s+NAME\\s+$'), give: () => wordsOf(['=']) },
    ...condition,
    { when: at('^piece\\s+NAME\\s+(?:QUOTED\\s+)?from\\s+$'), give: (names) => names.of('piece') },
    { when: at('^piece\\s+NAME\\s+(?:QUOTED\\s+)?from\\s+(NAME).*\\b(?:above|below|left\\s+of|right\\s+of)\\s+$'), give: (names, [, parent]) => names.lines(parent) },
    { when: at('^piece\\s+NAME\\s+(?:QUOTED\\s+)?from\\s+NAME\\s+(?:.*\\s)?$'), give: () => keywordItems('head', ['above', 'below', 'left of', 'right of', 'mirrored', 'inset', 'when']) },
    { when: at('^piece\\s+NAME\\s+(?:QUOTED\\s+)?$'), give: () => keywordItems('head', ['from', 'when']) },
    { when: at('^supply\\s+NAME\\s+(?:QUOTED\\s+)?$'), give: () => keywordItems('head', ['when']) },
    { when: /^check\s+(?:.*[+*/-]\s*)?$/, give: (names) => names.formula() },
    { when: /\belse\s+$/, give: () => wordsOf(['error', 'warning', 'note'], 'keyword') },
    { when: at('^check\\s+NAME\\s+mates\\s+$'), give: (names) => names.of('piece') },
    { when: /\bholds\s+$/, give: (names) => [...names.of('thing'), ...names.formula()] },
    { when: /\bmatches\s+$/, give: (names) => names.formula() },
    { when: /\bclears\s+$/, give: (names) => names.of('piece', ['.']) },
    { when: /^check\s+.*\bholds\s+.+\s$/, give: () => keywordItems('check', ['with ease', 'when', 'else']) },
    { when: /^check\s+.*\bclears\s+\S+\s+$/, give: () => keywordItems('formula', ['by']) },
    { when: /^check\s+.*\bmatches\s+.*[\p{L}\p{N}_)%]\s+$/u, give: () => [...keywordItems('check', ['within', 'eased by', 'when', 'else']), ...units] },
    ...arms,
    afterNumber,
    { when: at('^check\\s+NAME\\s+$'), give: () => keywordItems('check', ['mates', 'holds', 'matches']) },
    { when: /^check\s+\S+\s+$/, give: () => keywordItems('check', ['matches', 'clears', 'holds']) },
    { when: at('^thing\\s+NAME\\s+(?:QUOTED\\s+)?=\\s*SUM\\s+$'), give: () => keywordItems('formula', ['by']) },
    { when: at('^allowance\\s+$'), give: (names) => [simple('none', 'word'), ...names.formula()] },
    { when: at('^allowance\\s+.*\\S\\s+$'), give: () => wordsOf(['mitred', 'bevelled', 'rounded']) },
    formulaStart,
    { when: at('^(?:length|count|ratio|angle|area)\\s+NAME\\s*=.*[\\p{L}\\p{N}_)]\\s+$'), give: () => keywordItems('formula', ['for', 'otherwise']) },
  ],
  piece: [
    { when: /^$/, give: () => keywordItems('piece') },
    { when: /^corner\s+$/, give: () => wordsOf(cornerWords, 'edge') },
    { when: at('^corner\\s+NAME\\s+$'), give: () => wordsOf(['round', 'chamfer', 'box'], 'keyword') },
    { when: /^(?:edge|notch|on\s+fold)\s+$/, give: (names) => names.edges() },
    { when: /^on\s+$/, give: () => wordsOf(['fold'], 'keyword') },
    { when: at('^edge\\s+NAME\\s+$'), give: () => keywordItems('piece', ['as']) },
    { when: at('^notch\\s+NAME\\s+$'), give: () => keywordItems('piece', ['at']) },
    { when: at('^notch\\s+NAME\\s+at\\s+SUM\\s+from\\s+$'), give: () => wordsOf(['start', 'end'], 'keyword') },
    { when: at('^notch\\s+NAME\\s+at\\s+SUM\\s+$'), give: () => [...wordsOf(['from start', 'from end'], 'keyword'), ...units] },
    { when: at('^(?:mark|drill)\\s+NAME\\s+$'), give: () => [...keywordItems('piece', ['at']), { ...simple('for snap', 'keyword'), insert: 'for snap ${1:14 mm} at ${2:1, 1}', isSnippet: true }] },
    { when: at('^(?:mark|drill)\\s+NAME\\s+for\\s+snap\\s+SUM\\s+$'), give: () => [...keywordItems('piece', ['at']), ...units] },
    { when: /^drawn\s+$/, give: () => wordsOf(['to'], 'keyword') },
    { when: /^drawn\s+to\s+$/, give: () => wordsOf(['cutting', 'stitching']) },
    { when: /^grain\s+$/, give: () => wordsOf(['up', 'across', 'bias', 'none']) },
    { when: at('^grain\\s+NAME\\s+$'), give: () => wordsOf(['or across'], 'keyword') },
    { when: /^allowance\s+$/, give: (names) => [...names.edges(), simple('none', 'word'), ...names.values()] },
    { when: at('^allowance\\s+NAME\\s+$'), give: (names) => [simple('none', 'word'), ...names.values()] },
    { when: at('^(?:edge|mark|drill|line|placement|foldline|window)\\s+(?:NAME\\s+as\\s+)?$'), give: () => [] },
    ...condition,
    { when: /^cut\s+$/, give: (names) => names.values('count') },
    { when: /^cut\s+[^\s"]+(?:\s+[+*/-]\s+[^\s"]+)*\s+$/, give: (names) => names.of('material') },
    ...cutClauses,
    ...shapes,
    { when: at('^cut\\s.*\\b(?:sized\\s+SUM\\s+by|large\\s+by)\\s+$'), give: (names) => names.formula() },
    { when: at('^cut\\s.*\\S\\s+$'), give: (_, [text]) => [...keywordItems('cut').filter(({ label }) => !text.includes(` ${label} `)), ...(/\d\s+$/.test(text) ? units : [])] },
    afterNumber,
    { when: at('^allowance\\s+.*\\S\\s+$'), give: () => wordsOf(['mitred', 'bevelled', 'rounded']) },
    formulaStart,
  ],
  path: [
    { when: /^$/, give: () => keywordItems('path', ['line to', 'arc to', 'curve to', 'close']) },
    { when: /^(?:line|arc|curve)\s+$/, give: () => wordsOf(['to'], 'keyword') },
    { when: /\bas\s+$/, give: () => [] },
    { when: /\bradius\s+\S.*\s$/, give: () => [...wordsOf(['left', 'right'], 'keyword'), ...units] },
    { when: /^arc\s+to\s+[^,]+,\s*\S.*(?:through\s+[^,]+,\s*\S.*)\s$/, give: () => [...keywordItems('path', ['as']), ...units] },
    { when: /^arc\s+to\s+[^,]+,\s*\S.*\s$/, give: () => [...keywordItems('path', ['through', 'radius']), ...units] },
    { when: /^curve\s+to\s+[^,]+,[^,]*\S\s+$/, give: () => [...keywordItems('formula', ['by']), ...units] },
    { when: /^(?:line\s+to\s+[^,]+,\s*\S.*|close)\s+$/, give: () => [...keywordItems('path', ['as']), ...units] },
    afterNumber,
    formulaStart,
  ],
  material: [
    { when: /^$/, give: () => keywordItems('material').filter(({ label }) => label !== 'usable' && label !== 'per') },
    { when: /^role\s+$/, give: () => wordsOf(roles) },
    { when: /^faces\s+$/, give: () => wordsOf(facings) },
    { when: /^direction\s+$/, give: () => wordsOf(directions) },
    { when: /^weight\s+$/, give: () => wordsOf(weights) },
    { when: /^bought\s+$/, give: () => wordsOf(['in lengths of', 'in panels of', 'in sheets of'], 'keyword') },
    { when: /\bper\s+$/, give: () => wordsOf(priceUnits, 'unit') },
    { when: /^price\s+\S.*\s$/, give: () => keywordItems('material', ['per']) },
    { when: /^width\s+\S[^u]*\s$/, give: () => [...units, ...keywordItems('material', ['usable'])] },
    { when: /^(?:shrinks|bought\s+in\s+(?:panels|sheets)\s+of)\s+\S.*\s$/, give: () => [...keywordItems('formula', ['by']), ...units] },
    afterNumber,
    formulaStart,
  ],
  supply: [
    { when: /^$/, give: () => keywordItems('supply').filter(({ label }) => label !== 'per') },
    { when: /^kind\s+$/, give: () => wordsOf(supplyKinds) },
    { when: /^from\s+$/, give: () => wordsOf(['closed', 'tape'], 'keyword') },
    { when: /^at\s+(?:.*,\s*)?$/, give: (names) => names.of('piece', ['.']) },
    { when: /^fits\s+$/, give: (names) => names.of('supply') },
    { when: /^bought\s+$/, give: () => wordsOf(['in lengths of', 'in panels of', 'in sheets of'], 'keyword') },
    { when: /\bper\s+$/, give: () => wordsOf(priceUnits, 'unit') },
    { when: /^price\s+\S.*\s$/, give: () => keywordItems('supply', ['per']) },
    ...arms,
    afterNumber,
    { when: /^(?:count|finished|across|length|from\s+(?:closed|tape))\s+$/, give: (names) => names.formula() },
    formulaStart,
  ],
};

function statementItems(names: Names, { block, before }: TextContext): readonly Item[] {
  for (const { when, give } of rules[block]) {
    const match = when.exec(before);
    if (match !== null) return give(names, match);
  }
  return [];
}
