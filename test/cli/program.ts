import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import * as esbuild from 'esbuild';
import { node } from '../../client/bundles.mjs';

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** The command line, built as it is shipped into a folder of its own. */
export interface Program {
  /** Where it is. */
  readonly file: string;
  /** Runs it in a folder; colours off. `reader` may close its output early. */
  readonly run: (args: readonly string[], folder: string, closeEarly?: boolean, input?: string | Buffer) => Promise<Ended>;
  /** Makes a new folder with these files. */
  readonly folder: (files: Readonly<Record<string, string>>) => string;
  readonly end: () => void;
}

export async function buildProgram(): Promise<Program> {
  const home = mkdtempSync(join(tmpdir(), 'piecewright-'));
  const program = join(home, 'piecewright.cjs');
  await esbuild.build({ ...node, entryPoints: ['server/src/cli/main.ts'], outfile: program });
  let folders = 0;
  return {
    file: program,
    run: async (args, folder, closeEarly = false, input = '') => new Promise((resolve, reject) => {
      const child = spawn(process.execPath, [program, ...args], { cwd: folder, env: { ...process.env, NO_COLOR: '1', FORCE_COLOR: undefined, XDG_CACHE_HOME: join(home, 'cache') } });
      let [out, err] = ['', ''];
      child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
      child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
      child.on('error', reject).on('close', (code) => { resolve({ code, out, err }); });
      child.stdin.on('error', () => undefined).end(input);
      if (closeEarly) child.stdout.destroy();
    }),
    folder: (files) => {
      const made = join(home, `work-${++folders}`);
      mkdirSync(made);
      for (const [path, text] of Object.entries(files)) {
        mkdirSync(dirname(join(made, path)), { recursive: true });
        writeFileSync(join(made, path), text);
      }
      return made;
    },
    end: () => { rmSync(home, { recursive: true, force: true }); },
  };
}
