import type { PlaceRef, PreviewCompared, PreviewData, PreviewLink, PreviewPiece, PreviewWalk, PreviewStep } from '../../server/src/preview/drawing-data.ts';
import { placeNow } from '../../server/src/preview/places.ts';
import { changedBy, changeWords, cuttingEdges, noChanges, someOf } from './changes.ts';
import { finishedWords, isFinishedAsCut, sizeWords } from './size-words.ts';
import { joinedWords } from './steps.ts';

/** What is lit of a piece: all of it, and those of its parts that are meant. */
export type Lit = ReadonlyMap<string, readonly number[]>;

/** What the cursor is on. */
export interface AtCursor {
  /** The piece that it is in. */
  readonly piece: string | undefined;
  /** By the names of pieces. */
  readonly lit: Lit;
  /** Those of them that stay as they are, but for the parts that are lit. */
  readonly inPart?: ReadonlySet<string>;
  /** What is said of it; empty where it is nothing that is drawn. */
  readonly says: string;
  /** What a check that fails has measured. */
  readonly compared?: PreviewCompared | undefined;
  /** The seam that it is, laid along itself. */
  readonly walk?: PreviewWalk | undefined;
  /** The step that it is. */
  readonly step?: PreviewStep | undefined;
}

export const onPiece = (piece: string | undefined, parts: readonly number[] = []): AtCursor => ({ piece, lit: new Map(piece === undefined ? [] : [[piece, parts]]), says: '' });

/** Finds what is written at an offset; the narrowest place counts. */
export function findAt(data: PreviewData, file: string, offset: number): AtCursor {
  const holds = (place: PlaceRef | null): place is PlaceRef => {
    const now = placeNow(data, place);
    return now !== undefined && now.file === file && now.start <= offset && offset <= now.end;
  };
  const piece = data.pieces.find(({ span }) => holds(span));
  if (piece !== undefined) return { ...onPiece(piece.name, partsAt(piece, holds)), says: pieceWords(piece) };
  const undrawn = data.undrawn.find(({ span }) => holds(span));
  if (undrawn !== undefined) return onPiece(undrawn.name);
  const step = data.steps.find(({ span }) => holds(span));
  if (step !== undefined) return onStep(data, step);
  const link = data.links.find(({ span }) => holds(span));
  const walk = data.walks.find(({ span }) => holds(span));
  return link === undefined ? onPiece(undefined) : { ...hanging(data, link), walk };
}

/** What a step works on, and what hangs together once it is done. */
export function onStep(data: PreviewData, step: PreviewStep): AtCursor {
  const lit = data.pieces.flatMap(({ name, drawing }) => {
    const parts = step.lights[name];
    return parts === undefined ? [] : [[name, drawing.parts.flatMap((part, at) => (parts.includes(part.name) ? [at] : []))] as const];
  });
  return { piece: undefined, lit: new Map(lit), says: joinedWords(data, step), step };
}

function partsAt(piece: PreviewPiece, holds: (place: PlaceRef | null) => place is PlaceRef): readonly number[] {
  let best = -1;
  piece.places.forEach((place, at) => {
    const known = piece.places[best];
    if (holds(place) && (known === null || known === undefined || place[2] - place[1] < known[2] - known[1])) best = at;
  });
  return piece.drawing.parts.flatMap((part, at) => (part.place === best ? [at] : []));
}

// ------------------------------------------------------------------------------------------------ what hangs together

/** What hangs on a value, a material or a choice; what a check, a seam or a supply names, and who names those. */
function hanging(data: PreviewData, link: PreviewLink): AtCursor {
  const lit = new Map<string, readonly number[]>();
  const add = (name: string, parts: readonly number[]): void => void lit.set(name, [...new Set([...(lit.get(name) ?? []), ...parts])]);
  if (link.kind === 'general') for (const { name } of data.pieces) add(name, []);
  if (link.kind === 'material') for (const { name, materials } of data.pieces) if (materials.includes(link.name)) add(name, []);
  if (link.kind === 'check' || link.kind === 'seam' || link.kind === 'supply') for (const [name, parts] of namedBy(data, link)) add(name, parts);
  const options = link.kind === 'choice' ? (data.choices.find(({ name }) => name === link.name)?.options ?? []) : [];
  const changes = link.name === '' || link.kind === 'material' ? noChanges : changedBy(data, [link.name, ...options.map((option) => `=${option}`)]);
  const changed = changes.pieces;
  for (const [name, { parts }] of changed) add(name, parts);
  const isCause = link.kind === 'value' || link.kind === 'choice';
  return {
    piece: undefined, lit, compared: link.compared,
    says: [link.says, isCause ? changeWords(data, changes) : inWords(data, lit)].join(' · '),
    inPart: new Set(isCause ? data.pieces.filter((piece) => isInPart(piece, changed.get(piece.name)?.parts ?? [])).map(({ name }) => name) : []),
  };
}

/** Whether only some of a piece is otherwise, and not all of its outline. */
function isInPart(piece: PreviewPiece, parts: readonly number[]): boolean {
  return parts.length > 0 && cuttingEdges(piece).some((edge) => !parts.includes(edge));
}

/** Pieces and parts that are named: `front`, `front.left`. */
function namedBy(data: PreviewData, { uses }: PreviewLink): Lit {
  const found = new Map<string, readonly number[]>();
  for (const name of uses.flatMap(([, , names]) => names)) {
    const [head, part] = name.split('.');
    const piece = data.pieces.find((one) => one.name === head);
    if (piece === undefined) continue;
    const parts = piece.drawing.parts.flatMap((one, at) => (one.name === part ? [at] : []));
    found.set(piece.name, [...(found.get(piece.name) ?? []), ...parts]);
  }
  return found;
}

/** A piece with its sizes. */
export const pieceWords = (piece: PreviewPiece): string => `${piece.title} · ${finishedWords(piece)}${isFinishedAsCut(piece) ? '' : `, cut ${sizeWords(piece.cut)}`}`;

function inWords(data: PreviewData, lit: Lit): string {
  const titles = data.pieces.filter(({ name }) => lit.has(name)).map(({ title }) => title);
  if (titles.length === 0) return 'on no piece that is drawn';
  return `${titles.length === 1 ? '1 piece: ' : `${titles.length} pieces: `}${someOf(titles)}`;
}
