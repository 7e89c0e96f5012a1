import type { LaidQuestion } from '../buying/lays.ts';
import type { WidthPlan } from '../buying/plan.ts';

/** What the sides of a drawn lay are: of a panel or sheet mere edges. */
export type Border = 'fold' | 'selvedge' | 'selvedges' | 'edge';

export interface LayBorders {
  /** At y = 0, and at the other side of the cloth. */
  readonly near: Border;
  readonly far: Border;
  /** What stands beside the far side, at the beginning of the cloth: of pieces on the cloth nothing may be written over. */
  readonly farWords: string;
  /** Whether the cloth is folded at its beginning, at x = 0. */
  readonly isFoldedAcross: boolean;
  /** How far from the fold, in millimetres, the selvedge lies that is folded in. */
  readonly foldedIn: number | undefined;
}

const sides: Readonly<Record<LaidQuestion['manner'], readonly [near: Border, far: Border]>> = {
  open: ['selvedge', 'selvedge'], folded: ['fold', 'selvedges'], partial: ['fold', 'selvedge'], crosswise: ['selvedges', 'selvedges'],
};

const words: Partial<Record<LaidQuestion['manner'], string>> = { partial: 'selvedge; the other lies at the dashed line', crosswise: 'fold at this end; selvedges' };

export function bordersOf({ manner, problem }: LaidQuestion, { form }: Pick<WidthPlan, 'form'>): LayBorders {
  const [near, far] = form === 'lengths' ? sides[manner] : (['edge', 'edge'] as const);
  return { near, far, farWords: words[manner] ?? far, isFoldedAcross: manner === 'crosswise', foldedIn: problem.doubleTo };
}
