import { previewData } from '../preview/drawing.ts';
import { difference } from '../preview/difference.ts';
import { remembered, type Earlier } from '../preview/earlier.ts';
import type { PreviewData } from '../preview/drawing-data.ts';
import { Kept } from '../preview/kept.ts';
import { ChunkNumbers } from '../preview/places.ts';
import type { Combination } from '../model/query/query.ts';
import { RecentKeys } from '../workspace/recent-keys.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { changedNotification, type ChangedParams, type PreviewParams, type PreviewUpdate } from './messages.ts';
import type { Session } from './session.ts';

/** A pattern that a preview was asked for, and the text that it was last told of. */
interface Shown {
  snapshot: Snapshot | undefined;
  readonly preview: Preview;
}

/** The patterns that a preview was asked for: their clients are told when they look different. */
export class Previews {
  readonly #session: Session;
  readonly #shown = new Map<string, Shown>();
  /** Of documents that are not open, the last few that were asked for. */
  readonly #closed = new RecentKeys(8, (uri) => this.#shown.delete(uri));

  constructor(session: Session) {
    this.#session = session;
  }

  /** Notes that a pattern is to be shown, so that its client is told of changes even where this request comes to nothing. */
  asked(uri: string): Shown {
    let shown = this.#shown.get(uri);
    if (shown === undefined) this.#shown.set(uri, (shown = { snapshot: undefined, preview: new Preview() }));
    if (this.#session.folders.document(uri) === undefined) this.#closed.use(uri);
    else this.#closed.remove(uri);
    return shown;
  }

  /** A document has been closed; its preview may still be there for a while. */
  closed(uri: string): void {
    if (this.#shown.has(uri)) this.#closed.use(uri);
  }

  /** How many patterns it would tell of. */
  get size(): number {
    return this.#shown.size;
  }

  tellChanges(): void {
    for (const [uri, shown] of this.#shown) {
      const { folder, path } = this.#session.folders.home(uri);
      const now = folder.workspace.snapshot(path);
      if (now === shown.snapshot) continue;
      shown.snapshot = now;
      const version = this.#session.folders.document(uri)?.version ?? 0;
      void this.#session.connection.sendNotification(changedNotification, { uri, version } satisfies ChangedParams);
    }
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
