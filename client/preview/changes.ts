import { wholeOutline, type PreviewData, type PreviewLink, type PreviewPiece, type PreviewUse, type UseAbout } from '../../server/src/preview/drawing-data.ts';

/** What changes of a piece: its outline, or only what is cut, how many, lines inside it, what is said of it; with the parts that are otherwise then. */
export interface Changed {
  readonly what: Exclude<UseAbout, 'from' | 'bought'>;
  readonly parts: readonly number[];
  /** Whether another number is cut, be its outline another or not. */
  readonly isCounted: boolean;
}

/** All that hangs on a name. */
export interface Changes {
  /** Pieces that are drawn, by name. */
  readonly pieces: ReadonlyMap<string, Changed>;
  /** Supplies, steps, notes, seams and checks; pieces and supplies of other options too. */
  readonly others: ReadonlySet<PreviewLink>;
}

export const noChanges: Changes = { pieces: new Map(), others: new Set() };

/** What counts most comes first. */
const whats: readonly Changed['what'][] = ['outline', 'cut', 'count', 'inside', 'said'];

const headOf = (name: string): string => name.split('.', 1)[0] ?? name;

/** What uses a name, or what uses that, and so on; pieces in the order of the text. */
export function changedBy(data: PreviewData, start: readonly string[]): Changes {
  const users = usersByHead(data.links);
  const changes = new Gathered(data);
  // Names of what is changed as a whole, `wrap`, and of single lines of pieces, `wrap.core`.
  const affected = new Set(start);
  for (const key of affected) {
    const [head = '', line] = key.split('.');
    // A piece calls its own lines by their names alone.
    const own = line === undefined ? [] : (users.get(line) ?? []).filter(({ link }) => link.kind === 'piece' && link.name === head);
    for (const user of [...(users.get(head) ?? []), ...own]) for (const next of changes.by(key, user)) affected.add(next);
  }
  return changes.all();
}

/** Gathers what changes, of each piece and otherwise. */
class Gathered {
  readonly #data: PreviewData;
  readonly #pieces: ReadonlyMap<string, PreviewPiece>;
  readonly #found = new Map<string, { readonly whats: Set<Changed['what']>; readonly parts: Set<number> }>();
  readonly #others = new Set<PreviewLink>();

  constructor(data: PreviewData) {
    this.#data = data;
    this.#pieces = new Map(data.pieces.map((piece) => [piece.name, piece]));
  }

  /** What one line that uses a changed name has change in its turn. */
  by(key: string, user: User): readonly string[] {
    const { link, use: [, , names, about] } = user;
    const [head = '', line] = key.split('.');
    const isOwn = line !== undefined && link.kind === 'piece' && link.name === head && names.includes(line);
    const isNamed = isOwn || names.some((name) => (line === undefined ? headOf(name) === head : name === key));
    const piece = link.kind === 'piece' ? this.#pieces.get(link.name) : undefined;
    if (piece !== undefined && line !== undefined && isTakenOver(user, head, line)) return this.#inherited(piece, line);
    if (!isNamed) return [];
    if (piece !== undefined) return this.#written(piece, user, key);
    if (link.kind === 'general') return this.#data.pieces.flatMap((one) => this.#outline(one, cuttingEdges(one)));
    if (link.kind === 'value' || link.kind === 'thing') return [link.name];
    // A note on a piece, a supply's place: nothing of them changes.
    if (about === 'said') return [];
    this.#others.add(link);
    return link.kind === 'piece' && (about === 'outline' || about === 'from') ? [link.name] : [];
  }

  all(): Changes {
    const pieces = new Map(this.#data.pieces.flatMap(({ name }) => {
      const one = this.#found.get(name);
      return one === undefined ? [] : [[name, { what: whats.find((what) => one.whats.has(what)) ?? 'said', parts: [...one.parts], isCounted: one.whats.has('count') }] as const];
    }));
    return { pieces, others: this.#others };
  }

  /** The same line on a piece that is made from the one that it was written in. */
  #inherited(piece: PreviewPiece, line: string): readonly string[] {
    const parts = piece.drawing.parts.flatMap((part, at) => (part.name === line ? [at] : []));
    if (parts.length === 0) return [];
    this.#mark(piece.name, 'inside', parts);
    return [`${piece.name}.${line}`];
  }

  #written(piece: PreviewPiece, { link, use }: User, key: string): readonly string[] {
    const [, , names, about = 'said'] = use;
    // Of the piece that it is made from, edges tell one by one that they are others.
    if (about === 'from' && !key.includes('.')) return this.#outline(piece, []);
    const written = partsWritten(piece, link, use);
    if (about === 'from') return this.#outline(piece, written.filter((part) => piece.drawing.parts[part]?.kind !== 'grain'));
    if (about === 'outline') {
      const parts = [...written, ...cuttingEdges(piece, names)];
      return this.#outline(piece, parts.length === 0 ? cuttingEdges(piece) : parts);
    }
    this.#mark(piece.name, about === 'bought' ? 'said' : about, written);
    return about === 'inside' ? keysOf(piece, written) : [];
  }

  /** Its outline is another, along these parts. */
  #outline(piece: PreviewPiece, parts: readonly number[]): readonly string[] {
    this.#mark(piece.name, 'outline', parts);
    return [piece.name, `${piece.name}.${wholeOutline}`, ...keysOf(piece, parts)];
  }

  #mark(name: string, what: Changed['what'], parts: readonly number[]): void {
    const one = this.#found.get(name) ?? { whats: new Set(), parts: new Set() };
    this.#found.set(name, one);
    one.whats.add(what);
    for (const part of parts) one.parts.add(part);
  }
}

const keysOf = ({ name, drawing }: PreviewPiece, parts: readonly number[]): readonly string[] => parts.map((part) => `${name}.${drawing.parts[part]?.name ?? ''}`);

/** Where a piece is cut: along all its edges, or along those of some names. */
export const cuttingEdges = ({ drawing }: PreviewPiece, names?: readonly string[]): readonly number[] => drawing.parts.flatMap(({ kind, name }, at) => (kind === 'cutting' && (names === undefined || names.includes(name)) ? [at] : []));

/** Whether a piece is made from the one with a line, which stays in it; where it is cut along that line, its outline changes. */
const isTakenOver = ({ use: [, , names, about] }: User, head: string, line: string): boolean => about === 'from' && names.includes(head) && !names.includes(line) && !names.includes(`${head}.${line}`);

interface User {
  readonly link: PreviewLink;
  readonly use: PreviewUse;
}

/** What the names of a use begin with: an edit leaves most uses as they are. */
const headsOfUses = new WeakMap<PreviewUse, readonly string[]>();

function headsOf(use: PreviewUse): readonly string[] {
  const known = headsOfUses.get(use);
  if (known !== undefined) return known;
  const heads = [...new Set(use[2].map(headOf))];
  headsOfUses.set(use, heads);
  return heads;
}

/** Lines that use a name, by what it begins with. */
function usersByHead(links: readonly PreviewLink[]): ReadonlyMap<string, readonly User[]> {
  const users = new Map<string, User[]>();
  for (const link of links) {
    for (const use of link.uses) {
      for (const head of headsOf(use)) {
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

// ------------------------------------------------------------------------------------------------ in words

/** So many things of a kind are named. */
const mostNamed = 4;

/** `Wrap, Inside`; of very many the first, and how many more. That there is one more takes as long to say as which. */
export function someOf(titles: readonly string[]): string {
  const few = titles.length <= mostNamed + 1 ? titles : [...titles.slice(0, mostNamed), `${titles.length - mostNamed} more`];
  return few.join(', ');
}

const changeNames: Readonly<Record<Changed['what'], string>> = { outline: 'the outline of', cut: 'what is cut of', count: 'how many are cut of', inside: 'lines on', said: 'notes on' };

/** `changes the outline of Wrap, Inside; lines on Pocket; Webbing to buy; with other choices also Lining`; of what changes no piece, what else uses it. */
export function changeWords(data: PreviewData, { pieces, others }: Changes): string {
  const those = data.links.filter((link) => others.has(link));
  const titled = (kind: PreviewLink['kind']): readonly string[] => those.filter((link) => link.kind === kind && link.elsewhere === undefined).map(({ says }) => says);
  const bought = titled('supply');
  const elsewhere = those.filter((link) => link.elsewhere === true).map(({ says }) => says);
  const toBuy = bought.length === 0 ? [] : [`${someOf(bought)} to buy`];
  const inOthers = elsewhere.length === 0 ? [] : [`with other choices ${pieces.size > 0 ? 'also ' : ''}${someOf(elsewhere)}`];
  if (pieces.size > 0) return `changes ${[...pieceGroups(data, pieces), ...toBuy, ...inOthers].join('; ')}`;
  const words = [...titled('step'), ...counted(titled('note').length, 'note')];
  const instead = [...toBuy, ...(words.length === 0 ? [] : [`the words of ${someOf(words)}`])].join('; ');
  const used = [...titled('seam'), ...counted(titled('check').length, 'check')];
  return [`changes no piece that is drawn${instead === '' ? '' : `, only ${instead}`}`, ...(used.length === 0 ? [] : [`used in ${someOf(used)}`]), ...inOthers].join('; ');
}

const counted = (count: number, what: string): readonly string[] => (count === 0 ? [] : [count === 1 ? `a ${what}` : `${count} ${what}s`]);

function pieceGroups(data: PreviewData, pieces: Changes['pieces']): readonly string[] {
  const named = whats.flatMap((what) => data.pieces.filter(({ name }) => pieces.get(name)?.what === what)).slice(0, pieces.size === mostNamed + 1 ? pieces.size : mostNamed);
  const groups = whats.flatMap((what) => {
    const isMeant = ({ what: most, isCounted }: Changed): boolean => (what === 'count' ? isCounted : most === what);
    const titles = named.flatMap(({ name, title }) => {
      const one = pieces.get(name);
      return one !== undefined && isMeant(one) ? [title] : [];
    });
    return titles.length === 0 ? [] : [`${changeNames[what]} ${titles.join(', ')}`];
  });
  const more = pieces.size > named.length ? `, ${pieces.size - named.length} more` : '';
  return groups.map((group, at) => (at === groups.length - 1 ? `${group}${more}` : group));
}
