import { expect, it } from 'vitest';
import { Loading } from '../../client/src/preview/loading.ts';

const shown = (): { readonly webview: { readonly cspSource: string; html: string }; readonly loading: Loading; readonly load: () => string | undefined } => {
  const webview = { cspSource: 'https://files.test', html: '' };
  return { webview, loading: new Loading(webview, (name) => `https://files.test/${name}`), load: () => /load: (\d+)/.exec(webview.html)?.[1] };
};

it('loads the page of a pattern with its own script and style', () => {
  const { webview, loading, load } = shown();
  loading.start('file:///a"b.piece');
  expect(load()).toBe('1');
  expect(webview.html).toContain('<link rel="stylesheet" href="https://files.test/preview.css">');
  expect(webview.html).toMatch(/script-src 'nonce-([0-9a-f]{32})'[^]*<script nonce="\1" src="https:\/\/files\.test\/preview\.js">/);
  expect(webview.html).toContain('<body data-uri="file:///a&quot;b.piece">');
});

it('loads it once more for each page that was lost, be it script and style of it', () => {
  const { loading, load } = shown();
  loading.start('a.piece');
  loading.lost(1, 'a.piece');
  loading.lost(1, 'a.piece');
  expect(load()).toBe('2');
});

it('says so in words in the end, and leaves it at that', () => {
  const { webview, loading } = shown();
  loading.start('a.piece');
  for (const load of [1, 2, 3, 4]) loading.lost(load, 'a.piece');
  expect(webview.html).toContain('<p role="alert">The preview could not be loaded. Close it and open it again.</p>');
  expect(webview.html).not.toContain('script');
  loading.lost(4, 'a.piece');
  loading.lost(5, 'a.piece');
  expect(webview.html).toContain('The preview could not be loaded.');
});
