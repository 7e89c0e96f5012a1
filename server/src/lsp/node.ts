import { createConnection } from 'vscode-languageserver/node';
import { clientFiles } from './client-files.ts';
import { nodeHost } from './node-host.ts';
import { servePlanner, threadLane } from './node-lane.ts';
import { createServer } from './server.ts';

if (!servePlanner()) {
  // The transport is said on the command line: --stdio, --node-ipc, --socket=… or --pipe=….
  const connection = createConnection();
  createServer(connection, nodeHost(clientFiles(connection), threadLane(__filename)));
}
