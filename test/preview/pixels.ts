import type { Locator, Page } from 'playwright-core';

/** A picture is kept at this share of its size: what browsers draw otherwise on other machines, the edges of letters, is evened out. */
const kept = 1 / 3;
/** Of 255: nothing that is nearer counts as another colour. */
const near = 32;

export interface Compared {
  /** The picture as it is kept, PNG. */
  readonly picture: Uint8Array;
  /** The share of places that are of another colour; undefined without a picture to compare with, and 1 where that has another size. */
  readonly off: number | undefined;
}

/** Scales a picture down and compares it with one that was kept, in a page that has no part in it. */
export async function comparePictures(page: Page, shot: Uint8Array, before: Uint8Array | undefined): Promise<Compared> {
  const { picture, off } = await page.evaluate(async ({ now, then, scale, least }) => {
    const bitmapOf = async (png: string): Promise<ImageBitmap> => createImageBitmap(await (await fetch(`data:image/png;base64,${png}`)).blob());
    const whole = await bitmapOf(now);
    const [width, height] = [Math.round(whole.width * scale), Math.round(whole.height * scale)];
    const canvas = new OffscreenCanvas(width, height);
    const context = canvas.getContext('2d');
    if (context === null) throw new Error('nothing to draw on');
    context.imageSmoothingQuality = 'high';
    context.drawImage(whole, 0, 0, width, height);
    const data = context.getImageData(0, 0, width, height).data;
    const bytes = [...new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer())];
    if (then === undefined) return { picture: bytes, off: undefined };
    const old = await bitmapOf(then);
    if (old.width !== width || old.height !== height) return { picture: bytes, off: 1 };
    context.drawImage(old, 0, 0);
    const other = context.getImageData(0, 0, width, height).data;
    let count = 0;
    for (let at = 0; at < data.length; at += 4) if ([0, 1, 2].some((part) => Math.abs((data[at + part] ?? 0) - (other[at + part] ?? 0)) > least)) count++;
    return { picture: bytes, off: count / (width * height) };
  }, { now: text(shot), then: before === undefined ? undefined : text(before), scale: kept, least: near });
  return { picture: new Uint8Array(picture), off };
}

/** Pictures go to pages as text: a list of numbers takes a hundred times as long. */
const text = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');

/** How far round a line its own pixels may lie, in pixels: it is as wide as its stroke. */
const around = 12;

/** How many pixels of a page are another colour once something is taken away. */
export async function differingPixels(page: Page, line: Locator): Promise<number> {
  // What was scrolled to is there in the frame after the next.
  await line.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  const box = await line.boundingBox();
  if (box === null) return 0;
  const clip = { x: Math.max(0, box.x - around), y: Math.max(0, box.y - around), width: box.width + 2 * around, height: box.height + 2 * around };
  const before = await page.screenshot({ clip });
  await line.evaluate((one) => one.setAttribute('visibility', 'hidden'));
  const after = await page.screenshot({ clip });
  await line.evaluate((one) => one.removeAttribute('visibility'));
  const counter = await page.context().browser()?.newPage();
  if (counter === undefined) throw new Error('There is no browser to count in.');
  const count = await counter.evaluate(async (pictures) => {
    const read = async (png: string): Promise<Uint8ClampedArray> => {
      const image = await createImageBitmap(await (await fetch(`data:image/png;base64,${png}`)).blob());
      const context = new OffscreenCanvas(image.width, image.height).getContext('2d');
      context?.drawImage(image, 0, 0);
      return context?.getImageData(0, 0, image.width, image.height).data ?? new Uint8ClampedArray();
    };
    const [one, other] = await Promise.all(pictures.map(read));
    let differing = 0;
    for (let at = 0; at < (one?.length ?? 0); at += 4) {
      if ([0, 1, 2].some((channel) => Math.abs((one?.[at + channel] ?? 0) - (other?.[at + channel] ?? 0)) > 48)) differing++;
    }
    return differing;
  }, [text(before), text(after)]);
  await counter.close();
  return count;
}
