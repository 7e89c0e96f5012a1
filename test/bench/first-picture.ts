/**
 * Measures what a person waits for who opens a preview: from the click on `Open Preview` in a real web editor to the first
 * picture of all pieces, 30 or as many as are asked for (`-- 200`). The goal is 300 ms with 30 pieces. Of the time that takes, the first part is
 * the editor's own, which makes a page of another origin in a frame within a frame; it ends when the preview's own page is begun.
 */
import { manyPieces } from '../preview/specs.ts';
import { inWebEditor } from './editor.ts';
import { atShare } from './share.ts';

const pieces = Number(process.argv[2] ?? 30);
const times = 20;
/** Milliseconds after which an editor that was just opened is done with its own start. */
const rest = 8000;

interface Seen {
  /** When the page was begun, when it was told what to draw, and when that was on the screen: the wall clock, which all frames share. */
  begun: number;
  told: number;
  painted: number;
}

await inWebEditor(manyPieces(pieces), async (workbench) => {
  // The editor's own frame, which the preview's page is written into, looks at it in every frame that is painted.
  await workbench.page.context().addInitScript((count) => {
    if (!location.search.includes('extensionId=piecewright.piecewright')) return;
    const now = (): number => performance.timeOrigin + performance.now();
    const seen: Seen = { begun: 0, told: 0, painted: 0 };
    Object.assign(window, { seen });
    const look = (): void => {
      const page = [...document.querySelectorAll('iframe')].map(({ contentDocument }) => contentDocument).find((one) => (one?.getElementById('preview') ?? null) !== null);
      if (page !== null && page !== undefined && seen.begun === 0) {
        seen.begun = now();
        page.defaultView?.addEventListener('message', ({ data }: MessageEvent<{ readonly type?: string }>) => {
          if (data.type === 'show' && seen.told === 0) seen.told = now();
        }, { capture: true });
      }
      if ((page?.querySelectorAll('.on-board .ground').length ?? 0) < count) return void requestAnimationFrame(look);
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => (seen.painted = now());
      port2.postMessage(null);
    };
    requestAnimationFrame(look);
  }, pieces);
  await workbench.page.evaluate(() => {
    window.addEventListener('click', () => ((window as unknown as { clicked: number }).clicked = performance.timeOrigin + performance.now()), { capture: true });
  });

  await workbench.page.waitForTimeout(rest);
  const samples: { readonly editor: number; readonly told: number; readonly painted: number; readonly whole: number }[] = [];
  for (let time = 0; time < times; time++) {
    await workbench.titleButton('Open Preview');
    const clicked = await workbench.page.evaluate(() => (window as unknown as { clicked: number }).clicked);
    const outer = (await workbench.previewPage()).parentFrame();
    if (outer === null) throw new Error('The preview is in no frame.');
    await outer.waitForFunction(() => (window as unknown as { seen: Seen }).seen.painted > 0, undefined, { polling: 200 });
    const { begun, told, painted } = await outer.evaluate(() => (window as unknown as { seen: Seen }).seen);
    samples.push({ editor: begun - clicked, told: told - begun, painted: painted - told, whole: painted - clicked });
    await workbench.page.locator('.tab', { hasText: 'drawn' }).click({ button: 'middle' });
    await workbench.page.locator('iframe.webview').waitFor({ state: 'detached' });
    await workbench.focusText();
  }

  const words = { editor: 'click to page begun', told: 'until told what to draw', painted: 'until painted', whole: 'click to first picture' } as const;
  const [first, ...later] = samples;
  console.log(`${pieces} pieces, opened ${times} times in a web editor; milliseconds`);
  for (const stage of ['editor', 'told', 'painted', 'whole'] as const) {
    const values = later.map((sample) => sample[stage]);
    console.log(`  ${words[stage].padEnd(24)} the first time ${(first?.[stage] ?? NaN).toFixed(1).padStart(7)}   then p50 ${atShare(values, 0.5)}   p95 ${atShare(values, 0.95)}`);
  }
});
