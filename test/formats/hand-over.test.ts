import { Resvg } from '@resvg/resvg-js';
import { Ajv2020 } from 'ajv/dist/2020.js';
import DxfParser from 'dxf-parser';
import { unzipSync } from 'fflate';
import readWorkbook from 'read-excel-file/node';
import { describe, expect, it } from 'vitest';
import { visibleText } from '../../server/src/formats/escape.ts';
import { fileName } from '../../server/src/formats/pages.ts';
import { polygonArea } from '../../server/src/geometry/measure.ts';
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
      const [first] = variants;
      const cutting = [...svg.matchAll(/<path class="cutting" d="([^"]*)"[^>]*><title>([^<]*)<\/title>/g)].filter(([, , words]) => words?.endsWith(': cut out') !== true)[0]?.[1] ?? '';
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
      expect(Math.abs(area / Math.abs(polygonArea(first!.drawing.outline)) - 1), title).toBeLessThan(0.001);
    });
  });

  it('has its outlines, notches and sewing lines in DXF, as another parser reads them', () => {
    const dxf = new DxfParser().parseSync(readText(made(pattern, 'dxf')))!;
    expect(dxf.header['$INSUNITS']).toBe(4);
    const blocks = Object.values(dxf.blocks);
    const variants = templates.flatMap((template) => template.variants);
    expect(blocks).toHaveLength(variants.length);
    variants.forEach(({ drawing }, index) => {
      const entities = blocks[index]!.entities as unknown as readonly { type: string; layer: string; shape?: boolean; vertices?: readonly { x: number; y: number }[] }[];
      const boundary = entities.filter(({ layer, type }) => layer === '1' && type === 'POLYLINE');
      expect(boundary).toHaveLength(1);
      expect(boundary[0]!.shape).toBe(true);
      expect(boundary[0]!.vertices).toHaveLength(drawing.outline.length);
      expect(boundary[0]!.vertices!.every(({ x, y }, at) => near(x, drawing.outline[at]!.x) && near(y, -drawing.outline[at]!.y))).toBe(true);
      expect(entities.filter(({ layer }) => layer === '4')).toHaveLength(drawing.strokes.filter(({ role }) => role === 'notch').length);
      expect(entities.filter(({ layer }) => layer === '14')).toHaveLength(drawing.strokes.filter(({ role }) => role === 'stitching').length);
      expect(entities.filter(({ layer }) => layer === '6')).toHaveLength(drawing.fold === undefined ? 0 : 1);
    });
    expect(dxf.entities.filter(({ type }) => type === 'INSERT')).toHaveLength(variants.length);
  });

  it('has its counts and sizes in XLSX as numbers, as another reader finds them', async () => {
    const bytes = Buffer.from(made(pattern, 'xlsx'));
    const rows = await rowsOf(bytes, 'Cut');
    const [head = [], ...cuts] = rows;
    const lines = [...(pattern.choices.get('size') ?? [undefined])].flatMap((size) => pattern.resolve(new Map(size === undefined ? [] : [['size', size]])).pieces.flatMap((piece) => piece.cuts));
    expect(cuts).toHaveLength(lines.length);
    const [count, width, height] = ['Cut', 'Width (mm)', 'Height (mm)'].map((words) => head.indexOf(words));
    lines.forEach((line, index) => {
      const row = cuts[index]!;
      expect(row[count!]).toBe(Number(line.count.n));
      expect(row[width!]).toBeCloseTo(line.rectangle?.width.valueOf() ?? line.bounds.width, 3);
      expect(row[height!]).toBeCloseTo(line.rectangle?.height.valueOf() ?? line.bounds.height, 3);
    });
    expect(await rowsOf(bytes, 'Safety')).not.toHaveLength(0);
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

  it('gives a file name that every file system takes', () => {
    const name = fileName(title);
    expect(name).toMatch(/^[\p{L}\p{N}\p{M}_-]+$/u);
    expect(Buffer.byteLength(name)).toBeLessThanOrEqual(101);
    expect(name).not.toMatch(/^(?:con|prn|aux|nul|com\d|lpt\d)$/i);
  });
});

it('letters that the typeface lacks are told, and a question mark stands for them', async () => {
  const pattern = patternOf('pattern "日本 bag"\nrevision 1\nunit mm\nuse "studio/materials.piece"\npiece front "Front" {\n  outline rectangle 60 by 40\n  cut 2 canvas\n}\n');
  const { notes, files } = handedOver(pattern, 'pdf');
  expect(notes).toEqual(['The pages’ typeface has no “日”, “本”: a question mark stands in their place.']);
  const { pages } = await seen(files[0]!.content);
  expect(pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ')).toContain('?? bag');
});
