import type { Code } from '../problems/catalogue.ts';
import type { FoundProblem } from '../model/query/variants.ts';
import { replacement, type Edit, type Fix } from '../problems/problem.ts';
import type { Place } from '../problems/place.ts';
import { spaceBefore } from '../syntax/ends.ts';
import { printStatement } from '../syntax/print-statement.ts';
import { printQuoted } from '../syntax/print-words.ts';
import { lineEndOf } from '../syntax/print.ts';
import type { Declaration, Expression, NumberLiteral, PieceDeclaration, PieceStatement, Selection, ValueKind } from '../syntax/tree.ts';
import { nameUses } from '../syntax/walk.ts';
import { millimetresIn } from '../units/length.ts';
import { parseNumber } from '../units/number-text.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { nodesOf } from './nodes.ts';
import { dimensionOf, placedFormulas, placedParts, type Wanted } from './refactor/dimensions.ts';
import { aboveDeclaration, freeName } from './refactor/places.ts';

/** A problem with the declaration that it stands in. */
interface Case {
  readonly snapshot: Snapshot;
  readonly problem: FoundProblem;
  readonly declaration: Declaration;
  /** The text that the problem marks. */
  readonly marked: string;
  readonly eol: string;
}

type Maker = (of: Case) => readonly Fix[];

/** The fixes, by problem, that need to know more of the file than the computation that found the problem. */
const makers: Partial<Record<Code, Maker>> = {
  'missing-option': addArms,
  'ambiguous-option': nameChoice,
  'duplicate-name': renameSecond,
  'unknown-name': declare,
  'wrong-kind': changeKind,
  'odd-twins': oneMore,
  'missing-allowance': addAllowance,
  'rounded-size': finerStep,
  'bad-step': ({ snapshot, problem }) => [replacement('Use the usual step', problem.place, usualStep(snapshot), false)],
  'stack-order': moveAbove,
  'fused-into-seam': cutAlongInner,
  'stiff-in-seam': cutAlongInner,
  'no-fold-edge': addFold,
  'repeated-fact': ({ declaration, problem }) => removeLine(declaration, problem.place, 'Remove this second line', true),
  'fold-allowance': ({ declaration, problem }) => removeLine(declaration, problem.place, 'Remove this line', true),
  'needless-check': ({ declaration, problem }) => removeLine(declaration, { ...problem.place, start: declaration.tree.start, end: declaration.tree.end }, 'Remove this check', true),
  'mark-without-supply': addSnap,
};

export function ownFixes(snapshot: Snapshot, problem: FoundProblem): readonly Fix[] {
  const make = makers[problem.code];
  const found = make && snapshot.pattern.world.files.flatMap((file) => file.declarations).find(({ declaration }) => declaration === problem.place.chunk);
  if (make === undefined || found === undefined) return [];
  const { declaration } = found;
  return make({ snapshot, problem, declaration, marked: declaration.text.slice(problem.place.start, problem.place.end), eol: lineEndOf(snapshot.file.text) });
}

// ------------------------------------------------------------------------------------------------ helpers

const insertion = (place: Place, at: number, newText: string): Edit => ({ place: { chunk: place.chunk, start: at, end: at }, newText });

/** The formula at exactly the problem's place, with the kind that is wanted there. */
function formulaAt({ snapshot, declaration, problem }: Case): { readonly expression: Expression; readonly wanted: Wanted } | undefined {
  return placedFormulas(snapshot.pattern.world, declaration.tree)
    .flatMap((whole) => [...placedParts(snapshot.pattern.world, whole)])
    .find(({ expression }) => expression.start === problem.place.start && expression.end === problem.place.end);
}

/** Takes out whole lines, with their comment. */
function removeLine(declaration: Declaration, place: Place, title: string, safe: boolean): readonly Fix[] {
  const { text } = declaration;
  const start = spaceBefore(text, place.start);
  const end = place.end + (/^[ \t]*(?:#[^\n\r]*)?(?:\r\n|\r|\n)?/.exec(text.slice(place.end))?.[0].length ?? 0);
  return [{ title, safe, edits: [{ place: { chunk: declaration, start, end }, newText: '' }] }];
}

/** A new line at the end of the lines that say how the whole file is to be read. */
function settingsLine({ snapshot, problem, eol }: Case, line: string): Edit | undefined {
  const own = snapshot.pattern.world.files.find((file) => file.path === problem.place.chunk.file);
  const facts = ['pattern', 'revision', 'issued', 'unit', 'step', 'currency', 'drawn'];
  const last = own?.declarations.filter(({ declaration }) => facts.includes(declaration.tree.kind)).at(-1)?.declaration;
  const first = own?.declarations[0]?.declaration;
  if (last !== undefined) {
    const ends = /[\n\r]$/.test(last.text);
    return { place: { chunk: last, start: last.text.length, end: last.text.length }, newText: ends ? `${line}${eol}` : `${eol}${line}` };
  }
  return first && { place: { chunk: first, start: aboveDeclaration(first), end: aboveDeclaration(first) }, newText: `${line}${eol}` };
}

/** A new line inside a piece, above one of its lines. */
function lineAbove(declaration: Declaration, start: number, line: string, eol: string): Edit {
  const indent = declaration.text.slice(spaceBefore(declaration.text, start), start);
  return { place: { chunk: declaration, start, end: start }, newText: `${line}${eol}${indent}` };
}

const usualStep = (snapshot: Snapshot): string => ({ in: '1/8', cm: '0.1', mm: '1' })[snapshot.pattern.display.unit];

// ------------------------------------------------------------------------------------------------ choices and names

function addArms({ snapshot, problem, declaration }: Case): readonly Fix[] {
  const chosen = [...nodesOf(declaration.tree)].map(({ node }) => node).find((node): node is Selection => node.kind === 'selection' && node.start === problem.place.start && node.end === problem.place.end);
  const last = chosen?.arms.at(-1);
  if (chosen === undefined || last === undefined) return [];
  const value = declaration.text.slice(last.value.start, last.value.end);
  const given = new Set(chosen.arms.map((arm) => arm.option?.text));
  const owners = new Set(chosen.arms.flatMap((arm) => arm.choice?.text ?? snapshot.pattern.world.optionOwners.get(arm.option?.text ?? '')?.[0] ?? []));
  const missing = [...owners].flatMap((owner) => (snapshot.pattern.choices.get(owner) ?? []).filter((option) => !given.has(option)).map((option) => ((snapshot.pattern.world.optionOwners.get(option)?.length ?? 0) > 1 ? `${owner} ${option}` : option)));
  const arms = missing.map((option) => `, ${value} for ${option}`).join('');
  return [
    ...(missing.length === 0 ? [] : [{ title: `Add a value for ${missing.join(', ')}`, edits: [insertion(problem.place, problem.place.end, arms)], safe: false }]),
    { title: 'Add a value for all others', edits: [insertion(problem.place, problem.place.end, `, ${value} otherwise`)], safe: false },
  ];
}

function nameChoice({ snapshot, problem, marked }: Case): readonly Fix[] {
  return (snapshot.pattern.world.optionOwners.get(marked) ?? []).map((owner) => ({ title: `Write “${owner} ${marked}”`, edits: [insertion(problem.place, problem.place.start, `${owner} `)], safe: false }));
}

function renameSecond({ snapshot, declaration, problem, marked }: Case): readonly Fix[] {
  const inPiece = new Set(nameUses(declaration.tree).map((use) => use.name.text));
  let name = freeName(snapshot.pattern.world, `${marked}_2`);
  for (let next = 3; inPiece.has(name); next++) name = freeName(snapshot.pattern.world, `${marked}_${next}`);
  return [replacement(`Rename to “${name}”`, problem.place, name, false)];
}

function declare(of: Case): readonly Fix[] {
  const { snapshot, declaration, problem, marked, eol } = of;
  const use = nameUses(declaration.tree).find(({ name }) => name.start === problem.place.start);
  const text = newDeclaration(of, use?.role, marked);
  if (text === undefined || snapshot.pattern.world.names.has(marked)) return [];
  return [{ title: `Declare “${marked}”`, edits: [insertion(problem.place, aboveDeclaration(declaration), text.replace(/\n/g, eol))], safe: false }];
}

function newDeclaration(of: Case, role: string | undefined, name: string): string | undefined {
  switch (role) {
    case 'any': {
      const next = of.declaration.text.charAt(of.problem.place.end);
      return next === '.' ? undefined : `${kindWord(formulaAt(of)?.wanted)} ${name} = 1\n`;
    }
    case 'material':
      return `material ${name} {\n  width ${{ in: '44', cm: '110', mm: '1100' }[of.snapshot.pattern.display.unit]}\n}\n\n`;
    case 'piece':
      return `piece ${name} {\n  outline rectangle 1 by 1\n}\n\n`;
    case 'thing':
      return `thing ${name} = 1 by 1\n`;
    default:
      return undefined;
  }
}

const kindWord = (wanted: Wanted): ValueKind => (wanted === undefined ? 'length' : wanted === 'number' ? 'count' : wanted);

// ------------------------------------------------------------------------------------------------ values

/** A number where a length is needed takes the file's unit; a value of another kind than it says says so. */
function changeKind(of: Case): readonly Fix[] {
  const { snapshot, declaration, problem, marked } = of;
  const { tree } = declaration;
  const at = formulaAt(of);
  if (at === undefined) return [];
  const own = dimensionOf(snapshot.pattern.world, at.expression);
  const made: Fix[] = [];
  if (tree.kind === 'value' && tree.value === at.expression && own !== undefined && own !== 'bare') {
    const word = kindWord(own);
    made.push({ title: `Make “${tree.name.text}” ${word === 'angle' || word === 'area' ? 'an' : 'a'} ${word}`, safe: false, edits: [{ place: { ...problem.place, start: tree.start, end: tree.start + tree.of.length }, newText: word }] });
  }
  if (own === 'number' && at.wanted === 'length') {
    const { unit } = snapshot.pattern.display;
    const simple = at.expression.kind !== 'binary' && at.expression.kind !== 'selection';
    made.push(replacement(`Take it in ${unit}`, problem.place, `${simple ? marked : `(${marked})`} * 1 ${unit}`, false));
  }
  return made;
}

function oneMore({ declaration, problem, marked }: Case): readonly Fix[] {
  const count = [...nodesOf(declaration.tree)].map(({ node }) => node).find((node): node is NumberLiteral => node.kind === 'number' && node.start === problem.place.start && node.end === problem.place.end);
  const value = count && parseNumber(count.digits);
  const text = value === undefined ? `${marked} + 1` : value.add(1).toFraction();
  return [replacement(`Cut ${text}`, problem.place, text, false)];
}

/** The middle of what sewing books give for small goods (common practice, no source). */
const usualAllowances = { in: '3/8', cm: '1', mm: '10' } as const;

function addAllowance(of: Case): readonly Fix[] {
  const usual = usualAllowances[of.snapshot.pattern.display.unit];
  return [`allowance ${usual}`, 'allowance none'].flatMap((line) => {
    const edit = settingsLine(of, line);
    return edit === undefined ? [] : [{ title: `Add “${line}”`, edits: [edit], safe: false }];
  });
}

/** A finer step changes what is shown, never what it is. */
function finerStep(of: Case): readonly Fix[] {
  const { snapshot, problem } = of;
  const { display, world } = snapshot.pattern;
  const file = world.files.find((one) => one.path === problem.place.chunk.file);
  const given = file?.declarations.find(({ declaration }) => declaration.tree.kind === 'step')?.declaration;
  const finer = { in: ['1/16', '1/32'], cm: ['0.1'], mm: ['0.5'] }[display.unit]
    .filter((digits) => (parseNumber(digits)?.mul(millimetresIn[display.unit]).compare(display.step) ?? 0) < 0);
  return finer.flatMap((digits) => {
    const title = `Show sizes in steps of ${digits} ${display.unit}`;
    if (given?.tree.kind === 'step') return [replacement(title, { chunk: given, start: given.tree.size.start, end: given.tree.size.end }, digits, false)];
    const edit = settingsLine(of, `step ${digits}`);
    return edit === undefined ? [] : [{ title, edits: [edit], safe: false }];
  });
}

// ------------------------------------------------------------------------------------------------ pieces

function statementAt(tree: PieceDeclaration, at: number): PieceStatement | undefined {
  return tree.body.statements.find((statement) => statement.start <= at && at <= statement.end);
}

/** Moves a layer's line above the one that it should go on before. */
function moveAbove({ declaration, problem, eol }: Case): readonly Fix[] {
  const { tree } = declaration;
  const before = problem.related[0]?.place;
  if (tree.kind !== 'piece' || before?.chunk !== declaration) return [];
  const line = statementAt(tree, problem.place.start);
  const other = statementAt(tree, before.start);
  if (line === undefined || other === undefined) return [];
  const [removal] = removeLine(declaration, { ...problem.place, start: line.start, end: line.end }, '', false);
  const text = printStatement(line, '  ') + (line.comment === undefined ? '' : `  ${line.comment}`);
  return [{ title: 'Move this line up', edits: [lineAbove(declaration, other.start, text, eol), ...(removal?.edits ?? [])], safe: false }];
}

function cutAlongInner({ snapshot, declaration, problem }: Case): readonly Fix[] {
  const { tree } = declaration;
  const cut = tree.kind === 'piece' ? statementAt(tree, problem.place.start) : undefined;
  if (tree.kind !== 'piece' || cut?.kind !== 'cut' || cut.clauses.some((clause) => clause.kind === 'along')) return [];
  const lines = snapshot.pattern.shape(tree.name.text, new Map())?.lines.filter((line) => line.closed && line.use === 'line') ?? [];
  return lines.slice(0, 3).map((line) => ({ title: `Cut it along “${line.name}”`, edits: [insertion(problem.place, cut.material.end, ` along ${line.name}`)], safe: false }));
}

function addFold({ snapshot, declaration, problem, eol }: Case): readonly Fix[] {
  const { tree } = declaration;
  const cut = tree.kind === 'piece' ? statementAt(tree, problem.place.start) : undefined;
  if (tree.kind !== 'piece' || cut === undefined) return [];
  const edges = snapshot.pattern.shape(tree.name.text, new Map())?.drawn.edges.map((edge) => edge.name) ?? [];
  return edges.slice(0, 4).map((edge) => ({ title: `Add “on fold ${edge}”`, edits: [lineAbove(declaration, cut.start, `on fold ${edge}`, eol)], safe: false }));
}

/** A snap for a mark that says its size. */
function addSnap({ snapshot, declaration, problem, marked, eol }: Case): readonly Fix[] {
  const { tree } = declaration;
  const mark = tree.kind === 'piece' ? statementAt(tree, problem.place.start) : undefined;
  if (tree.kind !== 'piece' || mark?.kind !== 'mark' || mark.snap === undefined) return [];
  const name = freeName(snapshot.pattern.world, marked);
  const size = declaration.text.slice(mark.snap.start, mark.snap.end);
  const text = [
    ...(/[\n\r]$/.test(declaration.text) ? [] : ['']), '',
    `supply ${name} ${printQuoted({ start: 0, end: 0, value: 'Snap' })} {`, '  kind snap', `  across ${size}`, '  count 1', `  at ${tree.name.text}.${marked}`, '}', '',
  ].join(eol);
  return [{ title: `Add a snap of ${size}`, edits: [insertion(problem.place, declaration.text.length, text)], safe: false }];
}
