import { lstatSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { onExit } from 'signal-exit';

let held = 0;

/**
 * Until it is let go, a signal that ends the program is heeded at the end of a turn, so that what is written in one turn is whole.
 * Not for a thread that is long at work in one: whoever interrupts it would wait.
 *
 * @returns lets it go
 */
export function holdSignals(): () => void {
  const release = onExit(() => undefined);
  held++;
  return () => {
    held--;
    release();
  };
}

/**
 * Writes a file that is not there yet, whole or not at all, in this very turn: for many files, which the usual way takes twice as
 * long for, since it asks after links and owners and goes through many turns.
 *
 * @returns whether it was written: not where signals are not held, where something stands there, or where it can't be
 */
export function writeNewFile(file: string, text: string, mode?: number): boolean {
  const begun = `${file}.${process.pid}`;
  try {
    if (held === 0 || lstatSync(file, { throwIfNoEntry: false }) !== undefined) return false;
    writeFileSync(begun, text, mode === undefined ? {} : { mode });
    renameSync(begun, file);
    return true;
  } catch {
    rmSync(begun, { force: true });
    return false;
  }
}
