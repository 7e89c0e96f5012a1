import { intersection } from '../../geometry/boolean.ts';
import { edgeEnd } from '../../geometry/edge.ts';
import { boundsOfPoints, polygonArea, polylineLength } from '../../geometry/measure.ts';
import type { Edge, Point, Polygon } from '../../geometry/shape.ts';
import { ahead, cross, dot, minus, rightOf, unit } from '../../geometry/vector.ts';
import type { PieceDeclaration } from '../../syntax/tree.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { declarationOf } from '../query/inputs.ts';
import type { Query } from '../query/query.ts';
import { report, scopeOf } from '../query/scope.ts';
import { polygonOf } from './polygons.ts';
import type { PieceShape } from './piece.ts';
import { shapeOf } from './shape.ts';

/** How a part of a piece is cut from that one’s template: folded along a straight line, so that what is left is the part. */
export interface Folding {
  readonly parent: NamedDeclaration;
  readonly parentName: string;
  readonly parentTitle: string;
  /** Whether that template is of a half, which a fold of the cloth lies against. */
  readonly ofHalf: boolean;
  /** Ends of the line on the parent, in millimetres: where the part is cut, its allowance beyond the parting line and all. */
  readonly ends: readonly [Point, Point];
  /** What is cut then. Within the allowance at the fold its edges run on as the other piece's do. */
  readonly outline: Polygon;
}

/** Where the template of a piece’s parent is folded, if the piece asks for it; what stands in the way is reported, and it gets a template of its own. */
export const foldingOf: Query<NamedDeclaration, Folding | undefined> = {
  name: 'folding',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    const statement = tree.kind === 'piece' ? tree.body.statements.find(({ kind }) => kind === 'template folded') : undefined;
    if (tree.kind !== 'piece' || statement === undefined) return undefined;
    const scope = scopeOf(context, declaration);
    const shape = context.get(shapeOf, declaration);
    if (shape === undefined) return undefined;
    if (!isOnePart(tree)) {
      report(scope, 'no-folded-template', statement, { why: 'this piece isn’t a part of another, above, below or beside one line of it' });
      return undefined;
    }
    const parent = context.get(declarationOf, tree.parent?.name.text ?? '');
    const whole = parent && context.get(shapeOf, parent);
    if (parent === undefined || whole === undefined) return undefined;
    const folded = foldedAt(polygonOf(whole.whole.cutting), polygonOf(shape.cutting), partings(shape));
    if (folded === undefined) {
      report(scope, 'no-folded-template', statement, { why: `folding the template of “${whole.name}” along a straight line doesn’t leave this piece: an edge or an allowance is another` });
      return undefined;
    }
    return { parent, parentName: whole.name, parentTitle: whole.title, ofHalf: whole.fold !== undefined, ...folded };
  },
};

const isOnePart = ({ parent, body }: PieceDeclaration): boolean =>
  parent?.parts.length === 1 && parent.parts[0]?.kind === 'side' && !body.statements.some(({ kind }) => kind === 'outline' || kind === 'on fold');

/** A straight edge of a part: where it is cut, and where it is sewn. */
interface Parting {
  readonly cut: readonly [Point, Point];
  readonly sewn: readonly [Point, Point];
}

function partings({ cutting, stitching }: PieceShape): readonly Parting[] {
  const straight = (edge: Edge | undefined): edge is Edge => edge?.segments.length === 1 && edge.segments[0]?.kind === 'line';
  return cutting.edges.flatMap((edge): readonly Parting[] => {
    const sewn = stitching.edges.find(({ name }) => name === edge.name);
    return straight(edge) && straight(sewn) ? [{ cut: [edge.start, edgeEnd(edge)], sewn: [sewn.start, edgeEnd(sewn)] }] : [];
  });
}

/** How far apart two outlines may lie and still be cut as one: less than scissors can, millimetres (invented). */
const apart = 0.05;

/** The edge of a part along which its whole is folded to leave just that part, as far as it is sewn; and what that leaves. */
function foldedAt(whole: Polygon, part: Polygon, edges: readonly Parting[]): Pick<Folding, 'ends' | 'outline'> | undefined {
  const most = apart * polylineLength(part);
  for (const { cut, sewn } of edges) {
    const [outline, ...more] = intersection([whole], [leftOf(...cut, whole)]);
    const within = leftOf(...sewn, whole);
    const [own, others, both] = [[part], [whole], intersection([part], [whole])].map((rings) => areaOf(intersection(rings, [within])));
    if (outline === undefined || more.length > 0 || own === undefined || others === undefined || both === undefined) continue;
    if (Math.abs(own - others) < most && Math.abs(own - both) < most && polygonArea(outline) < Math.abs(polygonArea(whole)) - most) return { ends: reachOf(outline, cut), outline };
  }
  return undefined;
}

/** How far a line runs along an outline that it is an edge of. */
function reachOf(outline: Polygon, [from, to]: readonly [Point, Point]): readonly [Point, Point] {
  const way = unit(minus(to, from));
  const along = outline.filter((point) => Math.abs(cross(way, minus(point, from))) < 0.01).map((point) => dot(minus(point, from), way));
  return [ahead(from, way, Math.min(...along)), ahead(from, way, Math.max(...along))];
}

const areaOf = (rings: readonly Polygon[]): number => rings.reduce((sum, ring) => sum + polygonArea(ring), 0);

/** Everything near a polygon that lies to the left of a line, which is where the inside of an outline lies. */
function leftOf(from: Point, to: Point, near: Polygon): Polygon {
  const { minX, minY, maxX, maxY } = boundsOfPoints([...near, from, to]);
  const reach = 2 * (maxX - minX + maxY - minY) + 1;
  const way = unit(minus(to, from));
  const inwards = rightOf(way);
  const [start, end] = [ahead(from, way, -reach), ahead(from, way, reach)];
  return [start, end, ahead(end, inwards, -reach), ahead(start, inwards, -reach)];
}
