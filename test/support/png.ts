import { crc32, deflateSync } from 'node:zlib';
import type { Raster } from './pages.ts';

/** A grey picture as a PNG of sixteen tones (PNG specification, 3rd edition, sections 5 and 11). */
export function greyPng({ width, height, at }: Raster): Uint8Array {
  const rows = Array.from({ length: height }, (_, y) => {
    const row = new Uint8Array(1 + Math.ceil(width / 2));
    for (let x = 0; x < width; x++) row[1 + (x >> 1)]! |= (at(x, y) >> 4) << (x % 2 === 0 ? 4 : 0);
    return row;
  });
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  // Four bits a dot, grey; the only packing and filters; rows in their order.
  head.set([4, 0, 0, 0, 0], 8);
  return Buffer.concat([Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]), chunk('IHDR', head), chunk('IDAT', deflateSync(Buffer.concat(rows), { level: 9 })), chunk('IEND', Buffer.alloc(0))]);
}

function chunk(name: string, data: Uint8Array): Uint8Array {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const size = Buffer.alloc(4);
  size.writeUInt32BE(data.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([size, body, check]);
}

/** Pictures side by side on grey, each in the middle of its height. */
export function sideBySide(all: readonly Raster[], border: number): Raster {
  const width = all.reduce((sum, one) => sum + one.width + border, border);
  const height = Math.max(...all.map((one) => one.height)) + 2 * border;
  const lefts = all.map((_, index) => all.slice(0, index).reduce((sum, one) => sum + one.width + border, border));
  return {
    width, height,
    at: (x, y) => {
      const index = lefts.findIndex((left, one) => x >= left && x < left + all[one]!.width);
      const picture = all[index];
      if (picture === undefined) return 208;
      const down = y - Math.floor((height - picture.height) / 2);
      return down >= 0 && down < picture.height ? picture.at(x - lefts[index]!, down) : 208;
    },
  };
}
