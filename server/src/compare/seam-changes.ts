import { edgeLength } from '../geometry/measure.ts';
import type { Resolved } from '../model/pattern.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import type { Run, Seam, Stretch } from '../model/seams/seam.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { finishRows } from '../table/finishes.ts';
import { sewingRows } from '../table/sewing.ts';
import { together } from './causes.ts';
import { calledAsNow, withNamesNow } from './called-now.ts';
import { differing, type Cause, type Raw } from './change.ts';
import { bothUnits } from './lengths.ts';
import { matched } from './matched.ts';
import type { Pair } from './pair.ts';
import { cutCauses } from './piece-changes.ts';
import { inOrder } from './places-now.ts';

interface ToldSeam {
  readonly place: Place;
  readonly name: string;
  readonly title: string;
  /** What a maker is told of it. */
  readonly text: string;
  /** Which parts of its edges are sewn, and along which way: its words don't tell. */
  readonly course: string;
  /** Its pieces, by their names. */
  readonly pieces: readonly string[];
}

/** What is sewn to what in another way, and what becomes of edges that are sewn to no other. */
export const seamChanges = (pair: Pair): readonly Raw[] => [...betweenPieces(pair), ...ofEdges(pair)];

/** A seam of the same edges under another name is the same seam. */
function betweenPieces(pair: Pair): readonly Raw[] {
  const names = new Map(pair.pieces.both.map(([was, now]) => [was.shape.name, now.shape]));
  const display = bothUnits(pair.fresh.pattern.display);
  const { both, gone, come } = matched(told({ ...withNewTitles(pair), seams: pair.was.seams.map((seam) => retitled(seam, names)) }, display), told(pair.now, display), [
    (a, b) => a.name === b.name && isSame(a, b),
    isSame,
    (a, b) => a.name === b.name,
    (a, b) => a.title === b.title,
  ]);
  const common = { group: 'sew', what: 'seam' } as const;
  return [
    ...both.filter(([a, b]) => !isSame(a, b)).map(([a, b]): Raw => ({ ...common, kind: 'changed', subject: b.title, was: a.text, now: a.text === b.text ? `${b.text}, along other parts of its edges or from another end` : b.text, causes: causesOf(pair, a, b) })),
    ...come.map((one): Raw => ({ ...common, kind: 'added', subject: one.title, was: '', now: one.text, causes: pair.causes.at('new', one.place) })),
    ...gone.map((one): Raw => ({ ...common, kind: 'removed', subject: one.title, was: one.text, now: '', causes: pair.causes.at('old', one.place) })),
  ];
}

/** A seam as the table of the new pattern would tell it, whatever its pieces and their edges were called. */
function retitled(seam: Seam, names: ReadonlyMap<string, PieceShape>): Seam {
  const piece = (one: PieceShape): PieceShape => {
    const now = names.get(one.name);
    return now === undefined ? one : calledAsNow(one, now);
  };
  const run = (one: Run): Run => ({
    ...one,
    stretches: one.stretches.map((stretch) => ({ ...stretch, piece: piece(stretch.piece) })),
    ...(one.line === undefined ? {} : { line: { ...one.line, piece: piece(one.line.piece) } }),
  });
  return { ...seam, first: run(seam.first), second: run(seam.second) };
}

/** What was cut, from materials as they are called now. */
function withNewTitles({ was, materials }: Pair): Resolved {
  const titles = new Map(materials.both.map(([old, fresh]) => [old.name, fresh.title]));
  return { ...was, pieces: was.pieces.map((piece) => ({ ...piece, cuts: piece.cuts.map((line) => ({ ...line, material: { ...line.material, title: titles.get(line.material.name) ?? line.material.title } })) })) };
}

function told(resolved: Resolved, display: Display): readonly ToldSeam[] {
  const rows = sewingRows(resolved, display);
  return resolved.seams.flatMap((seam, index): readonly ToldSeam[] => {
    const row = rows[index];
    if (row === undefined) return [];
    const { first, how, second, length, ease, allowance, notches, open } = row;
    const parts = [`${first} ${how} ${second}`, length.text, ease, allowance === '' ? '' : `allowance ${allowance}`, notches, open];
    return [{ place: seam.place, name: seam.name, title: seam.title, text: parts.filter((part) => part !== '').join(', '), course: courseOf(seam), pieces: [seam.first, seam.second].flatMap(({ stretches }) => stretches.map(({ piece }) => piece.name)) }];
  });
}

/** Its own line where that says otherwise, and the values that it names; else what its pieces are cut of, which its words may tell. */
function causesOf(pair: Pair, was: ToldSeam, now: ToldSeam): readonly Cause[] {
  const { causes } = pair;
  const found = [...causes.at('new', now.place, was.place).filter(({ before }) => before !== undefined), ...causes.ofNamed(now.name, was.name)];
  return found.length > 0 ? found : together(pair.pieces.both.filter(([, { shape }]) => now.pieces.includes(shape.name)).map(([a, b]) => cutCauses(pair, a, b)));
}

const isSame = (a: ToldSeam, b: ToldSeam): boolean => a.text === b.text && a.course === b.course;

/** In tenths of a millimetre, finer than anybody sews; all of an edge is all of it, however long that is. */
const courseOf = ({ first, second }: Seam): string =>
  [first, second].map(({ stretches }) => stretches.map((stretch) => `${String(stretch.way ?? 0)} ${isWhole(stretch) ? 'all' : `${stretch.from.toFixed(1)} ${stretch.to.toFixed(1)}`}`).join(', ')).join(' | ');

function isWhole({ piece, edge, from, to }: Stretch): boolean {
  const found = piece.stitching.edges.find(({ name }) => name === edge || `${name}_twin` === edge);
  return found !== undefined && from < 0.05 && to > edgeLength(found) - 0.05;
}

function ofEdges(pair: Pair): readonly Raw[] {
  const { pieces, fresh } = pair;
  const display = bothUnits(fresh.pattern.display);
  return pieces.both.flatMap(([was, now]) => {
    // How much of an edge its seams leave is told of those.
    const text = (resolved: Pair['was'], piece: typeof was): string => finishRows({ ...resolved, pieces: [piece], seams: [] }, display).map(({ edges, finish }) => `${edges}: ${finish}`).join('; ');
    const before = withNamesNow(was, now);
    if (text(pair.was, inOrder(before)) === text(pair.now, inOrder(now))) return [];
    const changes: Raw[] = [];
    differing(changes, { group: 'sew', subject: now.shape.title, what: 'edges', causes: pair.causes.ofFinishes(now.shape.name, was.shape.name) }, text(pair.was, before), text(pair.now, now));
    return changes;
  });
}
