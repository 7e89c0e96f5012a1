import { showValue } from '../model/formulas/value.ts';
import type { Measure } from '../model/checks/designer-checks.ts';
import type { Pattern, Resolved } from '../model/pattern.ts';
import { arisesIn } from '../model/query/variants.ts';
import { titleText } from '../model/titles.ts';
import type { Declaration, DeclarationTree, Node, PieceStatement, SupplyStatement } from '../syntax/tree.ts';
import { nameUses } from '../syntax/walk.ts';
import { showFinely } from '../units/length.ts';
import { wholeOutline, type PreviewLink, type PreviewMeasure, type PreviewUse, type UseAbout } from './drawing-data.ts';
import type { PlaceWriter } from './places.ts';

/**
 * What is written hangs together by names: who names whom, and where, so that the page can light what hangs on anything.
 *
 * @param shown names of the pieces that are drawn
 */
export function previewLinks(pattern: Pattern, resolved: Resolved, shown: ReadonlySet<string>, { ref }: PlaceWriter): readonly PreviewLink[] {
  const links: PreviewLink[] = [];
  const isPresent = presentIn(resolved, pattern);
  for (const file of pattern.world.files) {
    for (const { declaration } of file.declarations) {
      const { tree } = declaration;
      const kind = kindOf(tree);
      if (kind === undefined || (file !== pattern.world.root && onlyOwn.has(kind))) continue;
      const elsewhere = !isPresent(declaration);
      if (elsewhere ? kind === 'step' : tree.kind === 'piece' && !shown.has(tree.name.text)) continue;
      links.push({
        kind,
        name: nameOf(tree),
        says: wordsOf(declaration, pattern, resolved),
        // What is said of a step is said by the step itself, and of a note there is nothing to say.
        span: kind === 'step' || kind === 'note' ? null : ref({ chunk: declaration, start: tree.start, end: tree.end }),
        uses: usesOf(declaration),
        ...(elsewhere ? { elsewhere } : {}),
        ...comparedIn(declaration, pattern, resolved),
      });
    }
  }
  return links;
}

/** Those of other files are of no account. */
const onlyOwn: ReadonlySet<PreviewLink['kind']> = new Set(['piece', 'supply', 'check', 'general', 'step', 'note']);

/** What is there in the options that are shown, of what may not be: pieces, supplies and steps. A piece that a fault keeps away counts as there. */
function presentIn({ pieces, supplies, steps, combination }: Resolved, pattern: Pattern): (declaration: Declaration) => boolean {
  const drawn = new Set(pieces.map(({ shape }) => shape.name));
  const bought = new Set(supplies.map(({ name }) => name));
  const done = new Set<Declaration>(steps.map(({ declaration }) => declaration));
  return (declaration) => {
    const { tree } = declaration;
    if (tree.kind === 'piece') return drawn.has(tree.name.text) || pattern.shape(tree.name.text, combination) === undefined;
    if (tree.kind === 'supply') return bought.has(tree.name.text);
    return tree.kind !== 'work step' || done.has(declaration);
  };
}

function kindOf({ kind }: DeclarationTree): PreviewLink['kind'] | undefined {
  switch (kind) {
    case 'value':
    case 'thing':
    case 'material':
    case 'supply':
    case 'piece':
    case 'seam':
    case 'check':
    case 'note':
      return kind;
    case 'sizes':
    case 'choice':
      return 'choice';
    case 'allowance':
      return 'general';
    case 'work step':
      return 'step';
    default:
      return undefined;
  }
}

const nameOf = (tree: DeclarationTree): string => (tree.kind === 'sizes' ? 'size' : 'name' in tree ? tree.name.text : '');

function wordsOf(declaration: Declaration, pattern: Pattern, { combination, checks, steps }: Resolved): string {
  const { tree } = declaration;
  switch (tree.kind) {
    case 'value': {
      const value = pattern.value(tree.name.text, combination);
      return value === undefined ? tree.name.text : `${tree.name.text} = ${showValue(value, pattern.display)}`;
    }
    case 'sizes':
    case 'choice':
      return `${nameOf(tree)}: ${combination.get(nameOf(tree)) ?? ''}`;
    case 'check': {
      const outcome = checks.find((one) => one.declaration === declaration)?.outcome;
      const failure = pattern.problems.find((one) => one.code === 'check-failed' && one.place.chunk === declaration && arisesIn(one, combination));
      return outcome === 'failed' && failure !== undefined ? `The check fails: ${failure.message}` : outcome === 'passed' ? 'The check holds' : 'The check is not decided here';
    }
    case 'allowance':
      return 'The allowance of all pieces';
    case 'work step':
      return `step ${steps.find((one) => one.declaration === declaration)?.number ?? ''}`;
    case 'note':
      return 'a note';
    default:
      return 'title' in tree && 'name' in tree ? titleText(tree.title, tree.name) : nameOf(tree);
  }
}

/** What a check that fails has measured, in words and in millimetres. */
function comparedIn(declaration: Declaration, { world, display: usual }: Pattern, { checks }: Resolved): Pick<PreviewLink, 'compared'> {
  const compared = checks.find((one) => one.declaration === declaration)?.compared;
  if (compared === undefined) return {};
  const display = world.settings.get(declaration.file)?.display ?? usual;
  const measure = ({ says, more = '', width, height, on }: Measure): PreviewMeasure => ({
    says: `${says}${more}`, width: width.valueOf(), height: height?.valueOf() ?? null,
    text: [width, ...(height === undefined ? [] : [height])].map((length) => showFinely(length, display)).join(' × '),
    ...(on === undefined ? {} : { on, more }),
  });
  const [is, wanted] = compared;
  return { compared: { both: [measure(is), measure(wanted)], by: is.height === undefined ? showFinely(is.width.sub(wanted.width).abs(), display) : '' } };
}

const kept = new WeakMap<Declaration, readonly PreviewUse[]>();

/** A stretch of a declaration, and what is written by it. */
interface Line extends Node {
  readonly about?: UseAbout;
  /** Where what changes with its names is written; itself, where it isn't said. */
  readonly changes?: Node;
  /** What it uses without naming it. */
  readonly also?: string;
}

/** The names that each of its lines uses, once each. */
function usesOf(declaration: Declaration): readonly PreviewUse[] {
  const known = kept.get(declaration);
  if (known !== undefined) return known;
  const { tree } = declaration;
  const lines = linesOf(tree);
  const byLine = new Map<Line, Set<string>>(lines.flatMap((line) => (line.also === undefined ? [] : [[line, new Set([line.also])] as const])));
  for (const { name, role, declares, path } of nameUses(tree)) {
    if (declares || role === 'function' || (role === 'option' && path.length > 0)) continue;
    const line = lines.find(({ start, end }) => start <= name.start && name.end <= end);
    if (line === undefined) continue;
    let names = byLine.get(line);
    if (names === undefined) byLine.set(line, (names = new Set()));
    names.add(`${role === 'option' ? '=' : ''}${[...path, name].map(({ text }) => text).join('.')}`);
  }
  const uses = [...byLine].map(([{ about, changes, ...line }, names]): PreviewUse => {
    const { start, end } = changes ?? line;
    return about === undefined ? [start, end, [...names]] : [start, end, [...names], about];
  });
  kept.set(declaration, uses);
  return uses;
}

/** The lines of a declaration, its first line last; what is narrower stands before what it is part of. */
function linesOf(tree: DeclarationTree): readonly Line[] {
  if (!('body' in tree)) return [tree];
  const { start, body } = tree;
  const head: Line = { start, end: body.start, ...(tree.kind === 'piece' ? { about: 'from' } : {}) };
  const lines: readonly Line[] = tree.kind === 'piece' ? tree.body.statements.flatMap(pieceLines) : tree.kind === 'supply' ? tree.body.statements.map((one) => ({ ...nodeOf(one), about: boughtBy(one) })) : body.statements.map(nodeOf);
  return [...lines, head];
}

const nodeOf = ({ start, end }: Node): Node => ({ start, end });

function pieceLines(statement: PieceStatement): readonly Line[] {
  const line: Line = { ...nodeOf(statement), about: aboutOf(statement), ...(statement.kind === 'line' && statement.shape.kind === 'inset' ? { also: wholeOutline } : {}) };
  if (statement.kind === 'cut') return [{ ...nodeOf(statement.count), about: 'count', changes: statement }, line];
  if (statement.kind !== 'outline' || statement.shape.kind !== 'path') return [line];
  // Where one edge of a path ends the next begins.
  const { statements: steps } = statement.shape.steps;
  return [...steps.flatMap((step, at): readonly Line[] => {
    const own: Line = { ...nodeOf(step), about: 'outline' };
    return 'to' in step ? [{ ...nodeOf(step.to), about: 'outline', changes: { start: step.start, end: (steps[at + 1] ?? step).end } }, own] : [own];
  }), line];
}

/** What a line of a piece is about. */
function aboutOf({ kind }: PieceStatement): UseAbout {
  switch (kind) {
    case 'outline':
    case 'corner':
    case 'edge':
    case 'allowance':
    case 'on fold':
    case 'drawn':
    // What is cut has a peak over it.
    case 'dart':
      return 'outline';
    case 'line':
    case 'pleat':
    case 'topstitch':
    case 'quilt':
    case 'notch':
    case 'notch meeting':
    case 'mark':
    case 'grain':
      return 'inside';
    case 'cut':
      return 'cut';
    default:
      return 'said';
  }
}

/** Whether a line of a supply is about how much of it is to be bought, or about where it goes. */
function boughtBy({ kind }: SupplyStatement): UseAbout {
  return kind === 'at' || kind === 'fits' || kind === 'note' ? 'said' : 'bought';
}
