import { isCloth } from '../stock/material.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { placeIn, report, type Scope } from '../query/scope.ts';
import { isHandFree } from '../seams/hand-free.ts';

/** Twins that are no twins, and mates that would meet wrong sides together. */
export function checkTwins(scope: Scope, lines: readonly CutLine[]): void {
  for (const line of lines) {
    const twins = line.statement.clauses.find((clause) => clause.kind === 'twins');
    if (twins !== undefined && line.symmetric && isHandFree(line)) {
      const before = { chunk: scope.declaration, start: scope.declaration.text.slice(0, twins.start).trimEnd().length, end: twins.end };
      report(scope, 'symmetric-twins', twins, { material: line.material.name }, {
        fixes: [{ title: 'Remove “twins”', edits: [{ place: before, newText: '' }], safe: true }],
      });
    }
  }
}

/**
 * A shell and its lining are sewn right sides together, so the one must be the mirror of the other (common practice, no
 * source).
 */
export function checkMates(scope: Scope, lines: readonly CutLine[]): void {
  const shells = lines.filter((line) => line.layer === undefined && isCloth(line.material) && line.material.faces === 'differ' && !line.symmetric && line.hand !== 'twins');
  for (const line of shells) {
    if (line.material.role !== 'lining') continue;
    const shell = shells.find((other) => other.material.role !== 'lining' && other.hand === line.hand);
    if (shell === undefined) continue;
    const clause = line.statement.clauses.find((one) => one.kind === 'mirrored');
    report(scope, 'mates-same-hand', line.statement.material, { material: line.material.name, shell: shell.material.name }, {
      related: [{ place: shell.place, message: 'Its mate is cut here.' }],
      fixes: clause === undefined
        ? [{ title: 'Add “mirrored”', safe: false, edits: [{ place: { chunk: scope.declaration, start: line.statement.material.end, end: line.statement.material.end }, newText: ' mirrored' }] }]
        : [{ title: 'Remove “mirrored”', safe: false, edits: [{ place: placeIn(scope, clause), newText: '' }] }],
    });
  }
}
