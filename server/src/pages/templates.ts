import type { Pattern, Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import type { Combination } from '../model/query/query.ts';
import { hasGrain, liesOneWay, needsTemplate } from '../table/cut-rows.ts';
import { flipsOnToItself } from '../table/flipping.ts';
import { listed } from '../table/figures.ts';
import { tellsMark } from '../table/mark-supplies.ts';
import { alongText, largerText, lineText } from '../table/names.ts';
import { alikeByLine, type TemplateChoice } from '../table/templates.ts';
import { sameEndUp } from '../table/words.ts';
import { showLength, type Display } from '../units/length.ts';
import { drawingOf, isSameDrawing, type CutAlong, type Drawing } from './strokes.ts';

/** One template to print: what is cut along one line of a piece, in every size that is asked for. */
export interface Template {
  readonly pieceName: string;
  readonly title: string;
  /** `cutting line`, `core, without zip box`. */
  readonly line: string;
  /** From 1. */
  readonly number: number;
  /** `Cut 2 × Waxed canvas, on the fold`, or `S, M: Cut 2 × …` where not in every size: one for each cut line. */
  readonly cuts: readonly string[];
  readonly variants: readonly Variant[];
}

/** A template as it is in one size, or in several that it is the same in. */
export interface Variant {
  /** Empty where the pattern has no sizes, or it is the same in all that are asked for. */
  readonly sizes: readonly string[];
  readonly drawing: Drawing;
  /** As of the template, of these sizes. */
  readonly cuts: readonly string[];
  readonly notes: readonly string[];
  readonly shape: PieceShape;
  /** Whether it matters to some cloth that it is for how it lies on it. */
  readonly hasGrain: boolean;
  /** Whether it may lie on some cloth that it is for one way alone, so that its arrow has one head. */
  readonly oneWay: boolean;
}

/** A combination to print, with its size. */
export interface Sized {
  readonly size: string | undefined;
  readonly resolved: Resolved;
}

/** The combinations that a booklet is of: one for each size asked for, or one alone. */
export function sizedCombinations(pattern: Pattern, combination: Combination, sizes: readonly string[] | undefined): readonly Sized[] {
  const all = pattern.choices.get('size');
  if (all === undefined) return [{ size: undefined, resolved: pattern.resolve(combination) }];
  return (sizes ?? all).map((size) => ({ size, resolved: pattern.resolve(new Map([...combination, ['size', size]])) }));
}

interface Found {
  readonly pieceName: string;
  readonly title: string;
  readonly line: string;
  readonly isNeeded: boolean;
  readonly bySize: { readonly size: string | undefined; readonly lines: readonly CutLine[]; readonly parts: readonly CutLine[]; readonly others: CutAlong; readonly isTold: ReturnType<typeof tellsMark> }[];
}

/** The templates of a pattern: first those that are needed, numbered as in its tables, then those of what may be cut to measure. */
export function templatesOf(pattern: Pattern, combinations: readonly Sized[], choice: TemplateChoice): readonly Template[] {
  const found = new Map<string, Found>();
  for (const { size, resolved } of combinations) {
    const isTold = tellsMark(pattern, resolved);
    for (const { shape, cuts } of resolved.pieces) {
      // What something is cut along has a template of its own, or is cut to measure; either way it is no line to draw here.
      const alongs = (lines: readonly CutLine[]): ReadonlySet<string> => new Set(lines.flatMap(({ along }) => (along === undefined ? [] : [along])));
      const others: CutAlong = { all: alongs(cuts), exactly: alongs(cuts.filter(({ large }) => large === undefined)) };
      for (const [key, lines] of alikeByLine(cuts, choice)) {
        const at = `${shape.name} ${key}`;
        const one = found.get(at) ?? { pieceName: shape.name, title: shape.title, line: lineWords(lines[0], pattern.display), isNeeded: lines.some(needsTemplate), bySize: [] };
        one.bySize.push({ size, lines, parts: partsOf(resolved, lines[0]), others, isTold });
        found.set(at, one);
      }
    }
  }
  // Sizes may have pieces of their own: those of one piece stay together, in the order of the text.
  const order = [...new Set(combinations.flatMap(({ resolved }) => resolved.pieces.map(({ shape }) => shape.name)))];
  const sorted = [...found.values()].sort((a, b) => Number(b.isNeeded) - Number(a.isNeeded) || order.indexOf(a.pieceName) - order.indexOf(b.pieceName));
  return sorted.map((one, index) => ({ pieceName: one.pieceName, title: one.title, line: one.line, number: index + 1, cuts: toldCuts(one.bySize), variants: variantsOf(one, combinations.length, pattern) }));
}

/** What is cut from a template folded. */
const partsOf = ({ pieces }: Resolved, line: CutLine | undefined): readonly CutLine[] =>
  (line?.along !== 'cutting' || line.windows.length > 0 || line.large !== undefined ? [] : pieces.flatMap(({ cuts }) => cuts.filter(({ foldedFrom }) => foldedFrom?.parentName === line.piece.name)));

const lineWords = (line: CutLine | undefined, display: Display): string =>
  (line === undefined ? '' : [alongText(line), ...line.windows.map((window) => `without ${lineText(line.piece, window)}`), ...(line.large === undefined ? [] : [largerText(line.large, display)])].join(', '));

/** Sizes in which the very same lines are drawn are one variant, however many are cut in each. */
function variantsOf({ bySize }: Found, all: number, pattern: Pattern): readonly Variant[] {
  const variants: { readonly drawing: Drawing; readonly shape: PieceShape; readonly own: Found['bySize'] }[] = [];
  for (const sized of bySize) {
    const { lines: [first], parts, others, isTold } = sized;
    if (first === undefined) continue;
    const { piece } = first;
    const drawing = drawingOf(piece, first, others, (mark) => isTold(piece, mark), parts.flatMap((part) => (part.foldedFrom === undefined ? [] : [{ title: part.piece.title, ends: part.foldedFrom.ends }])));
    const same = variants.find((other) => isSameDrawing(other.drawing, drawing));
    if (same === undefined) variants.push({ drawing, shape: piece, own: [sized] });
    else same.own.push(sized);
  }
  return variants.map(({ drawing, shape, own }): Variant => {
    const [lines, parts] = [own.flatMap((sized) => sized.lines), own.flatMap((sized) => sized.parts)];
    return {
      sizes: own.length === all ? [] : own.map(({ size }) => size ?? ''),
      drawing, shape, hasGrain: [...lines, ...parts].some(hasGrain), cuts: toldCuts(own), notes: notesFor(lines, parts, drawing, pattern), oneWay: lines.some((line) => line.thisWayUp || liesOneWay(line)),
    };
  });
}

/** What is cut, each once, with its sizes where it isn’t in all of these. */
function toldCuts(bySize: Found['bySize']): readonly string[] {
  const told = bySize.map(({ size, lines, parts }) => ({ size: size ?? '', words: [...lines.map(cutWords), ...parts.map((part) => `Folded, for ${part.piece.title}: ${cutWords(part).replace(/^C/, 'c')}`)] }));
  return [...new Set(told.flatMap(({ words }) => words))].map((one) => {
    const those = told.filter(({ words }) => words.includes(one));
    return those.length === told.length ? one : `${those.map(({ size }) => size).join(', ')}: ${one}`;
  });
}

function cutWords(line: CutLine): string {
  const count = Number(line.count.n);
  const base = `Cut ${count} × ${line.material.title}${line.onFold ? ', on the fold' : ''}`;
  if (line.hand !== 'as drawn' && flipsOnToItself(line)) return base;
  if (line.hand === 'twins') return `${base}: print once, ${count / 2} as drawn and ${count / 2} flipped`;
  if (line.hand === 'mirrored') return `${base}: flip the template`;
  if (line.wayUp === 'glue up') return `${base}, glue side up`;
  if (line.wayUp === 'glue down') return `${base}, glue side down`;
  return base;
}

function notesFor(lines: readonly CutLine[], parts: readonly CutLine[], drawing: Drawing, { display }: Pattern): readonly string[] {
  const notes: string[] = [];
  if (drawing.fold !== undefined && [...lines, ...parts].some((line) => !line.onFold)) notes.push('Half: draw round it, flip it along the fold, draw round it again');
  for (const line of lines) if (line.large !== undefined) notes.push(`${showLength(line.large, display)} all round is to spare: trim later`);
  // Of what is cut of several materials not all may be bound so.
  const told = (isBound: (line: CutLine) => boolean, words: string): void => {
    const bound = lines.filter(isBound);
    if (bound.length === lines.length && bound.length > 0) notes.push(words);
    else if (bound.length > 0) notes.push(`${listed([...new Set(bound.map(({ material }) => material.title))])}, ${words.charAt(0).toLowerCase()}${words.slice(1)}`);
  };
  told(({ thisWayUp }) => thisWayUp, 'This way up');
  told(liesOneWay, `One way: ${sameEndUp}`);
  return [...new Set(notes)];
}
