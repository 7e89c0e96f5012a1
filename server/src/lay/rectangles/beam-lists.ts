/** Score classes when the best candidates are picked: fine enough that ties are close calls. */
const CLASSES = 8192;
/** The most candidates one level may weigh, against running out of memory. */
const MOST_CANDIDATES = 1 << 22;

/** A growing list of possible layings with scores. */
export function newCandidates() {
  let room = 4096;
  let score = new Float64Array(room);
  const list = {
    count: 0,
    strip: new Int32Array(room),
    option: new Int32Array(room),
    niche: new Int32Array(room),
    add(value: number, strip: number, option: number, niche: number): void {
      if (list.count === MOST_CANDIDATES) return;
      if (list.count === room) {
        room *= 2;
        const wider = new Float64Array(room);
        wider.set(score);
        score = wider;
        list.strip = grown(list.strip, room);
        list.option = grown(list.option, room);
        list.niche = grown(list.niche, room);
      }
      score[list.count] = value;
      list.strip[list.count] = strip;
      list.option[list.count] = option;
      list.niche[list.count] = niche;
      list.count++;
    },
    /** Indices from the best score up, sorted by score class; within a class as added. */
    inOrder(): Int32Array {
      let least = Infinity;
      let most = -Infinity;
      for (let i = 0; i < list.count; i++) {
        least = Math.min(least, score[i]!);
        most = Math.max(most, score[i]!);
      }
      const scale = most > least ? (CLASSES - 1) / (most - least) : 0;
      const starts = new Int32Array(CLASSES + 1);
      for (let i = 0; i < list.count; i++) starts[Math.floor((score[i]! - least) * scale) + 1]!++;
      for (let c = 0; c < CLASSES; c++) starts[c + 1]! += starts[c]!;
      const order = new Int32Array(list.count);
      for (let i = 0; i < list.count; i++) order[starts[Math.floor((score[i]! - least) * scale)]!++] = i;
      return order;
    },
  };
  return list;
}

/** Hashes met at each level; a clash of two different strips only costs one of them its place. */
export function newSeen(keep: number) {
  let size = 4;
  while (size < 4 * keep) size *= 2;
  const hashes = new Int32Array(size);
  const levels = new Int32Array(size);
  return {
    /** Whether this hash was met at this level before; it has been from now on. */
    has(level: number, hash: number): boolean {
      let at = (hash ^ (hash >>> 16)) & (size - 1);
      while (levels[at] === level) {
        if (hashes[at] === hash) return true;
        at = (at + 1) & (size - 1);
      }
      levels[at] = level;
      hashes[at] = hash;
      return false;
    },
  };
}

/** The layings of every kept strip, each pointing at the one before it. */
export function newHistory() {
  let room = 4096;
  let count = 0;
  let before = new Int32Array(room);
  let option = new Int32Array(room);
  let x = new Int32Array(room);
  let y = new Int32Array(room);
  return {
    add(previous: number, laid: number, atX: number, atY: number): number {
      if (count === room) {
        room *= 2;
        before = grown(before, room);
        option = grown(option, room);
        x = grown(x, room);
        y = grown(y, room);
      }
      before[count] = previous;
      option[count] = laid;
      x[count] = atX;
      y[count] = atY;
      return count++;
    },
    back(last: number): { option: number; x: number; y: number }[] {
      const list = [];
      for (let at = last; at >= 0; at = before[at]!) list.push({ option: option[at]!, x: x[at]!, y: y[at]! });
      return list.reverse();
    },
  };
}

function grown(array: Int32Array<ArrayBuffer>, room: number): Int32Array<ArrayBuffer> {
  const wider = new Int32Array(room);
  wider.set(array);
  return wider;
}
