import { describe, expect, it } from 'vitest';
import { pieceSheet } from '../../server/src/exports/svg.ts';
import { Draft, folio, shapes } from '../preview/specs.ts';

const hostile = '"><img src=x onerror=alert(1)>&\'';

describe('a piece as an SVG sheet', () => {
  it('has a millimetre for a millimetre', () => {
    const data = new Draft().data(folio);
    const cover = data.pieces[0];
    if (cover === undefined) throw new Error('no piece');
    const sheet = pieceSheet(cover, { footer: data.table.cautions });
    const [, width, height, viewWidth, viewHeight] = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(sheet) ?? [];
    expect([viewWidth, viewHeight]).toEqual([width, height]);
    expect(Number(width)).toBeCloseTo(241.3 + 30, 3);
    expect(sheet).toContain('Cover');
    expect(sheet).toContain('Cut 9 1/2 in × 7 in, finished 8 3/4 in × 6 1/4 in');
    expect(sheet).toContain('Blades:');
  });

  it('breaks long lines so that they stay on the sheet', () => {
    const data = new Draft().data(folio);
    const pocket = data.pieces.find((piece) => piece.name === 'card_pocket');
    if (pocket === undefined) throw new Error('no piece');
    const sheet = pieceSheet(pocket, { footer: data.table.cautions });
    const lines = [...sheet.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text ?? '');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThan(80);
    expect(lines.join(' ')).toContain(data.table.cautions[0]);
  });

  it('tells kinds of lines apart without colour', () => {
    const data = new Draft().data(shapes);
    const styles = new Set<string>();
    for (const piece of data.pieces) {
      for (const [, width, dashes = ''] of pieceSheet(piece, { footer: [] }).matchAll(/<path d="[^"]*" stroke-width="([\d.]+)"(?: stroke-dasharray="([^"]*)")?/g)) styles.add(`${width} ${dashes}`);
    }
    expect(styles.size).toBeGreaterThanOrEqual(7);
  });

  it('escapes whatever comes from a spec', () => {
    const text = `pattern "X"\nrevision 1\npiece a "${hostile.replaceAll('"', '\\"')}" {\n  outline rectangle 3 by 4\n}\n`;
    const [piece] = new Draft().data(text).pieces;
    if (piece === undefined) throw new Error('no piece');
    const sheet = pieceSheet(piece, { footer: [hostile] });
    expect(sheet).not.toMatch(/<img|<script|onerror=alert\(1\)>/);
    expect(sheet).toContain('&lt;img');
    expect(sheet.match(/<(?!\/)[a-z]+/g)?.every((tag) => ['<svg', '<title', '<rect', '<g', '<path', '<text'].includes(tag))).toBe(true);
  });
});
