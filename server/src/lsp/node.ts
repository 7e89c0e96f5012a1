import { createConnection } from 'vscode-languageserver/node';
import { clientFiles } from './client-files.ts';
import { nodeHost } from './node-host.ts';
import { createServer } from './server.ts';
import { serveInThread, threadsOf } from '../platform/node-workers.ts';
import { plannerRole, plannerWork } from '../planner/work.ts';

if (!serveInThread(plannerRole, plannerWork)) {
  // The transport is said on the command line: --stdio, --node-ipc, --socket=… or --pipe=….
  const connection = createConnection();
  createServer(connection, nodeHost(clientFiles(connection), threadsOf(__filename, plannerRole)));
}
