import type { CutLine } from '../piece/cut-line.ts';
import { report, type Scope } from '../query/scope.ts';

/** A piece with a way up, on cloth that is folded so that one layer is turned end for end. */
export function checkTurnedLayer(scope: Scope, lines: readonly CutLine[]): void {
  for (const { piece, material, statement, thisWayUp } of lines) {
    if (thisWayUp && material.fold?.way === 'crosswise' && material.direction === 'two ways') report(scope, 'fold-turns-nap', statement.material, { material: material.name, piece: piece.name });
  }
}

/** A piece on one-way cloth must say how it lies, and one with a way up can't lie either up or across. */
export function checkGrain(scope: Scope, lines: readonly CutLine[]): void {
  for (const line of lines) {
    if (line.material.direction !== 'one way') continue;
    const { grain, name } = line.piece;
    if (line.thisWayUp && grain.orAcross) report(scope, 'lies-sideways', line.statement.material, { material: line.material.name, piece: name });
    if (grain.given) continue;
    report(scope, 'missing-grain', line.statement.material, { material: line.material.name }, {
      fixes: [{
        title: 'Add “grain up”',
        safe: false,
        edits: [{ place: { chunk: scope.declaration, start: line.statement.start, end: line.statement.start }, newText: 'grain up\n  ' }],
      }],
    });
  }
}
