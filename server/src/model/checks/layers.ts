import { checkStiff } from './stiff.ts';
import { isStiff, takesHeat } from '../stock/material.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { reachesBeyond } from '../piece/cuts.ts';
import { allSeams } from '../query/inputs.ts';
import { lengthText, placeIn, report, type Scope } from '../query/scope.ts';

/** Layers against the shells that they go on: size, seam, order and hand. */
export function checkLayers(scope: Scope, lines: readonly CutLine[]): void {
  checkCounts(scope, lines);
  lines.forEach((line, index) => {
    const shell = line.layer === undefined ? undefined : lines[line.layer.shell];
    if (shell === undefined) return;
    checkReach(scope, line, shell);
    checkSeam(scope, line);
    checkHands(scope, line, shell);
    checkOrder(scope, line, lines.slice(0, index));
    checkHeat(scope, line, shell, lines.slice(0, index));
  });
}

/** Of no layer more are cut than there are pieces of cloth for it to go on; a second one on the same has a cut line of its own. */
function checkCounts(scope: Scope, lines: readonly CutLine[]): void {
  const shells = lines.filter(({ layer }) => layer === undefined).reduce((sum, { count }) => sum + count.valueOf(), 0);
  for (const { layer, count, material, statement } of lines) {
    if (layer !== undefined && count.valueOf() > shells) report(scope, 'layers-to-spare', statement.count, { material: material.name, count: count.valueOf(), shells });
  }
}

function checkReach(scope: Scope, line: CutLine, shell: CutLine): void {
  if (line.large !== undefined) return;
  const by = reachesBeyond(line, shell);
  if (by > 0.02) report(scope, 'pokes-out', line.statement.material, { material: line.material.name, by: lengthText(scope, by), shell: shell.material.name });
}

function checkSeam(scope: Scope, line: CutLine): void {
  if (!isStiff(line.material) || line.statement.clauses.some(({ kind }) => kind === 'into the seam')) return;
  if (scope.context.get(allSeams, 'all').length > 0) {
    checkStiff(scope, line);
    return;
  }
  if (line.along !== 'cutting') return;
  if ([...line.piece.allowances.values()].some((allowance) => allowance.size.compare(0) > 0)) {
    report(scope, 'fused-into-seam', line.statement.material, { material: line.material.name });
  }
}

function checkHands(scope: Scope, line: CutLine, shell: CutLine): void {
  if (line.symmetric || line.material.faces === 'alike' || line.hand === shell.hand || shell.material.faces === 'alike') return;
  const words = { 'as drawn': 'all alike, as drawn', mirrored: 'all mirrored', twins: 'as twins' };
  const wanted = shell.hand === 'as drawn' ? '' : ` ${shell.hand}`;
  const clause = line.statement.clauses.find((one) => one.kind === 'twins' || one.kind === 'mirrored');
  const edit = clause === undefined
    ? { place: { chunk: scope.declaration, start: line.statement.material.end, end: line.statement.material.end }, newText: wanted }
    : { place: placeIn(scope, clause), newText: wanted.trim() };
  report(scope, 'hands-differ', line.statement.material, {
    material: line.material.name, shell: shell.material.name, shellHands: words[shell.hand], hands: `is cut ${words[line.hand]}`,
  }, {
    related: [{ place: shell.place, message: 'The shell is cut here.' }],
    fixes: [{ title: wanted === '' ? 'Cut the layer as drawn' : `Add “${wanted.trim()}”`, edits: [edit], safe: false }],
  });
}

/** Fusing takes an iron over the shell, and over whatever lies on it already. */
function checkHeat(scope: Scope, line: CutLine, shell: CutLine, earlier: readonly CutLine[]): void {
  if (line.material.faces !== 'glued') return;
  const under = [shell, ...earlier.filter((other) => other.layer !== undefined && other.layer.shell === line.layer?.shell)].find((other) => !takesHeat(other.material));
  if (under !== undefined) report(scope, 'takes-no-heat', line.statement.material, { material: line.material.name, under: under.material.name }, { related: [{ place: under.place, message: 'This takes no heat.' }] });
}

/** A fusible is fused to the bare cloth, before anything stiff goes over it (common practice, no source). */
function checkOrder(scope: Scope, line: CutLine, earlier: readonly CutLine[]): void {
  if (line.material.role !== 'fusible') return;
  const before = earlier.find((other) => other.layer?.shell === line.layer?.shell && other.layer?.side === line.layer?.side && isStiff(other.material));
  if (before !== undefined) {
    report(scope, 'stack-order', line.statement.material, { material: line.material.name, before: before.material.name }, {
      related: [{ place: before.place, message: 'The stiff layer is written here.' }],
    });
  }
}
