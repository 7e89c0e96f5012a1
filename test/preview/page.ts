import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import type { HostMessage, PageMessage } from '../../client/preview/messages.ts';
import { previewHtml } from '../../client/src/preview/html.ts';
import type { PreviewLays } from '../../server/src/preview/lays-data.ts';
import { difference } from '../../server/src/preview/difference.ts';
import type { PreviewData } from '../../server/src/preview/drawing.ts';
import { themes, type ThemeName } from './themes.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const screenshots = fileURLToPath(new URL('../../build/screenshots/', import.meta.url));
const address = 'http://preview.test/';

/** What stands in for the editor on the page. */
interface Stage {
  readonly sent: PageMessage[];
  /** How often the page has said that it is painted. */
  painted: number;
  state: unknown;
  /** Of what was last shown; a page that is loaded again has none. */
  serial?: number;
}
declare global {
  // The page's own window has these once the stage is set.
  interface Window {
    /** What a test has seen change. */
    touched?: MutationRecord[];
    stage: Stage;
    acquireVsCodeApi: () => unknown;
  }
}

export interface PreviewPage {
  readonly page: Page;
  readonly show: (data: PreviewData, version?: number) => Promise<void>;
  readonly lays: (lays: PreviewLays | undefined) => Promise<void>;
  readonly post: (message: HostMessage) => Promise<void>;
  /** What the page has said since it was last asked, but that it is painted. */
  readonly sent: () => Promise<readonly PageMessage[]>;
  readonly state: () => Promise<unknown>;
  readonly theme: (name: ThemeName) => Promise<void>;
  readonly picture: (name: string) => Promise<void>;
  /** Whatever the browser complained of, blocked scripts and styles among it. */
  readonly complaints: readonly string[];
}

let built: Promise<{ readonly script: string; readonly style: string }> | undefined;

/** The page's script and style, bundled as they are shipped. */
export function bundles(): Promise<{ readonly script: string; readonly style: string }> {
  const bundle = async (entry: string, format: 'iife' | undefined): Promise<string> => {
    const result = await esbuild.build({ absWorkingDir: root, entryPoints: [entry], bundle: true, minify: true, write: false, platform: 'browser', target: 'es2022', charset: 'utf8', ...(format === undefined ? {} : { format }) });
    return result.outputFiles[0]?.text ?? '';
  };
  built ??= Promise.all([bundle('client/preview/main.ts', 'iife'), bundle('client/preview/preview.css', undefined)]).then(([script, style]) => ({ script, style }));
  return built;
}

/** Opens the page by itself, with the policy that the editor gives it; at the pieces one by one unless it is told of a state; without what is lost on the way. */
export async function openPreview(browser: Browser, options: { readonly theme?: ThemeName; readonly width?: number; readonly height?: number; readonly state?: unknown; readonly forcedColors?: 'active'; readonly lost?: string } = {}): Promise<PreviewPage> {
  const { script, style } = await bundles();
  const context = await browser.newContext({ viewport: { width: options.width ?? 900, height: options.height ?? 760 }, forcedColors: options.forcedColors ?? 'none', reducedMotion: 'reduce' });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(String(error)));
  await context.route('**/*', (route) => {
    const path = new URL(route.request().url()).pathname;
    if (path === options.lost) return route.abort();
    if (path === '/preview.js') return route.fulfill({ contentType: 'text/javascript', body: script });
    if (path === '/preview.css') return route.fulfill({ contentType: 'text/css', body: style });
    if (path === '/') return route.fulfill({ contentType: 'text/html', body: html });
    return route.fulfill({ status: 404, body: '' });
  });
  await page.addInitScript((state) => {
    const kept = sessionStorage.getItem('state');
    const stage: Stage = { sent: [], painted: 0, state: kept === null ? state : JSON.parse(kept) };
    window.stage = stage;
    window.acquireVsCodeApi = () => ({
      postMessage: (message: PageMessage) => (message.type === 'painted' ? stage.painted++ : stage.sent.push(message)),
      getState: () => stage.state,
      setState: (next: unknown) => {
        stage.state = next;
        sessionStorage.setItem('state', JSON.stringify(next));
      },
    });
  }, options.state === undefined ? { uri: 'draft.piece', view: 'pieces' } : options.state);
  await page.goto(address);

  let shown: PreviewData | undefined;
  let serial = 0;
  const preview: PreviewPage = {
    page,
    complaints,
    post: (message) => page.evaluate(async (one) => {
      window.dispatchEvent(new MessageEvent('message', { data: one }));
      // Two frames on, what came into sight has been drawn.
      for (let frames = 0; frames < 2; frames++) await new Promise((resolve) => requestAnimationFrame(resolve));
    }, message),
    // As the server does it: the whole at first, then only what is different, the tables after what is drawn.
    show: async (data, version = 1) => {
      const since = await page.evaluate(() => window.stage.serial);
      const known = since === undefined ? undefined : shown;
      const drawn = known && { ...data, table: known.table, buying: known.buying };
      for (const [before, next] of known === undefined || drawn === undefined ? [[undefined, data] as const] : [[known, drawn] as const, [drawn, data] as const]) {
        const update = before === undefined ? { data: JSON.stringify(next) } : { since: serial, data: JSON.stringify(difference(before, next) ?? { keys: {}, gone: [] }) };
        serial += 1;
        await preview.post({ type: 'show', version, uri: 'draft.piece', update: { serial, ...update } });
      }
      shown = data;
      await page.evaluate((now) => (window.stage.serial = now), serial);
    },
    lays: async (lays) => {
      if (lays !== undefined) await preview.post({ type: 'lays', uri: 'draft.piece', lays });
    },
    sent: () => page.evaluate(() => window.stage.sent.splice(0)),
    state: () => page.evaluate(() => window.stage.state),
    theme: (name) => page.evaluate(({ kind, colours }) => {
      for (const [colour, value] of Object.entries(colours)) document.documentElement.style.setProperty(`--vscode-${colour}`, value);
      document.body.className = kind;
    }, themes[name]),
    picture: async (name) => {
      mkdirSync(screenshots, { recursive: true });
      await page.screenshot({ path: `${screenshots}preview-${name}.png` });
    },
  };
  await preview.theme(options.theme ?? 'light');
  return preview;
}

/** The page as the editor is given it. */
const html = previewHtml({ pattern: 'draft.piece', load: 1, style: '/preview.css', script: '/preview.js', source: 'http://preview.test', nonce: 'staged' });
