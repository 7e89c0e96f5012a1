import type { Snapshot } from '../workspace/snapshot.ts';
import type { Task } from '../workers/pool.ts';
import { ranks, textsOf, type PlannerPool } from './client.ts';
import type { PlannerReply, PlannerRequest, Texts } from './requests.ts';

/**
 * What is different in a pattern from what its texts said before, as Markdown.
 *
 * @param id tells patterns apart
 * @param onStop is handed what stops it
 * @returns undefined where it is stopped or fails
 */
export function plannedComparison(pool: PlannerPool, id: string, snapshot: Snapshot, earlier: Omit<Texts, 'id'>, onStop: (stop: () => void) => void): Promise<string | undefined> {
  return new Promise((resolve) => {
    let markdown: string | undefined;
    const task: Task<PlannerRequest, PlannerReply> = {
      rank: ranks.awaited,
      request: () => ({ kind: 'comparison', texts: textsOf(id, snapshot), earlier: { id: `${id} before`, ...earlier } }),
      heard: (reply) => {
        if (reply?.kind === 'comparison') markdown = reply.markdown;
      },
      ended: () => resolve(markdown),
    };
    onStop(() => pool.drop(task));
    pool.add(task);
  });
}
