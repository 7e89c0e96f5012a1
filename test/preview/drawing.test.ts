import { describe, expect, it } from 'vitest';
import type { DrawnPart, PreviewData, PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { placeNow } from '../../server/src/preview/places.ts';
import { Draft, folio, manyPieces, shapes, textAt } from './specs.ts';

const pieceOf = (data: PreviewData, name: string): PreviewPiece => {
  const piece = data.pieces.find((one) => one.name === name);
  if (piece === undefined) throw new Error(`There is no piece ${name}`);
  return piece;
};
const partOf = (piece: PreviewPiece, kind: DrawnPart['kind'], name: string): DrawnPart => {
  const part = piece.drawing.parts.find((one) => one.kind === kind && one.name === name);
  if (part === undefined) throw new Error(`${piece.name} has no ${kind} ${name}`);
  return part;
};

describe('the preview’s data', () => {
  const data = new Draft().data(folio);

  it('is plain JSON', () => {
    expect(JSON.parse(JSON.stringify(data))).toEqual(data);
  });

  it('says what the pattern is, in which combination', () => {
    expect(data).toMatchObject({ title: 'Harbour folio', revision: '3', unit: 'in', choices: [{ name: 'tab', options: ['fabric', 'cork'], chosen: 'fabric' }] });
    expect(new Draft().data(folio, { tab: 'cork' }).choices[0]?.chosen).toBe('cork');
    expect(new Draft().data(folio, { tab: 'no such option' }).choices[0]?.chosen).toBe('fabric');
  });

  it('gives sizes with the steps that lead to them, and where they are written', () => {
    const pocket = pieceOf(data, 'card_pocket');
    expect([pocket.cut.width.text, pocket.cut.height.text, pocket.finished.height.text]).toEqual(['4 3/4 in', '8 in', '7 1/4 in']);
    expect(textAt(folio, data, pocket.cut.height.place)).toBe('pocket_h');
    expect(pocket.finished.height.trail).toEqual([
      'height drawn = pocket_h',
      'pocket_h = 3 + row_step * (rows - 1) = 4 in',
      'row_step = 1 in',
      'rows = 2',
      'twice that, opened out on the fold',
      'less allowances of 3/4 in on both sides together',
    ]);
    expect(pieceOf(data, 'cover').finished.width.trail).toEqual(['width drawn = cover_w', 'cover_w = 9 1/2 in', 'less allowances of 3/4 in on both sides together']);
  });

  it('follows the size that is chosen', () => {
    const [small, large] = ['S', 'L'].map((size) => pieceOf(new Draft().data(shapes, { size }), 'panel'));
    expect([small?.cut.width.text, large?.cut.width.text]).toEqual(['24 cm', '32 cm']);
    expect(large?.cut.width.trail).toEqual(['width drawn = body', 'body = 32 for L = 32 cm']);
  });

  it('says of a derived piece what it is taken from', () => {
    const top = pieceOf(data, 'zip_top');
    expect(top.cut.width.trail[0]).toBe('taken from piece “zip_panel” above zip_line');
    expect(textAt(folio, data, top.cut.width.place)).toBe('zip_panel above zip_line');
    expect(top.cut.height.trail).toContain('1 5/8 in, rounded from 1 9/16 in');
  });

  it('leads from every part to its line in the text', () => {
    const places = (name: string): Record<string, string | undefined> => {
      const piece = pieceOf(data, name);
      return Object.fromEntries(piece.drawing.parts.map((part) => [`${part.kind} ${part.name}`, textAt(folio, data, piece.places[part.place])]));
    };
    expect(places('cover')).toMatchObject({
      'line core': 'line core = inset clear',
      'foldline spine': 'foldline spine = upright at cover_w / 2',
      'mark clasp': 'mark clasp for snap 14 mm at 1 1/2, cover_h / 2',
      'notch notch on top': 'notch top at 50%',
      'cutting top': 'outline rectangle cover_w by cover_h',
      'grain grain': 'grain up',
    });
    expect(places('tab')).toMatchObject({ 'cutting nose': 'arc to 3, 1 1/4 through 3 5/8, 5/8 as nose', 'stitching root': 'close as root' });
    expect(places('card_pocket')).toMatchObject({ 'fold top': 'on fold top' });
  });

  it('leads from what a parent hands on to where the parent has it', () => {
    const text = 'pattern "Pair"\nrevision 1\nallowance 1/4\nmaterial cloth {\n  width 10\n}\npiece a {\n  outline rectangle 4 by 3\n  line core = inset 1\n  cut 1 cloth\n}\npiece b from a {\n  cut 1 cloth\n}\n';
    const pair = new Draft().data(text);
    const copy = pieceOf(pair, 'b');
    const core = copy.drawing.parts.find((part) => part.kind === 'line');
    expect(core && textAt(text, pair, copy.places[core.place])).toBe('line core = inset 1');
  });

  it('keeps places right while the text above grows, and the drawing the very same', () => {
    const draft = new Draft();
    const before = draft.data(folio);
    const moved = folio.replace('# The tab can', '# One more line.\n# The tab can');
    const after = draft.data(moved);
    for (const [index, piece] of after.pieces.entries()) {
      expect(piece.drawing).toBe(before.pieces[index]?.drawing);
      expect(piece).toEqual(before.pieces[index]);
      piece.places.forEach((place, at) => expect(textAt(moved, after, place)).toBe(textAt(folio, before, before.pieces[index]?.places[at])));
    }
  });

  it('leads from the table’s cells to the text', () => {
    const row = data.table.cuts.find((one) => one.pieceName === 'card_pocket' && one.material === 'Woven fusible, light');
    expect(textAt(folio, data, row?.count.place)).toBe('rows');
    expect(row?.count.trail).toEqual(['rows = 2']);
    expect(textAt(folio, data, row?.size.place)).toBe('sized 4 1/2 by 2 3/4');
    expect(textAt(folio, data, row?.piecePlace)).toBe('card_pocket');
    expect(textAt(folio, data, row?.place)).toMatch(/^cut rows crisp sized/);
    expect(placeNow(data, row?.materialPlace)?.file).toBe('studio/materials.piece');
  });

  it('counts pieces and areas for the buying, and gives no length', () => {
    const canvas = data.buying.materials.find((one) => one.name === 'canvas');
    // One cover and two tabs. Cover: 9 1/2 × 7 less what four corners of 1/2 lose, (4 − π)/4 = 0.215.
    expect(canvas?.pieces).toBe(3);
    const cover = 9.5 * 7 - (4 - Math.PI) / 4;
    const tabArea = (Number.parseFloat(canvas?.area ?? '') - cover) / 2;
    expect(tabArea).toBeGreaterThan(3.625 * 1.25);
    expect(tabArea).toBeLessThan(4.5 * 2);
    expect(data.buying.materials.find((one) => one.name === 'stay')).toMatchObject({ pieces: 1, sold: 'lengths of 1/2 yd', area: '23.3 sq in' });
    expect(JSON.stringify(data.buying.materials)).not.toMatch(/needed|buy/);
  });

  it('names files as it is told to', () => {
    expect(new Draft().data(folio).files).toEqual(['draft.piece', 'studio/materials.piece']);
  });
});

describe('curves and folds', () => {
  const data = new Draft().data(shapes);

  it('keeps arcs and cubics as what they are', () => {
    expect(partOf(pieceOf(data, 'flap'), 'cutting', 'sweep').path).toMatch(/^M240 65C240 156 0 156 0 65$/);
    expect(partOf(pieceOf(new Draft().data(folio), 'cover'), 'cutting', 'top_left').path).toBe('M12.7 177.8A12.7 12.7 0 0 1 0 165.1');
  });

  it('never writes an arc that could be read two ways', () => {
    for (const piece of data.pieces) {
      for (const part of piece.drawing.parts.filter((one) => one.kind === 'cutting')) {
        for (const [, from, to] of part.path.matchAll(/([\d.-]+ [\d.-]+)A[\d.]+ [\d.]+ 0 0 [01] ([\d.-]+ [\d.-]+)/g)) expect(to).not.toBe(from);
      }
    }
    // A circle of 16 cm: four quarters or two halves, whose ends are 160 mm apart.
    const circle = pieceOf(data, 'base').drawing;
    expect(circle.box.width).toBeCloseTo(160, 6);
    expect(circle.parts.filter((part) => part.kind === 'cutting').map((part) => part.path).join('').match(/A80 80/g)?.length).toBeGreaterThanOrEqual(2);
  });

  it('opens a half out: its mirror image beside it, the fold marked', () => {
    const gusset = pieceOf(data, 'gusset');
    expect(gusset.drawing.box).toMatchObject({ x: -90, width: 180, height: 200 });
    expect(partOf(gusset, 'fold', 'centre').path).toBe('M0 200L0 0');
    expect(gusset.drawing.parts.some((part) => part.kind === 'cutting' && part.name === 'centre')).toBe(false);
    expect(partOf(gusset, 'cutting', 'side1')).toMatchObject({ path: 'M0 0L60 0', twin: 'M0 0L-60 0' });
    expect(partOf(gusset, 'placement', 'pocket').twin).toContain('-12 60');
    expect(gusset.cut.width.text).toBe('18 cm');
  });

  it('draws no stitching line where there is no allowance', () => {
    const names = pieceOf(data, 'flap').drawing.parts.filter((part) => part.kind === 'stitching').map((part) => part.name);
    expect(names).toContain('hinge');
    expect(names).not.toContain('left');
  });
});

describe('faults', () => {
  it('lists a piece that can’t be drawn, and draws all others', () => {
    const broken = folio.replace('outline rectangle cover_w / 2 + seam by cover_h\n  window', 'outline rectangle cover_w / 2 + seem by cover_h\n  window');
    const data = new Draft().data(broken);
    expect(data.undrawn.map((piece) => piece.name)).toEqual(['zip_panel', 'zip_top']);
    expect(textAt(broken, data, data.undrawn[0]?.place)).toBe('zip_panel');
    expect(data.pieces.map((piece) => piece.name)).toEqual(['cover', 'inside', 'card_pocket', 'zip_bag', 'tab']);
    expect(data.problems.errors).toBeGreaterThan(0);
  });

  it('names a piece whose first line can’t be read', () => {
    const data = new Draft().data('pattern "X"\npiece bag "Bag\n');
    expect(data.undrawn.map((piece) => piece.name)).toEqual(['bag']);
  });

  it('remembers what was drawn last, and of which version', () => {
    const draft = new Draft();
    const before = pieceOf(draft.data(folio), 'zip_bag');
    const broken = folio.replace('outline rectangle cover_w / 2 + seam by 2', 'outline rectangle cover_w / 2 + seem by 2');
    expect(draft.data(broken).undrawn).toMatchObject([{ name: 'zip_bag', earlier: { version: 1, piece: before } }]);
    // And after any number of texts in which it can’t be drawn.
    expect(draft.data(`${broken}# More.\n`).undrawn).toMatchObject([{ name: 'zip_bag', earlier: { version: 1 } }]);
    expect(draft.data(folio).undrawn).toEqual([]);
    expect(draft.data(broken).undrawn).toMatchObject([{ earlier: { version: 4 } }]);
    expect(draft.data(broken.replace(/piece zip_bag [^]*?\n}\n/, '')).undrawn).toEqual([]);
  });

  it.each(['piec inside "Inside" {', 'piece  {', '"Inside" {'])('knows a piece by its other lines where its first is %s', (line) => {
    const draft = new Draft();
    draft.data(folio);
    const broken = draft.data(folio.replace(/^piece inside .*$/m, line));
    expect(broken.undrawn.find(({ name }) => name === 'inside')).toMatchObject({ title: 'Inside', earlier: { version: 1 } });
    expect(textAt(folio.replace(/^piece inside .*$/m, line), broken, broken.undrawn.find(({ name }) => name === 'inside')?.place)).toContain(line.trim());
  });

  it.each(['', 'piece', 'piece a {', '}{', 'piece a { outline rectangle 1 by }', 'piece a from a { }', '\u0000', 'pattern "\\"'])('gives data for %j', (text) => {
    expect(() => JSON.stringify(new Draft().data(text))).not.toThrow();
  });

  it('gives data for every beginning of a real spec', () => {
    const draft = new Draft();
    for (let end = 0; end < shapes.length; end += 37) expect(() => draft.data(shapes.slice(0, end))).not.toThrow();
  });
});

describe('an edit among many pieces', () => {
  it('changes the drawing of the piece it is in, and of no other', () => {
    const draft = new Draft();
    const text = manyPieces(40);
    const before = draft.data(text);
    const after = draft.data(text.replace('piece part_7 "Part 7" {\n  outline rectangle unit_w + 7 / 2 by 10', 'piece part_7 "Part 7" {\n  outline rectangle unit_w + 7 / 2 by 11'));
    const changed = after.pieces.filter((piece, index) => piece.drawing !== before.pieces[index]?.drawing).map((piece) => piece.name);
    expect(changed).toEqual(['part_7']);
  });
});

describe('path data', () => {
  /** Where straight lines of path data lead, added up as a reader of SVG does. */
  function cornersOf(path: string): readonly (readonly [number, number])[] {
    let [x, y] = [0, 0];
    return [...path.matchAll(/([MLl])([\d.-]+) ([\d.-]+)/g)].map(([, command, a, b]) => {
      [x, y] = command === 'l' ? [x + Number(a), y + Number(b)] : [Number(a), Number(b)];
      return [x, y] as const;
    });
  }

  it('adds up along a curve of many short lines', () => {
    // A rectangle of 5 in by 3 in with corners of 1/2 in; its line 3/8 in inside has corners of 1/8 in.
    const { path } = partOf(pieceOf(new Draft().data(manyPieces(1)), 'part_0'), 'line', 'core');
    const corners = cornersOf(path);
    expect(corners.length).toBeGreaterThan(20);
    const [left, right] = [3 / 8 * 25.4, (5 - 3 / 8) * 25.4];
    const radius = 25.4 / 8;
    for (const [x, y] of corners) {
      expect(x).toBeGreaterThan(left - 0.002);
      expect(x).toBeLessThan(right + 0.002);
      const fromCorner = Math.hypot(Math.max(left + radius - x, x - right + radius, 0), Math.max(left + radius - y, y - (3 * 25.4 - left) + radius, 0));
      expect(fromCorner).toBeLessThan(radius + 0.002);
    }
  });
});
