import type { Host, HostKind, HostOptions } from './host.ts';
import { startNodeHost } from './node.ts';
import { startWebHost } from './web.ts';

/** Starts an editor of either kind. */
export function startHost(kind: HostKind, options: HostOptions): Promise<Host> {
  return kind === 'web' ? startWebHost(options) : startNodeHost(options);
}
