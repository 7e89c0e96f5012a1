import type { PreviewLays } from '../preview/lays-data.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import type { WorkerPool } from '../workers/pool.ts';
import type { PlannerReply, PlannerRequest, Texts } from './requests.ts';

/** Who asks the planner: it holds the texts, and is told of what was planned. */
export interface PlannerClient {
  /** The pattern at an address as its texts are now; undefined where there is none. */
  readonly snapshotOf: (uri: string) => Snapshot | undefined;
  /** One key for all spellings of an address. */
  readonly keyOf: (uri: string) => string;
  readonly showLays: (uri: string, lays: PreviewLays) => void;
  /** Called when figures beside a text would say something else than before. */
  readonly onBetterFigures: () => void;
  /** Called when a search begins that may take long. */
  readonly beginLongWork: (stop: () => void) => LongWork;
}

/** A search that may take long, as it is shown to whoever may stop it. */
export interface LongWork {
  /** @param done from 0 to 1 */
  readonly at: (done: number) => void;
  readonly end: () => void;
}

export type PlannerPool = WorkerPool<PlannerRequest, PlannerReply>;

/** What somebody waits for comes first, then what is shown, then what may be asked for. */
export const ranks = { awaited: 0, shown: 1, beside: 2 } as const;

export const textsOf = (id: string, { path, pattern }: Snapshot): Texts => ({ id, path, files: pattern.world.files.map((file) => ({ path: file.path, text: file.text })) });
