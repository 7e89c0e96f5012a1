/**
 * Measures what a person waits for: from a key pressed in a real web editor to the changed preview on the screen, with 200
 * pieces or as many as are asked for (`-- 1000`). The browser that shows the editor has no screen and no graphics card; the goal
 * is 50 ms for 95 of 100 keys, and 100 ms with 1,000 pieces. Keys are as far
 * apart as a fast typist's, and never the same, since the screen is drawn in a rhythm of its own.
 * The time of each stage is taken where it ends: the key as the page gets it, the data as the preview gets it, its changed
 * text, and the frame after that.
 */
import { cpSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { openBrowser } from '../editor/driver/browser.ts';
import { Workbench } from '../editor/driver/workbench.ts';
import { fetchWebHost } from '../editor/fetch/web-host.ts';
import { run } from '../editor/fetch/run.ts';
import { startWebHost } from '../editor/hosts/web.ts';
import { placeOf } from '../editor/driver/place.ts';

const pieces = Number(process.argv[2] ?? 200);
const keys = 100;
const warmUp = 8;
const root = process.cwd();
const folder = path.join(root, 'build/bench/workspace');

/** Pieces of a bag's parts, as many as are asked for; the first hangs on a length of its own. */
function spec(): string {
  const piece = (index: number): string =>
    `piece part_${index} "Part ${index}" {\n  outline rectangle ${index === 0 ? 'first_w' : `unit_w + ${index % 17} / 2`} by ${3 + (index % 11)} 1/4\n  corner all round 1/2\n  line core = inset 3/8\n  foldline middle = upright at 2\n  placement label_here = rectangle 1 by 1/2 at 1, 1\n  mark eye at 1 1/2, 2\n  notch top at 50%\n  notch bottom at 50%\n  grain up\n  cut 2 canvas\n  cut 1 poplin along core\n}\n`;
  return `pattern "Many"\nrevision 1\nunit in\nuse "studio/materials.piece"\nallowance 3/8\nlength unit_w = 5\nlength first_w = 1\n${Array.from({ length: pieces }, (_, index) => piece(index)).join('\n')}`;
}

await fetchWebHost();
await run('npm', ['run', 'package'], { cwd: root });
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
cpSync(path.join(root, 'samples/studio'), path.join(folder, 'studio'), { recursive: true });
const text = spec();
writeFileSync(path.join(folder, 'many.piece'), text);

const host = await startWebHost({ vsix: path.join(root, 'dist/piecewright.vsix'), samples: folder, trusted: true });
const browser = await openBrowser();
try {
  const workbench = await Workbench.open(browser, host);
  await workbench.openFile('many.piece');
  await workbench.titleButton('Open Preview');
  const frame = workbench.previewFrame();
  // What the piece's name on the board also says: its finished size.
  const said = frame.locator('.on-board[data-piece="part_0"] .name .unseen');
  await said.waitFor({ state: 'attached' });
  const [line, column] = placeOf(text, 'first_w = 1|');
  await workbench.goTo(line, column);
  // What is taken at each end is the wall clock, which all frames share.
  await workbench.page.evaluate(() => {
    window.addEventListener('keydown', (event) => {
      if (/^\d$/.test(event.key)) (window as unknown as { pressed: number }).pressed = performance.timeOrigin + performance.now();
    }, { capture: true });
  });
  // The page is asked before the key what it will tell after it: whoever asks meanwhile takes the thread that is measured.
  const preview = await workbench.previewPage();
  await preview.evaluate(() => {
    const times = { posted: 0, changed: 0, painted: 0 };
    let tell = (_: typeof times): void => undefined;
    Object.assign(window, { next: () => new Promise((resolve) => (tell = resolve)) });
    window.addEventListener('message', (event: MessageEvent<{ readonly type?: string }>) => {
      if (event.data.type === 'show') times.posted = performance.timeOrigin + event.timeStamp;
    }, { capture: true });
    const shown = (): string => document.querySelector('.on-board[data-piece="part_0"] .name .unseen')?.textContent ?? '';
    let before = shown();
    new MutationObserver(() => {
      if (shown() === before) return;
      before = shown();
      times.changed = performance.timeOrigin + performance.now();
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => {
          times.painted = performance.timeOrigin + performance.now();
          tell({ ...times });
        };
        port2.postMessage(null);
      });
    }).observe(document.body, { childList: true, subtree: true, characterData: true });
  });
  /** Presses a key that changes the first piece, and tells when what of it was there. */
  let pressedKeys = 0;
  const press = async (key: string): Promise<{ readonly posted: number; readonly changed: number; readonly painted: number }> => {
    await new Promise((resolve) => setTimeout(resolve, 100 + ((++pressedKeys * 37) % 60)));
    const next = preview.evaluate(() => (window as unknown as { next: () => Promise<{ posted: number; changed: number; painted: number }> }).next());
    await workbench.page.keyboard.press(key);
    return next;
  };

  const samples: { readonly asked: number; readonly patched: number; readonly painted: number; readonly whole: number }[] = [];
  for (let key = 0; key < keys + warmUp; key++) {
    const times = await press(String(2 + (key % 7)));
    const pressed = await workbench.page.evaluate(() => (window as unknown as { pressed: number }).pressed);
    if (key >= warmUp) samples.push({ asked: times.posted - pressed, patched: times.changed - times.posted, painted: times.painted - times.changed, whole: times.painted - pressed });
    // Without the digit it is as it was, so that the next key changes it again.
    await press('Backspace');
  }

  const words = { asked: 'key to data at the page', patched: 'page patched', painted: 'until painted', whole: 'key to painted' } as const;
  const at = (values: readonly number[], share: number): string => ([...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? NaN).toFixed(1).padStart(7);
  console.log(`${pieces} pieces, ${keys} keys in a web editor; milliseconds`);
  for (const stage of ['asked', 'patched', 'painted', 'whole'] as const) {
    const values = samples.map((sample) => sample[stage]);
    console.log(`  ${words[stage].padEnd(24)} p50 ${at(values, 0.5)}   p95 ${at(values, 0.95)}   max ${at(values, 1)}`);
  }
} finally {
  await browser.close();
  await host.stop();
}
