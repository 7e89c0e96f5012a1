import { sha256 } from '@noble/hashes/sha2.js';
import { utf8ToBytes } from '@noble/hashes/utils.js';
import type { BuyingOptions } from '../buying/plan.ts';
import { escapeMarkup } from '../formats/escape.ts';
import type { Combination } from '../model/query/query.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { difference, type Delta } from './difference.ts';
import { previewData } from './drawing.ts';
import type { PreviewData } from './drawing-data.ts';
import type { PreviewLays } from './lays-data.ts';
import { wholeLays } from './whole-lays.ts';

/** What a page that stands by itself shows: one combination in full, and of the others what is different. */
export interface StandaloneData {
  readonly data: PreviewData;
  readonly lays: PreviewLays;
  readonly views: readonly StandaloneView[];
}

export interface StandaloneView {
  readonly combination: Readonly<Record<string, string>>;
  readonly data: Delta | null;
  readonly lays: Delta | null;
}

/** The preview's own script and style, as they are bundled. */
export interface PageParts {
  readonly script: string;
  readonly style: string;
}

/** Everything of a pattern in some combinations, without where it is written: whoever gets the page has no text. */
export function standaloneData(snapshot: Snapshot, combinations: readonly Combination[], options: BuyingOptions): StandaloneData {
  const all = combinations.map((combination) => ({ combination, data: withoutText(previewData(snapshot, combination), combinations), lays: wholeLays(snapshot.pattern, combination, options) }));
  const first = all[0];
  if (first === undefined) throw new Error('There is nothing to show.');
  return {
    data: first.data,
    lays: first.lays,
    views: all.map(({ combination, data, lays }) => ({ combination: Object.fromEntries(combination), data: difference(first.data, data) ?? null, lays: difference(first.lays, lays) ?? null })),
  };
}

/** Only the options that there is a view of can be chosen. */
function withoutText(data: PreviewData, combinations: readonly Combination[]): PreviewData {
  const choices = data.choices.map((choice) => ({ ...choice, options: choice.options.filter((option) => combinations.some((one) => one.get(choice.name) === option)) }));
  return { ...data, choices, files: [], chunks: {}, links: [], pieces: data.pieces.map((piece) => ({ ...piece, places: [] })) };
}

/** A page in one file that asks no network for anything: its policy allows this script and this style alone, by their hashes. */
export function standalonePage(data: StandaloneData, { script, style }: PageParts): string {
  const policy = `default-src 'none'; script-src '${hashOf(script)}'; style-src '${hashOf(style)}'; base-uri 'none'; form-action 'none'`;
  return `<!DOCTYPE html>
<html lang="en" class="standalone">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeMarkup(data.data.title)}</title>
<style>${style}</style>
</head>
<body data-uri="">
<main id="preview"><noscript>This page draws a pattern, and needs its script to do so.</noscript></main>
<script type="application/json" id="pattern">${inScript(JSON.stringify(data))}</script>
<script>${script}</script>
</body>
</html>
`;
}

/** JSON that ends no element and starts no comment, whatever its texts say. */
const inScript = (json: string): string => json.replace(/</g, '\\u003c').replace(/[\u2028\u2029]/g, (sign) => (sign === '\u2028' ? '\\u2028' : '\\u2029'));

const hashOf = (text: string): string => `sha256-${btoa(String.fromCharCode(...sha256(utf8ToBytes(text))))}`;
