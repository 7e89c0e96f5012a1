import type { Value } from '../model/formulas/value.ts';
import type { Combination } from '../model/query/query.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import type { Place } from '../problems/place.ts';
import { printStatement } from '../syntax/print-statement.ts';
import { printBare } from '../syntax/print.ts';
import type { Declaration, Node, PieceDeclaration } from '../syntax/tree.ts';
import { nameUses } from '../syntax/walk.ts';
import type { Cause } from './change.ts';
import type { Spec } from './spec.ts';

/** Pieces may be taken from one another in a long row, and values come from one another in a longer one. */
const deepest = 60;

/** Traces changes of one combination back to the lines of the spec that they come from. */
export interface Causes {
  /** Why the shape of a piece is another. */
  readonly ofShape: (name: string, earlier: string) => readonly Cause[];
  /** Why what a statement or declaration says has another effect: itself, or the values that it names. */
  readonly ofCut: (now: CutLine, was: CutLine) => readonly Cause[];
  readonly ofNamed: (name: string, earlier: string) => readonly Cause[];
  readonly at: (side: Cause['side'], place: Place) => readonly Cause[];
}

export function causesOf(old: Spec, fresh: Spec, combination: Combination): Causes {
  const at = (side: Cause['side'], place: Place, earlier?: Place): readonly Cause[] => {
    const line = (side === 'old' ? old : fresh).lineAt(place);
    if (line === undefined) return [];
    const before = earlier && old.lineAt(earlier)?.text;
    return [{ side, ...line, ...(before === undefined || before === line.text ? {} : { before }) }];
  };

  /** The values named between two offsets of a declaration, and what is behind those of them that are not as they were. */
  function behindNames(declaration: Declaration, { start, end }: Pick<Node, 'start' | 'end'>, left: number): readonly Cause[] {
    return nameUses(declaration.tree)
      .filter(({ name, role, path, declares }) => role === 'any' && path.length === 0 && !declares && name.start >= start && name.end <= end)
      .flatMap(({ name }) => behindName(name.text, left - 1));
  }

  function behindName(name: string, left: number): readonly Cause[] {
    const declaration = fresh.pattern.world.names.get(name);
    if (declaration === undefined || left <= 0) return [];
    if (declaration.tree.kind === 'piece') return behindShape(name, name, left);
    const now = fresh.pattern.value(name, combination);
    const was = old.pattern.value(name, combination);
    if (now === undefined || (was !== undefined && was.dimension === now.dimension && was.amount.equals(now.amount))) return [];
    const deeper = distinct(namesBehind(now).flatMap((one) => (one === name ? [] : behindName(one, left - 1))));
    const earlier = old.pattern.world.names.get(name);
    const isReworded = earlier === undefined || printBare(earlier.tree) !== printBare(declaration.tree);
    const own = isReworded ? at('new', wholeOf(declaration), earlier && wholeOf(earlier)) : [];
    return distinct([...own, ...deeper]);
  }

  function behindShape(name: string, earlierName: string, left = deepest): readonly Cause[] {
    const declaration = fresh.pattern.world.names.get(name);
    if (declaration?.tree.kind !== 'piece' || left <= 0) return [];
    const earlier = old.pattern.world.names.get(earlierName);
    const { tree } = declaration;
    const before = earlier?.tree.kind === 'piece' ? earlier.tree : undefined;
    const own = before === undefined || earlier === undefined ? [] : rewordedStatements({ declaration, tree }, { declaration: earlier, tree: before });
    const behind = tree.body.statements.filter(isOfShape).flatMap((statement) => behindNames(declaration, statement, left));
    const parent = tree.parent === undefined ? [] : [...behindShape(tree.parent.name.text, before?.parent?.name.text ?? '', left - 1), ...behindNames(declaration, { start: tree.parent.name.end, end: tree.parent.parts.at(-1)?.end ?? 0 }, left)];
    return distinct([...own, ...behind, ...parent, ...behindAllowance(declaration, left)]);
  }

  function rewordedStatements(now: Written, was: Written): readonly Cause[] {
    const text = (statement: Statement): string => printStatement(statement, '');
    const [before, after] = [was.tree.body.statements.filter(isOfShape), now.tree.body.statements.filter(isOfShape)];
    const [said, says] = [new Set(before.map(text)), new Set(after.map(text))];
    const gone = before.filter((statement) => !says.has(text(statement)));
    const come = after.filter((statement) => !said.has(text(statement)));
    const place = (declaration: Declaration, { start, end }: Node): Place => ({ chunk: declaration, start, end });
    const head = printedHead(now.tree) === printedHead(was.tree) ? [] : at('new', wholeOf(now.declaration), wholeOf(was.declaration));
    return [
      ...head,
      ...come.flatMap((statement) => {
        const earlier = gone.find((one) => one.kind === statement.kind);
        return at('new', place(now.declaration, statement), earlier && place(was.declaration, earlier));
      }),
      ...gone.filter((statement) => !come.some((one) => one.kind === statement.kind)).flatMap((statement) => at('old', place(was.declaration, statement))),
    ];
  }

  /** The allowance, the unit and the line drawn to that a file sets for all its pieces. */
  function behindAllowance(declaration: Declaration, left: number): readonly Cause[] {
    const now = fresh.pattern.world.settings.get(declaration.file);
    const was = old.pattern.world.settings.get(declaration.file);
    if (now === undefined || was === undefined) return [];
    const [here, there] = [now.allowance, was.allowance];
    const isReworded = here !== undefined && (there === undefined || printBare(here.declaration.tree) !== printBare(there.declaration.tree));
    return [
      ...(here !== undefined && isReworded ? at('new', wholeOf(here.declaration), there && wholeOf(there.declaration)) : []),
      ...(here === undefined && there !== undefined ? at('old', wholeOf(there.declaration)) : []),
      ...(here === undefined ? [] : behindNames(here.declaration, here.declaration.tree, left)),
      ...settingLines(declaration.file),
    ];
  }

  function settingLines(path: string): readonly Cause[] {
    const inFile = (spec: Spec, kind: 'unit' | 'drawn'): Declaration | undefined =>
      spec.pattern.world.files.find((file) => file.path === path)?.declarations.find(({ declaration }) => declaration.tree.kind === kind)?.declaration;
    return (['unit', 'drawn'] as const).flatMap((kind) => {
      const [was, now] = [inFile(old, kind), inFile(fresh, kind)];
      if (now === undefined) return was === undefined ? [] : at('old', wholeOf(was));
      return was !== undefined && printBare(was.tree) === printBare(now.tree) ? [] : at('new', wholeOf(now), was && wholeOf(was));
    });
  }

  return {
    at,
    ofShape: (name, earlier) => behindShape(name, earlier),
    ofCut: (now, was) => {
      const isReworded = printStatement(now.statement, '') !== printStatement(was.statement, '');
      return distinct([...(isReworded ? at('new', now.place, was.place) : []), ...behindNames(now.piece.declaration, now.statement, deepest)]);
    },
    ofNamed: (name, earlierName) => {
      const declaration = fresh.pattern.world.names.get(name);
      const earlier = old.pattern.world.names.get(earlierName);
      if (declaration === undefined) return [];
      return distinct([
        ...(earlier === undefined ? at('new', wholeOf(declaration)) : rewordedLines(declaration, earlier, at)),
        ...behindNames(declaration, declaration.tree, deepest),
      ]);
    },
  };
}

type At = (side: Cause['side'], place: Place, earlier?: Place) => readonly Cause[];
type Statement = PieceDeclaration['body']['statements'][number];

interface Written {
  readonly declaration: Declaration;
  readonly tree: PieceDeclaration;
}

/** Statements that draw a piece, as against what is cut from it and what is said of it. */
const isOfShape = ({ kind }: Statement): boolean => kind !== 'cut' && kind !== 'note';

const printedHead = (tree: PieceDeclaration): string => printBare(tree).split('\n', 1)[0]?.replace(/"(?:[^"\\]|\\.)*"/, '').replace(/^piece\s+\S+/, '') ?? '';

/** The lines of a material or a supply that are not as they were. */
function rewordedLines(now: Declaration, was: Declaration, at: At): readonly Cause[] {
  if (!('body' in now.tree) || !('body' in was.tree)) return [];
  const lines = (declaration: Declaration): readonly { readonly kind: string; readonly text: string; readonly place: Place }[] =>
    ('body' in declaration.tree ? declaration.tree.body.statements : []).map((statement) => ({ kind: statement.kind, text: printStatement(statement, ''), place: { chunk: declaration, start: statement.start, end: statement.end } }));
  const [before, after] = [lines(was), lines(now)];
  const gone = before.filter((line) => !after.some((one) => one.text === line.text));
  const come = after.filter((line) => !before.some((one) => one.text === line.text));
  return [
    ...come.flatMap((line) => at('new', line.place, gone.find((one) => one.kind === line.kind)?.place)),
    ...gone.filter((line) => !come.some((one) => one.kind === line.kind)).flatMap((line) => at('old', line.place)),
  ];
}

/** The names that a value came from, by its trail: those of the ways not taken are not among them. */
function namesBehind(value: Value): readonly string[] {
  const names = new Set<string>();
  const ahead = [...value.from];
  for (let next = ahead.pop(); next !== undefined; next = ahead.pop()) {
    const [name = ''] = next.name?.split('.') ?? [];
    if (name !== '' && name !== value.name) names.add(name);
    else ahead.push(...next.from);
  }
  return [...names].reverse();
}

const wholeOf = (declaration: Declaration): Place => ({ chunk: declaration, start: declaration.tree.start, end: declaration.tree.end });

const distinct = (causes: readonly Cause[]): readonly Cause[] => [...new Map(causes.map((cause) => [`${cause.side} ${cause.file} ${cause.line}`, cause])).values()];

/** All causes of several changes, each once. */
export const together = (causes: readonly (readonly Cause[])[]): readonly Cause[] => distinct(causes.flat());

/** Where a piece is declared. */
export const placeOfShape = ({ declaration }: PieceShape): Place => wholeOf(declaration);
