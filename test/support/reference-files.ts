/** The path that an example of the reference is read under. */
export const examplePath = 'example.piece';

/** The materials that every example may cut from. */
const materials: Readonly<Record<string, string>> = {
  canvas: 'role main\nwidth 58',
  print: 'role accent\nwidth 44\ndirection one way',
  poplin: 'role lining\nwidth 44',
  crisp: 'role fusible\nwidth 20',
  board: 'role stabiliser\nwidth 20\nfaces glued',
  fleece: 'role foam\nwidth 58',
  cork: 'role non-fray\nbought in sheets of 18 by 27',
};

const facts: Readonly<Record<string, { readonly line: string; readonly missing: string }>> = {
  pattern: { line: 'pattern "Example"', missing: 'missing-title' },
  revision: { line: 'revision 1', missing: 'missing-revision' },
  allowance: { line: 'allowance 1/2 in', missing: 'missing-allowance' },
};

/**
 * An example with what a whole spec has besides, after it so that its lines keep their numbers: each fact of the pattern
 * that it doesn't give itself, unless it is about that fact being missing, and a list of materials.
 */
export function completed(text: string, codes: readonly string[]): string {
  const added = Object.entries(facts).flatMap(([word, { line, missing }]) => (beginsLine(text, word) || codes.includes(missing) ? [] : [line]));
  return `${text}${[...added, 'use "hidden/list.piece"'].join('\n')}\n`;
}

const beginsLine = (text: string, words: string): boolean => new RegExp(`^${words}\\b`, 'm').test(text);

/** The other files that an example may use, as texts by path. */
export function filesBeside(text: string): ReadonlyMap<string, string> {
  const own = Object.entries(materials).filter(([name]) => !beginsLine(text, `material ${name}`));
  return new Map([
    ['hidden/list.piece', `unit in\n${own.map(([name, body]) => `material ${name} {\n${body}\n}\n`).join('')}`],
    ['studio/materials.piece', 'unit in\nmaterial linen {\n  width 54\n}\nlength house_seam = 3/8\n'],
    ['studio/tote.piece', 'pattern "Tote"\nrevision 1\nallowance 1/2\nlength handle = 22\npiece side {\n  outline rectangle 4 by 4\n}\n'],
    ['studio/faulty.piece', 'length strap = 3 +\n'],
  ]);
}
