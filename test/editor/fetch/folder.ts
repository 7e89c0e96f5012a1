import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { say, timed } from './run.ts';

/** The top folder of the product; looked for, since a bundled script lies elsewhere than this file. */
export const root = topAbove(path.dirname(fileURLToPath(import.meta.url)));

function topAbove(folder: string): string {
  return existsSync(path.join(folder, 'package.json')) ? folder : topAbove(path.dirname(folder));
}

const editors = process.env['PIECEWRIGHT_EDITORS'] ?? path.join(root, '.editors');

/** A host as npm has it. */
export interface HostPackage {
  readonly name: string;
  readonly version: string;
}

/** Where a host's package is once it is fetched. */
export function packageFolder(host: HostPackage): string {
  return path.join(hostFolder(host), 'node_modules', host.name);
}

/** Fetches a host once: a mark is left only when all steps went well, and without it the fetch starts over. */
export async function fetchOnce(host: HostPackage, steps: (folder: string) => Promise<void>): Promise<void> {
  const folder = hostFolder(host);
  const mark = path.join(folder, 'fetched');
  if (existsSync(mark)) return say(`${host.name} ${host.version}: already here`);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(path.join(folder, 'package.json'), '{ "private": true }\n');
  await timed(`${host.name} ${host.version}`, () => steps(folder));
  writeFileSync(mark, '');
}

function hostFolder(host: HostPackage): string {
  return path.join(editors, `${host.name}-${host.version}`);
}
