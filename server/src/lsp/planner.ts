import type { WorkDoneProgressServerReporter } from 'vscode-languageserver';
import type { PreviewLays } from '../preview/lays-data.ts';
import { combinationsToShow } from '../table/combinations.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { laysNotification, type BuyingWish, type ChosenOptions, type ExportParams, type LaysParams } from './messages.ts';
import type { Session, Standing } from './session.ts';
import { keyOf } from './uris.ts';
import type { Answer, Figures, Texts } from '../planner/jobs.ts';
import { Queue, type Task } from '../planner/queue.ts';

/** About seconds to look for each lay that a preview shows; in the server's own thread only as long as nobody notices. */
const shownEffort = { apart: 1, shared: 0.05 };
/** The same for what is told beside the text: as much as for an exported table. */
const figuresEffort = 0.1;
/** Patterns with more pieces in all their combinations get no figures beside the text unless somebody asks. */
const mostFigured = 600;
/** Milliseconds after which a search is told as the editor tells long work. */
const longWork = 1000;

/** What somebody waits for comes first, then what is shown, then what may be asked for. */
const ranks = { awaited: 0, shown: 1, beside: 2 } as const;

/** A pattern that a preview shows. */
interface Shown {
  readonly uri: string;
  readonly snapshot: Snapshot;
  /** Combination and wish, as one text. */
  readonly wanted: string;
  readonly task: () => Task;
  running: Task | undefined;
  lays: PreviewLays | undefined;
}

/** What is known beside a text. */
interface Beside {
  readonly snapshot: Snapshot;
  figures: Figures | undefined;
  readonly first: Promise<Figures | undefined>;
  running: Task | undefined;
}

/** Plans what to buy, apart from all that must answer at once. Whatever is of an older text is given up. */
export class Planner {
  readonly #session: Session;
  readonly #shown = new Map<string, Shown>();
  readonly #beside = new Map<string, Beside>();
  #made: Queue | undefined;

  constructor(session: Session) {
    this.#session = session;
  }

  get #queue(): Queue {
    const { host, connection } = this.#session;
    return (this.#made ??= new Queue(host.soon, host.openLane, (why) => connection.console.error(why)));
  }

  /** Texts have changed: work on older ones is given up. */
  settled(): void {
    for (const [key, shown] of this.#shown) {
      if (this.#snapshotOf(shown.uri) === shown.snapshot) continue;
      if (shown.running !== undefined) this.#queue.drop(shown.running);
      if (this.#snapshotOf(shown.uri) === undefined) this.#shown.delete(key);
    }
    for (const [uri, beside] of this.#beside) {
      if (this.#snapshotOf(uri) === beside.snapshot) continue;
      this.#beside.delete(uri);
      if (beside.running !== undefined) this.#queue.drop(beside.running);
    }
  }

  #snapshotOf(uri: string): Snapshot | undefined {
    const { folder, path } = this.#session.folders.home(uri);
    return folder.workspace.snapshot(path);
  }

  // ---------------------------------------------------------------------------------------------- what a preview shows

  /** Begins to plan what a preview asks for, or tells again what is known of it. */
  show(uri: string, { snapshot }: Standing, combination: ChosenOptions | undefined, wish: BuyingWish): void {
    const articles = wholeNumber(wish.articles);
    const widths = typeof wish.widths === 'string' ? wish.widths.slice(0, 200) : '';
    const lay = wish.lay === 'open' || wish.lay === 'folded' ? wish.lay : 'shorter';
    const wanted = JSON.stringify([Object.entries(combination ?? {}).sort(), articles, widths, lay]);
    const key = keyOf(uri);
    const known = this.#shown.get(key);
    if (known?.snapshot === snapshot && known.wanted === wanted) {
      if (known.lays !== undefined) this.#tell(known, known.lays);
      return;
    }
    if (known?.running !== undefined) this.#queue.drop(known.running);
    const shown: Shown = {
      uri, snapshot, wanted, running: undefined, lays: undefined,
      task: () => this.#laysTask(shown, (isApart) => ({
        kind: 'lays', texts: textsOf(uri, snapshot), combination: combination ?? {}, articles, widths, lay,
        effort: isApart ? shownEffort.apart : shownEffort.shared,
      })),
    };
    this.#shown.set(key, shown);
    this.#begin(shown);
  }

  /** Stops or goes on to look for shorter lays. */
  look(uri: string, on: boolean): void {
    const shown = this.#shown.get(keyOf(uri));
    if (shown === undefined) return;
    if (on) {
      if (shown.running === undefined && shown.lays?.state === 'stopped') this.#begin(shown);
    } else if (shown.running !== undefined) this.#queue.drop(shown.running);
  }

  #begin(shown: Shown): void {
    shown.running = shown.task();
    this.#queue.add(shown.running);
  }

  #laysTask(shown: Shown, asked: (isApart: boolean) => ReturnType<Task['asked']>): Task {
    const progress = new LongWork(this.#session, () => this.look(shown.uri, false));
    return {
      rank: ranks.shown,
      asked: ({ isApart }) => asked(isApart),
      heard: (answer) => {
        if (answer.kind === 'lays') {
          shown.lays = answer.lays;
          this.#tell(shown, answer.lays);
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
    if (this.#shown.get(keyOf(shown.uri)) !== shown || this.#snapshotOf(shown.uri) !== shown.snapshot) return;
    void this.#session.connection.sendNotification(laysNotification, { uri: shown.uri, lays } satisfies LaysParams);
  }

  // ---------------------------------------------------------------------------------------------- beside the text

  /** What to buy in every combination: the first lays' figures as soon as they are there. Undefined where the text changes before. */
  figures(uri: string, { snapshot }: Standing): Promise<Figures | undefined> {
    const known = this.#figuresFor(uri, snapshot);
    return known.figures === undefined ? known.first : Promise.resolve(known.figures);
  }

  /** The same for hints that come unasked: nothing where that would be much work. */
  hintFigures(uri: string, standing: Standing): Promise<Figures | undefined> {
    const { pattern } = standing.snapshot;
    const pieces = pattern.world.root.declarations.filter(({ declaration }) => declaration.tree.kind === 'piece').length;
    const isMuch = pieces * combinationsToShow(pattern).combinations.length > mostFigured;
    const known = this.#beside.get(uri);
    if (known?.snapshot !== standing.snapshot && (isMuch || !this.#queue.isApart)) return Promise.resolve(undefined);
    return this.figures(uri, standing);
  }

  #figuresFor(uri: string, snapshot: Snapshot): Beside {
    const known = this.#beside.get(uri);
    if (known?.snapshot === snapshot) return known;
    if (known?.running !== undefined) this.#queue.drop(known.running);
    let done: (figures: Figures | undefined) => void = () => undefined;
    const first = new Promise<Figures | undefined>((resolve) => (done = resolve));
    const beside: Beside = { snapshot, figures: undefined, first, running: undefined };
    this.#beside.set(uri, beside);
    const task = (rank: number, effort: number, ended: () => void): Task => ({
      rank,
      asked: () => ({ kind: 'figures', texts: textsOf(uri, snapshot), effort }),
      heard: (answer) => {
        if (answer.kind === 'figures') beside.figures = answer.figures;
      },
      ended: (how) => {
        beside.running = undefined;
        if (how === 'done') ended();
        done(beside.figures);
      },
    });
    const better = (): void => {
      const before = JSON.stringify(beside.figures);
      if (this.#beside.get(uri) !== beside || !this.#queue.isApart) return;
      beside.running = task(ranks.beside, figuresEffort, () => {
        if (JSON.stringify(beside.figures) !== before) this.onBetterFigures();
      });
      this.#queue.add(beside.running);
    };
    beside.running = task(ranks.awaited, 0, better);
    this.#queue.add(beside.running);
    return beside;
  }

  /** Called when hints would say something else than before. */
  onBetterFigures: () => void = () => undefined;

  // ---------------------------------------------------------------------------------------------- tables

  /**
   * Cutting tables with what to buy, as the text of a file.
   *
   * @param onStop is handed what stops it
   * @returns undefined where it is stopped or fails
   */
  tables(uri: string, { snapshot }: Standing, params: Pick<ExportParams, 'format' | 'by' | 'combination'>, onStop: (stop: () => void) => void): Promise<string | undefined> {
    return new Promise((resolve) => {
      let text: string | undefined;
      const task: Task = {
        rank: ranks.awaited,
        asked: () => ({ kind: 'tables', texts: textsOf(uri, snapshot), format: params.format, by: params.by, combination: params.combination ?? {} }),
        heard: (answer: Answer) => {
          if (answer.kind === 'tables') text = answer.text;
        },
        ended: () => resolve(text),
      };
      onStop(() => this.#queue.drop(task));
      this.#queue.add(task);
    });
  }
}

function textsOf(uri: string, { path, pattern }: Snapshot): Texts {
  return { id: keyOf(uri), path, files: pattern.world.files.map((file) => ({ path: file.path, text: file.text })) };
}

/** As many as anyone makes at once; one where it is no number. */
function wholeNumber(articles: unknown): number {
  return typeof articles === 'number' && Number.isInteger(articles) && articles >= 1 ? Math.min(articles, 100_000) : 1;
}

/** A search that takes long, as the editor shows long work: it can be stopped there too. */
class LongWork {
  readonly #session: Session;
  readonly #stop: () => void;
  readonly #started = performance.now();
  #reporter: Promise<WorkDoneProgressServerReporter> | undefined;
  #isOver = false;

  constructor(session: Session, stop: () => void) {
    this.#session = session;
    this.#stop = stop;
  }

  at(done: number): void {
    if (this.#isOver || this.#session.capabilities.window?.workDoneProgress !== true || performance.now() - this.#started < longWork) return;
    this.#reporter ??= this.#session.connection.window.createWorkDoneProgress().then((reporter) => {
      reporter.token.onCancellationRequested(this.#stop);
      reporter.begin('Looking for shorter lays', 0, undefined, true);
      return reporter;
    });
    void this.#reporter.then((reporter) => this.#isOver || reporter.report(Math.round(100 * done)));
  }

  end(): void {
    this.#isOver = true;
    void this.#reporter?.then((reporter) => reporter.done());
  }
}
