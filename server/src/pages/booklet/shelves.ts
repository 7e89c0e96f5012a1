/** A box in a row of boxes. */
export interface Shelved<T> {
  readonly of: T;
  readonly x: number;
  readonly y: number;
}

/** Boxes in rows, in their order, each row as high as its highest; and how high all are together. */
export function shelved<T extends { readonly width: number; readonly height: number }>(boxes: readonly T[], width: number, gap: number): { readonly placed: readonly Shelved<T>[]; readonly height: number } {
  const placed: Shelved<T>[] = [];
  let [x, y, high] = [0, 0, 0];
  for (const box of boxes) {
    if (x > 0 && x + box.width > width) {
      [x, y, high] = [0, y + high + gap, 0];
    }
    placed.push({ of: box, x, y });
    x += box.width + gap;
    high = Math.max(high, box.height);
  }
  return { placed, height: y + high };
}
