import { beforeAll, describe, expect, it } from 'vitest';
import { renderTable } from '../../server/src/formats/format.ts';
import { boundsOfPoints, polylineLength } from '../../server/src/geometry/measure.ts';
import { stepPicture } from '../../server/src/pages/step-picture.ts';
import type { Item } from '../../server/src/pages/sheet.ts';
import { stepsOf, type StepDrawing } from '../../server/src/table/step-drawings.ts';
import { handedOver, samplePattern } from '../support/pages.ts';
import { seen, type StructureNode } from '../support/pdf.ts';
import { pattern } from '../support/spec.ts';

/** A pouch of 8 by 6 between its seams, a patch on it, and a half on the fold. */
const spec = (title = 'Pouch'): string => `allowance 1/2
piece pouch "${title}" {
  outline rectangle 8 by 6
  placement patch_at = rectangle 2 by 1 at 3, 2
  edge top hemmed 1/4
  cut 2 cloth
}
piece patch "Patch" {
  outline rectangle 2 by 1
  allowance none
  edge top raw
  cut 1 cloth
}
piece half "Half" {
  outline rectangle 4 by 5
  on fold left
  edge all raw
  cut 1 cloth on fold
}
seam patch_seam "Patch" = patch.left, patch.bottom, patch.right onto pouch.patch_at
seam side "Side" = pouch.left from 0 to 3 with pouch.right from 0 to 3
seam foot "Foot" = pouch.bottom with pouch.bottom
step "Patch it." does patch_seam
step "Sew it." does side, foot
step "Fold it."
step "Hem it." does pouch.top
`;

const inch = 25.4;
const drawn = (title?: string): readonly StepDrawing[] => pattern(spec(title)).table().stepDrawings;
const lengthsOf = (drawing: StepDrawing | undefined): readonly (readonly [string, string, number])[] =>
  (drawing?.pieces ?? []).flatMap(({ title, lines }) => lines.map(({ letter, points }) => [title, letter, Math.round((polylineLength(points) / inch) * 1000) / 1000] as const));

describe('what a step sews, drawn', () => {
  it('is each line of it on the piece that it is of, as long as it is sewn', () => {
    const steps = drawn();
    // The third does nothing that is a line.
    expect(steps.map(({ number }) => number)).toEqual([1, 2, 4]);
    // Drawn to the stitching line, whatever is cut round it.
    expect(lengthsOf(steps[0])).toEqual([['Patch', '', 1], ['Patch', '', 2], ['Patch', '', 1]]);
    expect(lengthsOf(steps[1])).toEqual([['Pouch', 'a', 3], ['Pouch', 'a', 3], ['Pouch', 'b', 8], ['Pouch', 'b', 8]]);
    expect(lengthsOf(steps[2])).toEqual([['Pouch', '', 8]]);
    expect(steps[1]?.parts.map(({ letter, title, words }) => `${letter} ${title} | ${words}`)).toEqual([
      'a Side | Side: Pouch: left (its lower 3 in), sewn to Pouch: right (its lower 3 in)', 'b Foot | Foot: Pouch: bottom, sewn to Pouch: bottom',
    ]);
  });

  it('shows the place of a pocket without its being sewn to all the way round, and heavy where it is', () => {
    const place = (body: string): readonly (readonly [string, number, number])[] => (pattern(body).table().stepDrawings[0]?.pieces ?? []).map(({ title, lines, others }) => [title, lines.length, others.length]);
    expect(place(spec())).toEqual([['Patch', 3, 0], ['Pouch', 0, 1]]);
    expect(place(spec().replace('patch.right onto', 'patch.right, patch.top onto').replace('  edge top raw\n', ''))).toEqual([['Patch', 4, 0], ['Pouch', 1, 0]]);
  });

  it('shows a piece opened out that is drawn as half', () => {
    const body = spec().replace('step "Hem it." does pouch.top', 'step "Trim it." does half.top');
    const [half] = pattern(body).table().stepDrawings.at(-1)?.pieces ?? [];
    const { minX, maxX } = boundsOfPoints(half!.outline);
    expect((maxX - minX) / inch).toBeCloseTo(8, 6);
    expect(half!.lines).toHaveLength(2);
  });

  it('takes of an edge what no seam takes: a supply, or a hem, may go on the rest of it', () => {
    const body = spec().replace('edge top hemmed 1/4', 'edge top hemmed 1/4\n  edge left takes pull').replace('step "Hem it." does pouch.top', 'supply pull "Pull" {\n  kind other\n}\nseam neck "Neck" = pouch.top from 0 to 2 with pouch.top from 8 to 6\nstep "Hem it." does neck, pouch.top, pull');
    const lines = lengthsOf(pattern(body).table().stepDrawings.at(-1));
    // Half of the side is sewn up to 3 in; the table says “the rest of left”.
    expect(lines.filter(([, letter]) => letter === 'c')).toEqual([['Pouch', 'c', 3]]);
    expect(lines.filter(([, letter]) => letter === 'b')).toEqual([['Pouch', 'b', 4]]);
    // A seam that is bound from end to end is bound all along.
    const bound = spec().replace('edge top hemmed 1/4', 'edge top hemmed 1/4\n  edge bottom bound').replace('does pouch.top', 'does pouch.bottom');
    expect(lengthsOf(pattern(bound).table().stepDrawings.at(-1))).toEqual([['Pouch', '', 8]]);
  });

  it('is of the first size that has the step', () => {
    const first = drawn()[0]!;
    expect(stepsOf([{ stepDrawings: [] }, { stepDrawings: [{ ...first, number: 7 }] }, { stepDrawings: drawn() }]).map(({ number }) => number)).toEqual([7, 2, 4]);
  });
});

const all = (items: readonly Item[]): readonly Item[] => items.flatMap((item) => (item.kind === 'group' ? all(item.items) : [item]));

describe('its picture', () => {
  it('tells lines by their weight, and stays within its size', () => {
    for (const drawing of [...drawn(), ...drawn('A title that is far too long for the room that there is below so small a piece of a picture')]) {
      const { items, width, height } = stepPicture(drawing);
      const pens = all(items).flatMap((item) => (item.kind === 'line' ? [item.pen] : []));
      const lines = drawing.pieces.reduce((sum, piece) => sum + piece.lines.length, 0);
      expect(pens.filter((pen) => pen.width >= 0.8)).toHaveLength(lines);
      expect(pens.filter((pen) => pen.width < 0.8).every((pen) => pen.width <= 0.2)).toBe(true);
      expect(pens.every(({ tone }) => tone === 0)).toBe(true);
      expect(width).toBeLessThan(100);
      expect(height).toBeLessThan(60);
    }
  });

  it('keeps the edges of a narrow piece apart', () => {
    const strip = pattern('piece strip "Strip" {\n  outline rectangle 1 by 60\n  edge all raw\n  cut 1 cloth\n}\nseam s = strip.left with strip.right\nstep "Sew." does s').table().stepDrawings[0]!;
    const [left, right] = all(stepPicture(strip).items).flatMap((item) => (item.kind === 'line' && item.pen.width > 0.8 ? [item.path] : [])).map((path) => path.flatMap((step) => ('to' in step ? [step.to.x] : []))[0]!);
    expect(Math.abs(left! - right!)).toBeGreaterThan(4);
  });
});

describe('exports', () => {
  const hostile = '</title><script>alert(1)</script> & \\"x';
  const html = (title?: string): string => renderTable([pattern(spec(title)).table()], 'html', 'piece');

  it('the page has a picture of each, with its words, and nothing that runs', () => {
    const page = html(hostile);
    expect(page).toBe(html(hostile));
    expect(page).not.toContain('<script>');
    const pictures = page.slice(page.indexOf('<h2>What each step sews</h2>'));
    expect(pictures.match(/<svg [^>]*aria-label="Step [^"]*"/g)).toHaveLength(3);
    expect(html()).toContain('aria-label="Step 1, heavy lines: Patch: Patch: left, bottom and right, laid on Pouch: patch at (3 in from the left, 2 in from below)."');
    expect(html()).toContain('<figcaption>Step 2: a Side, b Foot</figcaption>');
  });

  it('a pattern whose steps sew nothing has no such part', () => {
    expect(renderTable([pattern(spec().replace(/^step .*\n/gm, '')).table()], 'html', 'piece')).not.toContain('What each step sews');
  });

  let pdf: Awaited<ReturnType<typeof seen>>;
  beforeAll(async () => {
    pdf = await seen(handedOver(samplePattern('hearth-cosy'), 'pdf').files[0]!.content);
  }, 60_000);

  it('the booklet has them as pictures with one caption each', () => {
    const nodes = (node: StructureNode): readonly StructureNode[] => [node, ...node.children.flatMap(nodes)];
    const figures = pdf.structure.flatMap(nodes).filter(({ role, alternative }) => role === 'Figure' && alternative.startsWith('Step '));
    expect(figures.map(({ alternative }) => alternative.slice(0, 7))).toEqual(['Step 1,', 'Step 4,', 'Step 5,', 'Step 6,']);
    expect(figures.every((figure) => figure.children.filter(({ role }) => role === 'Caption').length === 1)).toBe(true);
    expect(pdf.pages.some(({ texts }) => texts.some(({ text }) => text === 'Step 6: Frill'))).toBe(true);
  });
});
