import type { Resolved } from '../model/pattern.ts';

/** The usual cautions, which every export carries. */
const cautions = {
  blades: 'Blades: cover a rotary cutter when idle, cut away from the body along a ruler on a mat, and never cut over pins.',
  iron: 'Iron: stand it on its heel, keep cords and children away from it, and unplug it after use.',
  smallParts: 'Small parts: snaps, rings and zip pulls can choke children under three. Check the rules that hold where you live before making anything for a child.',
  glue: 'Glue: air the room, keep it off skin and away from flames and children, let it dry before you sew or press, and do as its maker says.',
  load: 'Straps and rings: test with more than the intended load before use; nothing here vouches for what they carry.',
} as const;

const small: readonly string[] = ['snap', 'ring', 'buckle', 'zip'];
const loaded: readonly string[] = ['ring', 'buckle', 'webbing'];

/** Those that what is made in one combination calls for. */
export function cautionsFor(resolved: Resolved): readonly string[] {
  const kinds = resolved.supplies.filter((supply) => supply.count.n > 0n).map((supply) => supply.kind as string);
  const fuses = resolved.pieces.some((piece) => piece.cuts.some((line) => line.material.faces === 'glued'));
  return [
    cautions.blades,
    ...(fuses ? [cautions.iron] : []),
    ...(kinds.includes('glue') ? [cautions.glue] : []),
    ...(kinds.some((kind) => small.includes(kind)) ? [cautions.smallParts] : []),
    ...(kinds.some((kind) => loaded.includes(kind)) ? [cautions.load] : []),
  ];
}
