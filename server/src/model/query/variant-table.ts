import type { Combination } from './query.ts';

/** The variants that depend on the same choices, by the options of those. */
interface Group<Item> {
  readonly choices: readonly string[];
  readonly byOptions: Map<string, Item>;
}

/** No name has a line end in it. */
const keyOf = (choices: readonly string[], combination: Combination): string => choices.map((choice) => combination.get(choice) ?? '').join('\n');

/** The results of one query for one argument, by the options that each depends on. */
export class VariantTable<Item extends { readonly options: Combination }> {
  /** The one that depends on no option: most tables have no other. */
  #always: Item | undefined;
  readonly #groups: Group<Item>[] = [];

  /** One that serves a combination, if there is any: the options that it depends on are the combination's own. */
  serving(combination: Combination): Item | undefined {
    if (this.#always !== undefined) return this.#always;
    for (const { choices, byOptions } of this.#groups) {
      const item = byOptions.get(keyOf(choices, combination));
      if (item !== undefined) return item;
    }
    return undefined;
  }

  /** @returns the one with the same options that was there before */
  add(item: Item): Item | undefined {
    let before: Item | undefined;
    if (item.options.size === 0) {
      before = this.#always;
      this.#always = item;
    } else {
      const choices = [...item.options.keys()].sort();
      let group = this.#groups.find((one) => one.choices.length === choices.length && one.choices.every((choice, index) => choice === choices[index]));
      if (group === undefined) this.#groups.push((group = { choices, byOptions: new Map() }));
      const key = keyOf(choices, item.options);
      before = group.byOptions.get(key);
      group.byOptions.set(key, item);
    }
    return before;
  }

  remove(item: Item): void {
    if (this.#always === item) this.#always = undefined;
    if (item.options.size === 0) return;
    const index = this.#groups.findIndex(({ choices, byOptions }) => byOptions.get(keyOf(choices, item.options)) === item);
    const group = this.#groups[index];
    if (group === undefined) return;
    group.byOptions.delete(keyOf(group.choices, item.options));
    if (group.byOptions.size === 0) this.#groups.splice(index, 1);
  }

  *all(): Generator<Item> {
    if (this.#always !== undefined) yield this.#always;
    for (const { byOptions } of this.#groups) yield* byOptions.values();
  }
}
