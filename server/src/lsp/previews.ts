import { difference } from '../exports/drawing-delta.ts';
import type { PreviewData } from '../exports/drawing-model.ts';
import { ChunkNumbers } from '../exports/drawing-places.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { changedNotification, type ChangedParams, type PreviewUpdate } from './messages.ts';
import type { Session } from './session.ts';

/** The patterns that a preview was asked for: their clients are told when they look different. */
export class Previews {
  readonly #session: Session;
  readonly #shown = new Map<string, { snapshot: Snapshot | undefined; readonly preview: Preview }>();

  constructor(session: Session) {
    this.#session = session;
  }

  shown(uri: string, snapshot: Snapshot): Preview {
    const preview = this.#shown.get(uri)?.preview ?? new Preview();
    this.#shown.set(uri, { snapshot, preview });
    return preview;
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

/** What was last sent of one pattern, so that the next time only what has changed is. */
class Preview {
  readonly numbers = new ChunkNumbers();
  #serial = 0;
  #sent: PreviewData | undefined;

  update(data: PreviewData, known: number | undefined): PreviewUpdate {
    const before = this.#sent;
    const since = this.#serial;
    const serial = ++this.#serial;
    this.#sent = data;
    if (before === undefined || known !== since) return { serial, data: JSON.stringify(data) };
    return { serial, since, data: JSON.stringify(difference(before, data) ?? { keys: {}, gone: [] }) };
  }
}
