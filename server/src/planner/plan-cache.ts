import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { planning, type BuyingOptions, type MaterialPlan } from '../buying/plan.ts';
import type { LaidOut, LayCache } from '../buying/lay-out.ts';
import type { MaterialNeed } from '../buying/requirements.ts';
import { Stopped } from '../workers/job.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { Workspace } from '../workspace/workspace.ts';
import type { Texts } from './requests.ts';

const mostLays = 4000;
const mostPlans = 1000;
const mostPatterns = 8;

/** A map that forgets what was not asked for the longest. */
class RecentValues<Value> {
  readonly #most: number;
  readonly #entries = new Map<string, Value>();

  constructor(most: number) {
    this.#most = most;
  }

  get(key: string): Value | undefined {
    const value = this.#entries.get(key);
    if (value !== undefined) this.set(key, value);
    return value;
  }

  set(key: string, value: Value): void {
    this.#entries.delete(key);
    this.#entries.set(key, value);
    for (const oldest of this.#entries.keys()) {
      if (this.#entries.size <= this.#most) return;
      this.#entries.delete(oldest);
    }
  }
}

/** What the planner remembers from request to request: texts as read, lays and plans by their content. No answer hangs on it. */
export class PlanCache {
  readonly #patterns = new RecentValues<Workspace>(mostPatterns);
  readonly #lays = new RecentValues<readonly LaidOut[]>(mostLays);
  readonly #plans = new RecentValues<MaterialPlan>(mostPlans);

  /** The pattern of some texts, read anew only as far as they changed. */
  read({ id, path, files }: Texts): Snapshot | undefined {
    const workspace = this.#patterns.get(id) ?? new Workspace();
    this.#patterns.set(id, workspace);
    const present = new Set(files.map((file) => file.path));
    for (const open of workspace.paths()) if (!present.has(open)) workspace.close(open);
    for (const file of files) workspace.open(file.path, file.text);
    return workspace.snapshot(path);
  }

  /**
   * Plans a material step by step, or hands out the plan that was made of the same with the same effort.
   *
   * @throws Stopped in the middle of a step, where the work is stopped
   */
  *plan(need: MaterialNeed, options: BuyingOptions, isStopped: () => boolean): Generator<MaterialPlan, MaterialPlan> {
    const key = contentOf(need, options);
    const cached = this.#plans.get(key);
    if (cached !== undefined) {
      const plan = { ...cached, need };
      yield plan;
      return plan;
    }
    const plan = yield* planning(need, options, this.layCache(isStopped));
    this.#plans.set(key, plan);
    return plan;
  }

  /** The lays of earlier work, for work that may be stopped: what is unfinished then is not taken up. */
  layCache(isStopped: () => boolean): LayCache {
    return {
      isStopped,
      get: (key) => {
        if (isStopped()) throw new Stopped();
        return this.#lays.get(key);
      },
      set: (key, laid) => {
        if (isStopped()) throw new Stopped();
        this.#lays.set(key, laid);
      },
    };
  }
}

/** All that a plan hangs on, whatever things are called and wherever they are written: what is new in a material counts too. */
function contentOf({ material, requirements }: MaterialNeed, options: BuyingOptions): string {
  const { name: _, title: __, place: ___, notes: ____, ...facts } = material;
  const pieces = requirements.map(({ line: _____, title: ______, ...requirement }) => requirement);
  const asked = { facts, options, pieces };
  return bytesToHex(sha256(utf8ToBytes(JSON.stringify(asked, (_key, value: unknown) => (typeof value === 'bigint' ? String(value) : value)))));
}
