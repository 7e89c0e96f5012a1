import type { WorkDoneProgressServerReporter } from 'vscode-languageserver';
import type { LongWork, PlannerClient, PlannerPool } from '../planner/client.ts';
import { plannedComparison } from '../planner/comparison.ts';
import { FiguresBeside } from '../planner/figures.ts';
import type { Figures, Texts } from '../planner/requests.ts';
import { ShownLays } from '../planner/shown-lays.ts';
import type { HandedOver } from '../formats/pages.ts';
import type { PageOptions } from '../pages/options.ts';
import { plannedPages } from '../planner/pages.ts';
import { plannedTables } from '../planner/tables.ts';
import { plannerWork } from '../planner/work.ts';
import { limits } from '../problems/limits.ts';
import { WorkerPool } from '../workers/pool.ts';
import { laysNotification, type BuyingWish, type ChosenOptions, type ExportParams, type LaysParams, type PagesParams } from './messages.ts';
import type { Session, RequestContext } from './session.ts';
import { keyOf } from './uris.ts';

/** The planner as the protocol speaks of it. */
export class Planner {
  readonly #session: Session;
  #made: { readonly pool: PlannerPool; readonly shown: ShownLays; readonly beside: FiguresBeside } | undefined;

  constructor(session: Session) {
    this.#session = session;
  }

  /** Made once the client has said what it can. */
  get #parts(): { readonly pool: PlannerPool; readonly shown: ShownLays; readonly beside: FiguresBeside } {
    if (this.#made === undefined) {
      const { host, connection } = this.#session;
      const pool: PlannerPool = new WorkerPool({ soon: host.soon, work: plannerWork(), open: host.openPlanner, log: (why) => connection.console.error(why) });
      const client: PlannerClient = {
        snapshotOf: (uri) => {
          const { folder, path } = this.#session.folders.home(uri);
          // Nothing is made anew for a document that nobody shows.
          return this.#session.folders.document(uri) === undefined ? folder.workspace.heldSnapshot(path) : folder.workspace.snapshot(path);
        },
        keyOf,
        showLays: (uri, lays) => void connection.sendNotification(laysNotification, { uri, lays } satisfies LaysParams),
        onBetterFigures: () => this.onBetterFigures(),
        beginLongWork: (stop) => toldLongWork(this.#session, stop),
      };
      this.#made = { pool, shown: new ShownLays(pool, client), beside: new FiguresBeside(pool, client) };
    }
    return this.#made;
  }

  /** Called when hints would say something else than before. */
  onBetterFigures: () => void = () => undefined;

  /** Texts have changed: work on older ones is given up. */
  settled(): void {
    this.#made?.shown.settled();
    this.#made?.beside.settled();
  }

  /** Begins to plan what a preview asks for, or tells again what was planned of it. What a client says may be anything. */
  show(uri: string, { snapshot }: RequestContext, combination: ChosenOptions | undefined, wish: BuyingWish): void {
    this.#parts.shown.show(uri, snapshot, combination ?? {}, {
      articles: wholeNumber(wish.articles),
      widths: typeof wish.widths === 'string' ? wish.widths.slice(0, longestWidths) : '',
      lay: wish.lay === 'open' || wish.lay === 'folded' ? wish.lay : 'shorter',
    });
  }

  /** Stops or goes on to look for shorter lays. */
  look(uri: string, on: boolean): void {
    this.#made?.shown.look(uri, on);
  }

  /** What to buy in every combination; see {@link FiguresBeside.figures}. */
  figures(uri: string, { snapshot }: RequestContext): Promise<Figures | undefined> {
    return this.#parts.beside.figures(uri, snapshot);
  }

  /** The same for hints that come unasked; see {@link FiguresBeside.hintFigures}. */
  hintFigures(uri: string, { snapshot }: RequestContext): Promise<Figures | undefined> {
    return this.#parts.beside.hintFigures(uri, snapshot);
  }

  /** Cutting tables as the text of a file; see {@link plannedTables}. */
  tables(uri: string, { snapshot }: RequestContext, { format, by, combination }: Pick<ExportParams, 'format' | 'by' | 'combination'>, onStop: (stop: () => void) => void): Promise<string | undefined> {
    return plannedTables(this.#parts.pool, keyOf(uri), snapshot, { format, by, combination: combination ?? {} }, onStop);
  }

  /** What is different from earlier texts, as Markdown; see {@link plannedComparison}. */
  comparison(uri: string, { snapshot }: RequestContext, earlier: Omit<Texts, 'id'>, onStop: (stop: () => void) => void): Promise<string | undefined> {
    return plannedComparison(this.#parts.pool, keyOf(uri), snapshot, earlier, onStop);
  }

  /** Pages and other files for handing over; see {@link plannedPages}. */
  pages(uri: string, { snapshot }: RequestContext, { format, combination }: Pick<PagesParams, 'format' | 'combination'>, options: PageOptions, onStop: (stop: () => void) => void): Promise<HandedOver | undefined> {
    return plannedPages(this.#parts.pool, keyOf(uri), snapshot, { format, options, combination: combination ?? {} }, onStop);
  }
}

/** Widths are typed into one short field. */
const longestWidths = 200;

/** As many as anyone makes at once; one where it is no number. */
const wholeNumber = (articles: unknown): number => (typeof articles === 'number' && Number.isInteger(articles) && articles >= 1 ? Math.min(articles, limits.articles) : 1);

/** Milliseconds after which a search is told as the editor tells long work. */
const longWork = 1000;

/** A search that takes long, as the editor shows long work: it can be stopped there too. */
function toldLongWork({ capabilities, connection }: Session, stop: () => void): LongWork {
  const started = performance.now();
  let reporter: Promise<WorkDoneProgressServerReporter> | undefined;
  let isOver = false;
  return {
    at: (done) => {
      if (isOver || capabilities.window?.workDoneProgress !== true || performance.now() - started < longWork) return;
      reporter ??= connection.window.createWorkDoneProgress().then((made) => {
        made.token.onCancellationRequested(stop);
        made.begin('Looking for shorter lays', 0, undefined, true);
        return made;
      });
      void reporter.then((made) => isOver || made.report(Math.round(100 * done)));
    },
    end: () => {
      isOver = true;
      void reporter?.then((made) => made.done());
    },
  };
}
