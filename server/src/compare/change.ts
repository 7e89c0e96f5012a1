/** What a maker does about a change, or what it is about where there is nothing to do. */
export const groups = ['cut', 'buy', 'template', 'sew', 'mark', 'material', 'words', 'choices', 'checks', 'problems'] as const;
export type Group = (typeof groups)[number];

/** Groups that say something about the pattern itself; the others are about its spec alone. */
export const ofThePattern: readonly Group[] = groups.filter((group) => group !== 'checks' && group !== 'problems');

/** The line of a spec that a change comes from. */
export interface Cause {
  /** Which of the two specs the line stands in: what was taken away stands in the old one. */
  readonly side: 'old' | 'new';
  readonly file: string;
  /** From 1. */
  readonly line: number;
  readonly text: string;
  /** What the same line said before, where there was one. */
  readonly before?: string;
}

/** One thing that is not as it was, in words. */
export interface Change {
  readonly group: Group;
  readonly kind: 'added' | 'removed' | 'changed';
  /** The title of the piece, material or supply, or what else it is. */
  readonly subject: string;
  /** `size`, `count`; of a cut line with what it is cut from. */
  readonly what: string;
  /** Empty of what was added. */
  readonly was: string;
  /** Empty of what was removed. */
  readonly now: string;
  readonly causes: readonly Cause[];
  /** Of a cut line: how many pieces are cut by it now. */
  readonly pieces?: string;
  /** Of a cut line, and of a mark on its cloth: true where what was cut before may be kept. */
  readonly serves?: boolean;
  /** Of what is bought: how much of it, without what it costs. */
  readonly amounts?: { readonly was: string; readonly now: string };
  /** `trim is felt`; undefined where it is so in all sizes and choices that both have. */
  readonly when: string | undefined;
}

/** A change in one combination, before those that are alike are folded together. */
export type Raw = Omit<Change, 'when'>;

/** Adds a change where two texts differ. */
export function differing(to: Raw[], common: Pick<Raw, 'group' | 'subject' | 'what' | 'causes' | 'pieces' | 'amounts'>, was: string, now: string): void {
  if (was !== now) to.push({ ...common, kind: was === '' ? 'added' : now === '' ? 'removed' : 'changed', was, now });
}

/** Whether a change of a cut line is one of its number alone. */
export const isCount = (what: string): boolean => what.endsWith(': count');

/** Whether what was cut before can't be kept. */
export const isRecut = ({ group, kind, what, serves }: Pick<Raw, 'group' | 'kind' | 'what' | 'serves'>): boolean => group === 'cut' && kind === 'changed' && !isCount(what) && serves !== true;
