import { one, type Rational } from '../../units/rational.ts';
import type { Material } from './material.ts';

/** What is left of the usable width, in mm, once the cloth has shrunk; undefined of a material that says no width. */
export function usableWidth(material: Material): Rational | undefined {
  const { purchase, width } = material;
  const sold = purchase.form === 'lengths' ? material.usable : panelSides(purchase, width)[0];
  return sold?.mul(one.sub(material.shrinkage.across));
}

/**
 * Which side of a panel or sheet lies across the cloth it is cut from: the one that is as long as the material is wide,
 * else the longer one, as of a fat quarter, whose 18 in run along the cloth and its 22 in across.
 */
export function panelSides({ width, height }: { readonly width: Rational; readonly height: Rational }, clothWidth: Rational | undefined): readonly [across: Rational, along: Rational] {
  if (clothWidth?.equals(width) === true) return [width, height];
  if (clothWidth?.equals(height) === true) return [height, width];
  return width.compare(height) > 0 ? [width, height] : [height, width];
}
