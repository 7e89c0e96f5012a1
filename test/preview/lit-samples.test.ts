import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { changedBy, type Changed } from '../../client/preview/changes.ts';
import type { PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { Draft } from './specs.ts';

/**
 * What a value changes goes by names. Here it is found by another road: each value of each sample is made a little larger and
 * smaller, and all pieces are drawn anew.
 */
const folder = new URL('../../samples/', import.meta.url);

const nudges: Readonly<Record<string, readonly string[]>> = {
  length: ['+ 1/64', '+ 1/2', '- 1/4', '* 1.2'],
  count: ['+ 1', '- 1'],
  angle: ['+ 1 deg', '- 3 deg'],
  ratio: ['* 0.98', '* 1.3'],
};

/** `20 for S, 22 otherwise`, each of them another. */
const nudged = (formula: string, nudge: string): string => formula.trim().split(/,(?![^(]*\))/).map((one) => one.trim().replace(/^(.*?)( for .*| otherwise)?$/, `($1) ${nudge}$2`)).join(', ');

/** All of a piece that is drawn or cut; what is only said of it is left out. */
const drawn = ({ drawing: { area, parts }, cut, finished, cuts, count }: PreviewPiece): string => JSON.stringify([area, parts.map(({ name, path, twin, signs }) => [name, path, twin, signs]), cut.width.text, cut.height.text, finished.width.text, finished.height.text, cuts, count]);

const isDrawn = ({ what }: Changed): boolean => what !== 'said';

/** Pieces that names say change with a value, and that do where it is another, by value. */
function bothRoads(text: string): readonly { readonly value: string; readonly named: readonly string[]; readonly changed: readonly string[] }[] {
  const draft = new Draft();
  const data = draft.data(text);
  const before = new Map(data.pieces.map((piece) => [piece.name, drawn(piece)]));
  return [...text.matchAll(/^(length|count|ratio|angle) (\w+) = ([^#\n]*)/gm)].map(({ 0: line, 1: kind = '', 2: value = '', 3: formula = '', index }) => {
    const others = (nudges[kind] ?? []).map((nudge) => draft.pieces(`${text.slice(0, index)}${kind} ${value} = ${nudged(formula, nudge)}${text.slice(index + line.length)}`));
    const changed = data.pieces.filter(({ name }) => others.some((pieces) => pieces.some((piece) => piece.name === name && drawn(piece) !== before.get(name))));
    return { value, named: [...changedBy(data, [value]).pieces].filter(([, one]) => isDrawn(one)).map(([name]) => name), changed: changed.map(({ name }) => name) };
  });
}

/** By name alone these seem to change: the value is taken away again, or it moves a window and leaves its size. */
const tooMany: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
  'orchard-wallet.piece': { pocket_h: ['marker_pocket'] },
  'potters-roll.piece': { bound: ['tip_guard'] },
  'tidal-crossbody.piece': { bag_w: ['facing'], bag_h: ['facing'], sag: ['facing'] },
};

describe.each(readdirSync(folder).filter((name) => name.endsWith('.piece')))('of a value of %s', (name) => {
  let all: ReturnType<typeof bothRoads> = [];
  beforeAll(() => {
    all = bothRoads(readFileSync(new URL(name, folder), 'utf8'));
  }, 60_000);

  it('every piece that it changes is lit', () => {
    expect(all.length).toBeGreaterThan(3);
    expect(all.some(({ changed }) => changed.length > 0)).toBe(true);
    expect(Object.fromEntries(all.flatMap(({ value, named, changed }) => changed.filter((piece) => !named.includes(piece)).map((piece) => [value, piece])))).toEqual({});
  });

  it('no other piece is lit, but for those that are known', () => {
    const more = all.map(({ value, named, changed }) => [value, named.filter((piece) => !changed.includes(piece))] as const);
    expect(Object.fromEntries(more.filter(([, pieces]) => pieces.length > 0))).toEqual(tooMany[name] ?? {});
  });
});
