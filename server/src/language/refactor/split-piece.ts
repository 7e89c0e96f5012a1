import { bounds } from '../../geometry/measure.ts';
import { spaceBefore } from '../../syntax/ends.ts';
import { lineEndOf } from '../../syntax/print.ts';
import { printQuoted, printWhen } from '../../syntax/print-words.ts';
import { printStatement } from '../../syntax/print-statement.ts';
import type { CutStatement } from '../../syntax/tree.ts';
import { showLength } from '../../units/length.ts';
import { measured } from '../../units/rational.ts';
import type { Snapshot } from '../../workspace/snapshot.ts';
import { edited, type Action, type FileEdit } from '../results.ts';
import { tried } from '../trial.ts';
import { freeName } from './places.ts';

/**
 * Offers to part the piece at an offset along a level line at half its height: the line, and two pieces above and below
 * it that are cut as the whole was. What is cut along an inner line, or to a size of its own, stays with the whole.
 */
export function splitPieceActions(snapshot: Snapshot, offset: number): readonly Action[] {
  const found = snapshot.declarationAt(offset);
  const tree = found?.declaration.tree;
  if (found === undefined || tree?.kind !== 'piece' || !tree.body.closed || offset - found.offset > tree.body.start) return [];
  const shape = snapshot.pattern.shape(tree.name.text, new Map());
  if (shape === undefined || shape.fold !== undefined || shape.declaration !== found.declaration) return [];

  const { world, display } = snapshot.pattern;
  const box = bounds(shape.drawn);
  const line = freeIn(new Set([...shape.lines.map((one) => one.name), ...shape.marks.map((one) => one.name), ...shape.stitchRows.map((one) => one.name), ...shape.drawn.edges.map((one) => one.name)]), 'split');
  const middle = showLength(measured((box.minY + box.maxY) / 2), display);
  const eol = lineEndOf(snapshot.file.text);
  const moved = tree.body.statements.filter((statement): statement is CutStatement => statement.kind === 'cut' && isOfWhole(statement));
  const { declaration, offset: start } = found;
  const at = (place: number, end: number, newText: string): FileEdit => ({ file: snapshot.path, start: start + place, end: start + end, newText });

  const part = (side: 'above' | 'below'): string => [
    '',
    `piece ${freeName(world, `${tree.name.text}_${side}`)} ${printQuoted({ start: 0, end: 0, value: `${shape.title}, ${side} the split` })} from ${tree.name.text} ${side} ${line}${tree.condition === undefined ? '' : ` ${printWhen(tree.condition) ?? ''}`} {`,
    ...moved.map((cut) => `  ${printStatement(cut, '  ')}`),
    '}',
    '',
  ].join(eol);
  // The line must stand after the outline and its names, before what is cut.
  const firstCut = tree.body.statements.find((statement) => statement.kind === 'cut');
  const lineAt = spaceBefore(declaration.text, firstCut?.start ?? tree.body.end - 1);
  const newLine = `  line ${line} = level at ${middle}${eol}`;
  const edits = [
    at(lineAt, lineAt, newLine),
    ...moved.map((cut) => at(spaceBefore(declaration.text, cut.start), lineAfter(declaration.text, cut.end), '')),
    at(declaration.text.length, declaration.text.length, `${/[\n\r]$/.test(declaration.text) ? '' : eol}${part('above')}${part('below')}`),
  ].sort((a, b) => a.start - b.start);
  // Not every piece can be parted straight across, so the parts are looked at before they are offered.
  if (errorsIn(tried(snapshot, edited(snapshot.file.text, edits))) > errorsIn(snapshot)) return [];
  return [{
    title: `Split “${tree.name.text}” into two pieces at half its height`,
    kind: 'rewrite',
    edits,
  }];
}

const errorsIn = ({ pattern }: Snapshot): number => pattern.problems.filter(({ severity }) => severity === 'error').length;

const isOfWhole = (cut: CutStatement): boolean => !cut.clauses.some((clause) => ['along', 'sized', 'without', 'fold'].includes(clause.kind));

function freeIn(taken: ReadonlySet<string>, wanted: string): string {
  let name = wanted;
  for (let next = 2; taken.has(name); next++) name = `${wanted}_${next}`;
  return name;
}

const lineAfter = (text: string, at: number): number => at + (/^[ \t]*(?:#[^\n\r]*)?(?:\r\n|\r|\n)?/.exec(text.slice(at))?.[0].length ?? 0);
