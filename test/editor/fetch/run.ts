import { spawn } from 'node:child_process';

/** Where and how a command of the fetch runs. */
export interface RunOptions {
  readonly cwd?: string;
  /** How often to start over before giving up. */
  readonly tries?: number;
}

/** Prints one line of progress. */
export function say(text: string): void {
  process.stdout.write(`[editors] ${text}\n`);
}

/** Runs a command to its end, and shows its output only when it fails. */
export async function run(command: string, args: readonly string[], options: RunOptions = {}): Promise<void> {
  const tries = options.tries ?? 1;
  for (let attempt = 1; ; attempt++) {
    const { code, output } = await once(command, args, options.cwd);
    if (code === 0) return;
    if (attempt >= tries) throw new Error(`${command} ${args.join(' ')} ended with ${code}:\n${output.slice(-4000)}`);
    say(`${command} ${args.slice(0, 2).join(' ')} failed, trying again (${attempt + 1} of ${tries})`);
    await new Promise((resolve) => setTimeout(resolve, 3000 * attempt));
  }
}

/** Runs a step, and says how long it took. */
export async function timed<T>(what: string, step: () => Promise<T>): Promise<T> {
  const start = Date.now();
  say(`${what} …`);
  const result = await step();
  say(`${what}: done in ${((Date.now() - start) / 1000).toFixed(1)} s`);
  return result;
}

function once(command: string, args: readonly string[], cwd: string | undefined): Promise<{ code: number; output: string }> {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { ...(cwd === undefined ? {} : { cwd }), env: ownEnvironment(), stdio: ['ignore', 'pipe', 'pipe'] });
    let output = '';
    child.stdout.on('data', (chunk: Buffer) => (output += chunk.toString()));
    child.stderr.on('data', (chunk: Buffer) => (output += chunk.toString()));
    child.on('error', reject);
    child.on('close', (code) => resolve({ code: code ?? -1, output }));
  });
}

/** The environment without what `npm run` adds about this package, so that npm works on the host's folder alone. */
function ownEnvironment(): NodeJS.ProcessEnv {
  const about = /^npm_(package|lifecycle|config_local_prefix)|^(INIT_CWD|NODE_ENV|NODE_OPTIONS|VITEST.*)$/;
  const kept = Object.entries(process.env).filter(([key]) => !about.test(key));
  return { ...Object.fromEntries(kept), DEBIAN_FRONTEND: 'noninteractive', npm_config_yes: 'true' };
}
