import type { Note } from '../model/notes.ts';
import { noteTexts } from '../table/said-text.ts';
import type { Outline, Polyline } from '../geometry/shape.ts';
import { flattenOutline } from '../geometry/flatten.ts';
import type { Pattern, ResolvedPiece } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { ExactSize } from '../model/piece/piece.ts';
import type { SizedContents } from '../pages/contents.ts';
import { visibleText } from './escape.ts';
import { tableData } from './json.ts';
import type { Rational } from '../units/rational.ts';

/**
 * The whole of a pattern as it was worked out, for other programs: `pattern.schema.json` says what stands where.
 * Lengths are millimetres, y upwards; an exact length is there as a fraction too.
 */
export function toPatternJson(pattern: Pattern, contents: readonly SizedContents[]): string {
  const { facts } = pattern.world;
  const data = {
    format: 'piecewright pattern', version: 1,
    title: facts.title ?? pattern.world.root.path, revision: facts.revision ?? null, fingerprint: pattern.digest, unit: pattern.display.unit,
    choices: Object.fromEntries(pattern.choices),
    combinations: contents.map(({ resolved, table }) => ({
      options: Object.fromEntries(resolved.combination),
      materials: resolved.materials.map(({ name, title, role, width, usable, faces, direction, shrinkage }) => ({
        name, title, role, width: optional(width), usable: optional(usable), faces, direction, shrinkage: { along: shrinkage.along.valueOf(), across: shrinkage.across.valueOf() },
      })),
      pieces: resolved.pieces.map((piece) => pieceData(piece, (notes) => noteTexts(notes, resolved, pattern.display))),
      supplies: resolved.supplies.map(({ name, title, kind, count, finished, across, length }) => ({ name, title, kind, count: Number(count.n), finished: optional(finished), across: optional(across), length: optional(length) })),
      table: tableData(table),
    })),
  };
  return `${JSON.stringify(data, (_, value: unknown) => (typeof value === 'string' ? visibleText(value) : value), 1)}\n`;
}

const rounded = (value: number): number => Math.round(value * 1e4) / 1e4 || 0;
const lengthData = (length: Rational): { readonly mm: number; readonly exact: string } => ({ mm: length.valueOf(), exact: length.toFraction() });
const optional = (length: Rational | undefined): ReturnType<typeof lengthData> | null => (length === undefined ? null : lengthData(length));
const points = (line: Polyline): readonly (readonly [number, number])[] => line.map(({ x, y }) => [rounded(x), rounded(y)]);
const outlineData = (outline: Outline): unknown => {
  const { polygon, ranges } = flattenOutline(outline);
  return { points: points(polygon), edges: ranges.map(({ name, from, to }) => ({ name, from, to })) };
};
const sizeData = (size: ExactSize | undefined): unknown => (size === undefined ? null : { width: lengthData(size.width), height: lengthData(size.height), exact: size.exact });

type Told = (notes: readonly Note[]) => readonly string[];

function pieceData({ shape, cuts }: ResolvedPiece, told: Told): unknown {
  return {
    name: shape.name, title: shape.title, drawnTo: shape.drawnTo, fold: shape.fold ?? null,
    cutting: outlineData(shape.cutting), stitching: outlineData(shape.stitching),
    allowances: Object.fromEntries([...shape.allowances].map(([edge, { size }]) => [edge, lengthData(size)])),
    lines: shape.lines.map(({ name, use, closed, points: line }) => ({ name, use, closed, points: points(line) })),
    stitches: shape.stitchRows.map(({ name, kind, distance, from, runs }) => ({ name, kind, distance: lengthData(distance), from, runs: runs.map(({ points: line, closed }) => ({ closed, points: points(line) })) })),
    notches: shape.notches.map(({ edge, point, inward }) => ({ edge, at: points([point])[0], inward: points([inward])[0] })),
    marks: shape.marks.map(({ name, use, point, snap }) => ({ name, use, at: points([point])[0], snap: optional(snap) })),
    grain: { angle: shape.grain.angle ?? null, orAcross: shape.grain.orAcross, given: shape.grain.given, thisWayUp: shape.thisWayUp },
    notes: told(shape.notes),
    cuts: cuts.map((line) => cutData(line, told)),
  };
}

function cutData({ material, count, along, hand, onFold, windows, large, outline, holes, rectangle, bounds, wayUp, thisWayUp, layer, notes }: CutLine, told: Told): unknown {
  return {
    material: material.name, count: Number(count.n), along: along ?? null, hand, onFold, windows, large: optional(large),
    size: sizeData(rectangle), box: { width: rounded(bounds.width), height: rounded(bounds.height) },
    outline: points(outline), holes: holes.map(points), wayUp, thisWayUp, layer: layer ?? null, notes: told(notes),
  };
}
