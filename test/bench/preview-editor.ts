/**
 * Measures what a person waits for: from a key pressed in a real web editor to the changed preview on the screen, with 200
 * pieces or as many as are asked for (`-- 1000`). The browser that shows the editor has no screen and no graphics card; the goal
 * is 50 ms for 95 of 100 keys, and 100 ms with 1,000 pieces. Keys are as far
 * apart as a fast typist's, and never the same, since the screen is drawn in a rhythm of its own.
 * The time of each stage is taken where it ends: the key as the page gets it, the data as the preview gets it, its changed
 * text, and the frame after that.
 */
import { placeOf } from '../editor/driver/place.ts';
import { manyPieces } from '../preview/specs.ts';
import { inWebEditor } from './editor.ts';
import { atShare } from './share.ts';

const pieces = Number(process.argv[2] ?? 200);
const keys = 100;
const warmUp = 8;
/** The first piece hangs on a length of its own. */
const text = manyPieces(pieces).replace('rectangle unit_w + 0 / 2', 'rectangle first_w').replace('length unit_w', 'length first_w = 1\nlength unit_w');

await inWebEditor(text, async (workbench) => {
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
  console.log(`${pieces} pieces, ${keys} keys in a web editor; milliseconds`);
  for (const stage of ['asked', 'patched', 'painted', 'whole'] as const) {
    const values = samples.map((sample) => sample[stage]);
    console.log(`  ${words[stage].padEnd(24)} p50 ${atShare(values, 0.5)}   p95 ${atShare(values, 0.95)}   max ${atShare(values, 1)}`);
  }
});
