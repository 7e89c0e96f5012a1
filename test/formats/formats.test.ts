import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, it, vi } from 'vitest';
import { visibleText } from '../../server/src/formats/escape.ts';
import { renderTable, tableFormats } from '../../server/src/formats/format.ts';
import { documentsOf, type Section } from '../../server/src/table/document.ts';
import { sectionKeys, sectionKinds, type Grouping } from '../../server/src/table/sections.ts';
import type { CuttingTable } from '../../server/src/table/table.ts';
import { wholeTables } from '../../server/src/table/whole-table.ts';
import { patternOf, sample } from '../support/samples.ts';
import { analyse, stock } from '../support/spec.ts';

// Many specs are computed here, which takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const quoted = (text: string): string => `"${text.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replaceAll('\n', '\\n')}"`;

/** A pattern in which every text that a person may write is the one given. */
function tableWith(text: string): CuttingTable {
  const t = quoted(text);
  // A brace in a note begins a formula.
  const told = t.replaceAll('{', '\\{');
  return analyse(`pattern ${t}
revision 3
note ${told}
allowance 1/4
choice lid is flap or zip
use "stock.piece"
material other ${t} {
  width 60
}
piece front ${t} {
  outline rectangle 8 by 6
  cut 2 cloth note ${told}
  cut 2 fuse note ${told}
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
  note ${told}
}
`, { 'stock.piece': stock }).table();
}

const hostile = [
  '=1+1', '+1+1', '-1+1', '@SUM(A1)', '\t=1+1', '=cmd|\' /C calc\'!A0', 'a,b;c', 'say "so"', 'one\ntwo', '"', '""', '\\', '|', 'a | b', '`code`', '*bold* _em_ ~~no~~', '# Head', '- item', '+ item', '1. item',
  '<script>alert(1)</script>', '<img src=x onerror=alert(1)>', '</title><b>', '&amp;', '&lt;', '" onmouseover="x', "' onclick='x", '[link](javascript:x)', '![i](http://example.invalid/x)', 'ünï ½ 漢字', '\u0000\u0007', '\u202Egnp', ' ', '',
];
const anyText = fc.string({ unit: 'grapheme', maxLength: 30 }).filter((text) => !text.includes('\r'));

const sectionsOf = (table: CuttingTable, by: Grouping): readonly Section[] => documentsOf([table], by)[0]?.sections ?? [];
const cutsOf = (table: CuttingTable, by: Grouping): readonly (readonly string[])[] => (sectionsOf(table, by).find((section) => section.key === 'cuts')?.rows ?? []).map((row) => row.map((cell) => cell.text));

describe('every format', () => {
  const table = tableWith('Plain');
  it.each(tableFormats)('%s ends with revision and digest', (format) => {
    const text = renderTable([table, table], format, 'piece');
    expect(table.digest).toMatch(/^[0-9a-f]{12}$/);
    if (format !== 'csv') expect(text.split(table.digest)).toHaveLength(3);
    if (format === 'json') expect(text).toContain('"revision": "3"');
    else if (format === 'csv') expect(text).toContain(`Plain,3,${table.digest}`);
    else expect(text.trimEnd().slice(-80)).toContain(`Revision 3, fingerprint ${table.digest}`);
    expect(text.endsWith('\n')).toBe(true);
  });

  it.each(tableFormats)('%s carries the cautions', (format) => {
    expect(renderTable([table], format, 'piece')).toContain('Blades: cover a rotary cutter');
  });

  it('has the same rows by piece and by material', () => {
    const rows = (by: Grouping): readonly string[] => cutsOf(table, by).map((row) => [...row].sort().join('\n')).sort();
    expect(rows('material')).toEqual(rows('piece'));
    expect(rows('piece')).toHaveLength(5);
    const materials = cutsOf(table, 'material').map((row) => row[0]);
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
    expect(rows[0]?.slice(0, 3)).toEqual(['Choice: lid', 'Piece', 'Material']);
  });

  it('gives every text back', () => {
    fc.assert(fc.property(fc.oneof(fc.constantFrom(...hostile), anyText), (text) => {
      const table = tableWith(text);
      for (const kind of sectionKinds('piece')) {
        const cells = read(renderTable([table], 'csv', 'piece', kind.key)).slice(1).flat();
        for (const { text: cell } of kind.rows(table).flatMap((row) => row.cells)) {
          const seen = visibleText(cell);
          if (seen !== '') expect(cells.some((one) => one === seen || one === `'${seen}`), JSON.stringify(cell)).toBe(true);
        }
      }
    }), { numRuns: 60 });
  });

  // Signs that spreadsheets take for the start of a formula (OWASP, CSV Injection).
  it('holds no cell that a spreadsheet would work out', () => {
    for (const text of hostile) {
      for (const key of sectionKeys) for (const cell of read(renderTable([tableWith(text)], 'csv', 'piece', key)).flat()) expect(cell, JSON.stringify(cell)).not.toMatch(/^[=+\-@\t\r]/);
    }
    expect(renderTable([tableWith('=1+1')], 'csv', 'piece')).toContain("'=1+1");
  });
});

describe('HTML', () => {
  /** Tags of a page by a plain reading; text between them is what a reader sees. */
  const tags = (page: string): readonly string[] => [...page.replace(/<style>[^<]*<\/style>/, '').matchAll(/<[^>]*>/g)].map((match) => match[0]);
  const known = /^<(?:!doctype html|\/?(?:html|head|body|title|article|h1|h2|p|ul|li|section|table|caption|thead|tbody|tr|th|td|footer|a|div|figure|figcaption|svg|path|text|g|title|rect|br)(?: (?:lang="en"|class="[a-z ]+"|scope="(?:row|col)"|href="#table-\d-template-\d"|id="[a-z0-9-]+"|aria-label="[^"<>]*"|xmlns="http:\/\/www\.w3\.org\/2000\/svg"|role="img"|[a-zA-Z-]+="[#\w .()-]*"))*\/?|meta (?:charset="utf-8"|name="viewport" content="[a-z=,0-9 -]+"|http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"))>$/;

  /** What is written in the spec may stand in a label; a cell that is a number is set as one. */
  const named = (tag: string): string => tag.replace(/ aria-label="[^"<>]*"/, '').replace(/ class="[a-z ]+"/, '');

  it('holds its own tags alone, whatever is written in the spec', () => {
    const plain = tags(renderTable([tableWith('Plain')], 'html', 'piece'));
    for (const tag of plain) expect(tag).toMatch(known);
    fc.assert(fc.property(fc.oneof(fc.constantFrom(...hostile), anyText), (text) => {
      const found = tags(renderTable([tableWith(text)], 'html', 'piece'));
      // A column in which nothing stands is left out.
      if (text === '') for (const tag of found) expect(tag).toMatch(known);
      else expect(found.map(named)).toEqual(plain.map(named));
    }), { numRuns: 60 });
  });

  it('closes what it opens', () => {
    const open: string[] = [];
    for (const tag of tags(renderTable([tableWith('Plain'), tableWith('Plain')], 'html', 'material'))) {
      if (/^<(?:!|meta|br>)/.test(tag)) continue;
      const name = /^<\/?([a-z0-9]+)/.exec(tag)?.[1] ?? '';
      if (tag.endsWith('/>')) continue;
      if (tag.startsWith('</')) expect(open.pop()).toBe(name);
      else open.push(name);
    }
    expect(open).toEqual([]);
  });

  it('needs nothing from anywhere', () => {
    const page = renderTable([tableWith('Plain')], 'html', 'piece');
    expect(page.replace(/<meta http-equiv[^>]*>/, '').replaceAll(/ xmlns="[^"]*"| href="#[^"]*"/g, '')).not.toMatch(/\b(?:src|href|url|@import|https?:)/);
    expect(page).toContain('<title>Plain: cutting table</title>');
    expect(page).not.toMatch(/<script|<link|<iframe|\son\w+=/);
  });

  it('leads from a row to its template, and draws it with its sizes; every lay too', () => {
    const { pattern } = analyse(`pattern "T"\nrevision 1\nuse "stock.piece"\nallowance none\nsizes S, L\npiece a "A" {\n  outline rectangle 4 by 3\n  cut 1 cloth\n}\npiece b "B" {\n  outline circle across (4 for S, 6 for L)\n  window eye = rectangle 1 by 1\n  cut 2 cloth\n  cut 1 board without eye\n}\n`, { 'stock.piece': stock });
    const page = renderTable([...wholeTables(pattern, pattern.combinations())], 'html', 'piece');
    // One document for both sizes; the rectangle has no template.
    expect(page.match(/<article>/g)).toHaveLength(1);
    expect([...page.matchAll(/href="#(table-\d-template-\d)"/g)].map(([, id]) => id)).toEqual(['table-1-template-1', 'table-1-template-2']);
    for (const id of ['table-1-template-1', 'table-1-template-2']) expect(page.split(`id="${id}"`)).toHaveLength(2);
    const [, drawings = '', lays = ''] = page.split(/<h2>(?:Templates needed|Lays)<\/h2>/);
    expect([...drawings.matchAll(/aria-label="([^"]*)"/g)].map(([, label]) => label).slice(0, 2)).toEqual(['Template 1, B: circle, 4 in across', 'Template 2, B: circle, 4 in across']);
    // A number and its unit are never parted at the end of a line.
    expect(drawings).toContain('S: circle, 4\u00A0in across; L: circle, 6\u00A0in across; for Cloth');
    expect(page).toContain('<td class="fact">4\u00A0in × 3\u00A0in</td>');
    // The second has its window drawn: two closed paths.
    expect(drawings.split('</svg>').map((svg) => svg.match(/Z" fill/g)?.length ?? 0).slice(0, 2)).toEqual([1, 2]);
    // Two materials in two sizes.
    expect(lays.match(/<figure>/g)).toHaveLength(4);
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
      const wanted = sectionsOf(table, 'piece').flatMap((section) => [section.columns.map(({ heading }) => heading), ...section.rows.map((row) => row.map((cell) => cell.text))]);
      expect(rows).toHaveLength(wanted.length);
      rows.forEach((line, index) => expect(cells(line).map((cell) => unescaped(cell).replace(/ +/g, ' '))).toEqual(wanted[index]?.map((cell) => visibleText(cell).replace(/[\s\p{Cc}]+/gu, ' '))));
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

const samples = ['market-apron.piece', 'potters-roll.piece', 'tidal-crossbody.piece', 'harvest-bunting.piece'];

describe('JSON', () => {
  const validate = new Ajv2020({ allErrors: true, strict: true }).compile(JSON.parse(readFileSync(new URL('../../server/src/formats/table.schema.json', import.meta.url), 'utf8')) as object);

  it('keeps to its schema and has no places in the spec, whatever is written', () => {
    for (const text of hostile) {
      const written = JSON.parse(renderTable([tableWith(text)], 'json', 'piece')) as { format: string; version: number; tables: { title: string }[] };
      expect(validate(written), JSON.stringify(validate.errors)).toBe(true);
      expect([written.format, written.version, written.tables.length, written.tables[0]?.title]).toEqual(['piecewright cutting table', 3, 1, visibleText(text)]);
      expect(JSON.stringify(written)).not.toContain('"chunk"');
    }
  });

  it.each(samples)('of %s keeps to its schema in every combination', (name) => {
    const pattern = patternOf(sample(name));
    const written: unknown = JSON.parse(renderTable([...wholeTables(pattern, pattern.combinations().slice(0, 3), 2)], 'json', 'piece'));
    expect(validate(written), JSON.stringify(validate.errors)).toBe(true);
  });

  it('says numbers with their units beside the texts', () => {
    const found = analyse(`pattern "T"\nrevision 1\nunit cm\nallowance 1\nmaterial cloth {\n  width 140\n}\npiece a "A" {\n  outline rectangle 10 by 8.25\n  mark dot at 2, 3\n  cut 2 cloth\n}\n`).table();
    const { tables: [table] } = JSON.parse(renderTable([found], 'json', 'piece')) as { tables: { cuts: unknown[]; marks: unknown[]; seams: unknown[] }[] };
    expect(table?.cuts).toMatchObject([{ width: { text: '10 cm', value: 10, unit: 'cm' }, height: { text: 'about 8.3 cm (exactly 8.25 cm)', value: 8.25, unit: 'cm' } }]);
    expect(table?.marks).toMatchObject([{ fromLeft: { value: 2, unit: 'cm' }, fromBelow: { value: 3, unit: 'cm' } }]);
    expect(table?.seams).toMatchObject([{ width: { value: 8 }, height: { value: 6.25 }, allowances: [{ edge: 'bottom', width: { value: 1, unit: 'cm' } }, {}, {}, {}] }]);
  });

  it('is refused by its schema where a number has no unit', () => {
    const written = JSON.parse(renderTable([tableWith('Plain')], 'json', 'piece')) as { tables: { cuts: { width: { unit?: string } }[] }[] };
    delete written.tables[0]?.cuts[0]?.width.unit;
    expect(validate(written)).toBe(false);
  });
});
