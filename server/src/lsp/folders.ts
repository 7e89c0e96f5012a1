import { Workspace } from '../workspace/workspace.ts';
import type { Host } from './host.ts';
import { withoutMark } from './positions.ts';
import { folderKeyOf, folderUriOf, keyOf, pathIn, uriIn } from './uris.ts';

/** A working folder and what is known of its files. */
export interface Folder {
  readonly uri: string;
  readonly key: string;
  /** Made up for a file that lies in no folder that the client has opened. */
  own: boolean;
  readonly workspace: Workspace;
  /** Whether all its files have been listed. */
  listed: Promise<void> | undefined;
}

/** A file as its folder knows it. */
export interface Home {
  readonly folder: Folder;
  readonly path: string;
}

export interface OpenDocument {
  readonly uri: string;
  readonly key: string;
  readonly version: number;
  readonly text: string;
}

/** The client's folders and open documents. One text may lie in several folders, each with its own view of it. */
export class Folders {
  readonly #host: Host;
  readonly #folders = new Map<string, Folder>();
  readonly #documents = new Map<string, OpenDocument>();

  constructor(host: Host) {
    this.#host = host;
  }

  add(uri: string): void {
    this.#add(uri, false).own = false;
  }

  remove(uri: string): void {
    this.#folders.delete(keyOf(uri));
  }

  all(): readonly Folder[] {
    return [...this.#folders.values()];
  }

  documents(): readonly OpenDocument[] {
    return [...this.#documents.values()];
  }

  document(uri: string): OpenDocument | undefined {
    return this.#documents.get(keyOf(uri));
  }

  /** Takes the text of an open document, new or changed. */
  open(document: Omit<OpenDocument, 'key'>): void {
    const key = keyOf(document.uri);
    this.#documents.set(key, { ...document, key });
    if (this.#homeOf(key) === undefined) this.#add(folderUriOf(document.uri), true);
    for (const { folder, path } of this.#homesOf(key)) folder.workspace.open(path, document.text);
  }

  close(uri: string): void {
    const key = keyOf(uri);
    this.#documents.delete(key);
    for (const { folder, path } of this.#homesOf(key)) folder.workspace.close(path);
    // A folder made up for a file goes with the last document in it.
    for (const folder of this.#folders.values()) {
      if (folder.own && !this.documents().some((document) => this.#pathIn(folder, document.key) !== undefined)) this.#folders.delete(folder.key);
    }
  }

  /**
   * The folder that a file counts in: the innermost one that the client has opened, or else the one that it lies in. An
   * unsaved file counts in the client's first folder.
   */
  home(uri: string): Home {
    const key = keyOf(uri);
    const home = this.#homeOf(key);
    if (home !== undefined) return home;
    // Of a file that is not open, nothing is held beyond the request that asks about it.
    const folder = newFolder(folderUriOf(uri), true);
    return { folder, path: this.#pathIn(folder, key) ?? key };
  }

  #homeOf(key: string): Home | undefined {
    const homes = this.#homesOf(key);
    const opened = homes.filter(({ folder }) => !folder.own);
    return longest(opened.length > 0 ? opened : homes.filter(({ path }) => !path.includes('/')));
  }

  /** The address of a path, as the client spells it where it has it open. */
  uriOf(folder: Folder, path: string): string {
    const uri = uriIn(folder.uri, path);
    const open = this.#documents.get(keyOf(uri)) ?? this.documents().find(({ key }) => isUnsaved(key) && this.#pathIn(folder, key) === path);
    return open?.uri ?? uri;
  }

  /** Reads everything that a file uses, by way of other files too. */
  async load({ folder, path }: Home): Promise<void> {
    for (let wanted = folder.workspace.wanted(path); wanted.length > 0; wanted = folder.workspace.wanted(path)) {
      await Promise.all(wanted.map((one) => this.#read(folder, one)));
    }
  }

  /** Reads all files of a folder; once, since watching keeps them fresh. */
  loadAll(folder: Folder): Promise<void> {
    return (folder.listed ??= this.#list(folder));
  }

  /** A file on disk has been made, changed or taken away. */
  async changed(uri: string, gone: boolean): Promise<void> {
    const key = keyOf(uri);
    const affected = this.#homesOf(key).filter(({ folder, path }) => folder.listed !== undefined || folder.workspace.knowsDisk(path));
    await Promise.all(affected.map(({ folder, path }) => {
      if (!gone) return this.#read(folder, path);
      folder.workspace.setDisk(path, undefined);
      return Promise.resolve();
    }));
  }

  /** A file or a whole folder has gone; what lay in it is there no longer. */
  removed(uri: string): void {
    const key = keyOf(uri);
    for (const folder of this.#folders.values()) {
      for (const path of folder.workspace.paths()) {
        const own = `${folder.key}/${path}`;
        if (own === key || own.startsWith(`${key}/`)) folder.workspace.setDisk(path, undefined);
      }
    }
  }

  /** A folder has come from somewhere: its files are to be looked for again. */
  async relist(): Promise<void> {
    await Promise.all([...this.#folders.values()].filter((folder) => folder.listed !== undefined).map((folder) => (folder.listed = this.#list(folder))));
  }

  async #list(folder: Folder): Promise<void> {
    const uris = await this.#host.list(folder.uri);
    await Promise.all(uris.map(async (uri) => {
      const path = pathIn(folder.key, keyOf(uri));
      if (path !== undefined && !folder.workspace.knowsDisk(path)) await this.#read(folder, path);
    }));
  }

  async #read(folder: Folder, path: string): Promise<void> {
    const read = await this.#host.read(uriIn(folder.uri, path), folder.uri);
    if (read !== undefined && 'unread' in read) folder.workspace.setDisk(path, undefined, read.unread);
    else folder.workspace.setDisk(path, read === undefined ? undefined : withoutMark(read.text));
  }

  #add(uri: string, own: boolean): Folder {
    const key = keyOf(uri);
    const known = this.#folders.get(key);
    if (known !== undefined) return known;
    const folder = newFolder(uri, own);
    this.#folders.set(key, folder);
    for (const document of this.#documents.values()) {
      const path = this.#pathIn(folder, document.key);
      if (path !== undefined) folder.workspace.open(path, document.text);
    }
    return folder;
  }

  #homesOf(key: string): readonly Home[] {
    return [...this.#folders.values()].flatMap((folder) => {
      const path = this.#pathIn(folder, key);
      return path === undefined ? [] : [{ folder, path }];
    });
  }

  #pathIn(folder: Folder, key: string): string | undefined {
    if (!isUnsaved(key)) return pathIn(folder.key, key);
    const first = [...this.#folders.values()].find((one) => !one.own) ?? [...this.#folders.values()].find((one) => one.key === folderKeyOf(key));
    return first === folder ? unsavedPath(key) : undefined;
  }
}

const newFolder = (uri: string, own: boolean): Folder => ({ uri: uri.replace(/\/+$/, ''), key: keyOf(uri), own, workspace: new Workspace(), listed: undefined });

const isUnsaved = (key: string): boolean => key.startsWith('untitled:');
/** No file can have such a name, so that an unsaved text never stands for a saved one. */
const unsavedPath = (key: string): string => key.replace(/\//g, '⁄');

function longest(homes: readonly Home[]): Home | undefined {
  return homes.reduce<Home | undefined>((best, one) => (best === undefined || one.folder.key.length > best.folder.key.length ? one : best), undefined);
}
