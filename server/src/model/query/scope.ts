import type { Place } from '../../problems/place.ts';
import { problem, type Problem, type ProblemDetails } from '../../problems/problem.ts';
import type { Catalogue, Code } from '../../problems/catalogue.ts';
import type { Declaration, Node } from '../../syntax/tree.ts';
import { showLength, usualDisplay, type Display } from '../../units/length.ts';
import { measured, type Rational } from '../../units/rational.ts';
import { settingsOf } from './inputs.ts';
import type { Context } from './query.ts';
import type { Settings } from '../settings.ts';

/** Where a computation stands: what it may ask, and the declaration whose text it reads. */
export interface Scope {
  readonly context: Context;
  readonly declaration: Declaration;
  readonly settings: Settings;
}

const fallback: Settings = { display: usualDisplay('in'), drawnTo: 'cutting', allowance: undefined };

export function scopeOf(context: Context, declaration: Declaration): Scope {
  return { context, declaration, settings: context.get(settingsOf, declaration.file) ?? fallback };
}

export function placeIn(scope: Scope, node: Node): Place {
  return { chunk: scope.declaration, start: node.start, end: node.end };
}

/** Reports a problem at a node of the scope's own declaration. */
export function report<C extends Code>(scope: Scope, code: C, node: Node, data: Parameters<Catalogue[C]['words']>[0], details?: ProblemDetails): void {
  const one: Problem = problem(code, placeIn(scope, node), data, details);
  scope.context.report(one);
}

/** A length in the words of the scope's file. */
export function lengthText(scope: Scope, millimetres: Rational | number): string {
  return lengthIn(scope.settings.display, millimetres);
}

function lengthIn(display: Display, millimetres: Rational | number): string {
  return showLength(typeof millimetres === 'number' ? measured(millimetres) : millimetres, display);
}
