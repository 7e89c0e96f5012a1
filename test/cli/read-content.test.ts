import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { compareJob, type ComparedPair, type PairRequest } from '../../server/src/cli/compare-job.ts';
import { keptOutcomes, type Job } from '../../server/src/cli/kept-results.ts';
import { readContentOf } from '../../server/src/cli/read-content.ts';
import { resultCache } from '../../server/src/cli/result-cache.ts';
import { textsOf } from '../../server/src/cli/spec-texts.ts';
import { tableJob, type TableManner, type TableRequest, type WrittenTable } from '../../server/src/cli/table-job.ts';
import { buildProgram, type Program } from './program.ts';

vi.setConfig({ testTimeout: 240_000, hookTimeout: 60_000 });
let program: Program;
beforeAll(async () => {
  program = await buildProgram();
});
afterAll(() => {
  program.end();
});

/** A list as its lines and blocks; each of them may be edited. */
const list: Readonly<Record<string, string>> = {
  unit: 'unit in',
  ease: 'length ease = 1/4',
  room: 'length room = ease * 2',
  canvas: 'material canvas "Canvas" {\n  role main\n  width 44 in\n  price 12 per yd\n}',
  fleece: 'material fleece "Foam" {\n  role foam\n  width 58 in\n  shrinks 2%\n}',
  felt: 'material felt "Felt" {\n  role main\n  width 36 in\n  price 9 per yd\n  note "Cut with sharp scissors."\n}',
  card: 'thing card "Card" = 3 3/8 by 2 1/8',
};
const head = (title: string): string => `pattern "${title}"\nrevision 1\nunit in\nallowance 1/4\nuse "list.piece"\n`;
const specs: Readonly<Record<string, string>> = {
  'canvas.piece': `${head('Of canvas')}piece body "Body" {\n  outline rectangle 5 + room by 4\n  cut 2 canvas\n}\n`,
  'felt.piece': `${head('Of felt')}piece leaf "Leaf" {\n  outline rectangle 4 by 3\n  line inner = inset 1/4\n  cut 1 felt\n}\ncheck leaf.inner holds card else warning "No card goes in"\n`,
  'given.piece': `${head('Given out')}issued 1 "0123456789ab"\npiece leaf "Leaf" {\n  outline rectangle 4 by 3\n  cut 1 felt\n}\n`,
  'twice.piece': `${head('Said twice')}length ease = 1\npiece leaf "Leaf" {\n  outline rectangle 4 by 3 + ease\n  cut 1 felt\n}\n`,
  'sized.piece': `${head('In sizes')}currency "EUR"\nsizes S, L\nlength wide = 6 for S, 30 for L\npiece body "Body" {\n  outline rectangle wide by 4\n  cut 4 canvas\n  cut 1 felt\n}\nsupply snap "Snap" {\n  kind snap\n  packs of 10\n  price 3.33 per pack\n}\n`,
  'own.piece': `${head('With its own')}material linen "Linen" {\n  role main\n  width 50 in\n}\npiece leaf "Leaf" {\n  outline rectangle 4 by 3\n  cut 1 linen\n}\n`,
};

const manner: TableManner = { format: 'json', by: 'material', choose: [], all: true, articles: 1, effort: 0 };

/** What becomes of all specs, and which were worked out for it. */
async function run(folder: string, cache: string | false, format: TableManner['format'] = 'json', articles = 1): Promise<{ readonly outcomes: unknown; readonly computed: readonly string[] }> {
  const computed: string[] = [];
  const job = tableJob();
  const counting: Job<TableRequest, WrittenTable> = { ...job, read: (request) => {
    const material = job.read(request);
    return { ...material, compute: () => {
      computed.push(request.spec.path);
      return material.compute();
    } };
  } };
  const requests = Object.keys(specs).map((path): TableRequest => ({ spec: { folder, path }, manner: { ...manner, format, articles } }));
  return { outcomes: await keptOutcomes(counting, requests, resultCache({ cache }, requests.length), () => undefined), computed };
}

const written = (parts: Readonly<Record<string, string>>): string => `${Object.values(parts).join('\n')}\n`;
const prepared = (): { readonly folder: string; readonly cache: string } => {
  const folder = program.folder({ ...specs, 'list.piece': written(list) });
  return { folder, cache: join(folder, 'kept') };
};

/** One was given out, so that all that it says counts; the other’s problem is told at a line of the list. */
const always = ['given.piece', 'twice.piece'];

const priced = (price: string): string => `material canvas "Canvas" {\n  role main\n  width 44 in\n  price ${price} per yd\n}`;

/** What may stand in their place. */
const texts: Readonly<Record<string, readonly string[]>> = {
  unit: ['unit in', 'unit cm', 'unit in\nstep 1/16', '# Comment\nunit in', 'unit in\nsizes S, L', 'unit in\nnote "Wash first."', 'unit in\nuse "canvas.piece"'],
  ease: ['length ease = 1/4', 'length ease = 1/2', 'length ease = room', 'length ease = leaf.width', 'length ease = 1 deg', 'length loose = 1/4'],
  room: ['length room = ease * 2', 'length room = 1', 'length room = 1 in for S, 2 in for L', 'length ease = 3'],
  canvas: [list['canvas'] ?? '', priced('13'), priced('0.125'), priced('2 * 6'), priced('99').replace('yd', 'm'), 'material canvas "Canvas" {\n  role main\n  width 40 in\n}', 'material canvas "Canvas" {\n  role main\n  width 3 in\n}', 'material linen "Linen" {\n  role main\n  width 44 in\n}'],
  fleece: [list['fleece'] ?? '', 'material fleece "Foam" {\n  role foam\n  width room\n}', 'material fleece "Foam" {', 'material fleece "Foam" {\n  role foam\n  width 58 in\n  price 0123456789 per yd\n}'],
  felt: [list['felt'] ?? '', list['felt']?.replace('price 9', 'price 10 1/2') ?? '', 'material felt "Felt 0123456789ab" {\n  role main\n  width 36 in\n}', 'material felt "Felt" {\n  role main\n  width 36 in\n  shrinks 5%\n}', ''],
  card: ['thing card "Card" = 3 3/8 by 2 1/8', 'thing card "Card" = 3 by 2', 'thing card "Card" = 9 by 9', 'piece card "Card" {\n  outline rectangle 2 by 2\n  cut 1 felt\n}'],
};

describe('after an edit in a list that all use', () => {
  it.each([
    ['what one of them cuts', { canvas: 'material canvas "Canvas" {\n  role main\n  width 44 in\n  price 13 per yd\n}' }, ['canvas.piece', ...always, 'sized.piece']],
    ['what one of them comes to by way of another name', { ease: 'length ease = 3/8' }, ['canvas.piece', ...always]],
    ['what none of them cuts', { fleece: 'material fleece "Foam" {\n  role foam\n  width 60 in\n}' }, always],
    ['a comment', { unit: '# What is in store.\n\nunit in' }, always],
    ['the unit that all of it is in', { unit: 'unit cm' }, Object.keys(specs)],
    ['a name more', { card: 'thing card "Card" = 3 3/8 by 2 1/8\nlength more = 1' }, Object.keys(specs)],
    ['what is wrong with it', { fleece: 'material fleece "Foam" {\n  role foam\n  width -60 in\n}' }, Object.keys(specs)],
  ])('%s is worked out again where it is read, and nothing else', async (_, edit, expected) => {
    const { folder, cache } = prepared();
    await run(folder, cache);
    writeFileSync(join(folder, 'list.piece'), written({ ...list, ...edit }));
    const [kept, clean] = [await run(folder, cache), await run(folder, false)];
    expect(kept.computed).toEqual(expected);
    expect(kept.outcomes).toEqual(clean.outcomes);
  });

  it('a name that another begins with is not taken for it', async () => {
    const felts = (width: string): string => `unit in\n${['felt', 'felt1', 'felt12'].map((name) => `material ${name} "Felt" {\n  role main\n  width ${name === 'felt1' ? width : '36'} in\n}`).join('\n')}\n`;
    const folder = program.folder({ ...specs, 'felt.piece': (specs['felt.piece'] ?? '').replace('cut 1 felt', 'cut 1 felt12'), 'sized.piece': (specs['sized.piece'] ?? '').replace('cut 1 felt', 'cut 1 felt1'), 'list.piece': felts('36') });
    const cache = join(folder, 'kept');
    await run(folder, cache);
    writeFileSync(join(folder, 'list.piece'), felts('40'));
    const kept = await run(folder, cache);
    expect(kept.computed).toContain('sized.piece');
    expect(kept.computed).not.toContain('felt.piece');
    expect(kept.outcomes).toEqual((await run(folder, false)).outcomes);
  });

  it('of prices alone, tables tell the new ones, and nothing is worked out again', async () => {
    const { folder, cache } = prepared();
    const first = await run(folder, cache, 'markdown', 3);
    for (const price of ['13.25', '0', '1/3', '12']) {
      writeFileSync(join(folder, 'list.piece'), written({ ...list, canvas: priced(price) }));
      const [kept, clean] = [await run(folder, cache, 'markdown', 3), await run(folder, false, 'markdown', 3)];
      // At the first price all of it is known.
      expect(kept.computed).toEqual(price === '12' ? ['twice.piece'] : always);
      expect(kept.outcomes).toEqual(clean.outcomes);
      expect(JSON.stringify(kept.outcomes) === JSON.stringify(first.outcomes), price).toBe(price === '12');
    }
    // A formula is no plain number, nor is another unit only another price.
    for (const other of [priced('2 * 6'), priced('12').replace('yd', 'm'), priced('-1'), priced('12 in')]) {
      writeFileSync(join(folder, 'list.piece'), written({ ...list, canvas: other }));
      const [kept, clean] = [await run(folder, cache, 'markdown', 3), await run(folder, false, 'markdown', 3)];
      expect(kept.computed).toContain('canvas.piece');
      expect(kept.outcomes).toEqual(clean.outcomes);
    }
  });

  it('the rest is the same as worked out anew, whatever the edits', async () => {
    const edit = fc.constantFrom(...Object.entries(texts).flatMap(([part, all]) => all.map((text) => ({ [part]: text }))));
    let spared = 0;
    await fc.assert(fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 5 }), fc.constantFrom<TableManner['format']>('json', 'markdown', 'markdown', 'html', 'csv'), fc.constantFrom(1, 3), async (edits, format, articles) => {
      const { folder, cache } = prepared();
      await run(folder, cache, format, articles);
      let now = { ...list };
      for (const one of edits) {
        now = { ...now, ...one };
        writeFileSync(join(folder, 'list.piece'), written(now));
        const [kept, clean] = [await run(folder, cache, format, articles), await run(folder, false, format, articles)];
        expect(kept.outcomes).toEqual(clean.outcomes);
        spared += clean.computed.length - kept.computed.length;
      }
      rmSync(folder, { recursive: true });
    }), { numRuns: 25 });
    // How much depends on the edits that were tried.
    expect(spared).toBeGreaterThan(0);
  });
});

it('what comes of a spec does not hang on those that were read before it', () => {
  const edit = fc.constantFrom(...Object.entries(texts).flatMap(([part, all]) => all.map((text) => ({ [part]: text }))));
  fc.assert(fc.property(fc.array(edit, { minLength: 2, maxLength: 4 }), fc.array(fc.tuple(fc.nat(), fc.constantFrom(...Object.keys(specs))), { minLength: 4, maxLength: 20 }), (edits, asked) => {
    const folders = edits.map((one) => program.folder({ ...specs, 'list.piece': written({ ...list, ...one }) }));
    const job = tableJob();
    for (const [number, path] of asked) {
      const request: TableRequest = { spec: { folder: folders[number % folders.length] ?? '', path }, manner: { ...manner, format: 'markdown' } };
      expect(job.read(request).compute()).toEqual(tableJob().read(request).compute());
    }
    for (const folder of folders) rmSync(folder, { recursive: true });
  }), { numRuns: 40 });
});

describe('comparisons with what stood in a list that all use', () => {
  /** What comes of comparing every spec of a folder with itself in another, and which pairs were compared for it. */
  async function compared(folder: string, cache: string | false): Promise<{ readonly outcomes: unknown; readonly computed: readonly string[] }> {
    const computed: string[] = [];
    const job = compareJob();
    const counting: Job<PairRequest, ComparedPair> = { ...job, read: (request) => {
      const material = job.read(request);
      return { ...material, compute: () => {
        if ('spec' in request.fresh) computed.push(request.fresh.spec.path);
        return material.compute();
      } };
    } };
    const side = (within: string, path: string): PairRequest['old'] => ({ spec: { folder, path: `${within}${path}` }, within });
    const requests = Object.keys(specs).map((path): PairRequest => ({ old: side('old/', path), fresh: side('new/', path), effort: 0 }));
    return { outcomes: await keptOutcomes(counting, requests, resultCache({ cache }, requests.length), () => undefined), computed };
  }
  const states = (): { readonly folder: string; readonly cache: string } => {
    const both = (within: string): readonly (readonly [string, string])[] => [...Object.entries(specs), ['list.piece', written(list)] as const].map(([path, text]) => [within + path, text]);
    const folder = program.folder(Object.fromEntries([...both('old/'), ...both('new/')]));
    return { folder, cache: join(folder, 'kept') };
  };

  it('are made again where what is named is another or stands on another line, and tell the fingerprints of now', async () => {
    const { folder, cache } = states();
    await compared(folder, cache);
    for (const [edit, expected] of [
      [{ fleece: 'material fleece "Foam" {\n  role foam\n  width 60 in\n  shrinks 2%\n}' }, ['new/given.piece']],
      [{ canvas: 'material canvas "Canvas" {\n  role main\n  width 40 in\n  price 12 per yd\n}' }, ['new/canvas.piece', 'new/given.piece', 'new/sized.piece']],
      [{ card: '# Cards\nthing card "Card" = 3 3/8 by 2 1/8' }, ['new/felt.piece', 'new/given.piece']],
    ] as const) {
      writeFileSync(join(folder, 'new/list.piece'), written({ ...list, ...edit }));
      const [kept, clean] = [await compared(folder, cache), await compared(folder, false)];
      expect(kept.computed).toEqual(expected);
      expect(kept.outcomes).toEqual(clean.outcomes);
    }
  });

  it('tell of a line how it stood on the other side, also where that side names it no more', async () => {
    for (const [named, other] of [['new', 'old'], ['old', 'new']] as const) {
      const { folder, cache } = states();
      writeFileSync(join(folder, other, 'list.piece'), written({ ...list, room: 'length room = 1' }));
      await compared(folder, cache);
      writeFileSync(join(folder, other, 'list.piece'), written({ ...list, room: 'length room = 1', ease: 'length ease = 3/8' }));
      const [kept, clean] = [await compared(folder, cache), await compared(folder, false)];
      expect(kept.computed, named).toContain('new/canvas.piece');
      expect(kept.outcomes, named).toEqual(clean.outcomes);
    }
  });

  it('are the same as made anew, whatever the edits', async () => {
    const edit = fc.tuple(fc.constantFrom('old', 'new'), fc.constantFrom(...Object.entries(texts).flatMap(([part, all]) => all.map((text) => ({ [part]: text })))));
    let spared = 0;
    await fc.assert(fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 4 }), async (edits) => {
      const { folder, cache } = states();
      await compared(folder, cache);
      const now: Record<string, Readonly<Record<string, string>>> = { old: list, new: list };
      for (const [side, one] of edits) {
        now[side] = { ...now[side], ...one };
        writeFileSync(join(folder, side, 'list.piece'), written(now[side]));
        const [kept, clean] = [await compared(folder, cache), await compared(folder, false)];
        expect(kept.outcomes).toEqual(clean.outcomes);
        spared += clean.computed.length - kept.computed.length;
      }
      rmSync(folder, { recursive: true });
    }), { numRuns: 15, examples: [[[['old', { room: 'length room = 1' }], ['old', { ease: 'length ease = 1/2' }]]]] });
    expect(spared).toBeGreaterThan(0);
  });
});

describe('what a spec reads', () => {
  const content = (own: string, used: Readonly<Record<string, string>>): string => readContentOf(textsOf('a.piece', { text: own }, (path) => (used[path] === undefined ? undefined : { text: used[path] })));
  const [first, other] = [written(list), written({ ...list, fleece: 'length thick = 1' })];

  it('is all of a list that makes choices, uses another, or has something wrong with it', () => {
    const own = `${head('A')}piece body {\n  outline rectangle 2 by 2\n  cut 1 canvas\n}\n`;
    for (const more of ['', 'sizes S, L\n', 'use "other.piece"\n', 'length wrong = 1 in + 1 deg\n', 'supply zip "Zip" {\n  kind zip\n}\n']) {
      const [one, two] = ['58', '60'].map((width) => content(own, { 'list.piece': more + first.replace('58', width) }));
      expect(one === two, more).toBe(more === '');
    }
    expect(content(own, { 'list.piece': first })).not.toBe(content(own, { 'list.piece': other }));
    expect(content(own, { 'list.piece': first })).not.toBe(content(own, {}));
    expect(content(own, { 'list.piece': first })).not.toBe(content(`${own}# Foam: fleece\n`, { 'list.piece': first }));
  });
});
