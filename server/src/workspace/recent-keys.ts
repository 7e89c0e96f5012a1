/** The keys that were used last, so that what is held for others can be let go. */
export class RecentKeys {
  readonly #most: number;
  readonly #forget: (key: string) => void;
  /** In the order of use, the latest last. */
  readonly #keys = new Set<string>();

  /**
   * @param most how many are held
   * @param forget called with each that is let go
   */
  constructor(most: number, forget: (key: string) => void) {
    this.#most = most;
    this.#forget = forget;
  }

  /** Notes a use; whatever was used least lately goes, where there are too many. */
  use(key: string): void {
    this.#keys.delete(key);
    this.#keys.add(key);
    if (this.#keys.size <= this.#most) return;
    const [oldest] = this.#keys;
    if (oldest === undefined) return;
    this.#keys.delete(oldest);
    this.#forget(oldest);
  }

  /** Takes a key out without its being let go. */
  remove(key: string): void {
    this.#keys.delete(key);
  }
}
