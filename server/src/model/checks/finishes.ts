import type { NamedDeclaration } from '../names/world.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { foldedOf, type Folded } from '../piece/folded.ts';
import type { PieceShape, StitchRow } from '../piece/piece.ts';
import { shapeOf } from '../piece/shape.ts';
import { sizeOfLine } from '../piece/size.ts';
import { lengthText, report, type Scope } from '../query/scope.ts';
import { finishesOf, type Finish } from '../seams/finishes.ts';
import { edgeLength } from '../../geometry/measure.ts';
import { takenByDarts } from '../piece/darts.ts';
import { usualTolerance } from '../seams/read-seam.ts';
import { drawnName } from '../seams/seam.ts';
import { takenBy } from '../seams/sewn-edges.ts';
import { showFinely } from '../../units/length.ts';
import { zero, type Rational } from '../../units/rational.ts';
import { supplyOf } from '../stock/supply.ts';

/** What becomes of the edges of a piece must be possible there. */
export function checkFinishes(scope: Scope, lines: readonly CutLine[], declaration: NamedDeclaration): void {
  const shape = scope.context.get(shapeOf, declaration);
  const { context } = scope;
  if (shape === undefined || !lines.some((line) => line.layer === undefined)) return;
  for (const [edge, finish] of scope.context.get(finishesOf, declaration)) {
    if (finish.place.chunk !== declaration) continue;
    checkHem(scope, lines, shape, edge, finish);
    checkFree(scope, shape, edge, finish);
    checkCasing(scope, edge, finish);
    checkZip(scope, shape, edge, finish);
    checkCaught(scope, shape, edge, finish);
  }
  for (const row of shape.stitchRows) if (row.place.chunk === declaration) checkStitched(scope, shape, row, context.get(finishesOf, declaration), context.get(foldedOf, declaration));
}

/** What is caught in a hem is folded together with it: it reaches into it, and is as long. */
function checkCaught(scope: Scope, shape: PieceShape, name: string, { hem, place }: Finish): void {
  if (hem === undefined) return;
  const other = `${hem.piece.name}.${hem.edge}`;
  const isHemmed = scope.context.get(finishesOf, hem.piece.declaration).get(hem.edge)?.kind === 'hemmed';
  const [own, there] = [sewnLength(shape, name), sewnLength(hem.piece, hem.edge)];
  const why = !isHemmed ? 'not hemmed' : (shape.allowances.get(name)?.size.n ?? 0n) === 0n ? 'no allowance' : Math.abs(own - there) > usualTolerance ? 'lengths' : undefined;
  if (why !== undefined) report(scope, 'caught-nowhere', place, { edge: `${shape.name}.${name}`, hem: other, why, length: lengthText(scope, own), hemLength: lengthText(scope, there) });
}

const sewnLength = (shape: PieceShape, name: string): number =>
  shape.whole.stitching.edges.filter((edge) => drawnName(edge.name) === name).reduce((sum, edge) => sum + edgeLength(edge) - takenByDarts(shape, edge.name), 0);

/** Topstitching is measured from where an edge is finished: one that stays as it is cut has that on its cutting line. And folded, a piece is narrower. */
function checkStitched(scope: Scope, { allowances }: PieceShape, row: StitchRow, finishes: ReadonlyMap<string, Finish>, folded: Folded | undefined): void {
  if (row.kind === 'quilt') return;
  const raw = row.from.find((edge) => finishes.get(edge)?.kind === 'raw' && (allowances.get(edge)?.size.n ?? 0n) > 0n);
  if (raw !== undefined) report(scope, 'stitched-raw', row.place, { edge: raw, allowance: lengthText(scope, allowances.get(raw)?.size ?? zero) });
  const across = folded === undefined || !row.from.some((name) => folded.lines.some((line) => line.name === name)) ? undefined : least(folded.size);
  if (across !== undefined && across.compare(row.distance) <= 0) report(scope, 'no-room-to-stitch', row.place, { distance: showFinely(row.distance, scope.settings.display), from: row.from, isQuilt: false, isClose: false });
}

const least = ({ width, height }: Folded['size']): Rational => (width.compare(height) < 0 ? width : height);

/** A hem is turned into the allowance, so that must be as wide; of cloth that frays, it turns its cut edge under as well. */
function checkHem(scope: Scope, lines: readonly CutLine[], { allowances }: PieceShape, edge: string, { kind, size, place }: Finish): void {
  const allowance = allowances.get(edge)?.size;
  if (kind !== 'hemmed' || size === undefined || allowance === undefined || allowance.compare(size) > 0) return;
  if (allowance.compare(size) === 0) {
    const frays = lines.find(({ layer, material }) => layer === undefined && material.role !== 'non-fray');
    if (frays !== undefined) report(scope, 'hem-turned-once', place, { edge, hem: lengthText(scope, size), material: frays.material.name });
    return;
  }
  report(scope, 'hem-too-wide', place, { edge, hem: lengthText(scope, size), allowance: allowance.n === 0n ? 'no allowance' : `an allowance of ${lengthText(scope, allowance)}` });
}

/** An edge that a seam takes up from end to end is neither left as it is cut nor hemmed. */
function checkFree(scope: Scope, shape: PieceShape, edge: string, { kind, ofAll, place }: Finish): void {
  const seam = ofAll || (kind !== 'raw' && kind !== 'hemmed') ? undefined : takenBy(scope.context, shape, edge);
  if (seam === undefined) return;
  report(scope, 'finish-sewn', place, { edge, finish: kind === 'raw' ? 'raw' : 'hemmed', seam: seam.name }, { related: [{ place: seam.place, message: 'The seam.' }] });
}

/** What runs through a hem must be narrower than that. */
function checkCasing(scope: Scope, edge: string, { kind, size, supply, place }: Finish): void {
  const through = kind !== 'hemmed' || supply === undefined ? undefined : scope.context.get(supplyOf, supply);
  if (size === undefined || through?.across === undefined || through.across.compare(size) < 0) return;
  report(scope, 'casing-too-narrow', place, { edge, hem: lengthText(scope, size), supply: through.title, across: lengthText(scope, through.across) });
}

/** A zip fills its window within this, in millimetres (invented). */
const zipTolerance = 3;

/** A zip is as long, from stop to stop, as the window that it is set in. */
function checkZip(scope: Scope, shape: PieceShape, name: string, { kind, supply, place }: Finish): void {
  const window = shape.lines.find((line) => line.name === name && line.use === 'window');
  const zip = kind !== 'takes' || supply === undefined || window === undefined ? undefined : scope.context.get(supplyOf, supply);
  if (window === undefined || zip?.kind !== 'zip' || zip.finished === undefined) return;
  const { width, height } = sizeOfLine(shape, window);
  const length = width.compare(height) > 0 ? width : height;
  if (Math.abs(length.sub(zip.finished).valueOf()) <= zipTolerance) return;
  report(scope, 'zip-misfit', place, { zip: zip.name, finished: lengthText(scope, zip.finished), window: name, length: lengthText(scope, length) }, { related: [{ place: window.place, message: 'The window.' }] });
}
