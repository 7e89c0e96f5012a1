import type { CancellationToken } from 'vscode-languageserver';
import { previewParts, type PreviewParts } from '../preview/drawing.ts';
import { difference } from '../preview/difference.ts';
import { remembered, type Earlier } from '../preview/earlier.ts';
import type { PreviewData } from '../preview/drawing-data.ts';
import { Kept } from '../preview/kept.ts';
import { ChunkNumbers } from '../preview/places.ts';
import type { Combination } from '../model/query/query.ts';
import { RecentKeys } from '../workspace/recent-keys.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import type { PreviewParams, PreviewUpdate } from './messages.ts';
import type { Session } from './session.ts';

/** A pattern that a preview was asked for, the text that it was last told of, and the questions that wait for another. */
interface Shown {
  snapshot: Snapshot | undefined;
  readonly preview: Preview;
  readonly waiting: Set<() => void>;
}

/** The patterns that a preview was asked for. */
export class Previews {
  readonly #session: Session;
  readonly #shown = new Map<string, Shown>();
  /** Of documents that are not open, the last few that were asked for. */
  readonly #closed = new RecentKeys(8, (uri) => this.#shown.delete(uri));

  constructor(session: Session) {
    this.#session = session;
  }

  /** Notes that a pattern is to be shown, so that a client may wait for changes even where this request comes to nothing. */
  asked(uri: string): Shown {
    let shown = this.#shown.get(uri);
    if (shown === undefined) this.#shown.set(uri, (shown = { snapshot: undefined, preview: new Preview(), waiting: new Set() }));
    if (this.#session.folders.document(uri) === undefined) this.#closed.use(uri);
    else this.#closed.remove(uri);
    return shown;
  }

  /** A document has been closed; its preview may still be there for a while. */
  closed(uri: string): void {
    if (this.#shown.has(uri)) this.#closed.use(uri);
  }

  /** How many patterns it holds. */
  get size(): number {
    return this.#shown.size;
  }

  /**
   * Ends once a pattern’s text is another than it was last told of, or something of that is still to be told, or nobody waits
   * for either any more.
   */
  async changed(uri: string, token: CancellationToken): Promise<void> {
    const shown = this.asked(uri);
    // A token that was cancelled early tells nobody.
    if (!token.isCancellationRequested && this.#snapshotOf(uri) === shown.snapshot && !shown.preview.owesTables(shown.snapshot)) {
      await new Promise<void>((resolve) => {
        shown.waiting.add(resolve);
        token.onCancellationRequested(() => {
          shown.waiting.delete(resolve);
          resolve();
        });
      });
    }
    // Even where the drawing fails, this text has had its turn.
    if (!token.isCancellationRequested) shown.snapshot = this.#snapshotOf(uri);
  }

  /** Texts have changed: who waits for that is answered. */
  tellChanges(): void {
    for (const [uri, { snapshot, waiting }] of this.#shown) {
      if (waiting.size === 0 || this.#snapshotOf(uri) === snapshot) continue;
      for (const resolve of waiting) resolve();
      waiting.clear();
    }
  }

  #snapshotOf(uri: string): Snapshot | undefined {
    const { folder, path } = this.#session.folders.home(uri);
    return folder.workspace.snapshot(path);
  }
}

/** What was last sent of a pattern. */
interface Sent {
  readonly serial: number;
  readonly combination: string;
  readonly data: PreviewData;
  /** The text that its drawing is of, and the tables of that where they were not sent with it. */
  readonly snapshot: Snapshot;
  readonly tables: PreviewParts['tables'] | undefined;
}

/** What was last sent of one pattern, so that the next time only what has changed is, and what cannot be drawn is as it was. */
class Preview {
  readonly #numbers = new ChunkNumbers();
  readonly #kept = new Kept();
  /** By combination: what was drawn in one does not stand in for another. */
  readonly #earlier = new Map<string, Earlier>();
  readonly #recent = new RecentKeys(24, (key) => this.#earlier.delete(key));
  #sent: Sent | undefined;

  /** Whether a text was drawn last, and its tables are still to follow. */
  owesTables(snapshot: Snapshot | undefined): boolean {
    return this.#sent?.tables !== undefined && this.#sent.snapshot === snapshot;
  }

  /**
   * What is otherwise than the client has it. Whoever waits for the next drawing gets it without its tables, and asks again at
   * once: until those follow it has the tables of before.
   */
  update(snapshot: Snapshot, combination: Combination, version: number, fileName: (path: string) => string, { known, handled, beside, waits }: Pick<PreviewParams, 'known' | 'handled' | 'beside' | 'waits'>): PreviewUpdate {
    const key = JSON.stringify([...combination]);
    const before = this.#sent !== undefined && this.#sent.serial === known && this.#sent.combination === key ? this.#sent : undefined;
    if (waits === true && before?.tables !== undefined && before.snapshot === snapshot) {
      // Even where they fail, they have had their turn.
      this.#sent = { ...before, tables: undefined };
      return this.#send({ ...this.#sent, data: { ...before.data, ...before.tables() } }, known);
    }
    this.#recent.use(key);
    const earlier = this.#earlier.get(key) ?? new Map();
    const { drawing, tables } = previewParts(snapshot, combination, { fileName, numbers: this.#numbers, kept: this.#kept, earlier, handled, beside });
    this.#earlier.set(key, remembered(earlier, drawing, snapshot.pattern, version));
    const isLater = waits === true && before !== undefined;
    const data = isLater ? { ...drawing, table: before.data.table, buying: before.data.buying } : { ...drawing, ...tables() };
    return this.#send({ snapshot, combination: key, data, tables: isLater ? tables : undefined }, known);
  }

  /** @param known the serial number of what the client has */
  #send(next: Omit<Sent, 'serial'>, known: number | undefined): PreviewUpdate {
    const before = this.#sent;
    const serial = (before?.serial ?? 0) + 1;
    this.#sent = { ...next, serial };
    if (before === undefined || known !== before.serial) return { serial, data: JSON.stringify(next.data) };
    return { serial, since: before.serial, data: JSON.stringify(difference(before.data, next.data) ?? { keys: {}, gone: [] }) };
  }
}
