import { pointInside } from '../../geometry/inside.ts';
import { pointAlong } from '../../geometry/measure.ts';
import { ahead, rightOf } from '../../geometry/vector.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { allSeams } from '../query/inputs.ts';
import { report, type Scope } from '../query/scope.ts';
import { seamOf } from '../seams/read-seam.ts';
import type { Stretch } from '../seams/seam.ts';

/** A layer that is no further beyond the stitching line than this, in millimetres, is cut along it. */
const beyond = 0.25;
/** At how many places along an edge the layer is looked for; its ends are left out, since a corner's neighbour may reach there. */
const places = 24;

/** A stiff layer that reaches over the stitching line where a seam runs is caught in that; one such seam is enough. */
export function checkStiff(scope: Scope, line: CutLine): void {
  if (line.large !== undefined) return;
  for (const declaration of scope.context.get(allSeams, 'all')) {
    const seam = scope.context.get(seamOf, declaration);
    if (seam === undefined) continue;
    const caught = [...seam.first.stretches, ...seam.second.stretches].filter((stretch) => stretch.piece === line.piece && reachesOver(line, stretch));
    if (caught.length === 0) continue;
    report(scope, 'stiff-in-seam', line.statement.material, { material: line.material.name, seam: seam.name, edges: [...new Set(caught.map(({ edge }) => `${line.piece.name}.${edge}`))] }, {
      related: [{ place: seam.place, message: 'The seam.' }],
    });
    return;
  }
}

function reachesOver({ outline }: CutLine, { piece, edge: name, from, to }: Stretch): boolean {
  const edge = piece.whole.stitching.edges.find((one) => one.name === name);
  return edge !== undefined && Array.from({ length: places }, (_, index) => from + ((to - from) * (index + 1)) / (places + 1)).some((along) => {
    const place = pointAlong({ ...edge, measuredFrom: 'start' }, along);
    return place !== undefined && pointInside(ahead(place.point, rightOf(place.tangent), beyond), outline);
  });
}
