import type { PlannerReply, PlannerRequest } from '../planner/requests.ts';
import type { ReadText } from '../platform/decode.ts';
import type { Soon } from '../workers/job.ts';
import type { OpenWorker } from '../workers/worker.ts';

/** What the server needs of where it runs. Addresses are URIs as the client writes them. */
export interface Host {
  /**
   * The text of a file.
   *
   * @param folder the working folder that it must lie in, links followed
   * @returns why it can’t be read; undefined where there is none
   */
  readonly read: (uri: string, folder: string) => Promise<ReadText | undefined>;
  /** The addresses of all `.piece` files in a folder. */
  readonly list: (folder: string) => Promise<readonly string[]>;
  /** Runs something after what is already waiting has had its turn. */
  readonly soon: Soon;
  /** Opens another thread to plan in; without it, or where it breaks, lays are planned between everything else. */
  readonly openPlanner?: OpenWorker<PlannerRequest, PlannerReply>;
}
