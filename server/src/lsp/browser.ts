import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { clientFiles } from './client-files.ts';
import type { Host } from './host.ts';
import { createServer } from './server.ts';
import { serveInWorker, workersOf } from '../platform/browser-workers.ts';
import { plannerRole, plannerWork } from '../planner/work.ts';

const worker = self as unknown as DedicatedWorkerGlobalScope;
/** A message to oneself comes after what is already waiting. */
function laterTurns(): Host['soon'] {
  const { port1, port2 } = new MessageChannel();
  const waiting: (() => void)[] = [];
  port1.onmessage = () => waiting.shift()?.();
  return (run) => {
    waiting.push(run);
    port2.postMessage(undefined);
  };
}

const soon = laterTurns();
if (!serveInWorker(worker, soon, plannerRole, plannerWork)) {
  const connection = createConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker));
  createServer(connection, { ...clientFiles(connection), soon, openPlanner: workersOf(self.location.href, plannerRole) });
}
