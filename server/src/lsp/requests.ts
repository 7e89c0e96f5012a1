import type { Snapshot } from '../workspace/snapshot.ts';
import { changedNotification, type ChangedParams } from './messages.ts';
import type { Session } from './session.ts';

/** The patterns that a preview was asked for: their clients are told when they look different. */
export class Previews {
  readonly #session: Session;
  readonly #shown = new Map<string, Snapshot | undefined>();

  constructor(session: Session) {
    this.#session = session;
  }

  shown(uri: string, snapshot: Snapshot | undefined): void {
    this.#shown.set(uri, snapshot);
  }

  tellChanges(): void {
    for (const [uri, before] of this.#shown) {
      const { folder, path } = this.#session.folders.home(uri);
      const now = folder.workspace.snapshot(path);
      if (now === before) continue;
      this.#shown.set(uri, now);
      const version = this.#session.folders.document(uri)?.version ?? 0;
      void this.#session.connection.sendNotification(changedNotification, { uri, version } satisfies ChangedParams);
    }
  }
}

export function registerRequests(_session: Session, _previews: Previews): void {}
