import { unzlibSync } from 'fflate';

/**
 * A font as it is before it is packed into a WOFF file (W3C, WOFF File Format 1.0, sections 3 to 5): the table directory
 * of OpenType, and the tables behind it. A packed font would be unpacked again for every letter.
 */
export function unpackedFont(woff: Uint8Array): Uint8Array {
  const from = new DataView(woff.buffer, woff.byteOffset, woff.byteLength);
  const count = from.getUint16(12);
  const tables = Array.from({ length: count }, (_, index) => {
    const entry = 44 + 20 * index;
    const [offset, packed, length] = [from.getUint32(entry + 4), from.getUint32(entry + 8), from.getUint32(entry + 12)];
    const bytes = woff.subarray(offset, offset + packed);
    return { tag: from.getUint32(entry), checksum: from.getUint32(entry + 16), bytes: packed < length ? unzlibSync(bytes) : bytes };
  });
  const padded = (length: number): number => (length + 3) & ~3;
  const font = new Uint8Array(12 + 16 * count + tables.reduce((sum, { bytes }) => sum + padded(bytes.length), 0));
  const to = new DataView(font.buffer);
  to.setUint32(0, from.getUint32(4));
  to.setUint16(4, count);
  const power = Math.floor(Math.log2(count));
  to.setUint16(6, 16 << power);
  to.setUint16(8, power);
  to.setUint16(10, 16 * count - (16 << power));
  let at = 12 + 16 * count;
  tables.forEach(({ tag, checksum, bytes }, index) => {
    [tag, checksum, at, bytes.length].forEach((value, field) => to.setUint32(12 + 16 * index + 4 * field, value));
    font.set(bytes, at);
    at += padded(bytes.length);
  });
  return font;
}
