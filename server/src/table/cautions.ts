import { edgeLength, boundsOfPoints } from '../geometry/measure.ts';
import type { Resolved, ResolvedPiece } from '../model/pattern.ts';
import { polygonOf } from '../model/piece/polygons.ts';
import type { Seam } from '../model/seams/seam.ts';
import type { Supply } from '../model/stock/supply.ts';

/** The usual cautions, which every export carries. */
const cautions = {
  blades: 'Blades: cover a rotary cutter when idle, cut away from the body along a ruler on a mat, and never cut over pins.',
  needles: 'Needles and pins: count them before and after. Fit the machine’s needle to what you sew, keep fingers clear of it, and never sew over a pin, metal teeth, a rivet or a ring: it can break and fly.',
  iron: 'Iron: stand it on its heel, keep cords and children away from it, and unplug it after use.',
  smallParts: 'Small parts: snaps, rings, rivets and zip pulls can choke children under three, and magnets injure whoever swallows them. Check the rules that hold where you live before making anything for a child.',
  cords: 'Cords, tapes, ties and straps: their loops and loose ends can strangle a child. Keep them away from small children; the rules that hold where you live may forbid them on anything for a child.',
  glue: 'Glue: air the room, keep it off skin and away from flames and children, let it dry before you sew or press, and do as its maker says.',
  load: 'Straps and rings: test with more than the intended load before use; nothing here vouches for what they carry.',
} as const;

const small: readonly string[] = ['snap', 'ring', 'buckle', 'zip'];
const loaded: readonly string[] = ['ring', 'buckle', 'webbing'];
/** Supplies that nothing is made with but by sewing. */
const sewn: readonly string[] = ['thread', 'zip', 'webbing', 'binding', 'elastic'];

/** Those that what is made in one combination calls for. */
export function cautionsFor(resolved: Resolved): readonly string[] {
  const supplies = resolved.supplies.filter((supply) => supply.count.n > 0n);
  const kinds = supplies.map((supply) => supply.kind as string);
  const sews = isSewn(resolved) || kinds.some((kind) => sewn.includes(kind));
  const hasTie = resolved.pieces.some((piece) => isTie(piece, resolved.seams));
  const fuses = resolved.pieces.some((piece) => piece.cuts.some((line) => line.material.faces === 'glued'));
  return [
    cautions.blades,
    ...(sews ? [cautions.needles] : []),
    // Seams and hems are pressed, whatever is fused.
    ...(sews || fuses ? [cautions.iron] : []),
    ...(kinds.includes('glue') ? [cautions.glue] : []),
    ...(supplies.some((supply) => small.includes(supply.kind) || isLoosePart(supply)) ? [cautions.smallParts] : []),
    ...(supplies.some((supply) => hangs(supply, resolved)) || hasTie ? [cautions.cords] : []),
    // Nothing tells a strap of cloth that a bag hangs by from a tie.
    ...(kinds.some((kind) => loaded.includes(kind)) || hasTie ? [cautions.load] : []),
  ];
}

const isSewn = ({ seams, pieces }: Resolved): boolean =>
  seams.length > 0 || pieces.some(({ cuts, shape, finishes }) => cuts.length > 0 && (shape.stitchRows.length > 0 || [...finishes.values()].some(({ kind }) => kind !== 'raw')));

/** What is counted, such as rivets; what has a length is a cord. */
const isLoosePart = ({ kind, length }: Supply): boolean => kind === 'other' && length === undefined;

/** Webbing and cords always; a tape or an elastic unless an edge takes it from end to end. */
function hangs({ kind, name, length }: Supply, { pieces }: Resolved): boolean {
  if (kind === 'webbing' || (kind === 'other' && length !== undefined)) return true;
  return (kind === 'binding' || kind === 'elastic') && !pieces.some(({ finishes }) => [...finishes.values()].some(({ supply }) => supply?.tree.name.text === name));
}

/** From what length and up to what width a piece is a tie or a strap, in millimetres, and how many times as long as wide (invented). */
const tie = { shortest: 300, widest: 120, times: 6 };

/** A long strip that is sewn to nothing but itself along its length. */
function isTie({ shape, cuts }: ResolvedPiece, seams: readonly Seam[]): boolean {
  if (cuts.length === 0) return false;
  const { minX, minY, maxX, maxY } = boundsOfPoints(polygonOf(shape.whole.stitching));
  const [narrow, long] = [maxX - minX, maxY - minY].sort((a, b) => a - b) as [number, number];
  if (long < tie.shortest || narrow > tie.widest || long < narrow * tie.times) return false;
  // Of a piece on the fold each half has an edge of its own, half as long.
  const isLong = (name: string): boolean => shape.whole.stitching.edges.some((edge) => edge.name === name && edgeLength(edge) > long / 2 - 0.1);
  return !seams.some(({ first, second }) => {
    const stretches = [...first.stretches, ...second.stretches];
    return stretches.some(({ piece }) => piece.name !== shape.name) && stretches.some(({ piece, edge }) => piece.name === shape.name && isLong(edge));
  });
}
