import type { Value } from '../model/formulas/value.ts';
import type { Combination } from '../model/query/query.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import type { Place } from '../problems/place.ts';
import type { Note } from '../model/notes.ts';
import { placeOf } from '../model/settings.ts';
import { printBare } from '../syntax/print.ts';
import type { CutStatement, Declaration, Node, PieceDeclaration } from '../syntax/tree.ts';
import { nameUses } from '../syntax/walk.ts';
import type { Cause } from './change.ts';
import { matched } from './matched.ts';
import { reworded, wordsOf } from './reworded.ts';
import { closedUp, isPutOtherwise } from './said.ts';
import type { Spec } from './spec.ts';

/** Pieces may be taken from one another in a long row, and values come from one another in a longer one. */
const deepest = 60;

/** Traces changes of one combination back to the lines of the spec that they come from. */
export class Causes {
  readonly #old: Spec;
  readonly #fresh: Spec;
  readonly #combination: Combination;
  /** What is being traced: a supply goes on a piece that it is measured by, so names may come round to themselves. */
  readonly #underWay = new Set<string>();

  constructor(old: Spec, fresh: Spec, combination: Combination) {
    this.#old = old;
    this.#fresh = fresh;
    this.#combination = combination;
  }

  /** Why the shape of a piece is another. */
  ofShape(name: string, earlier: string): readonly Cause[] {
    return this.#behindShape(name, earlier);
  }

  /**
   * Why what is cut of a piece, or its seam line, is another: lines and marks that are drawn within are left aside.
   *
   * @param along the line that is cut along, where it is one of those
   */
  ofOutline(name: string, earlier: string, along?: string): readonly Cause[] {
    const found = this.#behindShape(name, earlier, deepest, (statement) => isOfOutline(statement) || ('name' in statement && statement.name.text === along));
    return found.length > 0 ? found : this.ofShape(name, earlier);
  }

  /** Why a piece takes another length of cloth: its outline, or how it may lie. */
  ofLay(name: string, earlier: string, along?: string): readonly Cause[] {
    return this.#behindShape(name, earlier, deepest, (statement) => isOfOutline(statement) || statement.kind === 'grain' || statement.kind === 'way up' || ('name' in statement && statement.name.text === along));
  }

  /** Why a mark is elsewhere, or another: the lines that say it, and those that the outline follows from, which places are told from. */
  ofMark(name: string, earlier: string, places: readonly Place[]): readonly Cause[] {
    const says = new Set(places.flatMap((place) => [...this.#statementsAt(this.#old, place), ...this.#statementsAt(this.#fresh, place)]));
    const found = this.#behindShape(name, earlier, deepest, (statement) => isOfOutline(statement) || says.has(statement));
    return found.length > 0 ? found : this.ofShape(name, earlier);
  }

  /** Why a cut line has another effect: itself, or the values that it names. */
  ofCut(now: CutLine, was: CutLine): readonly Cause[] {
    const isReworded = wordsOf(now.statement) !== wordsOf(was.statement);
    return distinct([...(isReworded ? this.at('new', now.place, was.place) : []), ...this.#behindNames(now.piece.declaration, now.statement, deepest)]);
  }

  /** Why what is cut is of another size or shape, as far as the cut line says so: how many and of what makes no difference. */
  ofCutShape(now: CutLine, was: CutLine): readonly Cause[] {
    const shapes = ({ clauses }: CutStatement): CutStatement['clauses'] => clauses.filter(({ kind }) => ['along', 'without', 'sized', 'large'].includes(kind));
    const text = (statement: CutStatement): string => wordsOf({ ...now.statement, clauses: shapes(statement) });
    const isReworded = text(now.statement) !== text(was.statement);
    return distinct([...(isReworded ? this.at('new', now.place, was.place) : []), ...shapes(now.statement).flatMap((clause) => this.#behindNames(now.piece.declaration, clause, deepest))]);
  }

  /** Why other edges of a piece are hemmed, bound or the like, or otherwise. */
  ofFinishes(name: string, earlier: string): readonly Cause[] {
    const found = this.#behindShape(name, earlier, deepest, ({ kind }) => kind === 'edge finish', false);
    return found.length > 0 ? found : this.ofNamed(name, earlier);
  }

  /** Why notes say otherwise: their own lines where those do, and the values in them. */
  ofNotes(now: readonly Note[], was: readonly Note[]): readonly Cause[] {
    const text = ({ declaration, sentence }: Note): string => closedUp(declaration.text.slice(sentence.start, sentence.end));
    const place = ({ declaration, sentence }: Note): Place => placeOf(declaration, sentence);
    const { both, gone, come } = matched(was, now, [(a, b) => text(a) === text(b), (a, b) => isPutOtherwise(text(a), text(b)), () => true]);
    return distinct([
      ...both.flatMap(([a, b]) => [...(text(a) === text(b) ? [] : this.at('new', place(b), place(a))), ...this.#behindNames(b.declaration, b.sentence, deepest)]),
      ...come.flatMap((note) => this.at('new', place(note))),
      ...gone.flatMap((note) => this.at('old', place(note))),
    ]);
  }

  /** Why a check holds, or fails, otherwise: its own line where that says otherwise, and what it names. */
  ofCheck(now: Place, was: Place): readonly Cause[] {
    const declaration = declarationAt(this.#fresh, now);
    const earlier = declarationAt(this.#old, was);
    if (declaration === undefined) return this.at('new', now, was);
    const isReworded = earlier === undefined || printBare(earlier.tree) !== printBare(declaration.tree);
    const found = distinct([...(isReworded ? this.at('new', now, was) : []), ...this.#behindAll(declaration)]);
    return found.length > 0 ? found : this.at('new', now, was);
  }

  /** Why something is called otherwise: where it is declared. */
  ofTitle(name: string, earlierName: string): readonly Cause[] {
    const [now, was] = [this.#fresh.pattern.world.names.get(name), this.#old.pattern.world.names.get(earlierName)];
    return now === undefined ? [] : this.at('new', wholeOf(now), was && wholeOf(was));
  }

  /** Why a fact of the whole pattern is another: its line. */
  ofFact(kind: 'pattern' | 'currency'): readonly Cause[] {
    const [was, now] = [this.#old, this.#fresh].map(({ pattern }) => pattern.world.root.declarations.find(({ declaration }) => declaration.tree.kind === kind)?.declaration);
    if (now === undefined) return was === undefined ? [] : this.at('old', wholeOf(was));
    return this.at('new', wholeOf(now), was && wholeOf(was));
  }

  /** Why a fact of a material or supply is another: the lines of its own, or all of it where it is written elsewhere. */
  ofFacts(name: string, earlierName: string): readonly Cause[] {
    const found = this.ofNamed(name, earlierName);
    const [now, was] = [this.#fresh.pattern.world.names.get(name), this.#old.pattern.world.names.get(earlierName)];
    return found.length > 0 || now === undefined ? found : this.at('new', wholeOf(now), was && wholeOf(was));
  }

  /** The same of what is declared by a name. */
  ofNamed(name: string, earlierName: string): readonly Cause[] {
    const declaration = this.#fresh.pattern.world.names.get(name);
    const earlier = this.#old.pattern.world.names.get(earlierName);
    if (declaration === undefined) return [];
    return distinct([
      ...(earlier === undefined ? this.at('new', wholeOf(declaration)) : rewordedLines(declaration, earlier, this.at)),
      ...this.#behindNames(declaration, declaration.tree, deepest),
    ]);
  }

  /** The values and things of the same name that a check asks by, and that are others; not the measures of pieces. */
  behindCheck(now: Place): readonly Cause[] {
    const declaration = declarationAt(this.#fresh, now);
    const names = new Set(declaration && nameUses(declaration.tree).filter(({ declares }) => !declares).map(({ name, path }) => path[0]?.text ?? name.text));
    return distinct([...names].filter((name) => this.#fresh.pattern.world.names.get(name)?.tree.kind !== 'piece').flatMap((name) => this.#behindName(name, deepest)));
  }

  /** Why a step is told otherwise: its own line where that says otherwise, and the values and seams that its sentence names. */
  ofStep(now: Place, was: Place): readonly Cause[] {
    const declaration = declarationAt(this.#fresh, now);
    const earlier = declarationAt(this.#old, was);
    if (declaration === undefined) return this.at('new', now, was);
    const isReworded = earlier === undefined || printBare(earlier.tree) !== printBare(declaration.tree);
    const found = distinct([...(isReworded ? this.at('new', now, was) : []), ...this.#behindNames(declaration, declaration.tree, deepest)]);
    return found.length > 0 ? found : this.at('new', now, was);
  }

  /** The line of a place, with what it said before. */
  readonly at: At = (side, place, earlier) => {
    const line = (side === 'old' ? this.#old : this.#fresh).lineAt(place);
    if (line === undefined) return [];
    const before = earlier && this.#old.lineAt(earlier)?.text;
    return [{ side, ...line, ...(before === undefined || before === line.text ? {} : { before }) }];
  };

  /** What is behind all that a declaration names, measures of pieces among them. */
  #behindAll(declaration: Declaration): readonly Cause[] {
    const names = new Set(nameUses(declaration.tree).filter(({ declares }) => !declares).map(({ name, path }) => path[0]?.text ?? name.text));
    return [...names].flatMap((name) => (this.#fresh.pattern.world.names.get(name)?.tree.kind === 'piece' ? this.#behindShape(name, name, deepest, (one) => isOfOutline(one) || one.kind === 'line') : this.#behindName(name, deepest)));
  }

  /** The values named between two offsets of a declaration, and what is behind those of them that are not as they were. */
  #behindNames(declaration: Declaration, { start, end }: Pick<Node, 'start' | 'end'>, left: number): readonly Cause[] {
    return nameUses(declaration.tree)
      .filter(({ name, role, path, declares }) => role === 'any' && path.length === 0 && !declares && name.start >= start && name.end <= end)
      .flatMap(({ name }) => this.#behindName(name.text, left - 1));
  }

  #behindName(name: string, left: number): readonly Cause[] {
    if (this.#underWay.has(name)) return [];
    this.#underWay.add(name);
    const found = this.#behindNewName(name, left);
    this.#underWay.delete(name);
    return found;
  }

  #behindNewName(name: string, left: number): readonly Cause[] {
    const declaration = this.#fresh.pattern.world.names.get(name);
    if (declaration === undefined || left <= 0) return [];
    if (declaration.tree.kind === 'piece') return this.#behindShape(name, name, left, isMeasured);
    if (declaration.tree.kind === 'supply' || declaration.tree.kind === 'material') return this.ofNamed(name, name);
    if (declaration.tree.kind === 'seam' || declaration.tree.kind === 'thing') return distinct([...this.#rewordedWhole(name), ...this.#behindNames(declaration, declaration.tree, left)]);
    const now = this.#fresh.pattern.value(name, this.#combination);
    const was = this.#old.pattern.value(name, this.#combination);
    if (now === undefined || (was !== undefined && was.dimension === now.dimension && was.amount.equals(now.amount))) return [];
    const deeper = distinct(namesBehind(now).flatMap((one) => (one === name ? [] : this.#behindName(one, left - 1))));
    const earlier = this.#old.pattern.world.names.get(name);
    const isReworded = earlier === undefined || printBare(earlier.tree) !== printBare(declaration.tree);
    const own = isReworded ? this.at('new', wholeOf(declaration), earlier && wholeOf(earlier)) : [];
    return distinct([...own, ...deeper]);
  }

  #rewordedWhole(name: string): readonly Cause[] {
    const [now, was] = [this.#fresh.pattern.world.names.get(name), this.#old.pattern.world.names.get(name)];
    if (now === undefined || (was !== undefined && printBare(was.tree) === printBare(now.tree))) return [];
    return this.at('new', wholeOf(now), was && wholeOf(was));
  }

  /** @param ofFile whether it also rests on what its file sets for all pieces */
  #behindShape(name: string, earlierName: string, left = deepest, counts = isOfShape, ofFile = true): readonly Cause[] {
    const declaration = this.#fresh.pattern.world.names.get(name);
    if (declaration?.tree.kind !== 'piece' || left <= 0) return [];
    const earlier = this.#old.pattern.world.names.get(earlierName);
    const { tree } = declaration;
    const before = earlier?.tree.kind === 'piece' ? earlier.tree : undefined;
    const own = before === undefined || earlier === undefined ? [] : this.#rewordedStatements({ declaration, tree }, { declaration: earlier, tree: before }, counts);
    const behind = tree.body.statements.filter(counts).flatMap((statement) => this.#behindNames(declaration, statement, left));
    // Of its parent it takes what counts here, and the lines that it is cut off at.
    const cutAt = new Set(tree.parent?.parts.flatMap((part) => ('line' in part ? [part.line.text] : [])));
    const ofParent = (statement: Statement): boolean => counts(statement) || ('name' in statement && cutAt.has(statement.name.text));
    const parent = tree.parent === undefined ? [] : [...this.#behindShape(tree.parent.name.text, before?.parent?.name.text ?? '', left - 1, ofParent, ofFile), ...this.#behindNames(declaration, { start: tree.parent.name.end, end: tree.parent.parts.at(-1)?.end ?? 0 }, left)];
    return distinct([...own, ...behind, ...parent, ...(ofFile ? this.#behindAllowance(declaration, earlier ?? declaration, left) : [])]);
  }

  #statementsAt({ pattern }: Spec, { chunk, start, end }: Place): readonly Statement[] {
    const declaration = [...pattern.world.names.values()].find((one) => one === chunk);
    return declaration?.tree.kind !== 'piece' ? [] : declaration.tree.body.statements.filter((statement) => statement.start <= start && end <= statement.end);
  }

  #rewordedStatements(now: Written, was: Written, counts: (statement: Statement) => boolean): readonly Cause[] {
    const { come, gone } = reworded(was.tree.body.statements.filter(counts), now.tree.body.statements.filter(counts));
    const head = printedHead(now.tree) === printedHead(was.tree) ? [] : this.at('new', wholeOf(now.declaration), wholeOf(was.declaration));
    return [
      ...head,
      ...come.flatMap((line) => this.at('new', placeOf(now.declaration, line.now), line.was && placeOf(was.declaration, line.was))),
      ...gone.flatMap((line) => this.at('old', placeOf(was.declaration, line))),
    ];
  }

  /** The allowance, the unit and the line drawn to that a file sets for all its pieces. */
  #behindAllowance(declaration: Declaration, earlier: Declaration, left: number): readonly Cause[] {
    const now = this.#fresh.pattern.world.settings.get(declaration.file);
    const was = this.#old.pattern.world.settings.get(earlier.file);
    if (now === undefined || was === undefined) return [];
    const [here, there] = [now.allowance, was.allowance];
    const isReworded = here !== undefined && (there === undefined || printBare(here.declaration.tree) !== printBare(there.declaration.tree));
    return [
      ...(here !== undefined && isReworded ? this.at('new', wholeOf(here.declaration), there && wholeOf(there.declaration)) : []),
      ...(here === undefined && there !== undefined ? this.at('old', wholeOf(there.declaration)) : []),
      ...(here === undefined ? [] : this.#behindNames(here.declaration, here.declaration.tree, left)),
      ...this.#settingLines(declaration.file, earlier.file),
    ];
  }

  #settingLines(path: string, earlierPath: string): readonly Cause[] {
    const inFile = (spec: Spec, path: string, kind: 'unit' | 'drawn'): Declaration | undefined =>
      spec.pattern.world.files.find((file) => file.path === path)?.declarations.find(({ declaration }) => declaration.tree.kind === kind)?.declaration;
    return (['unit', 'drawn'] as const).flatMap((kind) => {
      const [was, now] = [inFile(this.#old, earlierPath, kind), inFile(this.#fresh, path, kind)];
      if (now === undefined) return was === undefined ? [] : this.at('old', wholeOf(was));
      return was !== undefined && printBare(was.tree) === printBare(now.tree) ? [] : this.at('new', wholeOf(now), was && wholeOf(was));
    });
  }
}

const declarationAt = ({ pattern }: Spec, { chunk }: Place): Declaration | undefined =>
  pattern.world.root.declarations.find(({ declaration }) => declaration === chunk)?.declaration;

type At = (side: Cause['side'], place: Place, earlier?: Place) => readonly Cause[];
type Statement = PieceDeclaration['body']['statements'][number];

interface Written {
  readonly declaration: Declaration;
  readonly tree: PieceDeclaration;
}

/** Statements that draw a piece, as against what is cut from it and what is said of it. */
const isOfShape = ({ kind }: Statement): boolean => kind !== 'cut' && kind !== 'note';

/** Those of them that a seam or a formula may rest on. */
const isMeasured = (statement: Statement): boolean => isOfShape(statement) && !['mark', 'grain', 'way up', 'edge finish', 'edge title', 'template folded'].includes(statement.kind);

/** Those of them that its outline and its seam line follow from; windows are cut too. */
const isOfOutline = (statement: Statement): boolean =>
  isOfShape(statement) && !['notch', 'notch meeting', 'mark', 'grain', 'way up', 'edge', 'edge finish', 'edge title', 'topstitch', 'quilt', 'folded'].includes(statement.kind) && !(statement.kind === 'line' && statement.use !== 'window');

const printedHead = (tree: PieceDeclaration): string => printBare(tree).split('\n', 1)[0]?.replace(/"(?:[^"\\]|\\.)*"/, '').replace(/^piece\s+\S+/, '') ?? '';

/** The lines of a material or a supply that are not as they were. */
function rewordedLines(now: Declaration, was: Declaration, at: At): readonly Cause[] {
  if (!('body' in now.tree) || !('body' in was.tree)) return [];
  const { come, gone } = reworded<Parameters<typeof wordsOf>[0] & Node>(was.tree.body.statements, now.tree.body.statements);
  return [
    ...come.flatMap((line) => at('new', placeOf(now, line.now), line.was && placeOf(was, line.was))),
    ...gone.flatMap((line) => at('old', placeOf(was, line))),
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
