import type { CancellationToken } from 'vscode-languageserver';
import { previewData } from '../preview/drawing.ts';
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

  /** Ends once a pattern’s text is another than it was last told of, or nobody waits for that any more. */
  async changed(uri: string, token: CancellationToken): Promise<void> {
    const shown = this.asked(uri);
    // A token that was cancelled early tells nobody.
    if (!token.isCancellationRequested && this.#snapshotOf(uri) === shown.snapshot) {
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

/** What was last sent of one pattern, so that the next time only what has changed is, and what cannot be drawn is as it was. */
class Preview {
  readonly #numbers = new ChunkNumbers();
  readonly #kept = new Kept();
  /** By combination: what was drawn in one does not stand in for another. */
  readonly #earlier = new Map<string, Earlier>();
  readonly #recent = new RecentKeys(24, (key) => this.#earlier.delete(key));
  #serial = 0;
  #sent: PreviewData | undefined;

  update(snapshot: Snapshot, combination: Combination, version: number, fileName: (path: string) => string, { known, handled, beside }: Pick<PreviewParams, 'known' | 'handled' | 'beside'>): PreviewUpdate {
    const key = JSON.stringify([...combination]);
    this.#recent.use(key);
    const earlier = this.#earlier.get(key) ?? new Map();
    const data = previewData(snapshot, combination, { fileName, numbers: this.#numbers, kept: this.#kept, earlier, handled, beside });
    this.#earlier.set(key, remembered(earlier, data, snapshot.pattern, version));
    return this.#changes(data, known);
  }

  /** @param known the serial number of what the client has */
  #changes(data: PreviewData, known: number | undefined): PreviewUpdate {
    const before = this.#sent;
    const since = this.#serial;
    const serial = ++this.#serial;
    this.#sent = data;
    if (before === undefined || known !== since) return { serial, data: JSON.stringify(data) };
    return { serial, since, data: JSON.stringify(difference(before, data) ?? { keys: {}, gone: [] }) };
  }
}
