import { describe, expect, it } from 'vitest';
import { libraryOf } from '../../server/src/model/names/files.ts';
import type { World } from '../../server/src/model/names/world.ts';
import { Analyst } from '../../server/src/model/pattern.ts';
import { QueryCache } from '../../server/src/model/query/cache.ts';
import type { Query } from '../../server/src/model/query/query.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import type { SourceFile } from '../../server/src/syntax/tree.ts';
import { generateSpec } from '../support/generate.ts';

/** One text, edited again and again as an editor does it. */
class Edited {
  readonly analyst = new Analyst();
  #file: SourceFile | undefined;

  /** How much is held after a text; what the last edit left behind goes with the next one. */
  heldAfter(text: string): number {
    this.take(text);
    return this.take(text);
  }

  take(text: string): number {
    this.#file = parseFile('a.piece', text, this.#file);
    this.analyst.analyse(this.#file, libraryOf(new Map()));
    return this.analyst.cacheSize;
  }
}

const fresh = (text: string): number => new Edited().heldAfter(text);

/** A pattern whose pieces hang on several choices. */
const choosing = (option: string): string => [
  'pattern "Bag"', 'revision 1', 'allowance 1/2', 'material canvas "Canvas" {', '  width 58', '}',
  'sizes S, M, L', `choice strap is short, ${option}`, 'choice pocket is zip, slip',
  'length w = 8 for S, 9 for M, 10 for L', `length e = 1/4 for strap short, 1/8 otherwise`, 'length h = 1 for pocket zip, 3 otherwise',
  ...Array.from({ length: 6 }, (_, index) => `piece p${index} {\n  outline rectangle w + e by w + h + ${index}\n  grain up\n  cut 1 canvas\n}`), '',
].join('\n');

describe('after many edits as many results are held as after a fresh start', () => {
  it('while the name of an option is typed letter by letter', () => {
    const edited = new Edited();
    const name = 'a_rather_long_name_for_an_option';
    for (let length = 1; length <= name.length; length++) edited.take(choosing(name.slice(0, length)));
    expect(edited.heldAfter(choosing('none'))).toBe(fresh(choosing('none')));
  });

  it('the same where values name the option alone, and ask for no other', () => {
    const edited = new Edited();
    const alone = (option: string): string => choosing(option).replaceAll('for strap short', 'for short').replaceAll('for pocket zip', 'for zip');
    const name = 'a_rather_long_name_for_an_option';
    for (let length = 1; length <= name.length; length++) edited.take(alone(name.slice(0, length)));
    expect(edited.heldAfter(alone('none'))).toBe(fresh(alone('none')));
  });

  it('while the name of a choice is typed', () => {
    const edited = new Edited();
    const named = (choice: string): string => choosing('none').replace('choice pocket', `choice ${choice}`).replace('for pocket', `for ${choice}`);
    for (const choice of ['p', 'po', 'poc', 'pock', 'pocke']) edited.take(named(choice));
    expect(edited.heldAfter(named('pocket'))).toBe(fresh(named('pocket')));
  });

  it('while a formula that everything rests on is typed', () => {
    const edited = new Edited();
    const text = generateSpec(400);
    for (let round = 0; round < 30; round++) edited.take(text.replace('8 in for L', `${'8'.repeat(1 + (round % 2))} in for L${' '.repeat(round % 5)}`));
    expect(edited.heldAfter(text)).toBe(fresh(text));
  });

  it('while pieces and the names in them come and go', () => {
    const edited = new Edited();
    const text = generateSpec(300);
    for (let round = 0; round < 40; round++) {
      edited.take(`${text}piece extra${round} {\n  outline rectangle w${round} by base\n  cut 1 unknown${round}\n}\n`);
      edited.take(text.replace('corner bottom round 1/2', `corner bottom round ${round}/2 for closing tab, 1/4 otherwise`));
    }
    expect(edited.heldAfter(text)).toBe(fresh(text));
  });

  it('where what was asked of a choice is asked no more', () => {
    const edited = new Edited();
    edited.take(choosing('none'));
    const without = choosing('none').replace('w + e by', 'w by');
    expect(edited.heldAfter(without)).toBe(fresh(without));
  });
});

describe('where a value hangs on a choice no more', () => {
  it('what was held for its options goes', () => {
    const edited = new Edited();
    edited.take(choosing('none'));
    const without = choosing('none').replace('1/4 for strap short, 1/8 otherwise', '1/4');
    expect(edited.heldAfter(without)).toBe(fresh(without));
  });
});

describe('the cache', () => {
  const names = (count: number): World => ({ names: new Map([['base', { count }]]) }) as unknown as World;
  const base: Query<string, unknown> = { name: 'base', input: true, reads: 'names', compute: ({ world }, name) => world.names.get(name) };
  const user: Query<object, number> = { name: 'user', input: false, compute: (context) => (context.get(base, 'base') as { count: number }).count };
  const every = new Map<string, string>();

  it('marks more dependents than a call takes arguments', () => {
    const cache = new QueryCache(() => undefined);
    cache.nextRevision(names(1), []);
    const users = Array.from({ length: 200_000 }, (_, index) => ({ index }));
    for (const one of users) cache.under(every, user, one);
    cache.nextRevision(names(2), []);
    expect(users.every((one) => cache.under(every, user, one).result === 2)).toBe(true);
  });

  it('is as it was where a revision throws', () => {
    const cache = new QueryCache(() => undefined);
    const [first, later] = [names(1), names(2)];
    cache.nextRevision(first, []);
    const argument = {};
    let runs = 0;
    const counted: typeof user = { ...user, compute: (context, one) => {
      runs++;
      return user.compute(context, one);
    } };
    cache.under(every, counted, argument);
    const faulty = { ...later, names: { get: () => { throw new Error('a fault'); } } } as unknown as World;
    expect(() => cache.nextRevision(faulty, [argument])).toThrow('a fault');
    expect(cache.under(every, counted, argument).result).toBe(1);
    expect([runs, cache.isTouched(argument)]).toEqual([1, false]);
    cache.nextRevision(later, []);
    expect(cache.under(every, counted, argument).result).toBe(2);
  });
});
