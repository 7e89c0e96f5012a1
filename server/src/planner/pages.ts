import type { HandedOver } from '../formats/pages.ts';
import type { Task } from '../workers/pool.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { ranks, textsOf, type PlannerPool } from './client.ts';
import type { PagesRequest, PlannerReply, PlannerRequest } from './requests.ts';

/**
 * A booklet, or another file for handing over.
 *
 * @param id tells patterns apart
 * @param onStop is handed what stops it
 * @returns undefined where it is stopped or fails
 */
export function plannedPages(pool: PlannerPool, id: string, snapshot: Snapshot, request: Omit<PagesRequest, 'kind' | 'texts'>, onStop: (stop: () => void) => void): Promise<HandedOver | undefined> {
  return new Promise((resolve) => {
    let made: HandedOver | undefined;
    const task: Task<PlannerRequest, PlannerReply> = {
      rank: ranks.awaited,
      request: () => ({ kind: 'pages', texts: textsOf(id, snapshot), ...request }),
      heard: (reply) => {
        if (reply?.kind === 'pages') made = reply.made;
      },
      ended: () => resolve(made),
    };
    onStop(() => pool.drop(task));
    pool.add(task);
  });
}
