import { problem, type Problem } from '../problems/problem.ts';
import type { Place } from '../problems/place.ts';
import type { AllowanceJoin, AllowanceStatement, Declaration, Expression, Node, NumberLiteral, SourceFile } from '../syntax/tree.ts';
import { parseNumber } from '../units/number-text.ts';
import { millimetresIn, usualDisplay, type Display, type FileUnit } from '../units/length.ts';
import type { Rational } from '../units/rational.ts';

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
  readonly notes: readonly string[];
  readonly currency: string | undefined;
}

export const placeOf = (declaration: Declaration, node: Node): Place => ({ chunk: declaration, start: node.start, end: node.end });

export type { AllowanceJoin, Expression };

/** Reads a file's settings and facts; a fact given twice is a problem, and the first one holds. */
export function readSettings(file: SourceFile): { readonly settings: Settings; readonly facts: Facts; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const seen = new Set<string>();
  let unit: FileUnit = 'in';
  let also: FileUnit | undefined;
  let step: Written<Expression> | undefined;
  let drawnTo: 'cutting' | 'stitching' = 'cutting';
  let allowance: Settings['allowance'];
  let title: string | undefined;
  let revision: string | undefined;
  let revisionPlace: Place | undefined;
  let issued: Facts['issued'];
  let currency: string | undefined;
  const notes: string[] = [];

  for (const { declaration } of file.declarations) {
    const tree = declaration.tree;
    if (['pattern', 'revision', 'issued', 'unit', 'step', 'currency', 'drawn', 'allowance', 'sizes'].includes(tree.kind)) {
      if (seen.has(tree.kind)) {
        problems.push(problem('repeated-fact', placeOf(declaration, tree), { what: `The ${tree.kind === 'drawn' ? 'line drawn to' : tree.kind}` }));
        continue;
      }
      seen.add(tree.kind);
    }
    switch (tree.kind) {
      case 'pattern':
        title = tree.title.value;
        break;
      case 'revision':
        revision = revisionIn(declaration, tree.number, problems);
        revisionPlace = placeOf(declaration, tree.number);
        break;
      case 'issued':
        if (!/^[0-9a-f]{12}$/.test(tree.digest.value)) problems.push(problem('bad-digest', placeOf(declaration, tree.digest), {}));
        else issued = { revision: tree.number.digits, digest: tree.digest.value, place: placeOf(declaration, tree) };
        break;
      case 'unit':
        unit = tree.unit;
        also = tree.also === unit ? undefined : tree.also;
        break;
      case 'step':
        step = { declaration, node: tree.size };
        break;
      case 'currency':
        currency = tree.text.value;
        break;
      case 'drawn':
        drawnTo = tree.to;
        break;
      case 'allowance':
        allowance = { declaration, node: tree };
        break;
      case 'note':
        notes.push(tree.text.value);
    }
  }

  let display = usualDisplay(unit);
  if (step !== undefined) {
    const size = literalStep(step.node, unit);
    if (size === undefined) problems.push(problem('bad-step', placeOf(step.declaration, step.node), { allowed: allowedSteps(unit) }));
    else display = { unit, step: size };
  }
  return {
    settings: { display: also === undefined ? display : { ...display, also }, drawnTo, allowance },
    facts: { title, revision, issued, revisionPlace, notes, currency },
    problems,
  };
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
