import { describe, expect, it } from 'vitest';
import { escapeMarkdown, escapeMarkup, visibleText } from '../../server/src/formats/escape.ts';
import { renderTable, tableFormats } from '../../server/src/formats/format.ts';
import { hover } from '../../server/src/language/hover.ts';
import { cuttingTable } from '../../server/src/table/table.ts';
import { snapshotOfText } from '../support/samples.ts';

const unseen = ['\u0007', '\u001B', '\u0000', '\u007F', '\u009B', '\u202E', '\u202A', '\u2066', '\u2069', '\u200F', '\u061C', '\uFFFE', '\uFFFF', '\uDC00', '\uD800', '\u{1FFFF}'];

const spec = (title: string): string => `pattern "${title}"\nrevision 1\nunit in\nallowance 1/4\nnote "${title}"\nmaterial canvas "${title}" {\n  width 58\n  note "${title}"\n}\nsupply thread "${title}" {\n  kind thread\n}\npiece a "${title}" {\n  outline rectangle 4 by 3\n  grain up\n  cut 1 canvas note "${title}"\n}\n`;

describe('what no reader sees goes into no export', () => {
  it.each(tableFormats)('%s', (format) => {
    const { pattern } = snapshotOfText(spec(`A${unseen.join('')}B`));
    const written = renderTable([cuttingTable(pattern, new Map())], format, 'piece');
    expect(written).toContain('AB');
    for (const sign of unseen) expect(written.includes(sign), JSON.stringify(sign)).toBe(false);
  });

  it('nor into HTML, SVG or Markdown; all else stays', () => {
    for (const write of [visibleText, escapeMarkup, escapeMarkdown]) {
      for (const sign of unseen) expect(write(`a${sign}b`).includes(sign)).toBe(false);
      expect(write('שלום é 🧵 ½ 日本')).toBe('שלום é 🧵 ½ 日本');
    }
  });
});

describe('a title in a hover', () => {
  const hostile = '![x](https://example.invalid/x.png) <img src=x> **b** `c` [l](command:run)';

  it.each(['piece a', 'material canvas', 'supply thread'])('of a %s draws no picture and no link', (opening) => {
    const text = spec(hostile);
    const snapshot = snapshotOfText(text);
    const shown = hover(snapshot, text.indexOf(opening) + opening.length - 1)?.markdown ?? '';
    expect(shown).toContain('example.invalid');
    expect(shown.replace(/\\./g, '')).not.toMatch(/[`[\]<]|\*\*b/);
  });
});
