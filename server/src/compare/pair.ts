import type { Resolved, ResolvedPiece } from '../model/pattern.ts';
import type { Combination } from '../model/query/query.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { Material } from '../model/stock/material.ts';
import type { Supply } from '../model/stock/supply.ts';
import { Causes } from './causes.ts';
import { matched, type Matched } from './matched.ts';
import { withRenamed } from './renamed-pieces.ts';
import { printsTheSame } from './same-outline.ts';
import type { Spec } from './spec.ts';
import { materialFacts, supplyFacts } from './stock-facts.ts';

/** Two patterns in one combination, with what belongs together in them. */
export interface Pair {
  readonly old: Spec;
  readonly fresh: Spec;
  readonly combination: Combination;
  readonly was: Resolved;
  readonly now: Resolved;
  readonly causes: Causes;
  /** Materials that something is cut from. */
  readonly materials: Matched<Material>;
  /** Pieces that something is cut for. */
  readonly pieces: Matched<ResolvedPiece>;
  readonly supplies: Matched<Supply>;
  readonly sameMaterial: (was: Material, now: Material) => boolean;
}

/** Puts together what has the same name, and then what is the same under another one. */
export function pairOf(old: Spec, fresh: Spec, combination: Combination): Pair {
  const [was, now] = [old.pattern.resolve(combination), fresh.pattern.resolve(combination)];
  const { display } = fresh.pattern;
  const materials = matched(usedMaterials(was), usedMaterials(now), [
    (a, b) => a.name === b.name,
    (a, b) => a.title === b.title && materialFacts(a, was, display) === materialFacts(b, now, display),
    (a, b) => materialFacts(a, was, display) === materialFacts(b, now, display),
  ]);
  const partners = new Map(materials.both.map(([a, b]) => [b.name, a.name]));
  const sameMaterial = (a: Material, b: Material): boolean => (partners.get(b.name) ?? b.name) === a.name;
  return {
    old, fresh, combination, was, now, materials, sameMaterial,
    causes: new Causes(old, fresh, combination),
    pieces: withRenamed(matched(cutPieces(was), cutPieces(now), [
      (a, b) => a.shape.name === b.shape.name,
      (a, b) => a.shape.title === b.shape.title && usedAlike(a, b, sameMaterial),
      (a, b) => usedAlike(a, b, sameMaterial),
    ]), was, now, sameMaterial),
    supplies: matched(supplied(was), supplied(now), [
      (a, b) => a.name === b.name,
      (a, b) => a.title === b.title && a.kind === b.kind,
      (a, b) => supplyFacts(a, was, display) === supplyFacts(b, now, display),
    ]),
  };
}

const cutPieces = ({ pieces }: Resolved): readonly ResolvedPiece[] => pieces.filter(({ cuts }) => cuts.length > 0);

const supplied = ({ supplies }: Resolved): readonly Supply[] => supplies.filter(({ count }) => count.n > 0n);

function usedMaterials(resolved: Resolved): readonly Material[] {
  const names = new Set(resolved.pieces.flatMap(({ cuts }) => cuts.map((line) => line.material.name)));
  return resolved.materials.filter(({ name }) => names.has(name));
}

/** Whether two pieces have the same shape and use: a piece under another name. */
function usedAlike(a: ResolvedPiece, b: ResolvedPiece, sameMaterial: Pair['sameMaterial']): boolean {
  return a.cuts.length === b.cuts.length && a.cuts.every((line, index) => {
    const other = b.cuts[index];
    return other !== undefined && isUsedAlike(line, other, sameMaterial);
  });
}

const isUsedAlike = (a: CutLine, b: CutLine, sameMaterial: Pair['sameMaterial']): boolean =>
  sameMaterial(a.material, b.material) && a.count.equals(b.count) && a.hand === b.hand && a.onFold === b.onFold && printsTheSame(a, b);
