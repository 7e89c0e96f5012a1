import { describe, expect, it } from 'vitest';
import { Emitter, CancellationTokenSource } from 'vscode-languageserver';
import { next } from '../../client/src/preview/next.ts';

/** An event that tells how many listen to it. */
class Counted {
  readonly #emitter = new Emitter<void>();
  listening = 0;

  readonly event = (listener: () => void): { dispose: () => void } => {
    const own = this.#emitter.event(listener);
    this.listening++;
    return {
      dispose: () => {
        this.listening--;
        own.dispose();
      },
    };
  };

  fire(): void {
    this.#emitter.fire();
  }
}

/** Whether a promise has ended by now. */
const hasEnded = (waiting: Promise<void>): Promise<boolean> => Promise.race([waiting.then(() => true), new Promise<boolean>((resolve) => setImmediate(() => resolve(false)))]);

describe('waiting for an event', () => {
  it('ends with it, and listens no longer', async () => {
    const counted = new Counted();
    const waiting = next(counted.event, new CancellationTokenSource().token);
    expect(await hasEnded(waiting)).toBe(false);
    counted.fire();
    expect(await hasEnded(waiting)).toBe(true);
    expect(counted.listening).toBe(0);
  });

  it('ends when nobody waits any more, be it before', async () => {
    const counted = new Counted();
    const source = new CancellationTokenSource();
    const waiting = next(counted.event, source.token);
    source.cancel();
    expect(await hasEnded(waiting)).toBe(true);
    expect(counted.listening).toBe(0);
    expect(await hasEnded(next(counted.event, source.token))).toBe(true);
  });

  it('ends after so long, where that is said', async () => {
    const counted = new Counted();
    const waiting = next(counted.event, new CancellationTokenSource().token, 5);
    expect(await hasEnded(waiting)).toBe(false);
    await waiting;
    expect(counted.listening).toBe(0);
  });
});
