import { problem, type Problem } from '../problems/problem.ts';
import type { Place } from '../problems/place.ts';
import type { AllowanceJoin, AllowanceStatement, Declaration, DeclarationTree, Expression, Node, NumberLiteral, SourceFile } from '../syntax/tree.ts';
import { parseNumber } from '../units/number-text.ts';
import { millimetresIn, usualDisplay, type Display, type FileUnit } from '../units/length.ts';
import type { Rational } from '../units/rational.ts';
import type { Note } from './notes.ts';
import { readFact, type FactReaders } from './read-facts.ts';

/** Where a formula stands: its text and the declaration that it belongs to. */
export interface Written<T> {
  readonly declaration: Declaration;
  readonly node: T;
}

/** What a file says of itself, before anything is computed. */
export interface Settings {
  readonly display: Display;
  readonly drawnTo: 'cutting' | 'stitching';
  /** The allowances given for the whole pattern, the last for all edges first. */
  readonly allowance: Written<AllowanceStatement> | undefined;
}

/** What a pattern's own file says of the pattern. */
export interface Facts {
  readonly title: string | undefined;
  readonly revision: string | undefined;
  readonly issued: { readonly revision: string; readonly digest: string; readonly place: Place } | undefined;
  readonly revisionPlace: Place | undefined;
  readonly notes: readonly Note[];
  readonly currency: string | undefined;
}

export const placeOf = (declaration: Declaration, node: Node): Place => ({ chunk: declaration, start: node.start, end: node.end });

export type { AllowanceJoin, Expression };

/** What the lines of a file say of the file and the pattern, as far as they can be read. */
interface Said extends Facts, Pick<Settings, 'drawnTo' | 'allowance'> {
  readonly unit: FileUnit;
  readonly also: FileUnit | undefined;
  readonly step: Written<Expression> | undefined;
}

const nothingSaid: Said = {
  unit: 'in',
  also: undefined,
  step: undefined,
  drawnTo: 'cutting',
  allowance: undefined,
  title: undefined,
  revision: undefined,
  revisionPlace: undefined,
  issued: undefined,
  currency: undefined,
  notes: [],
};

/** Where a line of a file stands, and where what is wrong with it is put. */
interface Where {
  readonly declaration: Declaration;
  readonly problems: Problem[];
}

const readers: FactReaders<DeclarationTree, Where, Said> = {
  pattern: (_, { title }) => ({ title: title.value }),
  revision: ({ declaration, problems }, { number }) => ({ revision: revisionIn(declaration, number, problems), revisionPlace: placeOf(declaration, number) }),
  issued: ({ declaration, problems }, tree) => {
    if (/^[0-9a-f]{12}$/.test(tree.digest.value)) return { issued: { revision: tree.number.digits, digest: tree.digest.value, place: placeOf(declaration, tree) } };
    problems.push(problem('bad-digest', placeOf(declaration, tree.digest), {}));
    return {};
  },
  unit: (_, { unit, also }) => ({ unit, also: also === unit ? undefined : also }),
  step: ({ declaration }, { size }) => ({ step: { declaration, node: size } }),
  currency: (_, { text }) => ({ currency: text.value }),
  drawn: (_, { to }) => ({ drawnTo: to }),
  allowance: ({ declaration }, tree) => ({ allowance: { declaration, node: tree } }),
  note: ({ declaration }, { text: sentence }, { notes }) => ({ notes: [...notes, { declaration, sentence }] }),
};

/** What a file may say only once. */
const onlyOnce: ReadonlySet<string> = new Set(['pattern', 'revision', 'issued', 'unit', 'step', 'currency', 'drawn', 'allowance', 'sizes']);

/** Reads a file's settings and facts; a fact given twice is a problem, and the first one holds. */
export function readSettings(file: SourceFile): { readonly settings: Settings; readonly facts: Facts; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const seen = new Set<string>();
  let said = nothingSaid;
  for (const { declaration } of file.declarations) {
    const { tree } = declaration;
    if (onlyOnce.has(tree.kind) && seen.has(tree.kind)) {
      problems.push(problem('repeated-fact', placeOf(declaration, tree), { what: `The ${tree.kind === 'drawn' ? 'line drawn to' : tree.kind}` }));
      continue;
    }
    seen.add(tree.kind);
    said = readFact(readers, { declaration, problems }, tree, said);
  }
  const { unit, also, step, drawnTo, allowance, ...facts } = said;
  const display = displayOf(unit, step, problems);
  return { settings: { display: also === undefined ? display : { ...display, also }, drawnTo, allowance }, facts, problems };
}

function displayOf(unit: FileUnit, step: Written<Expression> | undefined, problems: Problem[]): Display {
  if (step === undefined) return usualDisplay(unit);
  const size = literalStep(step.node, unit);
  if (size !== undefined) return { unit, step: size };
  problems.push(problem('bad-step', placeOf(step.declaration, step.node), { allowed: allowedSteps(unit) }));
  return usualDisplay(unit);
}

/** A revision is counted up, so it is a whole number; one with decimals is taken, too. */
function revisionIn(declaration: Declaration, number: NumberLiteral, problems: Problem[]): string | undefined {
  if (/^\d{1,9}(?:\.\d{1,9})?$/.test(number.digits)) return number.digits;
  const value = number.digits.length > 20 ? `${number.digits.slice(0, 20)}…` : number.digits;
  problems.push(problem('not-whole', placeOf(declaration, number), { what: 'A revision', value }));
  return undefined;
}

const steps: Readonly<Record<FileUnit, readonly string[]>> = { in: ['1/8', '1/16', '1/32'], cm: ['0.1', '0.5'], mm: ['1', '0.5'] };

function allowedSteps(unit: FileUnit): string {
  return steps[unit].map((digits) => `${digits} ${unit}`).join(', ');
}

/** A step must be written out: the shown sizes must not hang on a formula. */
function literalStep(expression: Expression, unit: FileUnit): Rational | undefined {
  if (expression.kind !== 'number' || expression.unit === 'deg' || expression.unit === '%') return undefined;
  const size = parseNumber(expression.digits)?.mul(millimetresIn[expression.unit ?? unit]);
  return steps[unit].some((digits) => size?.equals(parseNumber(digits)?.mul(millimetresIn[unit]) ?? 0)) ? size : undefined;
}
