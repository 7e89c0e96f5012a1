import { usualOptions } from '../buying/plan.ts';
import { limits } from '../problems/limits.ts';
import { combinationsToShow } from '../table/combinations.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import type { Task } from '../workers/pool.ts';
import { ranks, textsOf, type PlannerClient, type PlannerPool } from './client.ts';
import type { Figures, PlannerReply, PlannerRequest } from './requests.ts';

type PlannerTask = Task<PlannerRequest, PlannerReply>;

/** What is planned beside a text. */
interface Beside {
  readonly snapshot: Snapshot;
  figures: Figures | undefined;
  readonly first: Promise<Figures | undefined>;
  running: PlannerTask | undefined;
}

/** What to buy, as it is told beside a text. Whatever is of an older text is given up. */
export class FiguresBeside {
  readonly #pool: PlannerPool;
  readonly #client: PlannerClient;
  readonly #beside = new Map<string, Beside>();

  constructor(pool: PlannerPool, client: PlannerClient) {
    this.#pool = pool;
    this.#client = client;
  }

  /** Texts have changed: work on older ones is given up. */
  settled(): void {
    for (const [uri, beside] of this.#beside) {
      if (this.#client.snapshotOf(uri) === beside.snapshot) continue;
      this.#beside.delete(uri);
      if (beside.running !== undefined) this.#pool.drop(beside.running);
    }
  }

  /** What to buy in every combination: the first lays' figures as soon as they are there. Undefined where the text changes before. */
  figures(uri: string, snapshot: Snapshot): Promise<Figures | undefined> {
    const beside = this.#of(uri, snapshot);
    return beside.figures === undefined ? beside.first : Promise.resolve(beside.figures);
  }

  /** The same for hints that come unasked: nothing where that would be much work. */
  hintFigures(uri: string, snapshot: Snapshot): Promise<Figures | undefined> {
    const { pattern } = snapshot;
    const pieces = pattern.world.root.declarations.filter(({ declaration }) => declaration.tree.kind === 'piece').length;
    const isMuch = pieces * combinationsToShow(pattern).combinations.length > limits.piecesBeside;
    if (this.#beside.get(uri)?.snapshot !== snapshot && (isMuch || !this.#pool.isApart)) return Promise.resolve(undefined);
    return this.figures(uri, snapshot);
  }

  #of(uri: string, snapshot: Snapshot): Beside {
    const earlier = this.#beside.get(uri);
    if (earlier?.snapshot === snapshot) return earlier;
    if (earlier?.running !== undefined) this.#pool.drop(earlier.running);
    let done: (figures: Figures | undefined) => void = () => undefined;
    const first = new Promise<Figures | undefined>((resolve) => (done = resolve));
    const beside: Beside = { snapshot, figures: undefined, first, running: undefined };
    this.#beside.set(uri, beside);
    const task = (rank: number, effort: number, ended: () => void): PlannerTask => ({
      rank,
      request: () => ({ kind: 'figures', texts: textsOf(this.#client.keyOf(uri), snapshot), effort }),
      heard: (reply) => {
        if (reply?.kind === 'figures') beside.figures = reply.figures;
      },
      ended: (how) => {
        beside.running = undefined;
        if (how === 'done') ended();
        done(beside.figures);
      },
    });
    const better = (): void => {
      const before = JSON.stringify(beside.figures);
      if (this.#beside.get(uri) !== beside || !this.#pool.isApart) return;
      beside.running = task(ranks.beside, usualOptions.effort, () => {
        if (JSON.stringify(beside.figures) !== before) this.#client.onBetterFigures();
      });
      this.#pool.add(beside.running);
    };
    beside.running = task(ranks.awaited, 0, better);
    this.#pool.add(beside.running);
    return beside;
  }
}
