import fc from 'fast-check';
import { reservedWords } from '../../server/src/syntax/statements/vocabulary.ts';
import type {
  Anchor, Block, Bound, CheckRule, Condition, CutClause, DeclarationTree, Expression, MaterialStatement, Name, Node, NumberLiteral, Part, PathStep,
  PieceStatement, Position, Quoted, Sentence, Reference, RunPart, Shape, Statement, SupplyStatement, Trivia,
} from '../../server/src/syntax/tree.ts';

/**
 * Any tree that some text could be read as, without positions: every kind of statement, clause, shape and formula. What
 * no text can say (a product of sums without brackets, a name that is a reserved word) is left out.
 */
const at: Node = { start: 0, end: 0 };

/** Names that are words of the language elsewhere, which a name may well be. */
const tricky = ['cut', 'twins', 'mirrored', 'length', 'line', 'fold', 'limit', 'holds', 'mates', 'side', 'piece', 'close', 'note', 'inset'];
const plain = fc.stringMatching(/^[a-z_][a-z0-9_]{0,6}$/);
const foreign = fc.constantFrom('größe', 'łatka', 'наклад', 'あて布', 'e\u0301toile');

const text = fc.oneof({ weight: 6, arbitrary: plain }, { weight: 1, arbitrary: foreign }, { weight: 2, arbitrary: fc.constantFrom(...tricky) }).filter((one) => !reservedWords.has(one));
export const name: fc.Arbitrary<Name> = text.map((one) => ({ ...at, text: one }));
/** A name that is no word of the place that it stands in. */
const nameBut = (...words: readonly string[]): fc.Arbitrary<Name> => name.filter((one) => !words.includes(one.text));
const quoted: fc.Arbitrary<Quoted> = fc
  .oneof(fc.string({ unit: 'grapheme', maxLength: 12 }), fc.constantFrom('a "b" \\ c', 'two\nlines', '# { } ,', '🧵', '\\n', '\\'))
  .map((value) => ({ ...at, value: value.replace(/\r/g, '') }));

/** Drops absent parts, as the reader does. */
function present<T extends object>(fields: T): T {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T;
}
const maybe = <T>(arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(arbitrary, { nil: undefined });
const some = <T>(arbitrary: fc.Arbitrary<T>, most = 4): fc.Arbitrary<readonly T[]> => fc.array(arbitrary, { minLength: 1, maxLength: most });
/** A record of arbitraries as the nodes of one kind. */
const made = <T>(fields: { readonly [Key in keyof T]: fc.Arbitrary<T[Key]> }): fc.Arbitrary<T> => fc.record(fields).map((one) => present({ ...at, ...(one as object) }) as T);
const as = <T>(value: T): fc.Arbitrary<T> => fc.constant(value);

// ------------------------------------------------------------------------------------------------ formulas

const digits = fc.oneof(
  fc.nat(99).map(String),
  fc.tuple(fc.nat(20), fc.constantFrom('1/2', '3/8', '15/16')).map(([whole, part]) => `${whole} ${part}`),
  fc.constantFrom('1/4', '7.25', '.5', '½', '7½', '7 ¾', '18.50', '007'),
);
export const number: fc.Arbitrary<NumberLiteral> = fc.record({ digits, unit: maybe(fc.constantFrom('in', 'cm', 'mm', 'm', 'yd', 'ft', 'deg', '%')) })
  .map((one) => present({ kind: 'number', ...at, ...one }) as NumberLiteral);
const plainNumber: fc.Arbitrary<NumberLiteral> = digits.map((one) => ({ kind: 'number', ...at, digits: one }));
const referenceFrom = (first: fc.Arbitrary<Name>): fc.Arbitrary<Reference> =>
  fc.tuple(first, fc.array(fc.oneof(name, fc.constantFrom('in', 'by', 'to').map((word) => ({ ...at, text: word }))), { maxLength: 2 })).map(([head, rest]) => ({ kind: 'reference', ...at, path: [head, ...rest] }));
export const reference = referenceFrom(name);

// An alias: an interface doesn't count as the record of names that letrec wants.
type Formulas = Record<'full' | 'sum' | 'product' | 'factor', Expression>;
const chained = (first: fc.Arbitrary<Expression>, operators: readonly ('+' | '-' | '*' | '/')[]): fc.Arbitrary<Expression> =>
  fc.tuple(first, fc.oneof({ weight: 4, arbitrary: as([]) }, { weight: 1, arbitrary: fc.array(fc.tuple(fc.constantFrom(...operators), first), { minLength: 1, maxLength: 2 }) }))
    .map(([head, rest]) => (rest as [('+' | '-' | '*' | '/'), Expression][]).reduce<Expression>((left, [operator, right]) => ({ kind: 'binary', operator, left, right, ...at }), head));

export const formulas = fc.letrec<Formulas>((tie) => ({
  full: fc.oneof({ weight: 3, arbitrary: tie('sum') }, { weight: 1, arbitrary: fc.tuple(tie('sum'), some(fc.record({ value: tie('sum'), option: maybe(name), choice: maybe(name) }), 3))
    .map(([value, arms]): Expression => ({
      kind: 'selection', ...at,
      arms: arms.map((arm, index) => ({
        ...at,
        value: index === 0 ? value : arm.value,
        ...(arm.option === undefined && index > 0 ? {} : { option: arm.option ?? { ...at, text: 's' } }),
        ...(arm.choice === undefined || arm.option === undefined ? {} : { choice: arm.choice }),
      })),
    })) }),
  sum: chained(tie('product'), ['+', '-']),
  product: chained(tie('factor'), ['*', '/']),
  factor: fc.oneof(
    { maxDepth: 3, depthIdentifier: 'formula', withCrossShrink: true },
    number,
    reference,
    tie('full').map((inner): Expression => ({ kind: 'group', ...at, inner })),
    tie('factor').map((operand): Expression => ({ kind: 'negation', ...at, operand })),
    fc.tuple(name, tie('sum'), fc.array(tie('sum'), { maxLength: 2 }), maybe(tie('full'))).map(([of, first, rest, last]): Expression =>
      ({ kind: 'call', ...at, name: of, arguments: [first, ...rest, ...(last === undefined ? [] : [last])] })),
  ),
}));
export const sum = formulas.sum;
export const full = formulas.full;

/** The first thing that a formula says. */
function head(node: Expression): Expression {
  return node.kind === 'binary' ? head(node.left) : node.kind === 'selection' ? head(node.arms[0]?.value ?? node) : node;
}
const startsWith = (node: Expression, ...wordsThere: readonly string[]): boolean => {
  const first = head(node);
  return (first.kind === 'reference' && wordsThere.includes(first.path[0]?.text ?? '')) || (first.kind === 'call' && wordsThere.includes(first.name.text));
};
/** After a name, what begins with a minus or a bracket would be read as one formula with it. */
const afterName = sum.filter((node) => head(node).kind !== 'negation');

// ------------------------------------------------------------------------------------------------ conditions

type Conditions = Record<'or' | 'and' | 'not', Condition>;
const logical = (operator: 'and' | 'or', part: fc.Arbitrary<Condition>): fc.Arbitrary<Condition> =>
  fc.array(part, { minLength: 1, maxLength: 2 }).map((parts) => parts.reduce((left, right): Condition => ({ kind: 'logical', operator, left, right, ...at })));
const conditions = fc.letrec<Conditions>((tie) => ({
  or: logical('or', tie('and')),
  and: logical('and', tie('not')),
  not: fc.oneof(
    { maxDepth: 2, depthIdentifier: 'condition' },
    made<Condition & { kind: 'is' }>({ kind: as('is' as const), start: as(0), end: as(0), choice: name, negated: fc.boolean(), options: some(name, 3) }),
    made<Condition & { kind: 'comparison' }>({ kind: as('comparison' as const), start: as(0), end: as(0), operator: fc.constantFrom('<', '<=', '>', '>=', '=', '!='), left: sum, right: sum }),
    tie('not').map((operand): Condition => ({ kind: 'not', ...at, operand })),
    tie('or').map((inner): Condition => ({ kind: 'condition group', ...at, inner })),
  ),
}));
export const condition = conditions.or;

/** A text with a formula in it or without. */
const sentence: fc.Arbitrary<Sentence> = fc.tuple(quoted, maybe(sum), quoted).map(([before, formula, after]) => ({
  ...at, parts: (formula === undefined ? [before.value] : [before.value, formula, after.value]).filter((part) => part !== ''),
}));

// ------------------------------------------------------------------------------------------------ shapes

const position: fc.Arbitrary<Position> = made<Position>({ start: as(0), end: as(0), x: sum, y: sum });
const anchor: fc.Arbitrary<Anchor> = made<Anchor>({ start: as(0), end: as(0), by: fc.constantFrom('corner', 'middle'), position });
const line = fc.constantFrom('cutting' as const, 'stitching' as const);
const points = fc.array(position, { minLength: 2, maxLength: 4 });

const shapeWithoutBlock: fc.Arbitrary<Shape> = fc.oneof(
  fc.record({ width: sum, height: sum, anchor: maybe(anchor) }).map((one): Shape => present({ kind: 'rectangle', ...at, ...one }) as Shape),
  fc.record({ width: sum, height: maybe(sum), part: maybe(fc.record({ from: sum, to: sum, throughMiddle: fc.boolean() })), anchor: maybe(anchor) }).map((one): Shape => present({ kind: 'round', ...at, ...one }) as Shape),
  points.map((one): Shape => ({ kind: 'polygon', ...at, points: one })),
  points.map((one): Shape => ({ kind: 'open', ...at, points: one })),
  fc.record({ distance: sum, except: fc.array(fc.record({ edge: name, distance: sum }), { maxLength: 2 }), of: maybe(line) }).map((one): Shape => present({ kind: 'inset', ...at, ...one }) as Shape),
  fc.record({ way: fc.constantFrom('level' as const, 'upright' as const), at: sum }).map((one): Shape => ({ kind: 'across', ...one, ...at })),
);

// ------------------------------------------------------------------------------------------------ what stands around

const commentText = fc.oneof(fc.constantFrom('#', '# a note', '#x "y" { }', '# 🧵'), fc.stringMatching(/^# [a-z ,{}"]{0,12}[a-z]$/));
const comment = fc.option(commentText, { nil: undefined, freq: 3 });
const commentLines: fc.Arbitrary<readonly Trivia[]> = fc.array(fc.record({ text: commentText, blankBefore: fc.boolean() }), { maxLength: 2 })
  .map((lines) => lines.flatMap(({ text: own, blankBefore }, index): Trivia[] => [...(blankBefore && index > 0 ? [{ kind: 'blank' } as const] : []), { kind: 'comment', text: own }]));
const leading: fc.Arbitrary<readonly Trivia[]> = fc.tuple(fc.boolean(), commentLines, fc.boolean())
  .map(([before, lines, after]): readonly Trivia[] => [...(before ? [{ kind: 'blank' } as const] : []), ...lines, ...(after && lines.length > 0 ? [{ kind: 'blank' } as const] : [])]);

type Own<S extends Statement> = S extends Statement ? Omit<S, keyof Statement> : never;
/** A statement, with comments and blank lines around it. */
function around<S extends Statement>(own: fc.Arbitrary<Own<S>>): fc.Arbitrary<S> {
  return fc.tuple(own, leading, comment).map(([one, before, after]) => present({ ...one, ...at, leading: before, comment: isOpen(one) ? undefined : after }) as unknown as S);
}
/** After a quote left open there is no comment that could be told from the text. */
const isOpen = (one: object): boolean => 'text' in one && one.text === 'note "open';
const broken = fc.constantFrom('cutt 2 canvas', '12 of', 'cut 1', 'note "open', 'piece {\n    odd\n      # lines\n}', '?', '\u00a0').map((own) => ({ kind: 'broken' as const, text: own }));

/** What begins a block can't be blank, nor can what ends it. */
const trimmed = (trivia: readonly Trivia[]): readonly Trivia[] => trivia.slice(trivia[0]?.kind === 'blank' ? 1 : 0);
function block<S extends Statement>(statement: fc.Arbitrary<S>): fc.Arbitrary<Block<S>> {
  return fc.tuple(fc.array(statement, { maxLength: 4 }), commentLines, comment, fc.boolean()).map(([statements, trailing, opening, blank]) => present({
    ...at,
    statements: statements.map((one, index) => (index === 0 ? { ...one, leading: trimmed(one.leading) } : one)),
    trailing: blank && statements.length > 0 && trailing.length > 0 ? [{ kind: 'blank' as const }, ...trailing] : trailing,
    opening, closed: true,
  }) as Block<S>);
}

const pathStep: fc.Arbitrary<PathStep> = around<PathStep>(fc.oneof(
  fc.record({ kind: as('line step' as const), to: position, name: maybe(name) }),
  fc.record({ kind: as('arc step' as const), to: position, through: position, name: maybe(name) }),
  fc.record({ kind: as('arc step' as const), to: position, radius: fc.record({ length: sum, turn: fc.constantFrom('left' as const, 'right' as const) }), name: maybe(name) }),
  fc.record({ kind: as('curve step' as const), to: position, control1: position, control2: position, name: maybe(name) }),
  fc.record({ kind: as('close step' as const), name: maybe(name) }),
  // A line of the piece ends the path.
  broken.filter((one) => !/^(?:cut|note) /.test(one.text)),
).map((one) => present(one) as Own<PathStep>));
const shape: fc.Arbitrary<Shape> = fc.oneof({ weight: 4, arbitrary: shapeWithoutBlock }, {
  weight: 1,
  arbitrary: fc.record({ from: position, steps: block(pathStep) }).map((one): Shape => ({ kind: 'path', ...at, ...one })),
});

// ------------------------------------------------------------------------------------------------ statements

const join = maybe(fc.oneof(
  maybe(sum).map((limit) => present({ kind: 'mitred' as const, limit })),
  as({ kind: 'bevelled' as const }),
  as({ kind: 'turned' as const }),
  as({ kind: 'rounded' as const }),
));
const allowance = fc.record({ kind: as('allowance' as const), edge: maybe(nameBut('none')), size: maybe(afterName.filter((one) => !startsWith(one, 'none', 'mitred', 'bevelled', 'rounded', 'turned'))), join });
/** The pattern's own, which names no edge. */
const usualAllowance = allowance.map(({ kind, size, join: own }) => ({ kind, size, join: own }));
const drawn = fc.record({ kind: as('drawn' as const), to: line });
const note = fc.record({ kind: as('note' as const), text: sentence });
const clause: fc.Arbitrary<CutClause> = fc.oneof(
  name.map((one) => ({ kind: 'along' as const, ...at, line: one })),
  as({ kind: 'twins' as const, ...at }),
  as({ kind: 'into the seam' as const, ...at }),
  as({ kind: 'way up' as const, ...at }),
  as({ kind: 'mirrored' as const, ...at }),
  as({ kind: 'fold' as const, ...at }),
  fc.record({ side: fc.constantFrom('right' as const, 'wrong' as const), of: maybe(name) }).map((one) => present({ kind: 'side' as const, ...at, ...one }) as CutClause),
  some(name, 3).map((windows) => ({ kind: 'without' as const, ...at, windows })),
  fc.record({ width: sum, height: sum }).map((one) => ({ kind: 'sized' as const, ...at, ...one })),
  sum.map((by) => ({ kind: 'large' as const, ...at, by })),
  condition.map((one) => ({ kind: 'when' as const, ...at, condition: one })),
  sentence.map((one) => ({ kind: 'note' as const, ...at, text: one })),
);
const turns = ['up', 'across', 'bias', 'none'] as const;

export const pieceStatement: fc.Arbitrary<PieceStatement> = around<PieceStatement>(fc.oneof(
  fc.record({ kind: as('outline' as const), shape }),
  fc.record({ kind: as('corner' as const), which: name, treatment: as('round' as const), size: sum }),
  fc.record({ kind: as('corner' as const), which: name, treatment: fc.constantFrom('chamfer' as const, 'box' as const), size: sum, size2: maybe(sum) }),
  fc.record({ kind: as('edge' as const), edge: name, name, title: maybe(quoted) }),
  fc.record({ kind: as('edge title' as const), edge: name, title: quoted }),
  fc.record({ kind: as('pleat' as const), name, title: maybe(quoted), edge: name, at: sum, depth: sum, towards: fc.constantFrom('start' as const, 'end' as const), stitched: maybe(sum) }),
  fc.record({ kind: as('topstitch' as const), name, title: maybe(quoted), distance: sum.filter((one) => !startsWith(one, 'along')), edges: some(name, 3) }),
  fc.record({ kind: as('topstitch' as const), name, title: maybe(quoted), lines: some(name, 3) }),
  fc.record({ kind: as('quilt' as const), name, title: maybe(quoted), distance: sum, line: name }),
  fc.record({ kind: as('edge finish' as const), edge: name, finish: as('hemmed' as const), size: sum, supply: maybe(name) }),
  fc.record({ kind: as('edge finish' as const), edge: name, finish: as('bound' as const), supply: maybe(name) }),
  fc.record({ kind: as('edge finish' as const), edge: name, finish: as('takes' as const), supply: name }),
  fc.record({ kind: as('edge finish' as const), edge: name, finish: as('caught' as const), hem: reference }),
  fc.record({ kind: as('edge finish' as const), edge: name, finish: fc.constantFrom('faced' as const, 'raw' as const) }),
  fc.record({ kind: as('without' as const), names: some(name, 3) }),
  fc.record({ kind: as('notch meeting' as const), edge: name, line: name }),
  drawn, allowance, note, broken,
  fc.record({ kind: as('on fold' as const), edge: name }),
  fc.record({ kind: as('grain' as const), way: fc.constantFrom(...turns), orAcross: fc.boolean() }),
  fc.record({ kind: as('grain' as const), way: as('angle' as const), angle: sum.filter((one) => !startsWith(one, ...turns)), orAcross: fc.boolean() }),
  as({ kind: 'way up' as const }),
  as({ kind: 'template folded' as const }),
  fc.record({ kind: as('line' as const), use: fc.constantFrom('line' as const, 'placement' as const, 'foldline' as const, 'window' as const), name, title: maybe(quoted), shape }),
  fc.record({ kind: as('notch' as const), edge: name, at: sum, from: fc.constantFrom('start' as const, 'end' as const) }),
  fc.record({ kind: as('mark' as const), use: fc.constantFrom('mark' as const, 'drill' as const), name, title: maybe(quoted), snap: maybe(sum), at: position }),
  fc.record({ kind: as('cut' as const), count: sum, material: name, clauses: fc.array(clause, { maxLength: 3 }) }),
).map((one) => present(one) as Own<PieceStatement>));

const word = fc.constantFrom('main', 'one', 'non-fray').map((one) => ({ ...at, text: one }));
const bought = fc.oneof(
  fc.record({ kind: as('bought' as const), form: as('lengths' as const), size: sum }),
  fc.record({ kind: as('bought' as const), form: fc.constantFrom('panels' as const, 'sheets' as const), size: sum, height: sum }),
);
const price = fc.record({ kind: as('price' as const), amount: sum, per: fc.constantFrom('yd', 'panel', 'm').map((one) => ({ ...at, text: one })) });

export const materialStatement: fc.Arbitrary<MaterialStatement> = around<MaterialStatement>(fc.oneof(
  fc.record({ kind: as('width' as const), nominal: sum, usable: maybe(sum) }),
  fc.record({ kind: fc.constantFrom('role' as const, 'faces' as const, 'weight' as const, 'wash' as const, 'iron' as const, 'steam' as const, 'fuse' as const, 'hold' as const), word }),
  fc.constantFrom('one way', 'any').map((one) => ({ kind: 'direction' as const, word: { ...at, text: one } })),
  fc.record({ kind: as('shrinks' as const), along: sum, across: maybe(sum) }),
  bought, price, note, broken,
).map((one) => present(one) as Own<MaterialStatement>));

export const supplyStatement: fc.Arbitrary<SupplyStatement> = around<SupplyStatement>(fc.oneof(
  word.map((one) => ({ kind: 'supply kind' as const, word: one })),
  fc.record({ kind: fc.constantFrom('count' as const, 'finished' as const, 'across' as const, 'length' as const), value: full }),
  fc.record({ kind: as('from' as const), source: fc.constantFrom('closed' as const, 'tape' as const), length: sum }),
  some(reference, 3).map((marks) => ({ kind: 'at' as const, marks })),
  reference.map((strap) => ({ kind: 'fits' as const, strap })),
  bought, price, note, broken,
).map((one) => present(one) as Own<SupplyStatement>));

// ------------------------------------------------------------------------------------------------ declarations

const part: fc.Arbitrary<Part> = fc.oneof(
  fc.record({ side: fc.constantFrom('above' as const, 'below' as const, 'left of' as const, 'right of' as const), line: name }).map((one) => ({ kind: 'side' as const, ...at, ...one })),
  as({ kind: 'mirrored' as const, ...at }),
  sum.map((distance) => ({ kind: 'inset' as const, ...at, distance })),
);
const rule: fc.Arbitrary<CheckRule> = fc.oneof(
  fc.record({ left: name, right: name }).map((one) => ({ kind: 'mates' as const, ...at, ...one })),
  fc.record({ inner: reference, outer: reference, by: sum }).map((one) => ({ kind: 'clears' as const, ...at, ...one })),
  fc.record({ holder: reference, thing: name, ease: maybe(sum) }).map((one) => present({ kind: 'holds' as const, ...at, ...one }) as CheckRule),
  fc.record({ holder: reference, size: fc.record({ width: sum, height: sum }), ease: maybe(sum) }).map((one) => present({ kind: 'holds' as const, ...at, ...one }) as CheckRule),
  fc.record({ left: sum, right: sum, eased: maybe(sum), within: maybe(sum) }).map((one) => present({ kind: 'matches' as const, ...at, ...one }) as CheckRule),
  condition.map((one) => ({ kind: 'condition' as const, ...at, condition: one })),
);
const otherwise = fc.oneof(
  fc.record({ severity: fc.constantFrom('error' as const, 'warning' as const, 'note' as const), message: maybe(sentence) }).map((one) => present(one)),
  sentence.map((message) => ({ message })),
);
const bound: fc.Arbitrary<Bound> = fc.oneof(
  fc.constantFrom('start' as const, 'end' as const).map((endOf) => ({ ...at, endOf })),
  sum.filter((one) => !startsWith(one, 'start', 'end')).map((place) => ({ ...at, place })),
);
const runPart: fc.Arbitrary<RunPart> = fc.record({ edge: reference, part: maybe(fc.oneof(fc.record({ from: bound, to: bound }), as({ folded: true as const }))) }).map(({ edge, part: own }) => ({ ...at, edge, ...own }));
const seam = fc.record({
  kind: as('seam' as const), name, title: maybe(quoted), first: some(runPart, 3), way: fc.constantFrom('with' as const, 'onto' as const), second: some(runPart, 3),
  fullness: fc.oneof(as({}), sum.map((eased) => ({ eased })), as({ gathered: true as const })), opening: fc.oneof(as({}), sum.map((open) => ({ open })), fc.record({ open: sum, openAt: sum }), fc.record({ open: sum, openOn: reference, openAt: sum })), within: maybe(sum), smooth: maybe(fc.record({ at: maybe(fc.constantFrom('start' as const, 'end' as const)), within: maybe(sum) }).map((own) => ({ ...at, ...own }))), condition: maybe(condition),
}).map(({ fullness, opening, ...one }) => ({ ...one, ...fullness, ...opening }));
const fileUnit = fc.constantFrom('in' as const, 'cm' as const, 'mm' as const);
const unread = fc.constantFrom('nonsense', '"T" from', 'when 3', 'from a sideways').map((own) => ({ ...at, text: own }));

export const declaration: fc.Arbitrary<DeclarationTree> = around<DeclarationTree>(fc.oneof(
  quoted.map((title) => ({ kind: 'pattern' as const, title })),
  plainNumber.map((own) => ({ kind: 'revision' as const, number: own })),
  fc.record({ kind: as('issued' as const), number: plainNumber, digest: quoted }),
  fc.record({ kind: as('unit' as const), unit: fileUnit, also: maybe(fileUnit) }),
  sum.map((size) => ({ kind: 'step' as const, size })),
  quoted.map((own) => ({ kind: 'currency' as const, text: own })),
  quoted.map((path) => ({ kind: 'use' as const, path })),
  some(name, 20).map((options) => ({ kind: 'sizes' as const, options })),
  fc.record({ kind: as('choice' as const), name, title: maybe(quoted), options: some(fc.tuple(name, maybe(quoted)).map(([one, title]) => present({ ...one, title })), 20) }),
  fc.record({ kind: as('value' as const), of: fc.constantFrom('length' as const, 'count' as const, 'ratio' as const, 'angle' as const, 'area' as const), name, value: full }),
  fc.record({ kind: as('thing' as const), name, title: maybe(quoted), width: sum, height: sum }),
  fc.record({ kind: as('material' as const), name, title: maybe(quoted), body: block(materialStatement) }),
  fc.record({ kind: as('material' as const), name, unread, body: block(materialStatement) }),
  fc.record({ kind: as('supply' as const), name, title: maybe(quoted), condition: maybe(condition), body: block(supplyStatement) }),
  fc.record({ kind: as('piece' as const), name, title: maybe(quoted), parent: maybe(fc.record({ name, parts: fc.array(part, { maxLength: 3 }) })), condition: maybe(condition), body: block(pieceStatement) }),
  fc.record({ kind: as('piece' as const), name, unread, body: block(pieceStatement) }),
  fc.record({ kind: as('check' as const), rule, condition: maybe(condition), otherwise: maybe(otherwise) }),
  seam, drawn, usualAllowance, note, broken.filter((one) => one.text !== 'note "open'),
).map((one) => present(one) as Own<DeclarationTree>));
