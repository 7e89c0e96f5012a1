import { bounds, edgeLength } from '../geometry/measure.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { lengthOfLine, sizeOfLine } from '../model/piece/size.ts';
import { lineMeasures, pieceMeasures } from '../model/formulas/reference.ts';
import type { Expression } from '../syntax/tree.ts';
import type { Display } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import { sidesText } from '../units/sides.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { stitchText } from '../table/stitches.ts';
import { combinationsToShow, inFewWords } from '../table/combinations.ts';
import { shownValue } from './hover-formula.ts';
import { bothUnits } from './hover-lengths.ts';
import { isPiece, textOf, type FoundName, type Target } from './names.ts';

type PartTarget = Extract<Target, { kind: 'measure' | 'part' | 'side' }>;

/** What is known of a measure, or of an edge, a line or a mark. */
export function aboutPart(snapshot: Snapshot, found: FoundName, target: PartTarget): string {
  const value = target.kind === 'measure' ? measureText(snapshot, found) : partText(snapshot, found, target);
  return `**${textOf(target)}**, ${whatItIs(target)}${value === undefined ? '' : `\n\n${value}`}`;
}

function whatItIs(target: PartTarget): string {
  if (target.kind === 'measure') return `${meaningOf(target, target.text)} of **${target.of}**`;
  const owner = target.declaration.tree.name.text;
  if (target.kind === 'side') return `a side of **${owner}**`;
  return `${target.part === 'edge' ? 'an edge' : `a ${target.part}`} of **${owner}**`;
}

function meaningOf(target: Extract<Target, { kind: 'measure' }>, text: string): string {
  const meanings = target.declaration.tree.kind === 'piece' ? (target.of.includes('.') ? lineMeasures : pieceMeasures) : {};
  return Object.hasOwn(meanings, text) ? `the ${meanings[text] ?? text}` : `the ${text}`;
}

function measureText(snapshot: Snapshot, { declaration, use }: FoundName): string | undefined {
  const [first] = use.path;
  if (first === undefined) return undefined;
  const reference: Expression = { kind: 'reference', path: [...use.path, use.name], start: first.start, end: use.name.end };
  return snapshot.pattern.evaluations(declaration, reference).some(({ value }) => value !== undefined) ? shownValue(snapshot, declaration, reference) : undefined;
}

// ------------------------------------------------------------------------------------------------ edges, lines, marks

/** How long an edge is, how long or large a line, where a mark. */
function partText(snapshot: Snapshot, { declaration, use }: FoundName, target: Exclude<PartTarget, { kind: 'measure' }>): string | undefined {
  const { pattern } = snapshot;
  const piece = use.path[0]?.text ?? (isPiece(declaration) ? declaration.tree.name.text : undefined);
  if (piece === undefined) return undefined;
  const { combinations, all } = combinationsToShow(pattern);
  const name = renamed(target, use.name.text);
  const texts = combinations.flatMap((combination) => {
    const shape = pattern.shape(piece, combination);
    const text = shape && (target.kind === 'side' || target.part === 'edge' ? edgeText(shape, name, pattern.display) : target.part === 'line' ? lineText(shape, name, pattern.display) : markText(shape, name, pattern.display));
    return text === undefined ? [] : [text];
  });
  return texts.length === 0 ? undefined : inFewWords(texts, all);
}

/** The name that an edge has in the end, where its piece gives it another. */
function renamed({ declaration }: Exclude<PartTarget, { kind: 'measure' }>, name: string): string {
  const statement = declaration.tree.body.statements.find((one) => one.kind === 'edge' && one.edge.text === name);
  return statement?.kind === 'edge' ? statement.name.text : name;
}

function edgeText(shape: PieceShape, name: string, display: Display): string | undefined {
  const edge = shape.stitching.edges.find((one) => one.name === name);
  return edge && bothUnits(measured(edgeLength(edge)), display);
}

function lineText(shape: PieceShape, name: string, display: Display): string | undefined {
  const line = shape.lines.find((one) => one.name === name);
  const row = shape.stitchRows.find((one) => one.name === name);
  if (row !== undefined) return `${stitchText(shape, row, display)}, ${bothUnits(measured(row.length), display)} in all`;
  if (line === undefined) return undefined;
  const length = bothUnits(lengthOfLine(shape, line), display);
  if (!line.closed) return length;
  const { width, height, circle } = sizeOfLine(shape, line);
  return `${sidesText(circle, bothUnits(width, display), bothUnits(height, display))}, ${length} around`;
}

/** Told from the outline as it is drawn, which need not begin at nothing. */
function markText(shape: PieceShape, name: string, display: Display): string | undefined {
  const mark = shape.marks.find((one) => one.name === name);
  if (mark === undefined) return undefined;
  const { minX, minY } = bounds(shape.drawn);
  return `${bothUnits(measured(mark.point.x - minX), display)} from the left, ${bothUnits(measured(mark.point.y - minY), display)} from below`;
}
