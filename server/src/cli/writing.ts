import { readFileSync } from 'node:fs';
import { writeNewFile } from '../platform/whole-file.ts';
import { writeOutput } from './output.ts';

/** So many files are written at a time. */
const atATime = 16;

/** Files that are written while others are still made. */
export class Writing {
  readonly #lanes = Array.from({ length: atATime }, () => Promise.resolve());
  #count = 0;
  #fault: Error | undefined;

  add(file: string, text: string): void {
    const lane = this.#count++ % atATime;
    if (writeNewFile(file, text)) return;
    this.#lanes[lane] = (this.#lanes[lane] ?? Promise.resolve()).then(() => (isThere(file, text) ? undefined : writeOutput(text, file))).catch((error: unknown) => { this.#fault ??= error instanceof Error ? error : new Error(String(error)); });
  }

  /**
   * How many they are, once all are written.
   *
   * @throws UsageError where one can’t be
   */
  async end(): Promise<number> {
    await Promise.all(this.#lanes);
    if (this.#fault !== undefined) throw this.#fault;
    return this.#count;
  }
}

/** Whether a file says this already: then it keeps its time, for programs that go by that. */
function isThere(file: string, text: string): boolean {
  try {
    return readFileSync(file, 'utf8') === text;
  } catch {
    return false;
  }
}
