import { catalogue, type Catalogue, type Code } from './catalogue.ts';
import type { Place } from './place.ts';

export type Severity = 'error' | 'warning' | 'note';

export interface Related {
  readonly place: Place;
  readonly message: string;
}

export interface Edit {
  readonly place: Place;
  readonly newText: string;
}

/** A change of the text that removes the problem. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
  /** Whether it can be applied unseen: it changes no size and no count. */
  readonly safe: boolean;
}

/** A fault found in a spec, as a value. */
export interface Problem {
  readonly code: Code;
  readonly severity: Severity;
  /** A plain sentence. */
  readonly message: string;
  readonly place: Place;
  readonly related: readonly Related[];
  readonly fixes: readonly Fix[];
  /** The text is without effect: editors fade it. */
  readonly unused: boolean;
}

export interface ProblemDetails {
  readonly related?: readonly Related[];
  readonly fixes?: readonly Fix[];
  readonly severity?: Severity;
}

/** Makes a problem in the words of the catalogue. */
export function problem<C extends Code>(code: C, place: Place, data: Parameters<Catalogue[C]['words']>[0], details: ProblemDetails = {}): Problem {
  const entry = catalogue[code];
  const words = entry.words as (data: Parameters<Catalogue[C]['words']>[0]) => string;
  return {
    code,
    severity: details.severity ?? entry.severity,
    message: words(data),
    place,
    related: details.related ?? [],
    fixes: details.fixes ?? [],
    unused: 'unused' in entry,
  };
}

/** A fix that puts one text in the place of another. */
export function replacement(title: string, place: Place, newText: string, safe: boolean): Fix {
  return { title, edits: [{ place, newText }], safe };
}
