import { lineMeasures, pieceMeasures } from '../model/formulas/reference.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { reservedWords } from '../syntax/statements/vocabulary.ts';
import { isName } from '../syntax/tokens.ts';
import { declarationPlace, nameAt, textOf, usesInAll, type FoundName, type Target } from './names.ts';

/** Why something can't be done, in a sentence for people. */
export interface Refusal {
  readonly refused: string;
}

export interface Renameable {
  readonly start: number;
  readonly end: number;
  readonly name: string;
}

export interface NewName {
  readonly file: string;
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

/** Whether the name at an offset can be changed; undefined where there is no name. */
export function prepareRename(snapshot: Snapshot, offset: number): Renameable | Refusal | undefined {
  const found = nameAt(snapshot, offset);
  if (found === undefined) return undefined;
  const refused = whyFixed(snapshot, found);
  if (refused !== undefined) return { refused };
  const name = textOf(found.target);
  const start = found.offset + found.use.name.start;
  return { start, end: start + name.length, name };
}

/**
 * Changes a name everywhere it is used.
 *
 * @param others the snapshots of other patterns that use the same files
 */
export function rename(snapshot: Snapshot, others: readonly Snapshot[], offset: number, newName: string): readonly NewName[] | Refusal | undefined {
  const found = nameAt(snapshot, offset);
  if (found === undefined) return undefined;
  const refused = whyFixed(snapshot, found) ?? whyNoName(newName) ?? [snapshot, ...others].map((one) => whyTaken(one, found.target, newName)).find((why) => why !== undefined);
  if (refused !== undefined) return { refused };
  return usesInAll(snapshot, others, found.target).map(({ file, start, end }) => ({ file, start, end, newText: newName }));
}

function whyFixed(snapshot: Snapshot, { target, use }: FoundName): string | undefined {
  switch (target.kind) {
    case 'function':
      return `“${target.text}” is a function of the language.`;
    case 'measure':
      return `“${target.text}” is a measure that every piece, line, supply or material has; its name is fixed.`;
    case 'side':
      return `“${target.text}” is a side that the shape has by itself. Give it a name of your own with a line such as edge ${target.text} as hem.`;
    case 'choice':
      return target.name === undefined ? '“size” is what the sizes are chosen by; its name is fixed.' : undefined;
    default:
      return declarationPlace(snapshot, target) === undefined ? `“${use.name.text}” is not declared in this pattern.` : undefined;
  }
}

function whyNoName(name: string): string | undefined {
  if (!isName(name)) return `“${name}” can’t be a name: use letters, digits and _, beginning with a letter.`;
  return reservedWords.has(name) ? `“${name}” is a word of the language.` : undefined;
}

function whyTaken(snapshot: Snapshot, target: Target, name: string): string | undefined {
  if (textOf(target) === name) return undefined;
  const { world } = snapshot.pattern;
  const taken = `The name “${name}” is already taken.`;
  switch (target.kind) {
    case 'named':
      return name === 'pi' ? '“pi” is the number 3.14159…' : world.names.has(name) ? taken : undefined;
    case 'choice':
      return world.choices.has(name) ? taken : undefined;
    case 'option': {
      // An option that stands without its choice would mean another, or no one could tell which.
      const [owner] = world.optionOwners.get(name) ?? [];
      return owner === undefined ? undefined : `“${name}” is already an option of “${owner}”.`;
    }
    case 'part':
      return whyPartTaken(snapshot, target, name);
    default:
      return undefined;
  }
}

function whyPartTaken(snapshot: Snapshot, { part, declaration }: Extract<Target, { kind: 'part' }>, name: string): string | undefined {
  if (Object.hasOwn(pieceMeasures, name) || (part === 'line' && Object.hasOwn(lineMeasures, name))) return `“${name}” is a measure of every piece.`;
  const piece = declaration.tree.name.text;
  const shape = snapshot.pattern.shape(piece, new Map());
  const parts = [...(shape?.drawn.edges ?? []), ...(shape?.lines ?? []), ...(shape?.marks ?? []), ...(shape?.stitchRows ?? [])];
  return parts.some((one) => one.name === name) ? `“${piece}” already has a part called “${name}”.` : undefined;
}
