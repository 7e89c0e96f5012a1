/**
 * Measures what lies between a keystroke and the changed preview with 200 pieces: reading and computing the text again,
 * building the preview's data, finding what has changed and writing it as JSON, and patching the page until it has been painted. In a browser without
 * a screen, on whatever machine this runs; the goal is 100 ms for 95 of 100 keystrokes.
 *
 * Run: npx esbuild test/bench/preview.ts --bundle --packages=external --platform=node --format=esm --outfile=build/bench-preview.mjs && node build/bench-preview.mjs
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import * as esbuild from 'esbuild';
import { chromium } from 'playwright-core';
import { Analyst } from '../../server/src/model/pattern.ts';
import { libraryOf } from '../../server/src/model/names/files.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import type { SourceFile } from '../../server/src/syntax/tree.ts';
import { snapshotOf } from '../../server/src/workspace/snapshot.ts';
import { previewParts, type PreviewData } from '../../server/src/preview/drawing.ts';
import { difference } from '../../server/src/preview/difference.ts';
import { Kept } from '../../server/src/preview/kept.ts';
import { ChunkNumbers } from '../../server/src/preview/places.ts';

const pieces = 200;
const warmUp = 5;
const root = process.cwd();
const read = (file: string): string => readFileSync(path.join(root, file), 'utf8');

/** A pattern of many pieces, the lengths of which an edit changes one at a time. */
function spec(): string {
  const piece = (index: number): string =>
    `piece part_${index} "Part ${index}" {\n  outline rectangle unit_w + ${index % 17} / 2 by ${3 + (index % 11)} 1/4\n  corner all round 1/2\n  line core = inset 3/8\n  foldline middle = upright at unit_w / 2\n  placement label_${index} = rectangle 1 by 1/2 at 1, 1\n  mark eye_${index} at 1 1/2, 2\n  notch top at 50%\n  notch bottom at 50%\n  grain up\n  cut 2 canvas\n  cut 1 poplin along core\n}\n`;
  return `pattern "Many"\nrevision 1\nunit in\nuse "studio/materials.piece"\nallowance 3/8\nlength unit_w = 5\n${Array.from({ length: pieces }, (_, index) => piece(index)).join('\n')}`;
}

const bundle = async (entry: string): Promise<string> =>
  (await esbuild.build({ absWorkingDir: root, entryPoints: [entry], bundle: true, minify: true, write: false, platform: 'browser', target: 'es2022', format: entry.endsWith('.ts') ? 'iife' : 'esm' })).outputFiles[0]?.text ?? '';

const browser = await chromium.launch({
  executablePath: process.env['PIECEWRIGHT_CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
const page = await browser.newPage({ viewport: { width: 900, height: 800 } });
await page.setContent('<html lang="en"><body data-uri="many.piece"><main id="preview"></main></body></html>');
await page.addStyleTag({ content: await bundle('client/preview/preview.css') });
await page.evaluate(() => {
  Object.assign(window, { acquireVsCodeApi: () => ({ postMessage: () => undefined, getState: () => undefined, setState: () => undefined }) });
});
await page.addScriptTag({ content: await bundle('client/preview/main.ts') });

const analyst = new Analyst();
const library = libraryOf(new Map([['studio/materials.piece', read('samples/studio/materials.piece')]]));
let file: SourceFile | undefined;

/** Milliseconds for the page to take a message in, and until the frame after it has been drawn. */
const show = (json: string): Promise<{ readonly patch: number; readonly paint: number }> =>
  page.evaluate(async (text) => {
    const start = performance.now();
    window.dispatchEvent(new MessageEvent('message', { data: JSON.parse(text) as unknown }));
    const patched = performance.now();
    await new Promise<void>((resolve) => {
      requestAnimationFrame(() => {
        // The message is taken up once the frame that this belongs to has been laid out and painted.
        const channel = new MessageChannel();
        channel.port1.onmessage = () => resolve();
        channel.port2.postMessage(null);
      });
    });
    return { patch: patched - start, paint: performance.now() - start };
  }, json);

let text = spec();
let size = 0;
let shown: PreviewData | undefined;
let serial = 0;
const numbers = new ChunkNumbers();
const kept = new Kept();

type Edit = (text: string, stroke: number) => string;
/** One piece in turn gets another height. */
const onePiece: Edit = (before, stroke) => before.replace(new RegExp(`(piece part_${(stroke * 37) % pieces} .*\\n.* by )(\\d+ )(\\S+)`), (_, head: string, whole: string, part: string) => `${head}${whole}${part === '1/4' ? '3/8' : '1/4'}`);
/** A length that every piece hangs on changes. */
const allPieces: Edit = (before, stroke) => before.replace(/length unit_w = .*/, `length unit_w = 5 ${1 + (stroke % 7)}/8`);

type Stage = 'compute' | 'data' | 'json' | 'patch' | 'paint' | 'whole' | 'tables' | 'rest';
const words: Readonly<Record<Stage, string>> = { compute: 'read and compute', data: 'build what is drawn', json: 'compare, write JSON', patch: 'read JSON and patch', paint: '… until painted', whole: 'keystroke to painted', tables: 'tables, in all', rest: '… of that in the page' };
const at = (values: readonly number[], share: number): number => [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? NaN;

async function keystroke(edit: Edit, stroke: number): Promise<Readonly<Record<Stage, number>>> {
  const edited = edit(text, stroke);
  if (edited === text) throw new Error('The edit changed nothing');
  text = edited;
  const start = performance.now();
  file = parseFile('many.piece', text, file);
  const pattern = analyst.analyse(file, library);
  const computed = performance.now();
  const { drawing, tables } = previewParts(snapshotOf(pattern), new Map(), { numbers, kept });
  const built = performance.now();
  // As the server does it: what is drawn first, and the tables after that.
  const drawn = shown === undefined ? { ...drawing, ...tables() } : { ...drawing, table: shown.table, buying: shown.buying };
  const json = message(shown, drawn, stroke);
  const written = performance.now();
  size = json.length;
  const { patch, paint } = await show(json);
  const painted = performance.now();
  shown = { ...drawing, ...tables() };
  const { paint: rest } = await show(message(drawn, shown, stroke));
  return { compute: computed - start, data: built - computed, json: written - built, patch, paint, whole: written - start + paint, tables: performance.now() - painted, rest };
}

/** What the page is sent, as one text. */
function message(before: PreviewData | undefined, data: PreviewData, version: number): string {
  const update = before === undefined ? { data: JSON.stringify(data) } : { since: serial, data: JSON.stringify(difference(before, data) ?? { keys: {}, gone: [] }) };
  return JSON.stringify({ type: 'show', version, uri: 'many.piece', update: { serial: ++serial, ...update } });
}

async function measure(title: string, edit: Edit, strokes: number): Promise<void> {
  const samples: Readonly<Record<Stage, number>>[] = [];
  for (let stroke = 0; stroke < strokes + warmUp; stroke++) {
    const sample = await keystroke(edit, stroke);
    if (stroke >= warmUp) samples.push(sample);
  }
  console.log(`\n${title}: ${strokes} keystrokes, ${Math.round(size / 1024)} KiB a message; milliseconds`);
  for (const stage of Object.keys(words) as Stage[]) {
    const values = samples.map((sample) => sample[stage]);
    console.log(`  ${words[stage].padEnd(22)} p50 ${at(values, 0.5).toFixed(1).padStart(7)}   p95 ${at(values, 0.95).toFixed(1).padStart(7)}   max ${Math.max(...values).toFixed(1).padStart(7)}`);
  }
}

console.log(`${pieces} pieces`);
await measure('One piece changes', onePiece, 100);
await measure('All pieces change', allPieces, 25);
const cards = await page.locator('.on-board').count();
await browser.close();
if (cards !== pieces) throw new Error(`${cards} pieces are shown, not ${pieces}`);
