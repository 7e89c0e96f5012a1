import { resolve } from 'node:path';
import { decoded, mostBytes, type ReadText } from '../platform/decode.ts';
import { specPath, type SpecPath } from './files.ts';

/** What comes from standard input, as a spec of its own. */
export async function standardInput(name: string): Promise<SpecPath & { readonly read: ReadText }> {
  const chunks: Buffer[] = [];
  let length = 0;
  for await (const chunk of process.stdin as AsyncIterable<Buffer>) {
    chunks.push(chunk);
    length += chunk.length;
    // Whoever writes more is not waited for.
    if (length > mostBytes) break;
  }
  return { ...specPath(resolve(process.cwd(), name), process.cwd()), read: decoded(Buffer.concat(chunks)) };
}
