import { resolvePath } from '../model/names/paths.ts';
import { Analyst } from '../model/pattern.ts';
import { limits } from '../problems/limits.ts';
import { parseFile } from '../syntax/parse.ts';
import type { SourceFile } from '../syntax/tree.ts';
import { snapshotOf, type Snapshot } from './snapshot.ts';

interface Entry {
  /** What an editor shows, saved or not. It hides what is on disk. */
  open: string | undefined;
  /** What is on disk: `undefined` where nobody has said yet, `null` where there is nothing. */
  disk: string | null | undefined;
  /** The text as last read, to start from at the next edit. */
  file: SourceFile | undefined;
}

interface Kept {
  readonly snapshot: Snapshot;
  /** Every path whose text it used or looked for. */
  readonly asked: ReadonlySet<string>;
}

/**
 * The texts of a working folder by path, and the patterns made from them. It reads no files: its host feeds it texts, on
 * its own or because they are {@link Workspace.wanted}. Paths are relative to the working folder, with forward slashes.
 */
export class Workspace {
  readonly #entries = new Map<string, Entry>();
  readonly #analysts = new Map<string, Analyst>();
  readonly #snapshots = new Map<string, Kept>();

  /** Takes an editor's text for a path; it counts until {@link close}. */
  open(path: string, text: string): void {
    this.#change(path, (entry) => (entry.open = text));
  }

  /** Goes back to what is on disk. */
  close(path: string): void {
    this.#change(path, (entry) => (entry.open = undefined));
    if (this.#text(path) === undefined) this.#analysts.delete(path);
  }

  /** Takes what is on disk; `undefined` says that there is no such file. */
  setDisk(path: string, text: string | undefined): void {
    this.#change(path, (entry) => (entry.disk = text ?? null));
    if (this.#text(path) === undefined) this.#analysts.delete(path);
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

  /** Whether a text is too long to be read; its file then counts as empty. */
  isTooLong(path: string): boolean {
    return (this.#text(path)?.length ?? 0) > limits.textLength;
  }

  /** The text at a path, read; undefined where there is none. */
  file(path: string): SourceFile | undefined {
    const text = this.#text(path);
    const entry = this.#entries.get(path);
    if (text === undefined || entry === undefined) return undefined;
    if (entry.file?.text !== text) {
      entry.file = text.length > limits.textLength ? { path, text, declarations: [], trailing: [] } : parseFile(path, text, entry.file);
    }
    return entry.file;
  }

  /** The pattern at a path as the texts are now; the same object until a text that it uses has changed. */
  snapshot(path: string): Snapshot | undefined {
    const kept = this.#snapshots.get(path);
    if (kept !== undefined) return kept.snapshot;
    const root = this.file(path);
    if (root === undefined) return undefined;
    let analyst = this.#analysts.get(path);
    if (analyst === undefined) this.#analysts.set(path, (analyst = new Analyst()));
    const asked = new Set([path]);
    const snapshot = snapshotOf(analyst.analyse(root, (used) => {
      asked.add(used);
      return this.file(used);
    }));
    this.#snapshots.set(path, { snapshot, asked });
    return snapshot;
  }

  /** The paths that a pattern uses, itself or by way of others, of which nobody has said yet what is on disk. */
  wanted(path: string): readonly string[] {
    const met = new Set([path]);
    const found: string[] = [];
    for (const next of met) {
      const file = this.file(next);
      if (file === undefined && !this.knowsDisk(next)) found.push(next);
      for (const used of file === undefined ? [] : usesOf(file)) met.add(used);
    }
    return found;
  }

  /** The paths of all known files that use this one, itself or by way of others, sorted. */
  usersOf(path: string): readonly string[] {
    const direct = new Map<string, string[]>();
    for (const user of this.paths()) {
      for (const used of usesOf(this.file(user))) direct.set(used, [...(direct.get(used) ?? []), user]);
    }
    const met = new Set([path]);
    for (const next of met) for (const user of direct.get(next) ?? []) met.add(user);
    met.delete(path);
    return [...met].sort();
  }

  #text(path: string): string | undefined {
    const entry = this.#entries.get(path);
    return entry?.open ?? entry?.disk ?? undefined;
  }

  #change(path: string, apply: (entry: Entry) => void): void {
    let entry = this.#entries.get(path);
    if (entry === undefined) this.#entries.set(path, (entry = { open: undefined, disk: undefined, file: undefined }));
    const before = this.#text(path);
    apply(entry);
    if (this.#text(path) === before) return;
    for (const [root, kept] of this.#snapshots) if (kept.asked.has(path)) this.#snapshots.delete(root);
  }
}

const keptUses = new WeakMap<SourceFile, readonly string[]>();

/** The paths that a file names in its `use` lines, each once. */
export function usesOf(file: SourceFile | undefined): readonly string[] {
  if (file === undefined) return [];
  let uses = keptUses.get(file);
  if (uses === undefined) {
    const found = new Set<string>();
    for (const { declaration } of file.declarations) {
      const path = declaration.tree.kind === 'use' ? resolvePath(file.path, declaration.tree.path.value) : undefined;
      if (path !== undefined) found.add(path);
    }
    keptUses.set(file, (uses = [...found]));
  }
  return uses;
}
