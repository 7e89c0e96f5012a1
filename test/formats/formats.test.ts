import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it, vi } from 'vitest';
import { renderTable, tableFormats } from '../../server/src/formats/format.ts';
import { sectionsOf, type Grouping } from '../../server/src/table/sections.ts';
import type { CuttingTable } from '../../server/src/table/table.ts';
import { analyse, stock } from '../support/spec.ts';

// Many specs are computed here, which takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const quoted = (text: string): string => `"${text.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replaceAll('\n', '\\n')}"`;

/** A pattern in which every text that a person may write is the one given. */
function tableWith(text: string): CuttingTable {
  const t = quoted(text);
  return analyse(`pattern ${t}
revision 3
note ${t}
allowance 1/4
choice lid is flap or zip
use "stock.piece"
material other ${t} {
  width 60
}
piece front ${t} {
  outline rectangle 8 by 6
  cut 2 cloth note ${t}
  cut 2 fuse note ${t}
  cut 1 other
}
piece round_one ${t} when lid is flap {
  outline circle across 4
  cut 1 lining
  cut 1 other
}
supply snap ${t} {
  kind snap
  across 14 mm
  note ${t}
}
`, { 'stock.piece': stock }).table();
}

const hostile = [
  '=1+1', '+1+1', '-1+1', '@SUM(A1)', '\t=1+1', '=cmd|\' /C calc\'!A0', 'a,b;c', 'say "so"', 'one\ntwo', '"', '""', '\\', '|', 'a | b', '`code`', '*bold* _em_ ~~no~~', '# Head', '- item', '+ item', '1. item',
  '<script>alert(1)</script>', '<img src=x onerror=alert(1)>', '</title><b>', '&amp;', '&lt;', '" onmouseover="x', "' onclick='x", '[link](javascript:x)', '![i](http://example.invalid/x)', 'ünï ½ 漢字', '\u0000\u0007', '\u202Egnp', ' ', '',
];
const anyText = fc.string({ unit: 'grapheme', maxLength: 30 }).filter((text) => !text.includes('\r'));

/** All cells of a table in the order of its sections. */
const cellsOf = (table: CuttingTable, by: Grouping): readonly string[] => sectionsOf(table, by).flatMap((section) => section.rows.flat());

describe('every format', () => {
  const table = tableWith('Plain');
  it.each(tableFormats)('%s ends with revision and digest', (format) => {
    const text = renderTable([table, table], format, 'piece');
    expect(table.digest).toMatch(/^[0-9a-f]{12}$/);
    expect(text.split(table.digest)).toHaveLength(3);
    if (format === 'json') expect(text).toContain('"revision": "3"');
    else expect(text.trimEnd().slice(-80)).toContain(`Revision 3, inputs ${table.digest}`);
    expect(text.endsWith('\n')).toBe(true);
  });

  it.each(tableFormats)('%s carries the cautions', (format) => {
    expect(renderTable([table], format, 'piece')).toContain('Blades: cover a rotary cutter');
  });

  it('has the same rows by piece and by material', () => {
    const rows = (by: Grouping): readonly string[] => (sectionsOf(table, by)[0]?.rows ?? []).map((row) => [...row].sort().join('\n')).sort();
    expect(rows('material')).toEqual(rows('piece'));
    expect(rows('piece')).toHaveLength(5);
    const materials = (sectionsOf(table, 'material')[0]?.rows ?? []).map((row) => row[0]);
    expect(materials).toEqual(['Cloth', 'Fusible', 'Plain', 'Plain', 'Lining']);
  });
});

describe('CSV (RFC 4180)', () => {
  const read = (text: string): readonly (readonly string[])[] => {
    const { data, errors } = Papa.parse<string[]>(text, { skipEmptyLines: 'greedy' });
    expect(errors).toEqual([]);
    return data;
  };

  it('ends each record with CRLF and gives all the same number of fields', () => {
    const text = renderTable([tableWith('one\ntwo')], 'csv', 'piece');
    const rows = read(text);
    expect(new Set(rows.map((row) => row.length)).size).toBe(1);
    expect(text.replace(/"(?:[^"]|"")*"/g, '')).not.toMatch(/[^\r]\n|\r[^\n]/);
    expect(rows[0]?.slice(0, 3)).toEqual(['Section', 'Combination', 'Piece']);
  });

  it('gives every text back', () => {
    fc.assert(fc.property(fc.oneof(fc.constantFrom(...hostile), anyText), (text) => {
      const table = tableWith(text);
      const cells = read(renderTable([table], 'csv', 'piece')).slice(1).flat();
      for (const cell of cellsOf(table, 'piece')) {
        if (cell !== '') expect(cells.some((one) => one === cell || one === `'${cell}`), JSON.stringify(cell)).toBe(true);
      }
    }), { numRuns: 60 });
  });

  // Signs that spreadsheets take for the start of a formula (OWASP, CSV Injection).
  it('holds no cell that a spreadsheet would work out', () => {
    for (const text of hostile) {
      for (const cell of read(renderTable([tableWith(text)], 'csv', 'piece')).flat()) expect(cell, JSON.stringify(cell)).not.toMatch(/^[=+\-@\t\r]/);
    }
    expect(renderTable([tableWith('=1+1')], 'csv', 'piece')).toContain("'=1+1");
  });
});

describe('HTML', () => {
  /** Tags of a page by a plain reading; text between them is what a reader sees. */
  const tags = (page: string): readonly string[] => [...page.replace(/<style>[^<]*<\/style>/, '').matchAll(/<[^>]*>/g)].map((match) => match[0]);
  const known = /^<(?:!doctype html|\/?(?:html|head|body|title|article|h1|h2|p|ul|li|section|table|caption|thead|tbody|tr|th|td|footer)(?: (?:lang="en"|class="[a-z]+"|scope="(?:row|col)"))?|meta (?:charset="utf-8"|name="viewport" content="[a-z=,0-9 -]+"|http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"))>$/;

  it('holds its own tags alone, whatever is written in the spec', () => {
    const plain = tags(renderTable([tableWith('Plain')], 'html', 'piece'));
    for (const tag of plain) expect(tag).toMatch(known);
    fc.assert(fc.property(fc.oneof(fc.constantFrom(...hostile), anyText), (text) => {
      expect(tags(renderTable([tableWith(text)], 'html', 'piece')).map((tag) => tag.replace(' class="number"', ''))).toEqual(plain.map((tag) => tag.replace(' class="number"', '')));
    }), { numRuns: 60 });
  });

  it('closes what it opens', () => {
    const open: string[] = [];
    for (const tag of tags(renderTable([tableWith('Plain'), tableWith('Plain')], 'html', 'material'))) {
      if (/^<(?:!|meta)/.test(tag)) continue;
      const name = /^<\/?([a-z0-9]+)/.exec(tag)?.[1] ?? '';
      if (tag.startsWith('</')) expect(open.pop()).toBe(name);
      else open.push(name);
    }
    expect(open).toEqual([]);
  });

  it('needs nothing from anywhere', () => {
    const page = renderTable([tableWith('Plain')], 'html', 'piece');
    expect(page.replace(/<meta http-equiv[^>]*>/, '')).not.toMatch(/\b(?:src|href|url|@import|https?:)/);
    expect(page).toContain('<title>Plain: cutting table</title>');
    expect(page).not.toMatch(/<script|<link|<iframe|\son\w+=/);
  });

  it('shows the text as it was written', () => {
    const page = renderTable([tableWith('<b> & "c" \'d\'')], 'html', 'piece');
    expect(page).toContain('<h1>&lt;b&gt; &amp; &quot;c&quot; &#39;d&#39;</h1>');
  });
});

describe('Markdown', () => {
  /** Cells of a table row: parted at bars without a backslash before them. */
  const cells = (line: string): readonly string[] => line.slice(2, -2).split(/(?<=(?<!\\)(?:\\\\)*) \| /);
  const unescaped = (text: string): string => text.replace(/\\([\\`*_{}[\]<>#|~+.)-])/g, '$1').replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&amp;', '&');

  it('keeps every row in its columns, whatever is written', () => {
    fc.assert(fc.property(fc.oneof(fc.constantFrom(...hostile), anyText), (text) => {
      const table = tableWith(text);
      const rows = renderTable([table], 'markdown', 'piece').split('\n').filter((line) => line.startsWith('| ') && !line.startsWith('| ---'));
      const wanted = sectionsOf(table, 'piece').flatMap((section) => [section.columns, ...section.rows]);
      expect(rows).toHaveLength(wanted.length);
      rows.forEach((line, index) => expect(cells(line).map((cell) => unescaped(cell).replace(/ +/g, ' '))).toEqual(wanted[index]?.map((cell) => cell.replace(/[\s\p{Cc}]+/gu, ' '))));
    }), { numRuns: 60 });
  });

  it('lets no text start a list, a heading, a tag or a link', () => {
    for (const text of hostile) {
      const page = renderTable([tableWith(text)], 'markdown', 'piece');
      expect(page).not.toMatch(/(?<!\\)[<>`]/);
      expect(page).not.toMatch(/(?<!\\)\]\(/);
      expect(page.split('\n').filter((line) => /^- (?:[-+*]|\d+[.)]|#+)(?: |$)/.test(line)), text).toEqual([]);
      expect(page.split('\n').filter((line) => line.startsWith('#')).map((line) => line.split(' ')[0])).toEqual(['#', '##', '##', '##', '##', '##', '##']);
    }
  });
});

describe('JSON', () => {
  it('is the table itself, with no places in the spec', () => {
    for (const text of hostile) {
      const table = tableWith(text);
      const { format, version, tables } = JSON.parse(renderTable([table], 'json', 'piece')) as { format: string; version: number; tables: CuttingTable[] };
      expect([format, version, tables.length]).toEqual(['piecewright cutting table', 1, 1]);
      const placeless = (value: unknown): unknown => JSON.parse(JSON.stringify(value, (key, one: unknown) => (key === 'place' ? undefined : one))) as unknown;
      expect(tables[0]).toEqual(placeless(table));
      expect(tables[0]?.title).toBe(text);
      expect(JSON.stringify(tables)).not.toContain('"chunk"');
    }
  });
});
