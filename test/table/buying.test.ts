import { parse } from 'papaparse';
import { describe, expect, it } from 'vitest';
import { buyingList } from '../../server/src/buying/list.ts';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { buyingData } from '../../server/src/formats/buying-json.ts';
import { renderTable, tableFormats } from '../../server/src/formats/format.ts';
import { cuttingTable } from '../../server/src/table/table.ts';
import { planTexts, planWidth, type PlanTexts } from '../../server/src/table/buying-text.ts';
import { patternOf, sample } from '../support/samples.ts';
import { analyse } from '../support/spec.ts';

const pattern = patternOf(sample('potters-roll.piece'));
const list = buyingList(pattern.resolve(new Map()), 1, { ...usualOptions, effort: 0 });
const table = cuttingTable(pattern, new Map(), list);
const row = (item: string) => table.buying.find((one) => one.item === item);

describe('the buying list', () => {
  it('has a line for every material cut and every supply, and a sum', () => {
    expect(table.buying.map((one) => one.item)).toEqual([
      'Cotton canvas', 'Cotton poplin', 'Woven fusible, medium', 'Sew-in stabiliser', 'Sew-in foam', 'Cork fabric',
      'Strong thread', 'Cotton webbing', 'D-ring', 'Bias binding', 'Everything',
    ]);
  });

  it('says what was found, what none can be under, and what to buy', () => {
    // The lining of 16 3/4 by 11 1/2 in lies 11 1/2 in long; at 4 % that takes 11.98 in, which is 0.33 yd.
    expect(row('Cotton poplin')).toMatchObject({ width: '44 in wide, 42 in usable', found: '0.34 yd', noneUnder: 'the same', buy: '3/8 yd', certain: 'certain', cost: '3.38 EUR' });
    expect(row('Cork fabric')).toMatchObject({ found: '1 sheet', buy: '1 sheet', cost: '16.00 EUR' });
    expect(row('Cotton webbing')).toMatchObject({ found: '40 in', buy: '1 1/4 yd' });
    expect(row('Everything')).toMatchObject({ notes: ['only what has a price'] });
  });

  it('adds up', () => {
    const costs = table.buying.slice(0, -1).map((one) => Number.parseFloat(one.cost || '0'));
    expect(Number.parseFloat(row('Everything')?.cost ?? '')).toBeCloseTo(costs.reduce((a, b) => a + b), 1);
  });

  it.each(tableFormats)('stands in the %s export, with the caution on blades', (format) => {
    const text = renderTable([table], format, 'piece', 'buying');
    expect(text.replaceAll('\u00A0', ' ')).toContain('3/8 yd');
    expect(text).toContain('Blades: cover a rotary cutter');
    if (format === 'csv') {
      const { data } = parse<Record<string, string>>(text, { header: true, skipEmptyLines: true });
      expect(data.map((one) => one['Buy'])).toEqual(table.buying.map((one) => one.buy));
    }
    if (format === 'json') {
      const { tables } = JSON.parse(text) as { tables: { buying: { item: string; place?: unknown }[] }[] };
      expect(tables[0]?.buying[0]?.item).toBe('Cotton canvas');
      expect(tables[0]?.buying[0]?.place).toBeUndefined();
    }
  });

  it('is left out of a table that was made without laying anything out', () => {
    expect(renderTable([cuttingTable(pattern, new Map())], 'markdown', 'piece')).not.toContain('## What to buy');
  });
});

describe('plans as data', () => {
  const data = buyingData(list, pattern.display, 'EUR');

  it('survive JSON, with lays that say where each piece lies', () => {
    expect(JSON.parse(JSON.stringify(data))).toEqual(data);
    for (const material of data.materials) {
      const best = material.widths[material.best];
      expect(best?.sentence).toMatch(/^found .+, none (?:shorter|under .+), buy .+/);
      for (const lay of best?.lays ?? []) {
        const reach = lay.placements.map(({ piece, mirrored, turn, x }) => {
          const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
          return Math.max(...(lay.pieces[piece]?.outline ?? []).map(([px, py]) => x + px * cos - (mirrored ? -py : py) * sin));
        });
        expect(Math.max(...reach)).toBeCloseTo(lay.laid, 1);
      }
    }
  });
});

describe('lengths to buy', () => {
  it('are told first in the system of units that the pattern is read in, and beside that as they are sold', () => {
    const texts = (unit: string, step: string): PlanTexts | undefined => {
      const { pattern } = analyse(`pattern "T"\nrevision 1\nunit ${unit}\nallowance none\nmaterial cloth "C" {\n  width 60 in\n  bought in lengths of ${step}\n}\npiece p "P" {\n  outline rectangle 50 in by 30 in\n  grain up\n  cut 1 cloth\n}\n`);
      return buyingList(pattern.resolve(new Map()), 1, { ...usualOptions, effort: 0 }).materials.map((plan) => (plan.best === undefined ? undefined : planTexts({ ...plan.best, noneUnder: plan.best.noneUnder.div(2) }, plan.need.material, pattern.display)))[0];
    };
    const bought = (unit: string, step: string): string | undefined => texts(unit, step)?.buy;
    // 30 in and an inch to spare are 0.862 yd or 0.788 m; 7/8 yd are 0.8001 m, and 0.8 m 0.8749 yd.
    expect(bought('in', '1/8 yd')).toBe('7/8 yd');
    expect(bought('cm', '1/8 yd')).toBe('0.81 m (7/8 yd)');
    expect(bought('in and cm', '1/8 yd')).toBe('7/8 yd (0.81 m)');
    expect(bought('in', '10 cm')).toBe('0.88 yd (0.8 m)');
    expect(bought('mm', '10 cm')).toBe('0.8 m');
    // So is what was found: never less than 30 in.
    expect([texts('cm', '1/8 yd')?.found, texts('in', '10 cm')?.found, texts('in', '1/8 yd')?.found]).toEqual(['0.77 m', '0.84 yd', '0.84 yd']);
    // Half of that, and never more.
    expect([texts('cm', '1/8 yd')?.noneUnder, texts('in', '10 cm')?.noneUnder, texts('in', '1/8 yd')?.noneUnder]).toEqual(['0.38 m', '0.41 yd', '0.41 yd']);
  });
});

describe('widths in words', () => {
  it('are exact where a tape has them, in centimetres where they are sold so, and never overstated', () => {
    const widthOf = (width: string, unit: string): string => {
      const { pattern } = analyse(`pattern "T"\nrevision 1\nunit ${unit}\nallowance none\nmaterial cloth "C" {\n  role main\n  width ${width}\n}\npiece p "P" {\n  outline rectangle 20 mm by 20 mm\n  cut 1 cloth\n}\n`);
      const [plan] = buyingList(pattern.resolve(new Map()), 1, { ...usualOptions, effort: 0 }).materials;
      return plan?.best === undefined ? '' : planWidth(plan.best, plan.need.material, pattern.display);
    };
    expect(widthOf('44 in', 'in')).toBe('44 in wide, 42 in usable');
    expect(widthOf('140 cm', 'in')).toBe('55 in (140 cm) wide, 53 in usable');
    expect(widthOf('140 cm', 'cm')).toBe('140 cm wide, 134.92 cm usable');
    expect(widthOf('58 in', 'cm')).toBe('147.32 cm wide, 142.24 cm usable');
  });
});

describe('what is drawn as half', () => {
  const text = (count: number, clause: string): string => `pattern "T"\nrevision 1\nunit in\nallowance none\nmaterial cloth "C" {\n  width 58 usable 56\n}\npiece p "P" {\n  outline rectangle 6 by 14\n  on fold left\n  grain up\n  cut ${count} cloth${clause}\n}\n`;
  const told = (count: number, clause: string, lay: 'open' | 'folded'): readonly [boolean, readonly string[]] => {
    const { pattern: spec } = analyse(text(count, clause));
    const options = { ...usualOptions, effort: 0, lay };
    const [cut] = cuttingTable(spec, new Map(), buyingList(spec.resolve(new Map()), 1, options)).cuts;
    return [cut?.onFold ?? false, cut?.notes.filter((note) => /fold/.test(note) && !note.includes('unfold the template') && note !== 'size unfolded') ?? []];
  };

  it('is told to be cut on the fold where the lay counts it so, and else as the lay has it', () => {
    expect(told(1, ' on fold', 'folded')).toEqual([true, []]);
    expect(told(1, '', 'folded')).toEqual([true, []]);
    expect(told(3, ' on fold', 'folded')).toEqual([false, ['1 on the fold and 1 unfolded through both layers, which makes 2']]);
    expect(told(2, ' on fold', 'folded')).toEqual([false, ['1 unfolded through both layers, which makes 2']]);
    expect(told(1, ' on fold', 'open')).toEqual([true, ['in the lay it is shown unfolded: fold the cloth along the middle of its place before you cut']]);
    expect(told(1, '', 'open')).toEqual([false, []]);
  });
});

describe('cloth that a material asks to be folded', () => {
  const made = (fold: string, pieces: string) => analyse(`pattern "T"\nrevision 1\nunit in\nallowance none\nmaterial cloth "C" {\n  width 58 usable 56\n  fold ${fold}\n}\n${pieces}\n`);
  const front = (count: number): string => `piece p "P" {\n  outline rectangle 12 by 20\n  on fold left\n  grain up\n  cut ${count} cloth on fold\n}\n`;
  const back = 'piece q "Q" {\n  outline rectangle 26 by 20\n  grain up\n  cut 1 cloth\n}\n';
  const told = (fold: string, pieces: string): readonly string[] => {
    const { pattern: spec } = made(fold, pieces);
    const table = cuttingTable(spec, new Map(), buyingList(spec.resolve(new Map()), 1, { ...usualOptions, effort: 0 }));
    return [table.buying[0]?.notes[0] ?? '', ...table.cuts.map((row) => [row.onFold ? 'on fold' : '', ...row.notes.filter((note) => note.includes('layer') || note.includes('shown'))].filter((text) => text !== '').join('; '))];
  };

  it('is told with what to buy, and how many lie on the fold, through both layers and single', () => {
    expect(told('lengthwise', front(1))).toEqual(['folded selvedge to selvedge', 'on fold']);
    expect(told('partial 14', front(1) + back)).toEqual(['folded in part, 14 in of it double', 'on fold', '']);
    // Four on the fold would take 80 in; two of them beyond, 24 in of 28 in wide, with the back, 60 in.
    expect(told('partial 14', front(4) + back)).toEqual(['folded in part, 14 in of it double', '2 on the fold and 2 unfolded in the single layer', '']);
    expect(told('crosswise', front(2))).toEqual(['folded crosswise, end to end', '1 unfolded through both layers, which makes 2']);
    expect(told('crosswise', front(1).replace('fold left', 'fold top'))).toEqual(['folded crosswise, end to end', 'on fold']);
  });

  it('is open where that alone has room for all', () => {
    expect(told('lengthwise', 'piece q "Q" {\n  outline rectangle 50 by 20\n  grain up\n  cut 1 cloth\n}\n')[0]).toBe('open, in one layer');
  });

  it('is open against what was asked if and only if the designer is warned', () => {
    const outcomes = new Set<string>();
    for (const fold of ['lengthwise', 'partial 5', 'partial 14', 'partial 19', 'crosswise']) {
      for (const [width, height] of [[4, 20], [13, 20], [14, 20], [15, 20], [19, 6], [20, 3], [20.5, 9], [21, 9], [27, 8], [28, 8], [30, 8], [32, 6], [33, 6], [39, 9], [9, 39]] as const) {
        for (const [grain, count] of [['up', 1], ['across', 2], ['up or across', 3]] as const) {
          const piece = `piece q "Q" {\n  outline rectangle ${width} by ${height}\n  grain ${grain}\n  cut ${count} cloth\n}\n`;
          const { faults } = made(fold, piece);
          const isWarned = faults.includes('no-room-folded: cloth');
          expect([fold, width, height, grain, told(fold, piece)[0]?.startsWith('open')]).toEqual([fold, width, height, grain, isWarned]);
          outcomes.add(`${fold.split(' ')[0] ?? ''} ${isWarned}`);
        }
      }
    }
    expect([...outcomes].sort()).toEqual(['crosswise false', 'lengthwise false', 'lengthwise true', 'partial false', 'partial true']);
  });

  it('has room for the half of a piece that is wider than the cloth as folded, of which nobody is warned', () => {
    const wide = front(1).replace('rectangle 12 by', 'rectangle 20 by');
    expect(made('lengthwise', wide).faults).toEqual([]);
    expect(told('lengthwise', wide)).toEqual(['folded selvedge to selvedge', 'on fold']);
  });

  it('is never one whose layer would be turned end for end under a piece with a way up', () => {
    const found = made('crosswise', 'piece q "Q" {\n  outline rectangle 6 by 20\n  grain up\n  this way up\n  cut 2 cloth\n}\n');
    expect(found.faults).toEqual(['fold-turns-nap: cloth']);
    expect(found.only('fold-turns-nap').message).toContain('half of what is cut of “q” from “cloth”');
    const plan = buyingList(found.pattern.resolve(new Map()), 1, { ...usualOptions, effort: 0, lay: 'folded' }).materials[0];
    expect(plan?.best?.unplaced).toEqual([0]);
  });
});
