import type { Declaration } from '../../syntax/tree.ts';
import type { Query } from './query.ts';
import type { Settings } from '../settings.ts';
import type { Cycle } from '../names/needs.ts';
import type { NameIndex } from '../../problems/near.ts';
import type { Choice, NamedDeclaration, SimilarNames, World } from '../names/world.ts';

/** The questions that computations ask of the text. Each answers with the same object or word until it changes. */
const input = <Argument, Result>(name: string, reads: keyof World, compute: Query<Argument, Result>['compute']): Query<Argument, Result> => ({ name, input: true, reads, compute });

/** The declaration of a name. */
export const declarationOf = input<string, NamedDeclaration | undefined>('declaration of', 'names', ({ world }, name) => world.names.get(name));

/** Whether a name's declaration is there but can't be read. */
export const isDamaged = input<string, boolean>('is damaged', 'damaged', ({ world }, name) => world.damaged.has(name));

/** The pieces of the pattern, in the order of the text; the argument says only that it is all of them. */
export const allPieces = input<'all', readonly NamedDeclaration[]>('all pieces', 'pieces', ({ world }) => world.pieces);

/** The seams of the pattern, in the order of the text; the argument says only that it is all of them. */
export const allSeams = input<'all', readonly NamedDeclaration[]>('all seams', 'seams', ({ world }) => world.seams);

/** The steps of the order of work, in the order of the text, with those that can't be read. */
export const allSteps = input<'all', readonly Declaration[]>('all steps', 'steps', ({ world }) => world.steps);

/** The settings of a file by its path. */
export const settingsOf = input<string, Settings | undefined>('settings of', 'settings', ({ world }, file) => world.settings.get(file));

export const choiceOf = input<string, Choice | undefined>('choice of', 'choices', ({ world }, name) => world.choices.get(name));

/** The choices that have an option of this name, joined by a space. */
export const ownersOf = input<string, string>('owners of', 'optionOwners', ({ world }, option) => (world.optionOwners.get(option) ?? []).join(' '));

/** The way from a declaration back to itself; undefined where there is none. */
export const cycleOf = input<Declaration, Cycle | undefined>('cycle of', 'cycles', ({ world }, declaration) => world.cycles.get(declaration));

/** Where to look for what a mistyped name was meant to be. */
export const similarTo = input<keyof SimilarNames, NameIndex>('similar to', 'similar', ({ world }, kind) => world.similar[kind]);
