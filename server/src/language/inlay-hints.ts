import { polygonArea } from '../geometry/measure.ts';
import type { Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { sizeOfCut } from '../model/piece/size.ts';
import { showArea, showValue } from '../model/formulas/value.ts';
import type { PieceStatement, Statement } from '../syntax/tree.ts';
import { showLength } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { combinationsToShow, inFewWords, type LookedAt } from '../table/combinations.ts';
import type { MaterialTotal } from './hover-material.ts';
import type { TextRange } from './results.ts';

export interface InlayHint {
  /** Where it is shown. */
  readonly at: number;
  readonly text: string;
  readonly kind: 'value' | 'size' | 'total';
}

export interface InlayOptions {
  /** The value of a formula, the cut size of a piece. */
  readonly sizes: boolean;
  /** What is cut in all from a material. */
  readonly totals: boolean;
  /** `buy 5/8 yd`, where lays are planned. */
  readonly toBuy?: MaterialTotal;
}

/** What is worked out from the text, shown beside it. */
export function inlayHints(snapshot: Snapshot, range: TextRange, options: InlayOptions): readonly InlayHint[] {
  const shown = combinationsToShow(snapshot.pattern);
  let known: readonly Resolved[] | undefined;
  const resolved = (): readonly Resolved[] => (known ??= shown.combinations.map((combination) => snapshot.pattern.resolve(combination)));
  const hints: InlayHint[] = [];
  for (const { declaration, offset } of snapshot.file.declarations) {
    if (offset > range.end || offset + declaration.text.length < range.start) continue;
    const { tree } = declaration;
    if ('name' in tree && tree.kind !== 'choice' && snapshot.pattern.world.names.get(tree.name.text) !== declaration) continue;
    if (tree.kind === 'value' && options.sizes && tree.value.kind !== 'number') {
      const text = valueText(snapshot, tree.name.text, shown);
      if (text !== undefined) hints.push({ at: offset + tree.value.end, text: `= ${text}`, kind: 'value' });
    } else if (tree.kind === 'piece' && options.sizes) {
      const cuts = resolved().flatMap(({ pieces }) => pieces.find(({ shape }) => shape.declaration === declaration)?.cuts ?? []);
      for (const statement of tree.body.statements) {
        const text = statement.kind === 'cut' && !saysItsSize(statement) ? sizeText(snapshot, cuts, statement, shown) : undefined;
        if (text !== undefined) hints.push({ at: offset + statement.end, text, kind: 'size' });
      }
    } else if (tree.kind === 'material' && options.totals) {
      const text = totalText(snapshot, tree.name.text, resolved(), shown, options.toBuy);
      // After the brace, where it parts nothing.
      if (text !== undefined) hints.push({ at: offset + tree.body.start + 1, text, kind: 'total' });
    }
  }
  return hints.filter((hint) => hint.at >= range.start && hint.at <= range.end);
}

/** A value in all combinations, in few words. */
export function valueText(snapshot: Snapshot, name: string, shown: LookedAt): string | undefined {
  const { pattern } = snapshot;
  const values = shown.combinations.map((combination) => pattern.value(name, combination)).filter((value) => value !== undefined);
  return values.length === 0 ? undefined : inFewWords(values.map((value) => showValue(value, pattern.display)), shown.all);
}

/** `cut 1 vinyl sized 3 by 2` needs no second word for it. */
const saysItsSize = (statement: PieceStatement): boolean => statement.kind === 'cut' && statement.clauses.some(({ kind }) => kind === 'sized');

function sizeText(snapshot: Snapshot, cuts: readonly CutLine[], statement: Statement, shown: LookedAt): string | undefined {
  const { display } = snapshot.pattern;
  const sizes = cuts.filter((cut) => cut.statement === statement).map((cut) => {
    const { width, height, circle } = sizeOfCut(cut);
    return circle ? `circle, ${showLength(width, display)} across` : `${showLength(width, display)} wide, ${showLength(height, display)} high`;
  });
  return sizes.length === 0 ? undefined : inFewWords(sizes, shown.all);
}

/** Pieces and their area, as cut, and what to buy for them where that is known. */
function totalText(snapshot: Snapshot, name: string, resolved: readonly Resolved[], shown: LookedAt, toBuy: MaterialTotal | undefined): string | undefined {
  const totals = resolved.flatMap(({ pieces, combination }) => {
    const cuts = pieces.flatMap((piece) => piece.cuts).filter((cut) => cut.material.name === name);
    if (cuts.length === 0) return [];
    const count = cuts.reduce((sum, cut) => sum + cut.count.valueOf(), 0);
    const area = cuts.reduce((sum, cut) => sum + cut.count.valueOf() * areaOf(cut), 0);
    const buy = toBuy?.(name, combination);
    return [`${count} ${count === 1 ? 'piece' : 'pieces'}, ${showArea(measured(area), snapshot.pattern.display)}${buy === undefined ? '' : `, ${buy}`}`];
  });
  return totals.length === 0 ? undefined : inFewWords(totals, shown.all);
}

const areaOf = (cut: CutLine): number => Math.abs(polygonArea(cut.outline)) - cut.holes.reduce((sum, hole) => sum + Math.abs(polygonArea(hole)), 0);
