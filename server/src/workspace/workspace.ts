import { resolvePath } from '../model/names/paths.ts';
import { Analyst } from '../model/pattern.ts';
import { limits } from '../problems/limits.ts';
import type { Unread } from '../problems/unread.ts';
import { parseFile } from '../syntax/parse.ts';
import type { SourceFile } from '../syntax/tree.ts';
import { unreadableFile } from '../syntax/unreadable.ts';
import { RecentKeys } from './recent-keys.ts';
import { snapshotOf, type Snapshot } from './snapshot.ts';

interface Entry {
  /** What an editor shows, saved or not. It hides what is on disk. */
  open: string | undefined;
  /** What is on disk: `undefined` where nobody has said yet, `null` where there is nothing. */
  disk: string | null | undefined;
  /** Why what is on disk can’t be read; its text then counts as empty. */
  unread: Unread | 'too long' | undefined;
  /** The text as last read, to start from at the next edit. */
  file: SourceFile | undefined;
  /** The paths that a text uses, so that its tree need not be held for them. */
  uses: { readonly text: string; readonly paths: readonly string[] } | undefined;
}

/** What a pattern was made from. It is the same object for as long as the pattern is the same, and outlives it. */
export interface PatternState {
  /** Every path whose text the pattern used or looked for. */
  readonly asked: ReadonlySet<string>;
}

/** A pattern that is held, and what computes the next one from it. */
interface Held {
  readonly analyst: Analyst;
  snapshot: Snapshot | undefined;
}

/** Patterns of files that no editor shows: so many are held at most, since each takes far more room than its text. */
const mostClosedPatterns = 8;
/** The same for the trees of files that no editor shows and no held pattern uses. */
const mostClosedTrees = 32;
/** Paths at which nothing is, as they are met while a path is typed. */
const mostMissing = 1000;

/** Why what counts of a file can’t be read: what an editor shows always can. */
const unreadOf = ({ open, unread }: Entry): Entry['unread'] => (open === undefined ? unread : undefined);

/**
 * The texts of a working folder by path, and the patterns made from them. It reads no files: its host feeds it texts, on
 * its own or because they are {@link Workspace.wanted}. Paths are relative to the working folder, with forward slashes.
 */
export class Workspace {
  readonly #entries = new Map<string, Entry>();
  readonly #held = new Map<string, Held>();
  readonly #states = new Map<string, PatternState>();
  readonly #closedPatterns = new RecentKeys(mostClosedPatterns, (path) => this.#dropPattern(path));
  readonly #closedTrees = new RecentKeys(mostClosedTrees, (path) => this.#forgetTree(path));
  readonly #missing = new RecentKeys(mostMissing, (path) => this.#forgetMissing(path));

  /** Takes an editor's text for a path; it counts until {@link close}. */
  open(path: string, text: string): void {
    this.#closedPatterns.remove(path);
    this.#closedTrees.remove(path);
    this.#change(path, (entry) => (entry.open = text));
  }

  /** Goes back to what is on disk. */
  close(path: string): void {
    this.#change(path, (entry) => (entry.open = undefined));
    this.#letGo(path);
  }

  /**
   * Takes what is on disk; `undefined` says that there is no such file.
   *
   * @param unread why a file that is there can’t be read
   */
  setDisk(path: string, text: string | undefined, unread?: Unread | 'too long'): void {
    this.#change(path, (entry) => {
      entry.disk = unread === undefined ? (text ?? null) : '';
      entry.unread = unread;
    });
    this.#letGo(path);
    if (text === undefined && unread === undefined) this.#missing.use(path);
    else this.#missing.remove(path);
  }

  /** Whether anyone has said what is on disk at a path. */
  knowsDisk(path: string): boolean {
    return this.#entries.get(path)?.disk !== undefined;
  }

  /** Every path that has a text, sorted. */
  paths(): readonly string[] {
    return [...this.#entries.keys()].filter((path) => this.#text(path) !== undefined).sort();
  }

  text(path: string): string | undefined {
    return this.#text(path);
  }

  /** The text at a path, read; undefined where there is none. */
  file(path: string): SourceFile | undefined {
    const text = this.#text(path);
    const entry = this.#entries.get(path);
    if (text === undefined || entry === undefined) return undefined;
    const unread = unreadOf(entry);
    if (unread !== undefined) entry.file ??= unreadableFile(path, unread);
    else if (entry.file?.text !== text) entry.file = parseFile(path, text, entry.file);
    if (entry.open === undefined) this.#closedTrees.use(path);
    return entry.file;
  }

  /** The pattern at a path as the texts are now; the same object until a text that it uses has changed. */
  snapshot(path: string): Snapshot | undefined {
    const root = this.file(path);
    if (root === undefined) return undefined;
    let held = this.#held.get(path);
    if (held === undefined) this.#held.set(path, (held = { analyst: new Analyst(), snapshot: undefined }));
    if (this.#entries.get(path)?.open === undefined) this.#closedPatterns.use(path);
    if (held.snapshot !== undefined) return held.snapshot;
    const asked = new Set([path]);
    held.snapshot = snapshotOf(held.analyst.analyse(root, (used) => {
      asked.add(used);
      return this.file(used);
    }));
    if (!this.#states.has(path)) this.#states.set(path, { asked });
    return held.snapshot;
  }

  /** The pattern at a path, if it is held and still holds: nothing is made for it. */
  heldSnapshot(path: string): Snapshot | undefined {
    return this.#held.get(path)?.snapshot;
  }

  /** The very same object until a text that a pattern uses has changed, whether the pattern is still held or not. */
  stateOf(path: string): PatternState | undefined {
    const state = this.#states.get(path);
    if (state !== undefined) return state;
    this.snapshot(path);
    return this.#states.get(path);
  }

  /** How many patterns and trees are held. */
  get size(): { readonly patterns: number; readonly trees: number; readonly paths: number } {
    const entries = [...this.#entries.values()];
    return { patterns: this.#held.size, trees: entries.filter(({ file }) => file !== undefined).length, paths: entries.length };
  }

  /**
   * The paths that a pattern uses, itself or by way of others, of which nobody has said yet what is on disk: of no more
   * files than a pattern may use.
   */
  wanted(path: string): readonly string[] {
    const met = new Set([path]);
    const missing: string[] = [];
    for (const next of met) {
      if (this.#text(next) === undefined && !this.knowsDisk(next)) missing.push(next);
      for (const used of this.#uses(next)) if (met.size <= limits.files) met.add(used);
    }
    return missing;
  }

  /** The paths of all files here that use this one, itself or by way of others, sorted. */
  usersOf(path: string): readonly string[] {
    const direct = new Map<string, string[]>();
    for (const user of this.paths()) {
      for (const used of this.#uses(user)) {
        const users = direct.get(used);
        if (users === undefined) direct.set(used, [user]);
        else users.push(user);
      }
    }
    const met = new Set([path]);
    for (const next of met) for (const user of direct.get(next) ?? []) met.add(user);
    met.delete(path);
    return [...met].sort();
  }

  #uses(path: string): readonly string[] {
    const text = this.#text(path);
    const entry = this.#entries.get(path);
    if (text === undefined || entry === undefined) return [];
    if (entry.uses?.text !== text) entry.uses = { text, paths: usesOf(this.file(path)) };
    return entry.uses.paths;
  }

  #text(path: string): string | undefined {
    const entry = this.#entries.get(path);
    return entry?.open ?? entry?.disk ?? undefined;
  }

  #change(path: string, apply: (entry: Entry) => void): void {
    let entry = this.#entries.get(path);
    if (entry === undefined) this.#entries.set(path, (entry = { open: undefined, disk: undefined, unread: undefined, file: undefined, uses: undefined }));
    const [before, unreadBefore] = [this.#text(path), unreadOf(entry)];
    apply(entry);
    if (unreadOf(entry) !== unreadBefore) entry.file = undefined;
    else if (this.#text(path) === before) return;
    for (const [root, { asked }] of this.#states) {
      if (!asked.has(path)) continue;
      this.#states.delete(root);
      const held = this.#held.get(root);
      if (held !== undefined) held.snapshot = undefined;
    }
  }

  /** What no editor shows any more is held for a while only, and not at all where there is nothing. */
  #letGo(path: string): void {
    const entry = this.#entries.get(path);
    if (entry === undefined || entry.open !== undefined) return;
    if (this.#text(path) === undefined) {
      this.#dropPattern(path);
      this.#states.delete(path);
      this.#closedPatterns.remove(path);
      this.#closedTrees.remove(path);
      entry.file = undefined;
      if (entry.disk === undefined) this.#entries.delete(path);
      return;
    }
    if (this.#held.has(path)) this.#closedPatterns.use(path);
    if (entry.file !== undefined) this.#closedTrees.use(path);
  }

  #dropPattern(path: string): void {
    this.#held.delete(path);
    // Trees that were held for it alone may go in their turn.
    for (const used of this.#states.get(path)?.asked ?? []) {
      const entry = this.#entries.get(used);
      if (entry?.file !== undefined && entry.open === undefined) this.#closedTrees.use(used);
    }
  }

  /** Lets a tree go, save where a held pattern uses it: its next reading would take nothing over. */
  #forgetTree(path: string): void {
    for (const root of this.#held.keys()) if (this.#states.get(root)?.asked.has(path) === true) return;
    const entry = this.#entries.get(path);
    if (entry !== undefined && entry.open === undefined) entry.file = undefined;
  }

  /** Nobody asks for a path any more at which nothing is: should it be met again, it is looked for again. */
  #forgetMissing(path: string): void {
    const entry = this.#entries.get(path);
    if (entry?.disk !== null || entry.open !== undefined) return;
    for (const { asked } of this.#states.values()) if (asked.has(path)) return;
    this.#entries.delete(path);
  }
}

const usesByFile = new WeakMap<SourceFile, readonly string[]>();

/** The paths that a file names in its `use` lines, each once. */
export function usesOf(file: SourceFile | undefined): readonly string[] {
  if (file === undefined) return [];
  let uses = usesByFile.get(file);
  if (uses === undefined) {
    const paths = new Set<string>();
    for (const { declaration } of file.declarations) {
      const path = declaration.tree.kind === 'use' ? resolvePath(file.path, declaration.tree.path.value) : undefined;
      if (path !== undefined) paths.add(path);
    }
    usesByFile.set(file, (uses = [...paths]));
  }
  return uses;
}
