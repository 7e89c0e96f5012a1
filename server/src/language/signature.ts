import { functions } from '../model/formulas/evaluate.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { contextAt, type TextContext } from './context.ts';
import { forms } from './signature-forms.ts';

export interface Signature {
  readonly label: string;
  readonly documentation: string;
  /** Each a range of the label. */
  readonly parameters: readonly { readonly start: number; readonly end: number; readonly documentation: string }[];
  /** The parameter that the cursor is at; undefined beyond the last. */
  readonly active: number | undefined;
}

/** The form of the function or statement that is being written at an offset. */
export function signature(snapshot: Snapshot, offset: number): Signature | undefined {
  const context = contextAt(snapshot, offset);
  if (context.within === 'comment') return undefined;
  // What a text says is no part of the statement.
  const written = (context.before + context.word).replace(/"(?:[^"\\]|\\.)*"?/g, '""');
  return callSignature(written) ?? formSignature(context, written);
}

// ------------------------------------------------------------------------------------------------ functions

function callSignature(written: string): Signature | undefined {
  let depth = 0;
  let commas = 0;
  for (let index = written.length - 1; index >= 0; index--) {
    const letter = written.charAt(index);
    if (letter === ')') depth++;
    else if (letter === ',' && depth === 0) commas++;
    else if (letter === '(' && depth-- === 0) {
      const name = /[\p{L}_][\p{L}\p{M}\p{N}_]*$/u.exec(written.slice(0, index))?.[0];
      const known = name !== undefined && Object.hasOwn(functions, name) ? functions[name] : undefined;
      if (known === undefined) {
        // Brackets that only group: the call may be further out.
        depth = 0;
        commas = 0;
        continue;
      }
      const parameters = [...known.usage.matchAll(/(?<=[(\s])[^,()\s]+(?=[,)])/g)].map((match) => ({ start: match.index, end: match.index + match[0].length, documentation: '' }));
      // What may be repeated stays at its last parameter.
      const active = known.usage.includes('…') ? Math.min(commas, parameters.length - 1) : commas;
      return { label: known.usage, documentation: known.doc, parameters, active: active < parameters.length ? active : undefined };
    }
  }
  return undefined;
}

// ------------------------------------------------------------------------------------------------ statements

function formSignature({ block }: TextContext, written: string): Signature | undefined {
  const form = forms.find((one) => one.block === block && one.start.test(written));
  if (form === undefined) return undefined;
  let label = '';
  let active: number | undefined;
  const parameters: { start: number; end: number; documentation: string }[] = [];
  for (const one of form.parts) {
    if (typeof one === 'string') {
      label += one;
      continue;
    }
    if (one.after.test(written)) active = parameters.length;
    parameters.push({ start: label.length, end: label.length + one.part.length, documentation: one.meaning });
    label += one.part;
  }
  return { label, documentation: form.documentation, parameters, active };
}
