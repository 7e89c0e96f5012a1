import { resolvePath } from '../model/names/paths.ts';
import { functions } from '../model/formulas/evaluate.ts';
import { cornerWords, directions, facings, priceUnits, reservedWords, roles, supplyKinds, weights } from '../syntax/statements/vocabulary.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { lineMeasures, pieceMeasures } from '../model/formulas/reference.ts';
import { supplyMeasures } from '../model/stock/supply.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { aboutEdge, aboutName } from './completion-documentation.ts';
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
      tree.kind === kind ? [simple(tree.name.text, kind, tree.title?.value ?? '', aboutName(this.snapshot, tree.name.text), commit)] : []);
  }

  values(only?: 'count'): readonly Item[] {
    return [...this.snapshot.pattern.world.names.values()].flatMap(({ tree, text }) =>
      tree.kind === 'value' && (only === undefined || tree.of === only)
        ? [simple(tree.name.text, 'value', `${tree.of} = ${text.slice(tree.value.start, tree.value.end)}`, aboutName(this.snapshot, tree.name.text))] : []);
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
    const shape = this.shape(name);
    const edges = shape?.drawn.edges.map((edge) => edge.name) ?? [];
    return (edges.length > 0 ? edges : ['top', 'bottom', 'left', 'right']).filter((edge) => !edge.endsWith('_twin'))
      .map((edge) => simple(edge, 'edge', '', aboutEdge(this.snapshot, shape, edge)));
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
const inBrackets = '\\((?:[^()"]|\\([^()"]*\\))*\\)';
const ending = [...reservedWords].filter((word) => !(units.some((unit) => unit.label === word))).join('|');
/** A formula without words in it that would end it, and that is whole so far. */
const sum = `(?:${inBrackets}|(?!\\b(?:${ending})\\b)[^",{}()])+?(?<![-+*/(\\s])`;
const position = `${sum}\\s*,\\s*${sum}`;
const at = (pattern: string): RegExp => new RegExp(pattern.replaceAll('NAME', name).replaceAll('QUOTED', quoted).replaceAll('SUM', sum).replaceAll('POSITION', position), 'u');

/** Where a number has just been written, a unit may follow. */
const afterNumber: Rule = { when: /(?:^|[\s(+*/,=-])[\d.¼-¾⅓-⅞][\d\s/.¼-¾⅓-⅞]*$/u, give: () => units };
const unitsAfter = ({ input }: RegExpExecArray): readonly Item[] => (afterNumber.when.test(input) ? units : []);
/** What stands in quotes is for the designer to say. */
const beforeText: Rule = { when: /\bnote\s+$/, give: () => [] };
const formula = (names: Names): readonly Item[] => names.formula();
const joins: readonly Rule[] = [
  { when: /^allowance\s.*\bmitred\s+$/, give: () => wordsOf(['limit'], 'keyword') },
  { when: /^allowance\s.*\blimit\s+$/, give: formula },
  { when: /^allowance\s.*\b(?:mitred|bevelled|rounded)\s/, give: () => [] },
  { when: at('^allowance\\s+(?:NAME\\s+)?SUM\\s+$'), give: (_, match) => [...wordsOf(['mitred', 'bevelled', 'rounded']), ...unitsAfter(match)] },
];
const condition: readonly Rule[] = [
  { when: at('\\b(NAME)\\s+is\\s+(?:not\\s+)?(?:NAME\\s+or\\s+)*$'), give: (names, [text, choice]) => [...names.options(choice), ...(/\bis\s+$/.test(text) ? keywordItems('condition', ['not']) : [])] },
  { when: at('\\bwhen\\s+.*\\bis\\s+(?:not\\s+)?(?:NAME\\s+or\\s+)*NAME\\s+$'), give: (_, { input }) => [...keywordItems('condition', ['and', 'or']), ...(input.startsWith('check') ? keywordItems('check', ['else']) : [])] },
  { when: at('\\b(?:when|and|or|not)\\s+\\(?\\s*$'), give: (names) => names.condition() },
  { when: at('\\bwhen\\s+(?:.*\\b(?:and|or|not)\\s+)?(NAME)\\s+$'), give: (names, [, choice]) =>
    (names.snapshot.pattern.choices.has(choice ?? '') ? keywordItems('condition', ['is']) : wordsOf(['<', '<=', '=', '!=', '>=', '>'])) },
];
const snap = (words: string): Item => ({ ...simple(words, 'keyword'), insert: `${words} \${1:14 mm} at \${2:1, 1}`, isSnippet: true });
const formulaStart: Rule = { when: /(?:[=(+*/,<>-]|\b(?:by|within|ease|inset|at|of|across|large by|sized|round|chamfer|box|radius|usable|per|to|from|through))\s*$/u, give: (names) => names.formula() };
const arms: readonly Rule[] = [
  { when: at('\\bfor\\s+$'), give: (names) => [...names.options(), ...names.choices()] },
  { when: at('\\bfor\\s+(NAME)\\s+$'), give: (names, [, choice]) => (names.snapshot.pattern.choices.has(choice ?? '') ? names.options(choice) : []) },
];
const shapes: readonly Rule[] = [
  { when: /\b(?:level|upright|centred)\s+$/, give: () => wordsOf(['at'], 'keyword') },
  { when: /\bcircle\s+$/, give: () => wordsOf(['across'], 'keyword') },
  { when: /\b(?:polygon|path)\s+$/, give: () => wordsOf(['from'], 'keyword') },
  { when: at('\\bexcept\\s+(?:.*,\\s*)?$'), give: (names) => names.edges() },
  { when: at('^(?:outline|(?:line|placement|foldline|window)\\s+NAME\\s*=)\\s*$'), give: (_, [text]) =>
    keywordItems('shape', ['rectangle', 'circle across', 'ellipse', 'polygon from', 'path from', ...(text.startsWith('outline') ? [] : ['inset', 'level at', 'upright at'])]) },
  { when: at('\\binset\\s+SUM\\s+from\\s+$'), give: () => wordsOf(['cutting', 'stitching']) },
  { when: at('=\\s*inset\\s+SUM\\s+$'), give: (_, match) => [...unitsAfter(match), ...keywordItems('shape', ['except']), ...keywordItems('head', ['from']).map((item) => ({ ...item, insert: 'from ${1|cutting,stitching|}' }))] },
  { when: at('\\b(?:rectangle|ellipse)\\s+SUM\\s+by\\s+SUM\\s+$'), give: (_, match) => [...keywordItems('shape', ['at', 'centred at']), ...unitsAfter(match)] },
  { when: at('\\bcircle\\s+across\\s+SUM\\s+$'), give: (_, match) => [...keywordItems('shape', ['at', 'centred at']), ...unitsAfter(match)] },
  { when: at('\\b(?:rectangle|ellipse)\\s+SUM\\s+$'), give: (_, match) => [...keywordItems('formula', ['by']), ...unitsAfter(match)] },
  { when: at('\\b(?:rectangle|ellipse)\\s+$'), give: (names) => names.formula() },
];
const cutClauses: readonly Rule[] = [
  { when: at('\\balong\\s+$'), give: (names) => [...names.lines(), simple('cutting', 'line', 'the cutting line'), simple('stitching', 'line', 'the stitching line')] },
  { when: at('\\bwithout\\s+(?:NAME\\s+and\\s+)*$'), give: (names) => names.lines(undefined, 'window') },
  { when: at('\\bon\\s+$'), give: () => wordsOf(['fold', 'right side', 'wrong side'], 'keyword') },
  { when: /\bon\s+(?:right|wrong)\s+$/, give: () => wordsOf(['side'], 'keyword') },
  { when: /\blarge\s+$/, give: () => wordsOf(['by'], 'keyword') },
  { when: at('\\bon\\s+(?:right|wrong)\\s+side\\s+of\\s+$'), give: (names) => names.of('material') },
  { when: at('^cut\\s.*\\b(?:sized(?:\\s+SUM\\s+by)?|large\\s+by)\\s+$'), give: formula },
  { when: at('\\bsized\\s+SUM\\s+$'), give: (_, match) => [...keywordItems('formula', ['by']), ...unitsAfter(match)] },
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
    { when: /^(?:sizes|choice|revision|issued)\s/, give: () => [] },
    { when: at('^(?:length|count|ratio|angle|area)\\s+NAME\\s+$'), give: () => wordsOf(['=']) },
    ...joins,
    ...condition,
    { when: at('^piece\\s+NAME\\s+(?:QUOTED\\s+)?from\\s+$'), give: (names) => names.of('piece') },
    { when: at('^piece\\s+NAME\\s+(?:QUOTED\\s+)?from\\s+(NAME).*\\b(?:above|below|left\\s+of|right\\s+of)\\s+$'), give: (names, [, parent]) => names.lines(parent) },
    { when: at('^piece\\s+NAME\\s+(?:QUOTED\\s+)?from\\s+NAME\\s.*\\b(?:left|right)\\s+$'), give: () => wordsOf(['of'], 'keyword') },
    { when: at('^piece\\s+NAME\\s+(?:QUOTED\\s+)?from\\s+NAME\\s.*\\binset\\s+$'), give: formula },
    { when: at('^piece\\s+NAME\\s+(?:QUOTED\\s+)?from\\s+NAME\\s+(?:.*[\\p{L}\\p{M}\\p{N}_)]\\s+)?$'), give: () => keywordItems('head', ['above', 'below', 'left of', 'right of', 'mirrored', 'inset', 'when']) },
    { when: at('^piece\\s+NAME\\s+(?:QUOTED\\s+)?$'), give: () => keywordItems('head', ['from', 'when']) },
    { when: at('^supply\\s+NAME\\s+(?:QUOTED\\s+)?$'), give: () => keywordItems('head', ['when']) },
    { when: /^check\s+(?:.*[+*/-]\s*)?$/, give: (names) => names.formula() },
    { when: /^check\s.*\belse\s+\S/, give: () => [] },
    { when: /\belse\s+$/, give: () => wordsOf(['error', 'warning', 'note'], 'keyword') },
    { when: at('^check\\s+NAME\\s+mates\\s+$'), give: (names) => names.of('piece') },
    { when: /\bholds\s+$/, give: (names) => [...names.of('thing'), ...names.formula()] },
    { when: /\bmatches\s+$/, give: (names) => names.formula() },
    { when: /\bclears\s+$/, give: (names) => names.of('piece', ['.']) },
    { when: /^check\s.*\bwith\s+$/, give: () => wordsOf(['ease'], 'keyword') },
    { when: /^check\s.*\beased\s+$/, give: () => wordsOf(['by'], 'keyword') },
    { when: at('^check\\s.*\\bclears\\s+\\S+\\s+$'), give: () => keywordItems('formula', ['by']) },
    { when: at('^check\\s.*\\bholds\\s+(?:NAME|SUM\\s+by\\s+SUM)\\s+$'), give: (_, match) => [...keywordItems('check', ['with ease', 'when', 'else']), ...unitsAfter(match)] },
    { when: at('^check\\s.*\\bholds\\s+SUM\\s+$'), give: (_, match) => [...keywordItems('formula', ['by']), ...unitsAfter(match)] },
    { when: at('^check\\s.*\\bmatches\\s+SUM\\s+$'), give: (_, match) => [...keywordItems('check', ['within', 'eased by', 'when', 'else']), ...unitsAfter(match)] },
    { when: at('^check\\s.*\\beased\\s+by\\s+SUM\\s+$'), give: (_, match) => [...keywordItems('check', ['within', 'when', 'else']), ...unitsAfter(match)] },
    { when: at('^check\\s.*(?:\\bwithin\\s+SUM|\\bwith\\s+ease\\s+SUM|\\bclears\\s+\\S+\\s+by\\s+SUM|\\bmates\\s+NAME|\\sis\\s+(?:not\\s+)?NAME|[<>=](?!=)\\s*SUM)\\s+$'), give: (_, match) => [...keywordItems('check', ['when', 'else']).filter(({ label }) => !match.input.includes(` ${label} `)), ...unitsAfter(match)] },
    ...arms,
    afterNumber,
    { when: at('^check\\s+NAME\\s+$'), give: () => keywordItems('check', ['mates', 'holds', 'matches']) },
    { when: /^check\s+\S+\s+$/, give: () => keywordItems('check', ['matches', 'clears', 'holds']) },
    { when: at('^thing\\s+NAME\\s+(?:QUOTED\\s+)?=\\s*SUM\\s+$'), give: () => keywordItems('formula', ['by']) },
    { when: at('^allowance\\s+$'), give: (names) => [simple('none', 'word'), ...names.formula()] },
    formulaStart,
    { when: /\botherwise\s+$/, give: () => [] },
    { when: at('^(?:length|count|ratio|angle|area)\\s+NAME\\s*=.*\\bfor\\s+NAME(?:\\s+NAME)?\\s+$'), give: () => [] },
    { when: at('^(?:length|count|ratio|angle|area)\\s+NAME\\s*=.*\\bfor\\b.*,.*[\\p{L}\\p{N}_)]\\s+$'), give: () => keywordItems('formula', ['for', 'otherwise']) },
    { when: at('^(?:length|count|ratio|angle|area)\\s+NAME\\s*=.*[\\p{L}\\p{N}_)]\\s+$'), give: () => keywordItems('formula', ['for']) },
  ],
  piece: [
    { when: /^$/, give: () => keywordItems('piece').filter(({ label }) => label !== 'as' && label !== 'at') },
    beforeText,
    { when: /^corner\s+$/, give: () => wordsOf(cornerWords, 'edge') },
    { when: at('^corner\\s+NAME\\s+$'), give: () => wordsOf(['round', 'chamfer', 'box'], 'keyword') },
    { when: /^(?:edge|notch|on\s+fold)\s+$/, give: (names) => names.edges() },
    { when: /^on\s+$/, give: () => wordsOf(['fold'], 'keyword') },
    { when: at('^edge\\s+NAME\\s+$'), give: () => keywordItems('piece', ['as']) },
    { when: at('^notch\\s+NAME\\s+$'), give: () => keywordItems('piece', ['at']).map((item) => ({ ...item, insert: 'at ${1:50%}' })) },
    { when: at('^notch\\s+NAME\\s+at\\s+SUM\\s+from\\s+$'), give: () => wordsOf(['start', 'end'], 'keyword') },
    { when: at('^notch\\s+NAME\\s+at\\s+SUM\\s+$'), give: (_, match) => [...wordsOf(['from start', 'from end'], 'keyword'), ...unitsAfter(match)] },
    { when: at('^(?:mark|drill)\\s+NAME\\s+$'), give: () => [...keywordItems('piece', ['at']), snap('for snap')] },
    { when: at('^(?:mark|drill)\\s+NAME\\s+for\\s+$'), give: () => [snap('snap')] },
    { when: at('^(?:mark|drill)\\s+NAME\\s+for\\s+snap\\s+SUM\\s+$'), give: (_, match) => [...keywordItems('piece', ['at']), ...unitsAfter(match)] },
    { when: /^drawn\s+$/, give: () => wordsOf(['to'], 'keyword') },
    { when: /^drawn\s+to\s+$/, give: () => wordsOf(['cutting', 'stitching']) },
    { when: /^grain\s+$/, give: () => wordsOf(['up', 'across', 'bias', 'none']) },
    { when: at('^grain\\s+NAME\\s+$'), give: () => wordsOf(['or across'], 'keyword') },
    { when: at('^grain\\s+SUM\\s+or\\s+$'), give: () => wordsOf(['across'], 'keyword') },
    { when: at('^grain\\s+SUM\\s+or\\s'), give: () => [] },
    { when: /^allowance\s+$/, give: (names) => [...names.edges(), simple('none', 'word'), ...names.values()] },
    { when: at('^allowance\\s+NAME\\s+$'), give: (names) => [simple('none', 'word'), ...names.values()] },
    { when: at('^(?:edge|mark|drill|line|placement|foldline|window)\\s+(?:NAME\\s+as\\s+)?$'), give: () => [] },
    ...joins,
    ...condition,
    { when: /^cut\s+$/, give: (names) => names.values('count') },
    { when: /^cut\s+[^\s"]+(?:\s+[+*/-]\s+[^\s"]+)*\s+$/, give: (names) => names.of('material') },
    ...cutClauses,
    ...shapes,
    { when: at('^cut\\s.*[\\p{L}\\p{M}\\p{N}_)"]\\s+$'), give: (_, match) => [...keywordItems('cut').filter(({ label }) => label === 'note' || !match.input.includes(` ${label} `)), ...unitsAfter(match)] },
    afterNumber,
    formulaStart,
  ],
  path: [
    { when: /^$/, give: () => keywordItems('path', ['line to', 'arc to', 'curve to', 'close']) },
    { when: /^(?:line|arc|curve)\s+$/, give: () => wordsOf(['to'], 'keyword') },
    { when: at('\\bas\\s+(?:NAME\\s+)?$'), give: () => [] },
    { when: at('\\bradius\\s+SUM\\s+(?:left|right)\\s+$'), give: () => keywordItems('path', ['as']) },
    { when: /\bradius\s+$/, give: formula },
    { when: at('\\bradius\\s+SUM\\s+$'), give: (_, match) => [...wordsOf(['left', 'right'], 'keyword'), ...unitsAfter(match)] },
    { when: at('^arc\\s+to\\s+POSITION\\s+$'), give: (_, match) => [...keywordItems('path', ['through', 'radius']), ...unitsAfter(match)] },
    { when: at('^curve\\s+to\\s+POSITION\\s+$'), give: (_, match) => [...keywordItems('formula', ['by']), ...unitsAfter(match)] },
    { when: at('^curve\\s+to\\s+POSITION\\s+by\\s+POSITION\\s+$'), give: (_, match) => [...wordsOf(['and'], 'keyword'), ...unitsAfter(match)] },
    { when: at('^(?:close|line\\s+to\\s+POSITION|arc\\s+to\\s+POSITION\\s+through\\s+POSITION|curve\\s+to\\s+POSITION\\s+by\\s+POSITION\\s+and\\s+POSITION)\\s+$'), give: (_, match) => [...keywordItems('path', ['as']), ...unitsAfter(match)] },
    { when: /\band\s+$/, give: formula },
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
    { when: /\bper\s+\S+\s+$/, give: () => [] },
    { when: at('^price\\s+SUM\\s+$'), give: () => keywordItems('material', ['per']) },
    { when: at('^width\\s+(?!.*\\busable\\b)SUM\\s+$'), give: (_, match) => [...unitsAfter(match), ...keywordItems('material', ['usable'])] },
    { when: at('^(?:shrinks|bought\\s+in\\s+(?:panels|sheets)\\s+of)\\s+SUM\\s+$'), give: (_, match) => [...keywordItems('formula', ['by']), ...unitsAfter(match)] },
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
    { when: /\bper\s+\S+\s+$/, give: () => [] },
    { when: at('^price\\s+SUM\\s+$'), give: () => keywordItems('supply', ['per']) },
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
