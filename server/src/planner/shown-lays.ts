import { usualOptions } from '../buying/plan.ts';
import type { PreviewLays } from '../preview/lays-data.ts';
import type { ChosenOptions } from '../table/combinations.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import type { Task } from '../workers/pool.ts';
import { ranks, textsOf, type PlannerClient, type PlannerPool } from './client.ts';
import type { BuyingRequest, PlannerReply, PlannerRequest } from './requests.ts';

type PlannerTask = Task<PlannerRequest, PlannerReply>;

/** A pattern that a preview shows. */
interface Shown {
  readonly uri: string;
  readonly snapshot: Snapshot;
  /** Combination and request, as one text. */
  readonly requested: string;
  readonly task: () => PlannerTask;
  running: PlannerTask | undefined;
  lays: PreviewLays | undefined;
}

/** The lays that previews show. Whatever is of an older text is given up. */
export class ShownLays {
  readonly #pool: PlannerPool;
  readonly #client: PlannerClient;
  readonly #shown = new Map<string, Shown>();

  constructor(pool: PlannerPool, client: PlannerClient) {
    this.#pool = pool;
    this.#client = client;
  }

  /** Texts have changed: work on older ones is given up. */
  settled(): void {
    for (const [key, shown] of this.#shown) {
      const snapshot = this.#client.snapshotOf(shown.uri);
      if (snapshot === shown.snapshot) continue;
      if (shown.running !== undefined) this.#pool.drop(shown.running);
      if (snapshot === undefined) this.#shown.delete(key);
    }
  }

  /** Begins to plan what a preview asks for, or tells again what was planned of it. */
  show(uri: string, snapshot: Snapshot, combination: ChosenOptions, request: BuyingRequest): void {
    const requested = JSON.stringify([Object.entries(combination).sort(), request.articles, request.widths, request.lay]);
    const key = this.#client.keyOf(uri);
    const earlier = this.#shown.get(key);
    if (earlier?.snapshot === snapshot && earlier.requested === requested) {
      if (earlier.lays !== undefined) this.#tell(earlier, earlier.lays);
      return;
    }
    if (earlier?.running !== undefined) this.#pool.drop(earlier.running);
    const shown: Shown = {
      uri, snapshot, requested, running: undefined, lays: undefined,
      task: () => this.#task(shown, { kind: 'lays', texts: textsOf(key, snapshot), combination, ...request, effort: usualOptions.effort }),
    };
    this.#shown.set(key, shown);
    this.#begin(shown);
  }

  /** Stops or goes on to look for shorter lays. */
  look(uri: string, on: boolean): void {
    const shown = this.#shown.get(this.#client.keyOf(uri));
    if (shown === undefined) return;
    if (on) {
      if (shown.running === undefined && shown.lays?.state === 'stopped') this.#begin(shown);
    } else if (shown.running !== undefined) this.#pool.drop(shown.running);
  }

  #begin(shown: Shown): void {
    shown.running = shown.task();
    this.#pool.add(shown.running);
  }

  #task(shown: Shown, request: PlannerRequest): PlannerTask {
    const progress = this.#client.beginLongWork(() => this.look(shown.uri, false));
    return {
      rank: ranks.shown,
      request: () => request,
      heard: (reply) => {
        if (reply?.kind === 'lays') {
          shown.lays = reply.lays;
          this.#tell(shown, reply.lays);
        }
        progress.at(shown.lays?.done ?? 0);
      },
      ended: (how) => {
        shown.running = undefined;
        progress.end();
        if (how === 'done' || shown.lays === undefined) return;
        shown.lays = { ...shown.lays, state: 'stopped' };
        this.#tell(shown, shown.lays);
      },
    };
  }

  /** Only what is still shown is told. */
  #tell(shown: Shown, lays: PreviewLays): void {
    if (this.#shown.get(this.#client.keyOf(shown.uri)) !== shown || this.#client.snapshotOf(shown.uri) !== shown.snapshot) return;
    this.#client.showLays(shown.uri, lays);
  }
}
