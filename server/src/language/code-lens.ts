import type { Resolved } from '../model/pattern.ts';
import { nameUses } from '../syntax/walk.ts';
import type { Located, Snapshot } from '../workspace/snapshot.ts';
import { combinationsToShow, inFewWords } from '../table/combinations.ts';
import type { TextRange } from './results.ts';

/** A line of words above a declaration. */
export interface CodeLens extends TextRange {
  readonly title: string;
  /** The places that it counts; empty where it counts none. */
  readonly places: readonly Located[];
}

export interface LensOptions {
  /** How often a value is used: of a block of values every other line would be a lens. */
  readonly values: boolean;
}

/** Of each piece how much is cut from it, and of what has a name how often it is used. */
export function codeLenses(snapshot: Snapshot, options: LensOptions): readonly CodeLens[] {
  const { pattern, file } = snapshot;
  const uses = usesByName(snapshot);
  const shown = combinationsToShow(pattern);
  let known: readonly Resolved[] | undefined;
  const lenses: CodeLens[] = [];
  for (const { declaration, offset } of file.declarations) {
    const { tree } = declaration;
    if (tree.kind !== 'piece' && tree.kind !== 'material' && tree.kind !== 'value') continue;
    if (pattern.world.names.get(tree.name.text) !== declaration) continue;
    const range: TextRange = { start: offset + tree.name.start, end: offset + tree.name.end };
    if (tree.kind === 'piece') {
      known ??= shown.combinations.map((combination) => pattern.resolve(combination));
      const texts = known.flatMap(({ pieces }) => pieces.filter(({ shape }) => shape.declaration === declaration).map(({ cuts }) => cutWords(cuts.map((cut) => [cut.count.valueOf(), cut.material.name]))));
      if (texts.length > 0) lenses.push({ ...range, title: inFewWords(texts, shown.all), places: [] });
    }
    const places = uses.get(tree.name.text) ?? [];
    const byPieces = new Set(places.filter((place) => place.byPiece !== undefined).map((place) => place.byPiece)).size;
    if (tree.kind === 'value') {
      if (options.values && places.length > 0) lenses.push({ ...range, title: `used ${places.length === 1 ? 'once' : `${places.length} times`}`, places: places.map((place) => place.located) });
    } else if (byPieces > 0) lenses.push({ ...range, title: `used by ${byPieces === 1 ? '1 piece' : `${byPieces} pieces`}`, places: places.map((place) => place.located) });
  }
  return lenses;
}

function cutWords(cuts: readonly (readonly [number, string])[]): string {
  const count = cuts.reduce((sum, [one]) => sum + one, 0);
  const materials = new Set(cuts.map(([, material]) => material));
  if (count === 0) return 'not cut';
  return `cut ${count} from ${materials.size === 1 ? `“${[...materials][0] ?? ''}”` : `${materials.size} materials`}`;
}

interface Use {
  readonly located: Located;
  /** The piece that it stands in. */
  readonly byPiece: string | undefined;
}

function usesByName(snapshot: Snapshot): ReadonlyMap<string, readonly Use[]> {
  const uses = new Map<string, Use[]>();
  for (const file of snapshot.pattern.world.files) {
    for (const { declaration, offset } of file.declarations) {
      const { tree } = declaration;
      for (const { name, role, path } of nameUses(tree)) {
        if (path.length > 0 || !['any', 'material', 'piece', 'supply', 'thing'].includes(role)) continue;
        const use: Use = { located: { file: file.path, start: offset + name.start, end: offset + name.end }, byPiece: tree.kind === 'piece' ? tree.name.text : undefined };
        const known = uses.get(name.text);
        if (known === undefined) uses.set(name.text, [use]);
        else known.push(use);
      }
    }
  }
  return uses;
}
