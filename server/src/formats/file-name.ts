/** Names that Windows keeps for itself, raised figures among them (Microsoft, “Naming Files, Paths, and Namespaces”). */
const reserved = /^(?:con|prn|aux|nul|conin|conout|(?:com|lpt)[\d¹²³])$/i;
/** Bytes of UTF-8: a file’s name may have 255, and more is added to it. */
const longestName = 100;

/**
 * A text as a part of a file’s name, safe on every file system: letters, digits, `-` and `_`, never empty or too long.
 *
 * @param longest most bytes of UTF-8
 */
export function fileName(text: string, longest = longestName): string {
  const plain = text.normalize('NFC').replace(/[^\p{L}\p{N}\p{M}_]+/gu, '-').replace(/^-|-$/g, '');
  let cut = '';
  let size = 0;
  for (const letter of plain) {
    size += new TextEncoder().encode(letter).length;
    if (size > longest) break;
    cut += letter;
  }
  return cut === '' ? 'pattern' : reserved.test(cut) ? `${cut}-` : cut;
}

/** A name that none of those taken is, not even where capitals don’t count; it is taken then. */
export function untaken(name: string, taken: Set<string>): string {
  const folded = (one: string): string => one.normalize('NFC').toLowerCase();
  let free = name;
  for (let count = 2; taken.has(folded(free)); count++) free = `${name}-${count}`;
  taken.add(folded(free));
  return free;
}
