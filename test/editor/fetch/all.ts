import { fetchNodeHost } from './node-host.ts';
import { installSystemPackages } from './system.ts';
import { fetchWebHost } from './web-host.ts';

/** Brings everything that the tests in a real editor run on; what is here already is used again. */
export async function fetchHosts(): Promise<void> {
  await installSystemPackages();
  await fetchWebHost();
  await fetchNodeHost();
}
