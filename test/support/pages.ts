import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { handOver, type HandedOver, type PageFormat } from '../../server/src/formats/pages.ts';
import type { Pattern } from '../../server/src/model/pattern.ts';
import type { PageOptions } from '../../server/src/pages/options.ts';
import { paperNamed } from '../../server/src/pages/paper.ts';
import { patternOf, sample } from './samples.ts';

/** The samples that are patterns, by the names of their files. */
export const samplePatterns: readonly string[] = readdirSync(new URL('../../samples', import.meta.url)).filter((name) => name.endsWith('.piece')).map((name) => name.slice(0, -'.piece'.length));

export const samplePattern = (name: string): Pattern => patternOf(sample(`${name}.piece`));

export const optionsFor = (paper = 'a4', more: Partial<PageOptions> = {}): PageOptions => ({ paper: paperNamed(paper)!, orientation: 'auto', margin: 10, templates: 'all', ...more });

export const handedOver = (pattern: Pattern, format: PageFormat, options = optionsFor(), choices: Readonly<Record<string, string>> = {}): HandedOver =>
  handOver({ pattern, combination: new Map(Object.entries(choices)), options }, format);

/** The one file of a format. */
export const made = (pattern: Pattern, format: PageFormat, options?: PageOptions, choices?: Readonly<Record<string, string>>): Uint8Array => handedOver(pattern, format, options, choices).files[0]!.content;

/** Our own small pouch: one rounded piece that fits a sheet. */
export const pouch = `pattern "Cable pouch"
revision 4
unit mm
allowance 10
use "studio/materials.piece"
piece front "Front" {
  outline rectangle 160 by 120
  corner bottom round 30
  notch top at 50%
  mark left_hole at 40, 60
  mark right_hole at 120, 60
  grain up
  cut 2 canvas
}
`;

/** Runs a program of the system on a file, and fails with how to get it where it is missing. */
export function toolOn(bytes: Uint8Array, tool: string, args: (file: string) => readonly string[]): { readonly out: Buffer; readonly err: string; readonly code: number | null } {
  const folder = mkdtempSync(join(tmpdir(), 'piecewright-'));
  try {
    const file = join(folder, 'made.pdf');
    writeFileSync(file, bytes);
    const { error, stdout, stderr, status } = spawnSync(tool, args(file), { maxBuffer: 1e9 });
    if (error !== undefined) throw new Error(`“${tool}” is needed to check pages and can’t be run: install Debian’s poppler-utils and qpdf.`, { cause: error });
    return { out: stdout, err: stderr.toString(), code: status };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A page as poppler paints it: one byte a pixel, 255 white. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly at: (x: number, y: number) => number;
}

export function rasterOf(pdf: Uint8Array, page: number, dotsPerInch: number): Raster {
  const { out, err } = toolOn(pdf, 'pdftoppm', (file) => ['-r', String(dotsPerInch), '-gray', '-f', String(page), '-l', String(page), file]);
  if (err !== '') throw new Error(err);
  const head = /^P5\s(\d+)\s(\d+)\s255\s/.exec(out.subarray(0, 40).toString('latin1'));
  if (head === null) throw new Error('No picture came out of pdftoppm.');
  const [width, height] = [Number(head[1]), Number(head[2])];
  const pixels = out.subarray(head[0].length);
  return { width, height, at: (x, y) => pixels[y * width + x] ?? 255 };
}

export const readText = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
export const readSchema = (name: string): object => JSON.parse(readFileSync(new URL(`../../server/src/formats/${name}`, import.meta.url), 'utf8')) as object;

/** Titles that try to be something else than text. */
export const hostileTitles: readonly string[] = [
  '<script>alert(1)</script><svg onload=x>', '=HYPERLINK(1)', '+1-1', '@SUM(A1)', '../../etc/passwd', 'C:\\\\aux\\\\nul', 'a/b\\\\c:d*e?f', '\u202Egnp.exe\u202C', '👜 bag 🧵 \u{1F469}\u200D\u{1F3A8}',
  'x'.repeat(10_000), 'wide words '.repeat(900), ']]>&amp;&#0;%PDF-1.7 endstream endobj', '\\(unbalanced ( parens ) )', 'Ｆｕｌｌ ﷽ العربية עברית 日本語', 'A\u0301\u0323\u0308'.repeat(50), '0\r\nSECTION',
  'bell\u0000\u0007\u001B[31m\u0085\u200B\uFEFF', '100%%u off %%d \\\\U+0041', 'CON', 'aux.', 'COM\u00B9', 'bag. . .', '```\u2028| a | b |', '${process.exit(1)} {{7*7}} $(touch x) `id`',
].map((title) => title.replace(/["\r\n]/g, ' ').trim());

/** A brace in a note begins a formula. */
const told = (title: string): string => title.replaceAll('{', '\\{');

/** A small pattern that says a title everywhere. */
export const titled = (title: string): Pattern => patternOf(`pattern "${title}"
revision 1
unit mm
note "${told(title)}"
use "studio/materials.piece"
piece front "${title}" {
  outline rectangle 60 by 40
  corner all round 8
  mark here at 20, 20
  note "${told(title)}"
  cut 2 canvas note "${told(title)}"
}
`);
