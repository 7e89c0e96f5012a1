import { describe, expect, it } from 'vitest';
import type { DrawnPart, PreviewData, PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { limits } from '../../server/src/problems/limits.ts';
import { placeNow } from '../../server/src/preview/places.ts';
import { Draft, wallet, manyPieces, shapes, textAt } from './specs.ts';

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

const plainPieces = (count: number): string =>
  `pattern "Plain"\nunit in\nmaterial canvas "Canvas" {\n  width 58\n}\n${Array.from({ length: count }, (_, index) => `piece p${index} {\n  outline rectangle 4 by 5\n  cut 1 canvas\n}\n`).join('')}`;

describe('the preview’s data', () => {
  const data = new Draft().data(wallet);

  it('is plain JSON', () => {
    expect(JSON.parse(JSON.stringify(data))).toEqual(data);
  });

  it('says each piece in words, for whoever cannot see it', () => {
    expect(pieceOf(new Draft().data(shapes), 'gusset').drawing.description).toBe('Drawing of Half gusset; half on the fold along centre; edges side1, side2, side3, centre; placement line pocket; mark eyelet; 1 notch; grain up');
  });

  it('says what the pattern is, in which combination', () => {
    expect(data).toMatchObject({ title: 'Orchard wallet', revision: '3', unit: 'in', choices: [{ name: 'trim', title: 'Edging', options: ['bias', 'felt'], titles: { bias: 'Bias strips' }, chosen: 'bias' }] });
    expect(new Draft().data(wallet, { trim: 'felt' }).choices[0]?.chosen).toBe('felt');
    expect(new Draft().data(wallet, { trim: 'no such option' }).choices[0]?.chosen).toBe('bias');
  });

  it('follows a size through the pieces that it was taken from, as many as are shown', () => {
    const chain = (count: number): string => `${plainPieces(1)}${Array.from({ length: count }, (_, index) => `piece p${index + 1} from p${index} mirrored {\n  cut 1 canvas\n}\n`).join('')}`;
    const trailOf = (count: number): readonly string[] => pieceOf(new Draft().data(chain(count)), `p${count}`).cut.width.trail;
    expect(trailOf(5)).toEqual([4, 3, 2, 1, 0].map((index) => `taken from piece “p${index}” mirrored`).concat('width drawn = 4'));
    expect(trailOf(40)).toEqual([...[39, 38, 37, 36, 35, 34, 33, 32].map((index) => `taken from piece “p${index}” mirrored`), 'and many more steps']);
  });

  it('draws so many pieces as anybody makes, and says that there are more', () => {
    const [most, more] = [limits.piecesDrawn, limits.piecesDrawn + 1].map((count) => new Draft().data(plainPieces(count)));
    if (most === undefined || more === undefined) throw new Error('nothing was drawn');
    expect([most.pieces.length, most.tooMany]).toEqual([limits.piecesDrawn, null]);
    expect([more.pieces.length, more.tooMany, more.table.cuts.length]).toEqual([limits.piecesDrawn, limits.piecesDrawn + 1, limits.piecesDrawn]);
  });

  it('gives sizes with the steps that lead to them, and where they are written', () => {
    const pocket = pieceOf(data, 'packet_pocket');
    expect([pocket.cut.width.text, pocket.cut.height.text, pocket.finished.height.text]).toEqual(['4 1/4 in', '10 3/4 in', '10 1/4 in']);
    expect(textAt(wallet, data, pocket.cut.height.place)).toBe('pocket_h + seam');
    expect(pocket.finished.height.trail).toEqual([
      'height drawn = pocket_h + seam',
      'pocket_h = 5 1/8 in',
      'seam = 1/4 in',
      'twice that, opened out on the fold',
      'less allowances of 1/2 in on both sides together',
    ]);
    expect(pieceOf(data, 'wrap').finished.width.trail).toEqual(['width drawn = wrap_w', 'wrap_w = panels * panel_w + near + far = 15 in', 'panels = 3', 'panel_w = 4 1/2 in', 'near = 1/2 in', 'far = 1 in']);
  });

  it('follows the size that is chosen', () => {
    const [small, large] = ['S', 'L'].map((size) => pieceOf(new Draft().data(shapes, { size }), 'panel'));
    expect([small?.cut.width.text, large?.cut.width.text]).toEqual(['24 cm', '32 cm']);
    expect(large?.cut.width.trail).toEqual(['width drawn = body', 'body = 32 for L = 32 cm']);
  });

  it('says of a derived piece what it is taken from', () => {
    const lower = pieceOf(data, 'marker_pocket');
    expect(lower.cut.width.trail[0]).toBe('taken from piece “packet_pocket” below low');
    expect(textAt(wallet, data, lower.cut.width.place)).toBe('packet_pocket below low');
  });

  it('says what a shown size is rounded from', () => {
    const [tile] = new Draft().data('pattern "Tile"\nrevision 1\nallowance none\nmaterial cloth {\n  width 10\n}\npiece tile {\n  outline rectangle 3 by 1 9/16\n  cut 1 cloth\n}\n').pieces;
    expect(tile?.cut.height.trail).toContain('1 5/8 in, rounded from 1 9/16 in');
  });

  it('leads from every part to its line in the text', () => {
    const places = (name: string): Record<string, string | undefined> => {
      const piece = pieceOf(data, name);
      return Object.fromEntries(piece.drawing.parts.map((part) => [`${part.kind} ${part.name}`, textAt(wallet, data, piece.places[part.place])]));
    };
    expect(places('wrap')).toMatchObject({
      'line back_core': 'line back_core "Core of the back" = rectangle panel_w by wallet_h - 2 * clear at panel_w + far, clear',
      'foldline last_fold': 'foldline last_fold = upright at panel_w + far / 2',
      'mark strap_left': 'mark strap_left at panel_w + far + 1/2, strap_y',
      'cutting top': 'outline rectangle wrap_w by wallet_h',
      'grain grain': 'grain up',
    });
    expect(places('leaf')).toMatchObject({ 'cutting upper': 'arc to 0, 0 through 1 3/4, 5/8 as upper', 'stitching lower': 'arc to 3 1/2, 0 through 1 3/4, -5/8 as lower', 'notch notch on upper': 'notch upper at 50%' });
    expect(places('packet_pocket')).toMatchObject({ 'fold top': 'on fold top' });
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
    const before = draft.data(wallet);
    const moved = wallet.replace('# Bias strips', '# One more line.\n# Bias strips');
    const after = draft.data(moved);
    for (const [index, piece] of after.pieces.entries()) {
      expect(piece.drawing).toBe(before.pieces[index]?.drawing);
      expect(piece).toEqual(before.pieces[index]);
      piece.places.forEach((place, at) => expect(textAt(moved, after, place)).toBe(textAt(wallet, before, before.pieces[index]?.places[at])));
    }
  });

  it('leads from the table’s cells to the text', () => {
    const row = data.table.cuts.find((one) => one.pieceName === 'packet_pocket' && one.material === 'Woven fusible, light');
    expect(textAt(wallet, data, row?.countFigure.place)).toBe('panels');
    expect(row?.countFigure.trail).toEqual(['panels = 3']);
    const vinyl = data.table.cuts.find((one) => one.material === 'Clear vinyl');
    expect(textAt(wallet, data, vinyl?.sizeFigure.place)).toBe('sized 2 3/4 by 1 3/4');
    expect(textAt(wallet, data, row?.piecePlace)).toBe('packet_pocket');
    expect(textAt(wallet, data, row?.place)).toMatch(/^cut panels crisp along front/);
    expect(placeNow(data, row?.materialPlace)?.file).toBe('studio/materials.piece');
  });

  it('counts pieces and areas for the buying, and gives no length', () => {
    const canvas = data.buying.materials.find((one) => one.name === 'canvas');
    // One wrap and two leaves. Wrap: 15 × 6 1/2 less what four corners of 3/4 lose, (4 − π) × 9/16 = 0.483.
    expect(canvas?.pieces).toBe(3);
    const wrap = 15 * 6.5 - ((4 - Math.PI) * 9) / 16;
    const leafArea = (Number.parseFloat(canvas?.area ?? '') - wrap) / 2;
    // Two thirds of a box is less than a flat arc’s share of it; the whole box of the cutting line is more.
    expect(leafArea).toBeGreaterThan((3.5 * 1.25 * 2) / 3);
    expect(leafArea).toBeLessThan(4 * 1.75);
    // 4 × 5 1/2, twice, and 4 1/2 × 5 1/2.
    expect(data.buying.materials.find((one) => one.name === 'board')).toMatchObject({ pieces: 3, sold: 'sheets of 20 in × 36 in', area: '68.8 sq in' });
    expect(JSON.stringify(data.buying.materials)).not.toMatch(/needed|buy/);
  });

  it('names files as it is told to', () => {
    expect(new Draft().data(wallet).files).toEqual(['draft.piece', 'studio/materials.piece']);
  });
});

describe('curves and folds', () => {
  const data = new Draft().data(shapes);

  it('keeps arcs and cubics as what they are', () => {
    expect(partOf(pieceOf(data, 'flap'), 'cutting', 'sweep').path).toMatch(/^M240 65C240 156 0 156 0 65$/);
    expect(partOf(pieceOf(new Draft().data(wallet), 'wrap'), 'cutting', 'top_left').path).toBe('M19.05 165.1A19.05 19.05 0 0 1 0 146.05');
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
    const broken = wallet.replace('2 * seam by pocket_h', '2 * seem by pocket_h');
    const data = new Draft().data(broken);
    expect(data.undrawn.map((piece) => piece.name)).toEqual(['packet_pocket', 'marker_pocket']);
    expect(textAt(broken, data, data.undrawn[0]?.place)).toBe('packet_pocket');
    expect(data.pieces.map((piece) => piece.name)).toEqual(['wrap', 'inside', 'label_frame', 'leaf', 'edging']);
    expect(data.problems.errors).toBeGreaterThan(0);
  });

  it('names a piece whose first line can’t be read', () => {
    const data = new Draft().data('pattern "X"\npiece bag "Bag\n');
    expect(data.undrawn.map((piece) => piece.name)).toEqual(['bag']);
  });

  it('remembers what was drawn last, and of which version', () => {
    const draft = new Draft();
    const before = pieceOf(draft.data(wallet), 'edging');
    const broken = wallet.replace('rectangle edging_w', 'rectangle edging_x');
    expect(draft.data(broken).undrawn).toMatchObject([{ name: 'edging', earlier: { version: 1, piece: before } }]);
    // And after any number of texts in which it can’t be drawn.
    expect(draft.data(`${broken}# More.\n`).undrawn).toMatchObject([{ name: 'edging', earlier: { version: 1 } }]);
    expect(draft.data(wallet).undrawn).toEqual([]);
    expect(draft.data(broken).undrawn).toMatchObject([{ earlier: { version: 4 } }]);
    expect(draft.data(broken.replace(/piece edging [^]*?\n}\n/, '')).undrawn).toEqual([]);
  });

  it.each(['piec inside "Inside" {', 'piece  {', '"Inside" {'])('knows a piece by its other lines where its first is %s', (line) => {
    const draft = new Draft();
    draft.data(wallet);
    const broken = draft.data(wallet.replace(/^piece inside .*$/m, line));
    expect(broken.undrawn.find(({ name }) => name === 'inside')).toMatchObject({ title: 'Inside', earlier: { version: 1 } });
    expect(textAt(wallet.replace(/^piece inside .*$/m, line), broken, broken.undrawn.find(({ name }) => name === 'inside')?.place)).toContain(line.trim());
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
