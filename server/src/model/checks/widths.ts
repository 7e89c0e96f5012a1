import { exactLength, showLength } from '../../units/length.ts';
import { measured, one, type Rational } from '../../units/rational.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { boxesNeeded, permittedTurns, widthNeeded, type PermittedTurns } from '../piece/turns.ts';
import { report, type Scope } from '../query/scope.ts';
import type { ClothFold } from '../stock/material.ts';
import { panelSides, usableWidth } from '../stock/width.ts';

/** A hundredth of a millimetre is what flattened curves may be out by. */
const slack = 0.01;

/** A piece that is wider than the cloth, or larger than the panel or sheet, in every way that it may lie. */
export function checkWidths(scope: Scope, lines: readonly CutLine[]): void {
  for (const line of lines) {
    const usable = usableWidth(line.material);
    if (usable === undefined) continue;
    const turns = permittedTurns(line);
    if (line.material.purchase.form !== 'lengths') {
      checkPanel(scope, line, turns);
      continue;
    }
    const needs = exactWidthNeeded(line, turns) ?? measured(widthNeeded(line.outline, turns));
    if (needs.sub(usable).compare(slack) <= 0) {
      checkFolded(scope, line, needs, usable);
      continue;
    }
    const { display } = scope.settings;
    report(scope, 'too-wide', line.statement.material, { material: line.material.name, needs: showLength(needs, display), usable: exactLength(usable, display.unit), shrunk: line.material.shrinkage.across.n > 0n });
  }
}

/** A piece that open cloth has room for and the cloth folded as asked has not, so that nothing of it is laid folded. One that is drawn as half may lie on the fold. */
function checkFolded(scope: Scope, { material, fold: ownFold, statement }: CutLine, needs: Rational, usable: Rational): void {
  const room = material.fold === undefined ? usable : widestFolded(material.fold, usable);
  if (ownFold !== undefined || needs.sub(room).compare(slack) <= 0) return;
  const { display } = scope.settings;
  report(scope, 'no-room-folded', statement.material, { material: material.name, needs: showLength(needs, display), room: exactLength(room, display.unit) });
}

/** The wider of the double and the single part. */
function widestFolded(fold: ClothFold, usable: Rational): Rational {
  switch (fold.way) {
    case 'crosswise': return usable;
    case 'lengthwise': return usable.div(2);
    case 'partial': {
      const single = usable.sub(fold.depth.mul(2));
      return single.compare(fold.depth) > 0 ? single : fold.depth;
    }
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

function checkPanel(scope: Scope, { outline, material, statement }: CutLine, turns: PermittedTurns): void {
  const { purchase, shrinkage } = material;
  if (purchase.form === 'lengths') return;
  const [across, along] = panelSides(purchase, material.width);
  const width = across.mul(one.sub(shrinkage.across));
  const height = along.mul(one.sub(shrinkage.along));
  const boxes = boxesNeeded(outline, turns);
  if (boxes.some((box) => box.width <= width.valueOf() + slack && box.height <= height.valueOf() + slack)) return;
  const { display } = scope.settings;
  const size = (one: Rational, other: Rational): string => `${showLength(one, display)} × ${showLength(other, display)}`;
  const [box = { width: 0, height: 0 }] = boxes;
  report(scope, 'too-large', statement.material, {
    material: material.name, form: purchase.form === 'panels' ? 'panel' : 'sheet',
    needs: size(measured(box.width), measured(box.height)), there: size(width, height),
  });
}
