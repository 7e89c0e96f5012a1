import { Resvg } from '@resvg/resvg-js';
import { Ajv2020 } from 'ajv/dist/2020.js';
import DxfParser from 'dxf-parser';
import MarkdownIt from 'markdown-it';
import Papa from 'papaparse';
import { parse, type DefaultTreeAdapterTypes } from 'parse5';
import sax from 'sax';
import { unzipSync } from 'fflate';
import readWorkbook from 'read-excel-file/node';
import { describe, expect, it } from 'vitest';
import { KeptLays } from '../../server/src/buying/lay-out.ts';
import { buyingList, type BuyingList } from '../../server/src/buying/list.ts';
import { usualOptions } from '../../server/src/buying/plan.ts';
import type { Polygon } from '../../server/src/geometry/shape.ts';
import { visibleText } from '../../server/src/formats/escape.ts';
import { fileName, untaken } from '../../server/src/formats/file-name.ts';
import { renderTable } from '../../server/src/formats/format.ts';
import { handOver } from '../../server/src/formats/pages.ts';
import { polygonArea } from '../../server/src/geometry/measure.ts';
import type { BuyingRow } from '../../server/src/table/buying-rows.ts';
import { documentsOf } from '../../server/src/table/document.ts';
import { notchesToCut } from '../../server/src/table/marks.ts';
import { millimetresIn } from '../../server/src/units/length.ts';
import { wholeTables } from '../../server/src/table/whole-table.ts';
import { cuttingTable, type CuttingTable } from '../../server/src/table/table.ts';
import { templateSet } from '../../server/src/pages/pages.ts';
import { handedOver, hostileTitles, made, optionsFor, readSchema, readText, samplePattern, samplePatterns, titled } from '../support/pages.ts';
import { seen } from '../support/pdf.ts';
import { patternOf } from '../support/samples.ts';

/** The rows of a sheet of a workbook; without one of that name, none. */
async function rowsOf(xlsx: Buffer, name: string): Promise<readonly (readonly unknown[])[]> {
  const sheets = (await readWorkbook(xlsx)) as unknown as readonly { readonly sheet: string; readonly data: readonly (readonly unknown[])[] }[];
  return sheets.find(({ sheet }) => sheet === name)?.data ?? [];
}

/** Paints with no typeface of the system: it is shapes that are measured. */
const painted = (svg: string, width = 200): ReturnType<Resvg['render']> => new Resvg(svg, { font: { loadSystemFonts: false }, fitTo: { mode: 'width', value: width } }).render();

const near = (one: number, other: number): boolean => Math.abs(one - other) < 1e-3;

/** What the spreadsheet must say of a row of the table that people read: how much is needed, and of what width, is in the list alone. */
function purchaseCells({ item, amount, price, certain }: BuyingRow, { materials, supplies }: BuyingList, index: number): readonly unknown[] {
  const thousandth = (value: number | undefined): number | '' => (value === undefined ? '' : Math.round(value * 1000) / 1000);
  const { best } = materials[index] ?? {};
  const { needed, count } = supplies[index - materials.length] ?? {};
  const length = amount && Object.entries(millimetresIn).find(([unit]) => unit === amount.unit)?.[1].valueOf();
  const counted: Readonly<Record<string, string>> = { panel: 'panels', sheet: 'sheets', each: 'each' };
  return [
    item, thousandth((best?.shortest ?? needed)?.valueOf() ?? count), thousandth(amount && amount.value * (length ?? 1)), amount === undefined ? '' : length === undefined ? counted[amount.unit] : 'mm',
    price ?? '', thousandth(best?.usable.valueOf()), certain === '' ? '' : 'yes',
  ];
}

interface Entity {
  readonly type: string;
  readonly layer: string;
  readonly shape?: boolean;
  readonly position?: { readonly x: number; readonly y: number };
  readonly vertices?: readonly { readonly x: number; readonly y: number }[];
}

describe.each(samplePatterns)('%s for other programs', (name) => {
  const pattern = samplePattern(name);
  const { templates } = templateSet(pattern, new Map(), optionsFor());

  it('has the areas in SVG that were computed, as another rasteriser fills them', () => {
    const { files } = handedOver(pattern, 'svg');
    expect(files).toHaveLength(templates.length);
    templates.forEach(({ variants, title }, index) => {
      const svg = readText(files[index]!.content);
      expect(painted(svg).width).toBe(200);
      expect(svg).toMatch(/<svg [^>]*width="[\d.]+mm" height="[\d.]+mm"/);
      const lines = [...svg.matchAll(/<path class="cutting" d="([^"]*)"[^>]*><title>([^<]*)<\/title>/g)].filter(([, , words]) => words?.endsWith(': cut out') !== true).map(([, data = '']) => data);
      expect(lines).toHaveLength(variants.length);
      lines.forEach((cutting, at) => measured(cutting, variants[at]!.drawing.outline, `${title} ${variants[at]!.sizes.join(', ')}`));
    });
    function measured(cutting: string, outline: Polygon, words: string): void {
      const numbers = [...cutting.matchAll(/-?[\d.]+/g)].map(([digits]) => Number(digits));
      const [xs, ys] = [numbers.filter((_, at) => at % 2 === 0), numbers.filter((_, at) => at % 2 === 1)];
      const [x, y] = [Math.min(...xs), Math.min(...ys)];
      const [width, height] = [Math.max(...xs) - x, Math.max(...ys) - y];
      const filled = painted(`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="${x} ${y} ${width} ${height}"><path d="${cutting}"/></svg>`, 700);
      // Each look at them makes a copy.
      const { pixels } = filled;
      let covered = 0;
      for (let at = 3; at < pixels.length; at += 4) covered += (pixels[at] ?? 0) / 255;
      const area = covered * (width / filled.width) * (height / filled.height);
      expect(Math.abs(area / Math.abs(polygonArea(outline)) - 1), words).toBeLessThan(0.001);
    }
  });

  it('has its outlines, notches and sewing lines in DXF, as another parser reads them', () => {
    const dxf = new DxfParser().parseSync(readText(made(pattern, 'dxf')))!;
    expect(dxf.header['$INSUNITS']).toBe(4);
    const blocks = Object.values(dxf.blocks);
    const variants = templates.flatMap((template) => template.variants);
    expect(blocks).toHaveLength(variants.length);
    let compared = 0;
    variants.forEach(({ drawing, shape }, index) => {
      const entities = blocks[index]!.entities as unknown as readonly Entity[];
      const boundary = entities.filter(({ layer, type }) => layer === '1' && type === 'POLYLINE');
      expect(boundary).toHaveLength(1);
      expect(boundary[0]!.shape).toBe(true);
      expect(boundary[0]!.vertices).toHaveLength(drawing.outline.length);
      expect(boundary[0]!.vertices!.every(({ x, y }, at) => near(x, drawing.outline[at]!.x) && near(y, -drawing.outline[at]!.y))).toBe(true);
      expect(entities.filter(({ layer }) => layer === '4')).toHaveLength(drawing.strokes.filter(({ role }) => role === 'notch').length);
      expect(entities.filter(({ layer }) => layer === '14')).toHaveLength(drawing.strokes.filter(({ role }) => role === 'stitching').length);
      expect(entities.filter(({ layer }) => layer === '6')).toHaveLength(drawing.fold === undefined ? 0 : 1);
      // In the block’s own place everything is where the pattern has it, y upwards.
      const isAt = (place: { readonly x: number; readonly y: number }, spot: { readonly x: number; readonly y: number } | undefined): boolean => spot !== undefined && near(spot.x, place.x) && near(spot.y, place.y);
      if (templates.find((template) => template.variants.includes(variants[index]!))!.line === 'cutting line') {
        for (const { point } of notchesToCut(shape)) expect(entities.some(({ layer, vertices }) => layer === '4' && isAt(point, vertices?.[0])), shape.name).toBe(true);
        for (const edge of shape.stitching.edges) {
          if (edge.name === shape.fold || (shape.allowances.get(edge.name)?.size.n ?? 0n) === 0n || !drawing.strokes.some(({ role }) => role === 'stitching')) continue;
          expect(entities.some(({ layer, vertices }) => layer === '14' && [vertices?.[0], vertices?.at(-1)].some((spot) => isAt(edge.start, spot))), `${shape.name} ${edge.name}`).toBe(true);
          compared++;
        }
      }
      for (const { role, points } of drawing.strokes.filter((stroke) => stroke.role === 'drill')) {
        const [one, , other] = points;
        expect(entities.some(({ layer, position }) => layer === '13' && isAt({ x: (one!.x + other!.x) / 2, y: -(one!.y + other!.y) / 2 }, position)), role).toBe(true);
      }
      const inner = drawing.strokes.filter(({ role }) => ['line', 'topstitch', 'placement', 'foldline', 'partfold', 'window', 'ghost'].includes(role));
      const drawnInner = entities.filter(({ layer, type }) => layer === '8' && type === 'POLYLINE');
      expect(drawnInner).toHaveLength(inner.length);
      inner.forEach(({ points }, at) => expect(drawnInner[at]!.vertices!.every((spot, vertex) => isAt({ x: points[vertex]!.x, y: -points[vertex]!.y }, spot))).toBe(true));
    });
    if (templates.some(({ variants: own }) => own.some(({ drawing }) => drawing.strokes.some(({ role }) => role === 'stitching')))) expect(compared).toBeGreaterThan(0);
    expect(dxf.entities.filter(({ type }) => type === 'INSERT')).toHaveLength(variants.length);
  });

  it('has its counts, sizes and purchases in XLSX as numbers, as another reader finds them', async () => {
    const lays = new KeptLays();
    const bytes = Buffer.from(handOver({ pattern, combination: new Map(), options: optionsFor() }, 'xlsx', lays).files[0]!.content);
    const rows = await rowsOf(bytes, 'Cut');
    const [head = [], ...cuts] = rows;
    const sizes = pattern.choices.get('size') ?? [undefined];
    const contents = sizes.map((size) => pattern.resolve(new Map(size === undefined ? [] : [['size', size]])));
    const lines = contents.flatMap(({ pieces }) => pieces.flatMap((piece) => piece.cuts));
    expect(cuts).toHaveLength(lines.length);
    const [count, width, height] = ['Cut', 'Width (mm)', 'Height (mm)'].map((words) => head.indexOf(words));
    lines.forEach((line, index) => {
      const row = cuts[index]!;
      expect(row[count!]).toBe(Number(line.count.n));
      expect(row[width!]).toBeCloseTo(line.rectangle?.width.valueOf() ?? line.bounds.width, 3);
      expect(row[height!]).toBeCloseTo(line.rectangle?.height.valueOf() ?? line.bounds.height, 3);
    });
    expect(await rowsOf(bytes, 'Safety')).not.toHaveLength(0);
    const lists = contents.map((resolved) => buyingList(resolved, 1, usualOptions, lays));
    const tables = contents.map(({ combination }, index) => cuttingTable(pattern, combination, lists[index]));
    const [buyHead, ...bought] = await rowsOf(bytes, 'Buy');
    const { currency } = pattern.world.facts;
    const sized = sizes[0] !== undefined;
    expect(buyHead).toEqual([...(sized ? ['Size'] : []), 'Material or supply', 'Needed', 'Buy', 'Unit', `Cost${currency === undefined ? '' : ` (${currency})`}`, 'Width (mm)', 'Certain']);
    expect(bought.map((row) => row.map((cell) => cell ?? ''))).toEqual(tables.flatMap(({ buying }, at) => buying.map((row, index) => [...(sized ? [sizes[at]] : []), ...purchaseCells(row, lists[at]!, index)])));
    expect(bought.length).toBeGreaterThan(1);
    // Every other table is there, cell by cell; a whole number is a number.
    const [document] = documentsOf(tables, 'piece');
    let compared = 0;
    for (const { key, heading, rows: wanted } of document!.sections) {
      if (key === 'cuts' || key === 'buying') continue;
      const read = (await rowsOf(bytes, heading.slice(0, 31).trim())).slice(1);
      expect(read.map((row) => row.map((cell) => (cell === null ? '' : String(cell as string | number)))), heading).toEqual(wanted.map((row) => row.map(({ text }) => text)));
      compared += wanted.length;
    }
    expect(compared).toBeGreaterThan(0);
  });

  it('keeps to the published schema in JSON', () => {
    const validate = new Ajv2020({ allErrors: true, strict: false }).compile(readSchema('pattern.schema.json'));
    const data = JSON.parse(readText(made(pattern, 'json'))) as { combinations: { table: unknown }[] };
    expect(validate(data), JSON.stringify(validate.errors?.slice(0, 3))).toBe(true);
    expect(data.combinations.length).toBeGreaterThan(0);
  });

  it('is one page at true scale for a projector', async () => {
    expect((await seen(made(pattern, 'projector'))).pages).toHaveLength(1);
  });
});

describe.each(hostileTitles.map((title) => [title.slice(0, 24), title] as const))('the title %s', (_, title) => {
  const pattern = titled(title);

  it('breaks no format', async () => {
    const [svg] = handedOver(pattern, 'svg').files;
    expect(painted(readText(svg!.content)).width).toBe(200);
    expect(readText(svg!.content)).not.toMatch(/<script|onload=x>/);
    expect(svg!.name).toMatch(/^1-front\.svg$/);
    const dxf = new DxfParser().parseSync(readText(made(pattern, 'dxf')))!;
    expect(Object.keys(dxf.blocks)).toEqual(['T01_front']);
    expect(readText(made(pattern, 'dxf'))).not.toMatch(/[^\r\n\u0020-\u007E]/);
    const xlsx = Buffer.from(made(pattern, 'xlsx'));
    const [, [, shown] = []] = await rowsOf(xlsx, 'Pattern');
    // What no reader sees is left out, as in every export.
    expect(String(shown)).toBe(visibleText(pattern.world.facts.title ?? ''));
    expect(Object.values(unzipSync(xlsx)).map(readText).join('')).not.toMatch(/<f>|<f /);
    expect((JSON.parse(readText(made(pattern, 'json'))) as { title: string }).title).toBe(visibleText(pattern.world.facts.title ?? ''));
  });

  it('is text and nothing else in every table, as readers that we didn’t write take them apart', () => {
    const [tables, plain] = [pattern, titled('Plain')].map((one): readonly CuttingTable[] => [...wholeTables(one, one.combinations())]) as [readonly CuttingTable[], readonly CuttingTable[]];
    const shape = (table: readonly CuttingTable[], format: 'html' | 'markdown' | 'csv' | 'json'): unknown => {
      const text = renderTable(table, format, 'piece');
      switch (format) {
        case 'html':
          return tagsOf(parse(text));
        case 'markdown':
          return new MarkdownIt({ html: true }).parse(text, {}).map(({ type, tag }) => `${type} ${tag}`);
        case 'csv':
          return Papa.parse<string[]>(text, { skipEmptyLines: 'greedy' }).data.map(({ length }) => length);
        case 'json':
          return shapeOf(JSON.parse(text));
      }
    };
    for (const format of ['html', 'markdown', 'csv', 'json'] as const) expect(shape(tables, format), format).toEqual(shape(plain, format));
    const [csv, html] = (['csv', 'html'] as const).map((format) => renderTable(tables, format, 'piece')) as [string, string];
    expect(html).not.toMatch(unseen);
    for (const cell of Papa.parse<string[]>(csv).data.flat()) expect(cell).not.toMatch(/^[=+\-@\t\r]/);
    // The title is there, and can be read: the page’s heading is it.
    expect(textOf(elements(parse(html)).find(({ tagName }) => tagName === 'h1')!).replace(/\s+/g, ' ').trim()).toBe(visibleText(pattern.world.facts.title ?? '').replace(/\s+/g, ' ').trim());
  });

  it('is the title of a PDF and of drawings, without signs that turn the direction of what follows', async () => {
    const { title: read, outline, structure } = await seen(made(pattern, 'pdf'));
    expect(read).toBe(visibleText(pattern.world.facts.title ?? ''));
    expect(JSON.stringify([outline, structure])).not.toMatch(unseen);
    const [svg] = handedOver(pattern, 'svg').files;
    const texts: string[] = [];
    const parser = sax.parser(true);
    parser.ontext = (text: string): void => { texts.push(text); };
    parser.write(readText(svg!.content)).close();
    expect(texts.some((text) => text.includes(visibleText(pattern.world.facts.title ?? '')))).toBe(true);
    expect(texts.join('')).not.toMatch(unseen);
  });

  it('gives a file name that every file system takes', () => {
    const name = fileName(title);
    expect(name).toMatch(/^[\p{L}\p{N}\p{M}_-]+$/u);
    expect(Buffer.byteLength(name)).toBeLessThanOrEqual(101);
    expect(name).not.toMatch(/^(?:con|prn|aux|nul|conin|conout|com[\d¹²³]|lpt[\d¹²³])$/i);
  });
});

/** Signs that no reader sees, or that turn the direction of what stands after them. */
const unseen = /[\u0000-\u0008\u001B\u200E\u200F\u202A-\u202E\u2066-\u2069]/;

type HtmlNode = DefaultTreeAdapterTypes.Node;
const elements = (node: HtmlNode): readonly DefaultTreeAdapterTypes.Element[] => [...('tagName' in node ? [node] : []), ...('childNodes' in node ? node.childNodes.flatMap(elements) : [])];
const tagsOf = (node: HtmlNode): readonly string[] => elements(node).map(({ tagName, attrs }) => [tagName, ...attrs.map((one) => one.name).filter((one) => one !== 'class')].join(' '));
const textOf = (node: HtmlNode): string => ('value' in node ? node.value : 'childNodes' in node ? node.childNodes.map(textOf).join('') : '');

/** What a value is made of, whatever its texts say. */
function shapeOf(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(shapeOf);
  return typeof value === 'object' && value !== null ? Object.entries(value).map(([key, one]) => [key, shapeOf(one)]) : typeof value;
}

describe('what is too long', () => {
  it('is cut, and that is told: on templates, in a cutter file, in a cell', () => {
    const notes = (title: string, format: 'pdf' | 'projector' | 'dxf' | 'xlsx'): string => handedOver(titled(title), format).notes.join(' ');
    expect(notes('x'.repeat(10_000), 'pdf')).toMatch(/^Not all of the words have room on “Template 1: x{18}…”: they end with “…” there\.$/);
    expect(notes('x'.repeat(10_000), 'projector')).toMatch(/^Not all of the words have room on “Template 1/);
    expect(notes('x'.repeat(241), 'dxf')).toBe(`A cutter file holds 240 letters of a text: “${'x'.repeat(30)}…” is cut.`);
    expect(notes('x'.repeat(32_768), 'xlsx')).toMatch(/^A cell of a spreadsheet holds 32,767 letters of a text: /);
    for (const format of ['pdf', 'dxf', 'xlsx'] as const) expect(notes('Cable pouch', format)).toBe('');
  });
});

describe('names of files', () => {
  it('are never one and the same where capitals or the way that letters are put together don’t count', () => {
    const taken = new Set<string>();
    const names = ['Canvas', 'canvas', 'CANVAS', 'caf\u00E9', 'cafe\u0301', 'canvas-2'].map((name) => untaken(fileName(name), taken));
    expect(new Set(names.map((name) => name.normalize('NFC').toLowerCase())).size).toBe(6);
    expect(names.slice(0, 3)).toEqual(['Canvas', 'canvas-2', 'CANVAS-3']);
  });
});

it('letters that the typeface lacks are told, and a question mark stands for them', async () => {
  const pattern = patternOf('pattern "日本 bag"\nrevision 1\nunit mm\nuse "studio/materials.piece"\npiece front "Front" {\n  outline rectangle 60 by 40\n  cut 2 canvas\n}\n');
  const { notes, files } = handedOver(pattern, 'pdf');
  expect(notes).toEqual(['The pages’ typeface has no “日”, “本”: a question mark stands in their place.']);
  const { pages } = await seen(files[0]!.content);
  expect(pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ')).toContain('?? bag');
});
