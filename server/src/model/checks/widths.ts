import { exactLength, showLength } from '../../units/length.ts';
import { measured, one, type Rational } from '../../units/rational.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { permittedTurns, widthNeeded, type PermittedTurns } from '../piece/turns.ts';
import { report, type Scope } from '../scope.ts';
import type { Material } from '../material.ts';

/** A piece that is wider than the cloth in every way that it may lie. */
export function checkWidths(scope: Scope, lines: readonly CutLine[]): void {
  for (const line of lines) {
    const usable = usableWidth(line.material);
    if (usable === undefined) continue;
    const turns = permittedTurns(line.piece, line.material);
    const needs = exactWidthNeeded(line, turns) ?? measured(widthNeeded(line.outline, turns));
    // A hundredth of a millimetre is what flattened curves may be out by.
    if (needs.sub(usable).compare(0.01) <= 0) continue;
    const { display } = scope.settings;
    report(scope, 'too-wide', line.statement.material, { material: line.material.name, needs: showLength(needs, display), usable: exactLength(usable, display.unit) });
  }
}

/** The exact width that a plain rectangle needs when it lies along or across the grain. */
function exactWidthNeeded(line: CutLine, turns: PermittedTurns): Rational | undefined {
  const size = line.rectangle;
  if (size === undefined) return undefined;
  if (turns === 'any') return size.width.compare(size.height) < 0 ? size.width : size.height;
  if (turns.some((turn) => turn % 90 !== 0)) return undefined;
  const widths = turns.map((turn) => (turn % 180 === 0 ? size.width : size.height));
  return widths.reduce((least, width) => (width.compare(least) < 0 ? width : least));
}

/**
 * What is left of the usable width once the cloth has shrunk. Across a panel or sheet lies the side that is as wide as the
 * material, else the longer one.
 */
export function usableWidth(material: Material): Rational | undefined {
  const { purchase, width } = material;
  const sold = purchase.form === 'lengths' ? material.usable : acrossPanel(purchase, width);
  return sold?.mul(one.sub(material.shrinkage.across));
}

function acrossPanel(panel: { readonly width: Rational; readonly height: Rational }, width: Rational | undefined): Rational {
  if (width !== undefined && (panel.width.equals(width) || panel.height.equals(width))) return width;
  return panel.width.compare(panel.height) > 0 ? panel.width : panel.height;
}
