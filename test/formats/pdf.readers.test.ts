import { describe, expect, it } from 'vitest';
import { widthOf } from '../../server/src/pages/letters/letters.ts';
import { hostileTitles, made, pouch, rasterOf, samplePattern, samplePatterns, titled, toolOn } from '../support/pages.ts';
import { boxOf, seen } from '../support/pdf.ts';
import { patternOf } from '../support/samples.ts';

describe.each(samplePatterns)('the booklet of %s', (name) => {
  const pattern = samplePattern(name);
  const pdf = made(pattern, 'pdf');

  it('opens without a warning in qpdf and poppler, all fonts embedded', () => {
    const checked = toolOn(pdf, 'qpdf', (file) => ['--check', file]);
    expect([checked.code, checked.err]).toEqual([0, '']);
    const fonts = toolOn(pdf, 'pdffonts', (file) => [file]);
    expect(fonts.err).toBe('');
    const rows = fonts.out.toString().trim().split('\n').slice(2);
    expect(rows.length).toBeGreaterThan(0);
    expect(rows.filter((row) => !/ yes yes yes /.test(row))).toEqual([]);
    expect(toolOn(pdf, 'pdftoppm', (file) => ['-r', '8', '-gray', file, '/dev/null/none']).err).not.toMatch(/Syntax/);
  });

  it('is painted where pdf.js reads it: the corners of the test squares and the ends of lines, ten spots or more, to one dot of 300 an inch', async () => {
    const { pages } = await seen(pdf);
    const dots = 300 / 25.4;
    const first = pages.findIndex(({ paths }) => paths.some((path) => Math.abs(boxOf(path).width - 50) < 0.01 && Math.abs(boxOf(path).height - 50) < 0.01));
    // The sheet with the test squares, and the last one: each line begins and ends on its own path, whatever curves lie between.
    const spots: (readonly [number, number, number])[] = [];
    for (const index of new Set([first, pages.length - 1])) {
      const { width, height, paths } = pages[index]!;
      const starts = paths.filter(({ how, dashes, width: pen }) => how === 'stroke' && dashes.length === 0 && pen > 0.15).flatMap(({ runs }) => runs.flatMap((run) => [run[0], run.at(-1)].flatMap((end) => (end === undefined ? [] : [end]))));
      const squares = paths.map(boxOf).filter(({ width: wide, height: high }) => [25.4, 50].some((side) => Math.abs(wide - side) < 0.01 && Math.abs(high - side) < 0.01));
      const corners = squares.flatMap(({ x, y, width: wide, height: high }) => [[x, y], [x + wide, y], [x, y + high], [x + wide, y + high]] as const);
      const inside = [...corners, ...starts.filter(([x, y]) => x > 12 && y > 12 && x < width - 12 && y < height - 20)];
      const raster = rasterOf(pdf, index + 1, 300);
      for (const [x, y] of inside) {
        const [column, row] = [Math.floor(x * dots), Math.floor(y * dots)];
        const darkest = Math.min(...[-1, 0, 1].flatMap((dx) => [-1, 0, 1].map((dy) => raster.at(column + dx, row + dy))));
        expect(darkest, `page ${index + 1} at ${x.toFixed(2)}, ${y.toFixed(2)} mm`).toBeLessThan(160);
        // A few millimetres beside it there is paper somewhere: the page is not simply dark.
        expect(Math.max(...[-3, 3].map((by) => raster.at(column + Math.round(by * dots), row + Math.round(1.3 * dots))))).toBeGreaterThan(200);
        spots.push([index, x, y]);
      }
    }
    expect(new Set(spots.map((spot) => spot.join(' '))).size).toBeGreaterThanOrEqual(10);
  });

  it('is tagged: poppler reads its structure in order', () => {
    const told = toolOn(pdf, 'pdfinfo', (file) => ['-struct-text', file]);
    expect(told.err).toBe('');
    const text = told.out.toString();
    for (const table of text.split(/^  Table \(block\)$/m).slice(1)) {
      const rows = table.split(/^ {4}TR.*$/m).slice(1).map((row) => row.split(/^ {4}?\S|^ {2}\S/m)[0]!.match(/^ {6}T[HD]/gm)?.length ?? 0);
      expect(rows[0]).toBeGreaterThan(1);
      expect(new Set(rows).size, JSON.stringify(rows)).toBe(1);
    }
    const places = ['H1 (block)', `"${pattern.world.facts.title ?? ''}"`, '"What to buy"', 'Table (block)', 'TH', 'TD', '"Safety"', 'LBody (block)', 'Sect'].reduce<number[]>((all, words) => [...all, text.indexOf(words, (all.at(-1) ?? -1) + 1)], []);
    expect(places).not.toContain(-1);
    expect(toolOn(pdf, 'pdfinfo', (file) => [file]).out.toString()).toMatch(/Tagged: +yes[\s\S]*Suspects: +no/);
  });

  it('says of every picture where on its page it is, as poppler finds it', async () => {
    const told = toolOn(pdf, 'pdfinfo', (file) => ['-struct', file]).out.toString();
    const figures = told.split(/^ *Figure.*$/m).slice(1);
    expect(figures.length).toBeGreaterThan(5);
    const { pages } = await seen(pdf);
    const [widest, highest] = [Math.max(...pages.map(({ width }) => width)), Math.max(...pages.map(({ height }) => height))].map((length) => length * 72 / 25.4) as [number, number];
    for (const figure of figures) {
      const [left = NaN, lower = NaN, right = NaN, upper = NaN] = /^ *\/Placement \/Block\n *\/BBox \[([-\d. ]+)\]/m.exec(figure)?.[1]?.split(' ').map(Number) ?? [];
      expect(left >= 0 && lower >= 0 && right <= widest + 0.01 && upper <= highest + 0.01 && left < right && lower < upper, figure.slice(0, 200)).toBe(true);
    }
  });

  it('gives its text back in the order that it is read in', () => {
    const text = toolOn(pdf, 'pdftotext', (file) => ['-raw', file, '-']).out.toString();
    const order = [pattern.world.facts.title ?? '', 'All pieces, by what they are cut from\n', '\nWhat to buy\n', '\nCut, material by material\n', 'Templates, and where they are\n', 'Safety\n', 'The same spec gives the same booklet', 'Print at 100 %'];
    const places = order.map((words) => text.replaceAll('\f', '\n').indexOf(words));
    expect(places).not.toContain(-1);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
  });
});

it('the letters of join marks stand clear of every line, as poppler paints them', async () => {
  const pdf = made(samplePattern('market-apron'), 'pdf');
  const { pages } = await seen(pdf);
  const dots = 300 / 25.4;
  let looked = 0;
  for (const [index, { texts }] of pages.entries()) {
    const marks = texts.filter(({ text }) => /^[A-Z](?:\d–\d|–[A-Z]\d)[ab]$/.test(text));
    if (marks.length === 0) continue;
    const raster = rasterOf(pdf, index + 1, 300);
    for (const { text, x, y } of marks) {
      const wide = widthOf(text, 2.4, 'bold');
      // A line through the letters crosses the paper round them.
      const [left, right, top, bottom] = [x - 0.35, x + wide + 0.35, y - 2.15, y + 0.12].map((at) => Math.round(at * dots)) as [number, number, number, number];
      const ring: number[] = [];
      for (let column = left; column <= right; column++) ring.push(raster.at(column, top), raster.at(column, bottom));
      for (let row = top; row <= bottom; row++) ring.push(raster.at(left, row), raster.at(right, row));
      expect(Math.min(...ring), `${text} on page ${index + 1}`).toBeGreaterThan(200);
      looked++;
    }
  }
  expect(looked).toBeGreaterThan(20);
});

describe('a booklet as PDF', () => {
  const pdf = made(patternOf(pouch), 'pdf');

  it('holds no date', () => {
    expect(toolOn(pdf, 'pdfinfo', (file) => [file]).out.toString()).not.toMatch(/Date/);
  });

  it('is at true scale on paper: the five centimetres and the inch on a raster of 300 dots an inch', async () => {
    const { pages } = await seen(pdf);
    const index = pages.findIndex(({ paths }) => paths.some((path) => Math.abs(boxOf(path).width - 50) < 0.01 && Math.abs(boxOf(path).height - 50) < 0.01));
    const raster = rasterOf(pdf, index + 1, 300);
    for (const side of [25.4, 50]) {
      const box = pages[index]!.paths.map(boxOf).find(({ width, height }) => Math.abs(width - side) < 0.01 && Math.abs(height - side) < 0.01)!;
      const dots = 300 / 25.4;
      // A row that crosses both sides clear of the words in the middle.
      const row = Math.round((box.y + box.height * 0.2) * dots);
      const dark: number[] = [];
      for (let x = Math.round((box.x - 1) * dots); x < (box.x + side + 1) * dots; x++) if (raster.at(x, row) < 128) dark.push(x);
      const runs = dark.filter((x, at) => at === 0 || x - dark[at - 1]! > 1).map((start) => {
        let end = start;
        while (dark.includes(end + 1)) end++;
        return (start + end) / 2;
      });
      expect(runs).toHaveLength(2);
      expect(Math.abs(runs[1]! - runs[0]! - side * dots)).toBeLessThanOrEqual(1);
    }
  });

  it.each(hostileTitles.map((title) => [title.slice(0, 24), title] as const))('opens without a warning under the title %s', (_, title) => {
    const named = made(titled(title), 'pdf');
    const checked = toolOn(named, 'qpdf', (file) => ['--check', file]);
    expect([checked.code, checked.err]).toEqual([0, '']);
    expect(toolOn(named, 'pdftotext', (file) => [file, '-']).err).toBe('');
  });
});
