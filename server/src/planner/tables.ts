import type { Snapshot } from '../workspace/snapshot.ts';
import type { Task } from '../workers/pool.ts';
import { ranks, textsOf, type PlannerPool } from './client.ts';
import type { PlannerReply, PlannerRequest, TablesRequest } from './requests.ts';

/**
 * Cutting tables with what to buy, as the text of a file.
 *
 * @param id tells patterns apart
 * @param onStop is handed what stops it
 * @returns undefined where it is stopped or fails
 */
export function plannedTables(pool: PlannerPool, id: string, snapshot: Snapshot, request: Omit<TablesRequest, 'kind' | 'texts'>, onStop: (stop: () => void) => void): Promise<string | undefined> {
  return new Promise((resolve) => {
    let text: string | undefined;
    const task: Task<PlannerRequest, PlannerReply> = {
      rank: ranks.awaited,
      request: () => ({ kind: 'tables', texts: textsOf(id, snapshot), ...request }),
      heard: (reply) => {
        if (reply?.kind === 'tables') text = reply.text;
      },
      ended: () => resolve(text),
    };
    onStop(() => pool.drop(task));
    pool.add(task);
  });
}
