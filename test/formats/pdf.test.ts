import { describe, expect, it } from 'vitest';
import type { Edge, Point } from '../../server/src/geometry/shape.ts';
import { polygonArea } from '../../server/src/geometry/measure.ts';
import { templateSet } from '../../server/src/pages/pages.ts';
import { boxOf, seen, type SeenPath, type StructureNode } from '../support/pdf.ts';
import { made, optionsFor, pouch, samplePattern, samplePatterns, titled } from '../support/pages.ts';
import { patternOf } from '../support/samples.ts';

type Spot = readonly [number, number];

/** Where points of the model lie on a page, if a path goes through the corners of these edges one after the other: as drawn, or turned a quarter to the left. */
function placingOf({ runs: [run = []] }: SeenPath, edges: readonly Edge[]): ((point: Point) => Spot) | undefined {
  const [first] = edges;
  const [origin] = run;
  if (first === undefined || origin === undefined) return undefined;
  const ways: readonly ((point: Point) => Spot)[] = [
    ({ x, y }) => [origin[0] + x - first.start.x, origin[1] + first.start.y - y],
    ({ x, y }) => [origin[0] + first.start.y - y, origin[1] - x + first.start.x],
  ];
  return ways.find((way) => edges.every(({ start }) => isAmong(run, way(start))));
}

const isAmong = (points: readonly Spot[], [x, y]: Spot): boolean => points.some(([px, py]) => Math.abs(px - x) < 0.1 && Math.abs(py - y) < 0.1);

describe.each(samplePatterns)('the booklet of %s', (name) => {
  const pattern = samplePattern(name);
  const pdf = made(pattern, 'pdf');

  it('is at true scale, as pdf.js measures it: test squares, and every corner of every template', async () => {
    const { pages } = await seen(pdf);
    const strokes = pages.flatMap(({ paths }) => paths.filter(({ how }) => how === 'stroke'));
    for (const side of [25.4, 50]) expect(strokes.map(boxOf).filter(({ width, height }) => Math.abs(width - side) < 0.01 && Math.abs(height - side) < 0.01)).not.toHaveLength(0);
    const { templates } = templateSet(pattern, new Map(), optionsFor());
    expect(templates.length).toBeGreaterThan(0);
    let distances = 0;
    for (const { variants, line } of templates) {
      if (!line.startsWith('cutting line')) continue;
      for (const { shape } of variants) {
        const at = shape.cutting.edges.findIndex((edge) => edge.name === shape.fold);
        const edges = [...shape.cutting.edges.slice(at + 1), ...shape.cutting.edges.slice(0, Math.max(0, at))];
        const placings = pages.flatMap(({ paths }) => {
          const points = paths.filter(({ how }) => how === 'stroke').flatMap(({ runs }) => runs.flat());
          return paths.flatMap((path) => (path.how === 'stroke' ? placingOf(path, edges) ?? [] : [])).map((place) => ({ place, points }));
        });
        expect(placings, `${shape.name} ${line}`).not.toHaveLength(0);
        // Corners of the stitching lines lie where the cutting line says.
        const sewn = shape.stitching.edges.filter((edge) => edge.name !== shape.fold && (shape.allowances.get(edge.name)?.size.n ?? 0n) > 0n).map(({ start }) => start);
        // A sheet has what lies on it: of a template in tiles, each corner is on one of them.
        for (const point of sewn) expect(placings.some(({ place, points }) => isAmong(points, place(point))), `${shape.name}: stitching`).toBe(true);
        const spots = edges.length + sewn.length;
        distances += spots * (spots - 1) / 2;
      }
    }
    expect(distances).toBeGreaterThanOrEqual(10);
  });

});

describe('the structure of a booklet', () => {
  it('has headings, lists and tables, as pdf.js finds them', async () => {
    const { structure, pages } = await seen(made(samplePattern('orchard-wallet'), 'pdf'));
    const all = (node: StructureNode): readonly StructureNode[] => [node, ...node.children.flatMap(all)];
    const nodes = structure.flatMap(all);
    const count = (role: string): number => nodes.filter((node) => node.role === role).length;
    expect(count('H1')).toBe(1);
    expect(count('H2')).toBeGreaterThan(8);
    expect(count('LBody')).toBeGreaterThan(5);
    const tables = nodes.filter(({ role }) => role === 'Table');
    expect(tables.length).toBeGreaterThan(5);
    for (const { children } of tables) for (const row of children) expect(row.children.every(({ role }) => role === 'TH' || role === 'TD')).toBe(true);
    // On the sheets every template is a section with what is written on it.
    const first = pages.findIndex(({ texts }) => texts.some(({ text }) => text.startsWith('Template ') && text.endsWith(' of 12')));
    expect(structure[first]!.children.map(({ role }) => role)).toEqual(['Document']);
    expect(all(structure[first]!).filter(({ role }) => role === 'P').length).toBeGreaterThan(5);
  });

  it.each(samplePatterns)('of %s says in words what each drawing shows: all that is cut, every lay, the sheets, every template', async (name) => {
    const pattern = samplePattern(name);
    const { structure, pages } = await seen(made(pattern, 'pdf'));
    const all = (node: StructureNode): readonly StructureNode[] => [node, ...node.children.flatMap(all)];
    const figures = structure.map((page) => all(page).filter(({ role }) => role === 'Figure').map(({ alternative }) => alternative));
    expect(figures.flat().filter((words) => !/^\S.+\.$/.test(words))).toEqual([]);
    const set = templateSet(pattern, new Map(), optionsFor());
    const [{ resolved }] = set.combinations as [(typeof set.combinations)[number]];
    for (const { piece, count, material } of resolved.pieces.flatMap(({ cuts }) => cuts)) expect(figures.flat().some((words) => /^Number \d+: /.test(words) && words.includes(`: ${piece.title}, ${Number(count.n)} × ${material.title}, `))).toBe(true);
    for (const { title, number, cuts } of set.templates) {
      const words = `${title}, template ${number} of ${set.templates.length}. `;
      const on = figures.flatMap((page, index) => (page.some((one) => one.startsWith(words) && cuts.every((cut) => one.includes(cut))) ? [index] : []));
      expect(on, words).not.toHaveLength(0);
      // It is on a page that has the template's name written on it.
      expect(on.some((index) => pages[index]!.texts.some(({ text }) => text === `Template ${number} of ${set.templates.length}`))).toBe(true);
    }
    // What is in tiles is told in full where its label is, and on the other tiles which part of it that is.
    const ofTemplates = figures.flat().filter((words) => /, template \d+ of \d+[.:] /.test(words));
    expect(ofTemplates.filter((words, index) => ofTemplates.indexOf(words) !== index)).toEqual([]);
    // Of every material that is laid, all that is cut of it lies on one lay or another.
    for (const { name: material, title } of resolved.materials) {
      const lines = resolved.pieces.flatMap(({ cuts }) => cuts).filter((line) => line.material.name === material);
      const lays = figures.flat().filter((words) => words.includes(`${title}: `) && words.includes(' On it lie: '));
      if (lays.length > 0) for (const { piece } of lines) expect(lays.some((words) => words.includes(piece.title)), `${piece.title} of ${title}`).toBe(true);
    }
    expect(figures.flat().filter((words) => words.includes(' On it lie: ')).length).toBeGreaterThan(0);
    expect(figures.flat().filter((words) => words.startsWith('Test squares of 1 in and 5 cm'))).toHaveLength(1);
    expect(figures.flat()).toContainEqual(expect.stringMatching(/^Sheet 1, with the key|The key is on sheet 1\./));
  });

  it('is found in the metadata without a date: title, revision, fingerprint, language', () => {
    const text = Buffer.from(made(titled('R & D <b>'), 'pdf')).toString('utf8');
    const packet = /<x:xmpmeta[\s\S]*<\/x:xmpmeta>/.exec(text)?.[0] ?? '';
    expect(packet).toContain('R &amp; D &lt;b&gt;');
    expect(packet).toContain('revision 1, fingerprint ');
    expect(packet).toContain('<rdf:li>en</rdf:li>');
    expect(packet).not.toMatch(/Date|uuid/i);
  });
});

describe('a booklet as PDF', () => {
  const pdf = made(patternOf(pouch), 'pdf');

  it('is the same, byte for byte, every time, and holds no date', () => {
    expect(Buffer.from(made(patternOf(pouch), 'pdf')).equals(Buffer.from(pdf))).toBe(true);
    expect(Buffer.from(pdf).toString('latin1')).not.toMatch(/\/(?:CreationDate|ModDate)/);
  });

  it('keeps its structure packed: none of it is written plainly', () => {
    const text = Buffer.from(pdf).toString('latin1');
    expect(text).toContain('/Type /ObjStm');
    expect(text).not.toMatch(/\/S \/(?:P|TD|Table)/);
  });

  it('has marks and notches at their places, and nothing else where the cloth is', async () => {
    const { pages } = await seen(pdf);
    const sheet = pages.find(({ paths }) => paths.some((path) => Math.abs(boxOf(path).width - 50) < 0.01))!;
    const crosses = sheet.paths.filter((path) => path.runs.length === 2 && Math.abs(boxOf(path).width - 8) < 0.01 && Math.abs(boxOf(path).height - 8) < 0.01).map(boxOf);
    const middles = crosses.map(({ x, y }) => [x + 4, y + 4] as const);
    expect(middles.some(([x, y]) => middles.some(([ox, oy]) => Math.abs(Math.hypot(ox - x, oy - y) - 80) < 0.01))).toBe(true);
  });

  it('has a layer for each size that has lines of its own, and an outline of its parts', async () => {
    const { layers, outline, title } = await seen(made(samplePattern('market-apron'), 'pdf'));
    expect(layers.length).toBeGreaterThan(1);
    expect(layers[0]).toBe('Size S');
    expect(outline).toContain('What to buy');
    expect(title).toBe('Market apron');
    const one = await seen(made(samplePattern('market-apron'), 'pdf', optionsFor('a4', { sizes: ['M'] }), { size: 'M' }));
    expect(one.layers).toEqual([]);
  });

  it.each(['a4', 'letter', 'a3', 'a0', 'roll-36in'])('fits %s: whatever fits a sheet is whole on one', async (paper) => {
    const { templates } = templateSet(patternOf(pouch), new Map(), optionsFor(paper));
    const area = Math.abs(polygonArea(templates[0]!.variants[0]!.drawing.outline));
    expect(area).toBeGreaterThan(0);
    const { pages } = await seen(made(patternOf(pouch), 'pdf', optionsFor(paper)));
    const holding = pages.filter(({ paths }) => paths.some((path) => path.how === 'stroke' && Math.abs(path.width - 0.5) < 0.01 && [160, 120].some((side) => Math.abs(boxOf(path).width - side) < 0.1)));
    expect(holding).toHaveLength(1);
  });
});
