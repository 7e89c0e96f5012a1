import type { PlaceRef, PreviewCompared, PreviewData, PreviewLink, PreviewPiece, PreviewUse, PreviewWalk, PreviewStep, UseAbout } from '../../server/src/preview/drawing-data.ts';
import { placeNow } from '../../server/src/preview/places.ts';
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
  /** Those of them that stay as they are, but for lines inside them. */
  readonly inside?: ReadonlySet<string>;
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
  const changed = link.name === '' || link.kind === 'material' ? new Map<string, Changed>() : changedBy(data, [link.name, ...options.map((option) => `=${option}`)]);
  for (const [name, { parts }] of changed) add(name, parts);
  const isCause = link.kind === 'value' || link.kind === 'choice';
  return {
    piece: undefined, lit, compared: link.compared,
    says: [link.says, isCause ? changeWords(data, changed, link) : inWords(data, lit)].join(' · '),
    inside: new Set(isCause ? [...changed].filter(([, { what, parts }]) => what === 'inside' && parts.length > 0).map(([name]) => name) : []),
  };
}

const headOf = (name: string): string => name.split('.', 1)[0] ?? name;

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

/** What changes of a piece: its outline, or only lines inside it, what is cut, what is said of it; with the parts that are written there. */
interface Changed {
  readonly what: Exclude<UseAbout, 'from'>;
  readonly parts: readonly number[];
}

/** What counts most comes first. */
const whats: readonly Changed['what'][] = ['outline', 'inside', 'cut', 'said'];

/** Pieces that use a name, or what uses it, and so on, in the order of the text. */
function changedBy(data: PreviewData, start: readonly string[]): ReadonlyMap<string, Changed> {
  const users = usersByHead(data.links);
  const changes = new Changes(data);
  // Names of what is changed as a whole, `wrap`, and of single lines of pieces, `wrap.core`.
  const affected = new Set(start);
  for (const key of affected) for (const user of users.get(headOf(key)) ?? []) for (const next of changes.by(key, user)) affected.add(next);
  return changes.all();
}

/** Gathers what changes of each piece. */
class Changes {
  readonly #data: PreviewData;
  readonly #pieces: ReadonlyMap<string, PreviewPiece>;
  readonly #found = new Map<string, { readonly whats: Set<Changed['what']>; readonly parts: Set<number> }>();

  constructor(data: PreviewData) {
    this.#data = data;
    this.#pieces = new Map(data.pieces.map((piece) => [piece.name, piece]));
  }

  /** What one line that uses a changed name has change in its turn. */
  by(key: string, user: User): readonly string[] {
    const { link, use: [, , names] } = user;
    const [head = '', line] = key.split('.');
    const isNamed = names.some((name) => (line === undefined ? headOf(name) === head : name === key));
    const piece = link.kind === 'piece' ? this.#pieces.get(link.name) : undefined;
    if (piece !== undefined) return line !== undefined && isTakenOver(user, head, line) ? this.#inherited(piece, line) : isNamed || (line !== undefined && names.includes(line)) ? this.#written(piece, user) : [];
    if (!isNamed) return [];
    if (link.kind === 'general') return this.#data.pieces.map(({ name }) => {
      this.#mark(name, 'outline', []);
      return name;
    });
    return link.kind === 'value' || link.kind === 'thing' ? [link.name] : [];
  }

  all(): ReadonlyMap<string, Changed> {
    return new Map(this.#data.pieces.flatMap(({ name }) => {
      const one = this.#found.get(name);
      return one === undefined ? [] : [[name, { what: whats.find((what) => one.whats.has(what)) ?? 'said', parts: [...one.parts] }] as const];
    }));
  }

  /** The same line on a piece that is made from the one that it was written in. */
  #inherited(piece: PreviewPiece, line: string): readonly string[] {
    const parts = piece.drawing.parts.flatMap((part, at) => (part.name === line ? [at] : []));
    if (parts.length === 0) return [];
    this.#mark(piece.name, 'inside', parts);
    return [`${piece.name}.${line}`];
  }

  #written(piece: PreviewPiece, { link, use }: User): readonly string[] {
    const about = use[3] ?? 'said';
    const what = about === 'from' ? 'outline' : about;
    const parts = partsWritten(piece, link, use);
    this.#mark(piece.name, what, parts);
    return what === 'outline' ? [piece.name] : what === 'inside' ? parts.map((part) => `${piece.name}.${piece.drawing.parts[part]?.name ?? ''}`) : [];
  }

  #mark(name: string, what: Changed['what'], parts: readonly number[]): void {
    const one = this.#found.get(name) ?? { whats: new Set(), parts: new Set() };
    this.#found.set(name, one);
    one.whats.add(what);
    for (const part of parts) one.parts.add(part);
  }
}

/** Whether a piece is made from the one with a line, which stays in it; where it is cut along that line, its outline changes. */
const isTakenOver = ({ use: [, , names, about] }: User, head: string, line: string): boolean => about === 'from' && names.includes(head) && !names.includes(line) && !names.includes(`${head}.${line}`);

interface User {
  readonly link: PreviewLink;
  readonly use: PreviewUse;
}

/** Lines that use a name, by what it begins with. */
function usersByHead(links: readonly PreviewLink[]): ReadonlyMap<string, readonly User[]> {
  const users = new Map<string, User[]>();
  for (const link of links) {
    for (const use of link.uses) {
      for (const head of new Set(use[2].map(headOf))) {
        const known = users.get(head);
        if (known === undefined) users.set(head, [{ link, use }]);
        else known.push({ link, use });
      }
    }
  }
  return users;
}

/** Parts of a piece that are written in one of its lines. */
function partsWritten({ places, drawing }: PreviewPiece, { span }: PreviewLink, [start, end]: PreviewUse): readonly number[] {
  return drawing.parts.flatMap(({ place }, at) => {
    const written = places[place];
    const isThere = written !== null && written !== undefined && written[0] === span?.[0] && start <= written[1] && written[2] <= end;
    return isThere ? [at] : [];
  });
}

/** So many pieces are named. */
const mostNamed = 4;

/** A piece with its sizes. */
export const pieceWords = (piece: PreviewPiece): string => `${piece.title} · ${finishedWords(piece)}${isFinishedAsCut(piece) ? '' : `, cut ${sizeWords(piece.cut)}`}`;

const changeNames: Readonly<Record<Changed['what'], string>> = { outline: 'the outline of', inside: 'lines on', cut: 'what is cut of', said: 'notes on' };

/** `changes the outline of Wrap, Inside; lines on Pocket`; of what changes no piece, what else uses it. */
function changeWords(data: PreviewData, changed: ReadonlyMap<string, Changed>, cause: PreviewLink): string {
  if (changed.size === 0) return ['changes no piece that is drawn', ...usedIn(data, cause.name)].join('; ');
  let left = mostNamed;
  const groups = whats.flatMap((what) => {
    const titles = data.pieces.filter(({ name }) => changed.get(name)?.what === what).map(({ title }) => title).slice(0, left);
    left -= titles.length;
    return titles.length === 0 ? [] : [`${changeNames[what]} ${titles.join(', ')}`];
  });
  return `changes ${groups.join('; ')}${changed.size > mostNamed ? `, ${changed.size - mostNamed} more` : ''}`;
}

/** `used in Webbing, 2 checks`, be it by way of other values; empty where nothing else uses a name. */
function usedIn({ links }: PreviewData, name: string): readonly string[] {
  const users = usersByHead(links);
  const names = new Set([name]);
  const found = new Set<PreviewLink>();
  for (const one of names) {
    for (const { link } of users.get(one) ?? []) {
      if (link.kind === 'value' || link.kind === 'thing') names.add(link.name);
      else found.add(link);
    }
  }
  const titles = [...found].filter(({ kind }) => kind === 'supply' || kind === 'seam').map(({ says }) => says);
  const checks = [...found].filter(({ kind }) => kind === 'check').length;
  const all = [...titles.slice(0, mostNamed), ...(titles.length > mostNamed ? [`${titles.length - mostNamed} more`] : []), ...(checks === 0 ? [] : [checks === 1 ? 'a check' : `${checks} checks`])];
  return all.length === 0 ? [] : [`used in ${all.join(', ')}`];
}

function inWords(data: PreviewData, lit: Lit): string {
  const titles = data.pieces.filter(({ name }) => lit.has(name)).map(({ title }) => title);
  if (titles.length === 0) return 'on no piece that is drawn';
  const rest = titles.length - mostNamed;
  const named = rest > 0 ? [...titles.slice(0, mostNamed), `${rest} more`] : titles;
  return `${titles.length === 1 ? '1 piece: ' : `${titles.length} pieces: `}${named.join(', ')}`;
}
