import type { Combination } from '../model/query/query.ts';
import type { Pattern, ResolvedPiece } from '../model/pattern.ts';
import { areaOfPiece, type Round } from '../model/piece/size.ts';
import { choiceTitle, optionTitle } from '../model/names/choice-titles.ts';
import type { NamedDeclaration } from '../model/names/world.ts';
import { limits } from '../problems/limits.ts';
import type { Chunk, Place } from '../problems/place.ts';
import { openingOf } from '../syntax/tokens.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { previewBuying } from './supplies.ts';
import { bodyOf, type Earlier } from './earlier.ts';
import type { EarlierDrawing, Figure, PreviewChoice, PreviewData, PreviewDrawing, PreviewLayer, PreviewPiece, PreviewSize, PreviewTables, ProblemCounts, UndrawnPiece } from './drawing-data.ts';
import { previewHandles } from './handles/shown.ts';
import { Kept, type Asking } from './kept.ts';
import { previewLinks } from './links.ts';
import { nestedOf, type OtherOption } from './nested.ts';
import { drawPiece } from './parts.ts';
import { ChunkNumbers, placeWriter, type PlaceWriter } from './places.ts';
import { openWords, sizeWords, type Side } from './size-words.ts';
import { previewSteps } from './steps.ts';
import { previewTable } from './table.ts';
import { previewWalks } from './walks.ts';
import { trailsOf } from './trail.ts';
import { polylinePath } from '../formats/svg-path.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { measureSize, sizeText } from '../table/figures.ts';
import { whereOn } from '../table/layers.ts';
import { cuttingTable } from '../table/table.ts';
import type { Display } from '../units/length.ts';

export type { PreviewData } from './drawing-data.ts';

/** What previews of a pattern have in common from one version of it to the next. */
export interface PreviewBackground {
  /** How files are called by whoever the data is for; their paths as they are unless said. */
  readonly fileName?: (path: string) => string;
  /** Those of an earlier version, so that what is the same in both looks the same. */
  readonly numbers?: ChunkNumbers;
  /** What was made for an earlier version with those same numbers. */
  readonly kept?: Kept;
  readonly earlier?: Earlier;
  /** The piece whose handles are wanted. */
  readonly handled?: string | null | undefined;
  /** The choice whose other options are to be nested under what is shown. */
  readonly beside?: string | null | undefined;
}

/** Everything that the preview shows of a pattern in one combination. A choice left open takes its first option. */
export function previewData(snapshot: Snapshot, combination: Combination, background: PreviewBackground = {}): PreviewData {
  const { drawing, tables } = previewParts(snapshot, combination, background);
  return { ...drawing, ...tables() };
}

/** The same in two parts, since what is drawn is looked at while one types, and the tables take as long again. */
export interface PreviewParts {
  readonly drawing: PreviewDrawing;
  /** The tables, with all that the places of both parts refer to. */
  readonly tables: () => PreviewTables & Pick<PreviewData, 'files' | 'chunks'>;
}

export function previewParts(snapshot: Snapshot, combination: Combination, { fileName = (path) => path, numbers = new ChunkNumbers(), kept = new Kept(), earlier = new Map(), handled, beside }: PreviewBackground = {}): PreviewParts {
  const { pattern } = snapshot;
  const resolved = pattern.resolve(known(pattern, combination));
  const places = placeWriter(snapshot.locate, fileName, numbers);
  const asking = askingOf(pattern, resolved.combination, places);
  const counts = countsByChunk(pattern);
  const shown = resolved.pieces.slice(0, limits.piecesDrawn);
  const drawn = shown.map((piece) => previewPiece(piece, pattern.display, kept, asking, counts.get(piece.shape.declaration) ?? none));
  const choices = previewChoices(pattern, resolved.combination);
  const nesting = choices.find(({ name }) => name === beside);
  const drawing = {
    title: pattern.world.facts.title ?? pattern.world.root.path,
    revision: pattern.world.facts.revision ?? null,
    unit: pattern.display.unit,
    choices,
    problems: total(pattern),
    pieces: drawn,
    undrawn: undrawnPieces(pattern, resolved.combination, places, earlier),
    tooMany: resolved.pieces.length > limits.piecesDrawn ? resolved.pieces.length : null,
    links: previewLinks(pattern, resolved, new Set(shown.map(({ shape }) => shape.name)), places),
    walks: previewWalks(resolved, pattern.display, places),
    steps: previewSteps(resolved, pattern.display, places),
    handles: previewHandles(pattern, shown.find(({ shape }) => shape.name === handled)?.shape, resolved.combination),
    nested: nesting === undefined ? null : nestedOf(nesting, drawn, otherOptions(pattern, resolved.combination, nesting, places)),
    ...places.soFar(),
  };
  return {
    drawing,
    tables: () => {
      const table = cuttingTable(pattern, resolved.combination);
      return {
        table: previewTable({ ...resolved, pieces: shown }, table, kept, asking, pattern.display),
        buying: previewBuying(resolved, table.supplies, pattern.display, places),
        ...places.soFar(),
      };
    },
  };
}

const previewChoices = ({ choices, world }: Pattern, combination: Combination): readonly PreviewChoice[] => [...choices].map(([name, options]) => ({
  name, title: choiceTitle(world, name), options,
  titles: Object.fromEntries(options.map((option) => [option, optionTitle(world, name, option)])),
  chosen: combination.get(name) ?? '',
}));

/** So many other options of a choice are drawn: of more no outline could be told from the next. */
const mostNested = 12;

function otherOptions(pattern: Pattern, combination: Combination, { name, options, chosen }: PreviewChoice, places: PlaceWriter): readonly OtherOption[] {
  return options.filter((option) => option !== chosen).slice(0, mostNested).map((option) => {
    const other = new Map([...combination, [name, option]]);
    const asking = askingOf(pattern, other, places);
    return { option, pieces: pattern.resolve(other).pieces.slice(0, limits.piecesDrawn).map((piece) => previewPiece(piece, pattern.display, new Kept(), asking, none)) };
  });
}

/** What the preview was last asked for may no longer be an option. */
function known(pattern: Pattern, combination: Combination): Combination {
  return new Map([...combination].filter(([choice, option]) => pattern.choices.get(choice)?.includes(option) === true));
}

// ------------------------------------------------------------------------------------------------ pieces

/** What the pattern answers in one combination; each is looked for once. */
function askingOf(pattern: Pattern, combination: Combination, { ref }: PlaceWriter): Asking {
  const once = <Answer>(find: (name: string) => Answer): ((name: string) => Answer) => {
    const found = new Map<string, { readonly answer: Answer }>();
    return (name) => {
      const known = found.get(name) ?? { answer: find(name) };
      found.set(name, known);
      return known.answer;
    };
  };
  return { value: once((name) => pattern.value(name, combination)), shape: once((name) => pattern.shape(name, combination)), ref };
}

function previewPiece({ shape, cuts, folded }: ResolvedPiece, display: Display, kept: Kept, asking: Asking, problems: ProblemCounts): PreviewPiece {
  const [drawn, words] = [drawPiece(shape, display), sizeWords(shape, display)];
  return kept.of(shape, [drawn, words, problems.errors, problems.warnings, problems.notes, folded, ...cuts], asking, (asked) => {
    const { ref } = asked;
    const trails = trailsOf(asked, display);
    const figure = (of: Round, side: Side): Figure => ({
      text: words[of][side].text,
      trail: trails.pieceSize(shape, of, side),
      place: ref(trails.sizePlace(shape, side)),
    });
    const sized = (of: Round): PreviewSize => ({ width: figure(of, 'width'), height: figure(of, 'height'), circle: words[of].circle });
    return {
      name: shape.name,
      title: shape.title,
      from: parentOf(shape.declaration),
      drawing: drawn.drawing,
      places: drawn.sources.map(ref),
      place: ref(shape.place),
      span: ref(spanOf(shape.declaration)),
      cut: sized('cutting'),
      finished: sized('stitching'),
      area: Math.round(areaOfPiece(shape, 'stitching').abs().valueOf()),
      open: openWords(shape),
      folded: folded === undefined ? null : sizeText(measureSize(folded.size, display)),
      cuts: cutWords(cuts),
      materials: [...new Set(cuts.map((line) => line.material.name))],
      count: Number(cuts.reduce((sum, { count }) => sum + count.n, 0n)),
      onFold: cuts.every(({ onFold }) => !onFold) ? 'none' : cuts.every(({ onFold }) => onFold) ? 'all' : 'some',
      layers: cuts.flatMap((line) => layerOf(line, cuts, display)),
      problems,
    };
  });
}

/** What is cut of one material in one way is told once, along however many lines. */
function cutWords(cuts: readonly CutLine[]): readonly string[] {
  const counts = new Map<string, bigint>();
  for (const { material, count, onFold } of cuts) {
    const words = `${material.title}${onFold ? ', on the fold' : ''}`;
    counts.set(words, (counts.get(words) ?? 0n) + count.n);
  }
  return [...counts].map(([words, count]) => `${String(count)} × ${words}`);
}

const layerPaths = new WeakMap<CutLine, string>();

function layerOf(line: CutLine, cuts: readonly CutLine[], display: Display): readonly PreviewLayer[] {
  const shell = line.layer && cuts[line.layer.shell];
  if (line.layer === undefined || shell === undefined) return [];
  const path = layerPaths.get(line) ?? [line.outline, ...line.holes].map((run) => polylinePath(run, true)).join('');
  layerPaths.set(line, path);
  return [{ material: line.material.name, title: line.material.title, side: line.layer.side, line: line.along ?? null, path, where: whereOn(line, shell, display) }];
}

const parentOf = ({ tree }: NamedDeclaration): string | null => (tree.kind === 'piece' ? tree.parent?.name.text : undefined) ?? null;

const spanOf = (declaration: NamedDeclaration): Place => ({ chunk: declaration, start: declaration.tree.start, end: declaration.tree.end });

/**
 * Pieces of the text without a shape. One whose first line can’t be read is told by its name there, or else by its other
 * lines, if they are those of a piece that was drawn earlier.
 */
function undrawnPieces(pattern: Pattern, combination: Combination, { ref }: PlaceWriter, earlier: Earlier): readonly UndrawnPiece[] {
  const undrawn: UndrawnPiece[] = [];
  const lastOf = (name: string): EarlierDrawing | null => {
    const known = earlier.get(name);
    return known === undefined ? null : { version: known.version, piece: known.piece };
  };
  for (const { declaration } of pattern.world.root.declarations) {
    const { tree } = declaration;
    if (tree.kind === 'broken') {
      const opening = openingOf(tree.text);
      const written = opening?.word === 'piece' ? opening.name : undefined;
      const isGone = (name: string): boolean => !pattern.world.names.has(name) && !undrawn.some((one) => one.name === name);
      const body = bodyOf(declaration);
      const name = written ?? [...earlier].find(([one, { body: before }]) => before === body && isGone(one))?.[0];
      const place = ref({ chunk: declaration, start: tree.start, end: tree.end });
      if (name !== undefined && isGone(name)) undrawn.push({ name, title: earlier.get(name)?.piece.title ?? name, earlier: lastOf(name), place, span: place });
    } else if (tree.kind === 'piece' && pattern.world.names.get(tree.name.text) === declaration && pattern.shape(tree.name.text, combination) === undefined) {
      undrawn.push({
        name: tree.name.text,
        title: tree.title?.value ?? tree.name.text,
        earlier: lastOf(tree.name.text),
        place: ref({ chunk: declaration, start: tree.name.start, end: tree.name.end }),
        span: ref({ chunk: declaration, start: tree.start, end: tree.end }),
      });
    }
  }
  return undrawn;
}

// ------------------------------------------------------------------------------------------------ problems

const none: ProblemCounts = { errors: 0, warnings: 0, notes: 0 };
const countNames = { error: 'errors', warning: 'warnings', note: 'notes' } as const;

function countsByChunk(pattern: Pattern): ReadonlyMap<Chunk, ProblemCounts> {
  const counts = new Map<Chunk, ProblemCounts>();
  for (const { place, severity } of pattern.problems) {
    const before = counts.get(place.chunk) ?? none;
    counts.set(place.chunk, { ...before, [countNames[severity]]: before[countNames[severity]] + 1 });
  }
  return counts;
}

function total(pattern: Pattern): ProblemCounts {
  const of = (severity: keyof typeof countNames): number => pattern.problems.filter((one) => one.severity === severity).length;
  return { errors: of('error'), warnings: of('warning'), notes: of('note') };
}
