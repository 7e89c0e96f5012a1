import { parseFile } from '../parse.ts';
import { lineEndOf, printBare, printDeclaration } from '../print.ts';
import type { DeclarationTree } from '../tree.ts';
import { mergeFacts } from './facts.ts';
import { mergeLines, type Marking, type Merged } from './lines.ts';
import { mergedOrder } from './order.ts';

/**
 * Two texts of a spec that have come from one, merged declaration by declaration: where only one side has changed a
 * declaration, or moved it, that is taken; what both have changed is merged line by line, else fact by fact of its
 * block, and what they say otherwise about the same stands between marks, within that declaration alone. Layout is no change.
 *
 * @returns a text with the line ends of ours
 */
export function mergeSpecs(base: string, ours: string, theirs: string, marking: Marking): Merged {
  const [before, left, right] = [partsOf(base), partsOf(ours), partsOf(theirs)];
  const merged = [...mergedOrder([...before.parts.keys()], [...left.parts.keys()], [...right.parts.keys()]).map((key) =>
    mergePart(before.parts.get(key), left.parts.get(key), right.parts.get(key), marking)), mergePart(before.trailing, left.trailing, right.trailing, marking)];
  const text = merged.map((one) => one.text).join('').replace(/^\n+/, '');
  return { text: lineEndOf(ours) === '\n' ? text : text.replace(/\n/g, '\r\n'), conflicts: merged.reduce((sum, one) => sum + one.conflicts, 0) };
}

/** A declaration as it is written, with the comments before it. */
interface Part {
  readonly text: string;
  /** The same in canonical form; undefined of comments alone, and where an earlier merge has left two versions. */
  readonly printed: string | undefined;
}

interface Parts {
  /** By what each declares. */
  readonly parts: ReadonlyMap<string, Part>;
  /** Comments after the last. */
  readonly trailing: Part | undefined;
}

function partsOf(written: string): Parts {
  const text = written.replace(/\r\n?/g, '\n');
  const { declarations, conflicts } = parseFile('', text);
  const parts = new Map<string, Part>();
  let end = 0;
  for (const { declaration, offset } of declarations) {
    const key = keyOf(declaration.tree);
    let [unique, count] = [key, 1];
    while (parts.has(unique)) unique = `${key} ${++count}`;
    end = offset + declaration.text.length;
    // As it is written: where an earlier merge has left two versions, a declaration has the first alone.
    parts.set(unique, { text: ended(text.slice(offset, end)), printed: conflicts.length === 0 ? printDeclaration(declaration.tree) : undefined });
  }
  return { parts, trailing: end === text.length ? undefined : { text: ended(text.slice(end)), printed: undefined } };
}

const ended = (text: string): string => (text.endsWith('\n') ? text : `${text}\n`);

/** What tells that two declarations are one and the same: what is named, by its name; what there is once, by its kind; else all that it says. */
function keyOf(tree: DeclarationTree): string {
  if ('name' in tree) return `${tree.kind} ${tree.name.text}`;
  return ['check', 'note', 'use', 'broken'].includes(tree.kind) ? `${tree.kind} ${printBare(tree)}` : tree.kind;
}

function mergePart(base: Part | undefined, ours: Part | undefined, theirs: Part | undefined, marking: Marking): Merged {
  if (isSame(theirs, base)) return taken(ours);
  if (isSame(ours, base)) return taken(theirs);
  if (isSame(ours, theirs)) return taken(ours);
  const [before = '', left = '', right = ''] = [base?.text, ours?.text, theirs?.text];
  const asWritten = mergeLines(before, left, right, marking);
  if (asWritten.conflicts === 0) return asWritten;
  const tries = [asWritten, mergeFacts(before, left, right, marking)];
  // Where one side only has laid it out anew, the canonical forms may agree.
  if (base?.printed !== undefined && ours?.printed !== undefined && theirs?.printed !== undefined) {
    const printed = [base.printed, ours.printed, theirs.printed] as const;
    tries.push(mergeLines(...printed, marking), mergeFacts(...printed, marking));
  }
  return tries.reduce<Merged>((best, one) => (one !== undefined && one.conflicts < best.conflicts ? one : best), asWritten);
}

const taken = (part: Part | undefined): Merged => ({ text: part?.text ?? '', conflicts: 0 });

const isSame = (a: Part | undefined, b: Part | undefined): boolean => a?.text === b?.text || (a?.printed !== undefined && a.printed === b?.printed);
