/** Numbers that are put together; a group goes by its least. */
export class Groups {
  readonly #parents = new Map<number, number>();

  of(one: number): number {
    let root = one;
    for (let parent = this.#parents.get(root); parent !== undefined; parent = this.#parents.get(root)) root = parent;
    return root;
  }

  join(one: number, two: number): void {
    const [a, b] = [this.of(one), this.of(two)];
    if (a === b) return;
    this.#parents.set(Math.max(a, b), Math.min(a, b));
    // The way up stays short.
    if (one !== Math.min(a, b)) this.#parents.set(one, Math.min(a, b));
    if (two !== Math.min(a, b)) this.#parents.set(two, Math.min(a, b));
  }
}
