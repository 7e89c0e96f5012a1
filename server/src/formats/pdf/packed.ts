import { zlibSync } from 'fflate';

/** An object that is no stream, as it is written: letters stand for bytes. */
export interface Plain {
  readonly id: number;
  readonly text: string;
}

/** Objects in one stream: a reader must unpack all of them for the first. */
const mostTogether = 400;

/** What says where a document begins. */
export interface Trailer {
  readonly root: number;
  readonly info: number;
  readonly id: Uint8Array;
}

/**
 * The end of a document, with its plain objects packed (ISO 32000-1, 7.5.7 and 7.5.8): they are much the larger part of a
 * tagged one, and alike.
 *
 * @param offsets where each object begins that is written already, the first of them object 1
 * @param at where this comes to stand
 */
export function packedEnd(plain: readonly Plain[], offsets: readonly (number | null)[], at: number, { root, info, id }: Trailer): Uint8Array {
  const out: Uint8Array[] = [];
  let place = at;
  let last = offsets.length;
  const places = new Map<number, Entry>(offsets.map((offset, index) => [index + 1, [1, offset ?? 0, 0]]));
  const write = (data: Uint8Array): void => {
    out.push(data);
    place += data.length;
  };
  const stream = (number: number, dictionary: string, data: Uint8Array): void => {
    const packed = zlibSync(data);
    write(bytesOf(`${number} 0 obj\n<<\n${dictionary}\n/Filter /FlateDecode\n/Length ${packed.length}\n>>\nstream\n`));
    write(packed);
    write(bytesOf('\nendstream\nendobj\n'));
  };
  for (let first = 0; first < plain.length; first += mostTogether) {
    const some = plain.slice(first, first + mostTogether);
    const number = ++last;
    let from = 0;
    const heads = some.map(({ id: one, text }, index) => {
      places.set(one, [2, number, index]);
      const head = `${one} ${from}`;
      from += text.length + 1;
      return head;
    });
    const head = `${heads.join(' ')}\n`;
    places.set(number, [1, place, 0]);
    stream(number, `/Type /ObjStm\n/N ${some.length}\n/First ${head.length}`, bytesOf(`${head}${some.map(({ text }) => `${text}\n`).join('')}`));
  }
  const table = last + 1;
  const start = place;
  places.set(table, [1, start, 0]);
  const hex = `<${[...id].map((byte) => byte.toString(16).padStart(2, '0')).join('')}>`;
  const entries: readonly Entry[] = [[0, 0, 65535], ...Array.from({ length: table }, (_, index): Entry => places.get(index + 1) ?? [0, 0, 0])];
  stream(table, `/Type /XRef\n/Size ${table + 1}\n/W [1 4 2]\n/Root ${root} 0 R\n/Info ${info} 0 R\n/ID [${hex} ${hex}]`, Uint8Array.from(entries.flatMap(row)));
  write(bytesOf(`startxref\n${start}\n%%EOF\n`));
  const all = new Uint8Array(place - at);
  let to = 0;
  for (const data of out) {
    all.set(data, to);
    to += data.length;
  }
  return all;
}

/** Free, at a place of the file, or in a stream; with that place or stream, and its number there. */
type Entry = readonly [kind: 0 | 1 | 2, where: number, index: number];

const row = ([kind, where, index]: Entry): readonly number[] => [kind, where >>> 24, (where >>> 16) & 255, (where >>> 8) & 255, where & 255, index >>> 8, index & 255];

function bytesOf(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  // Millions of letters in a large booklet: an iterator over them takes several times as long.
  for (let at = 0; at < text.length; at++) bytes[at] = text.charCodeAt(at);
  return bytes;
}
