import type { Note } from '../model/notes.ts';
import { noteTexts } from '../table/said-text.ts';
import { Analyst, type Pattern } from '../model/pattern.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { parseFile } from '../syntax/parse.ts';
import { snapshotOf, type Snapshot } from '../workspace/snapshot.ts';
import { combinationsToShow } from '../table/combinations.ts';

/** The pattern as it would be with another text of its own file. */
export function tried(snapshot: Snapshot, text: string): Snapshot {
  const files = new Map(snapshot.pattern.world.files.map((file) => [file.path, file]));
  return snapshotOf(new Analyst().analyse(parseFile(snapshot.path, text, snapshot.file), (path) => files.get(path)));
}

/**
 * All that a pattern says to cut and to buy, exactly: two texts with the same facts make the same goods. Named values,
 * words and problems are left out.
 */
export function factsOf(pattern: Pattern): string {
  return JSON.stringify(combinationsToShow(pattern).combinations.map((combination) => {
    const resolved = pattern.resolve(combination);
    const { materials, pieces, supplies, checks } = resolved;
    const told = (notes: readonly Note[]): readonly string[] => noteTexts(notes, resolved, pattern.display);
    const cut = new Set(pieces.flatMap((piece) => piece.cuts.map((line) => line.material.name)));
    return {
      materials: materials.filter((material) => cut.has(material.name)).map(({ place: _, notes, ...facts }) => ({ ...facts, notes: told(notes) })),
      pieces: pieces.map(({ shape, cuts }) => ({
        shape: shapeFacts(shape), notes: told(shape.notes),
        cuts: cuts.map((cut) => [cut.material.name, cut.count, cut.along, cut.symmetric ? 'either' : cut.hand, cut.onFold, cut.windows, cut.large, cut.rectangle, rounded(cut.bounds), cut.wayUp, cut.thisWayUp, told(cut.notes)]),
      })),
      supplies: supplies.map(({ name, kind, count, finished, across, length, from, purchase, price }) => [name, kind, count, finished, across, length, from?.source, from?.length, purchase, price]),
      checks: checks.map((check) => check.outcome),
    };
  }), (_, value: unknown) => (typeof value === 'bigint' ? value.toString() : value));
}

/** Every named value of a pattern, exactly. */
export function valuesOf(pattern: Pattern): string {
  const names = [...pattern.world.names].filter(([, { tree }]) => tree.kind === 'value').map(([name]) => name);
  return combinationsToShow(pattern).combinations
    .map((combination) => names.map((name) => `${name} ${pattern.value(name, combination)?.amount.toFraction() ?? ''}`).join('\n'))
    .join('\n\n');
}

function shapeFacts(shape: PieceShape): unknown {
  return [
    shape.name, shape.title, shape.rectangle, shape.fold, shape.grain, shape.thisWayUp, shape.drawnTo,
    [...shape.allowances].map(([edge, { size }]) => [edge, size]),
    shape.lines.map((line) => [line.name, line.use, line.closed, line.points.map(rounded)]),
    shape.stitchRows.map((row) => [row.name, row.kind, row.distance, row.from]),
    shape.marks.map((mark) => [mark.name, mark.use, rounded(mark.point), mark.snap]),
    shape.notches.map((notch) => [notch.edge, rounded(notch.point)]),
  ];
}

/** Measured numbers, to a ten-thousandth: the last digits hang on the order of sums. */
const rounded = (measures: { readonly [name: string]: number } | { readonly x: number; readonly y: number }): readonly number[] => Object.values(measures).map((one: number) => Math.round(one * 1e4) / 1e4 + 0);
