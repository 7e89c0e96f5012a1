import { titleText } from '../model/titles.ts';
import { calledOtherwise } from './called-now.ts';
import type { Raw } from './change.ts';
import type { Pair } from './pair.ts';
import type { Spec } from './spec.ts';

/** Another name for the same thing. */
export interface Renaming {
  readonly kind: 'piece' | 'edge' | 'material' | 'supply';
  /** Whether it is the title that is another, or the name alone, which stands in the spec and nowhere else. */
  readonly of: 'title' | 'name';
  readonly was: string;
  readonly now: string;
}

/** Titles and names that are others while what they stand for is the same. */
export function renamedIn({ pieces, materials, supplies, old }: Pair): readonly Renaming[] {
  // Told as a change.
  const moved = pieceTitles(old);
  const renaming = (kind: Renaming['kind'], was: { readonly name: string; readonly title: string }, now: typeof was): readonly Renaming[] => {
    if (was.title !== now.title && (kind !== 'piece' || moved.has(now.title))) return [];
    if (was.title !== now.title) return [{ kind, of: 'title', was: was.title, now: now.title }];
    return was.name === now.name ? [] : [{ kind, of: 'name', was: was.name, now: now.name }];
  };
  return [
    ...pieces.both.flatMap(([was, now]) => renaming('piece', was.shape, now.shape)),
    ...pieces.both.flatMap(([was, now]) => calledOtherwise(was.shape, now.shape).map((one): Renaming => ({ kind: 'edge', of: 'title', was: `${now.shape.title}: ${one.was}`, now: `${now.shape.title}: ${one.now}` }))),
    ...materials.both.flatMap(([was, now]) => renaming('material', was, now)),
    ...supplies.both.flatMap(([was, now]) => renaming('supply', was, now)),
  ];
}

/** A title that stood for one piece and now stands for another: whoever has the old templates would take the wrong one. */
export function movedTitles({ pieces, causes, old }: Pair): readonly Raw[] {
  const taken = pieceTitles(old);
  return pieces.both.filter(([was, now]) => was.shape.title !== now.shape.title && taken.has(now.shape.title)).map(([was, now]): Raw => ({
    group: 'template', kind: 'changed', subject: now.shape.title, what: 'title, which another piece had', was: was.shape.title, now: now.shape.title, causes: causes.at('new', now.shape.place),
  }));
}

const pieceTitles = ({ pattern }: Spec): ReadonlySet<string> =>
  new Set([...pattern.world.names.values()].flatMap(({ tree }) => (tree.kind === 'piece' ? [titleText(tree.title, tree.name)] : [])));
