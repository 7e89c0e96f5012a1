import { execFileSync, spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** What came of some tests: those that failed, and what kept others from running at all. */
export interface Outcome {
  readonly failed: readonly string[];
  readonly broken: readonly string[];
}

/** A copy of the tree in a folder of its own, where the code may be spoilt: the tree itself is never written to. */
export class Copy {
  readonly #folder = mkdtempSync(join(tmpdir(), 'piecewright-mutants-'));

  constructor() {
    const files = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard', '-z'], { cwd: root, encoding: 'utf8' }).split('\0');
    for (const file of files.filter((one) => one !== '' && existsSync(join(root, one)))) {
      mkdirSync(dirname(join(this.#folder, file)), { recursive: true });
      copyFileSync(join(root, file), join(this.#folder, file));
    }
    symlinkSync(join(root, 'node_modules'), join(this.#folder, 'node_modules'), 'junction');
    execFileSync(process.execPath, ['grammar/generate.mjs'], { cwd: this.#folder });
  }

  /** Calls `look` while one text of a file is another; the file is whole again after that, whatever happens. */
  while<T>(file: string, before: string, after: string, look: () => T): T {
    const path = join(this.#folder, file);
    const text = readFileSync(path, 'utf8');
    const times = text.split(before).length - 1;
    if (times !== 1) throw new Error(`${file} has this ${times} times, not once: ${before}`);
    writeFileSync(path, text.replace(before, () => after));
    try {
      return look();
    } finally {
      writeFileSync(path, text);
    }
  }

  /** Runs test files until one test fails; those of the preview's page in a browser. */
  test(files: readonly string[]): Outcome {
    const isPage = (file: string): boolean => file.endsWith('.browser.test.ts');
    const quick = this.#run(files.filter((file) => !isPage(file)), 'test/vitest.config.mts');
    if (quick.failed.length > 0 || quick.broken.length > 0) return quick;
    return this.#run(files.filter(isPage), 'test/page.vitest.config.mts');
  }

  #run(files: readonly string[], config: string): Outcome {
    if (files.length === 0) return { failed: [], broken: [] };
    const report = join(this.#folder, 'build', 'outcome.json');
    rmSync(report, { force: true });
    // What this very run tells its tests is not for those of the copy.
    const environment = Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^(?:VITEST|VITE_|NODE_ENV|TEST$|MODE$|DEV$|PROD$|BASE_URL|SSR$)/.test(name)));
    spawnSync(process.execPath, ['node_modules/vitest/vitest.mjs', 'run', '--config', config, '--bail', '1', '--reporter', 'json', '--outputFile', report, ...files], { cwd: this.#folder, env: environment, timeout: 300_000 });
    if (!existsSync(report)) return { failed: [], broken: ['no answer within five minutes'] };
    const { testResults } = JSON.parse(readFileSync(report, 'utf8')) as { testResults: { name: string; status: string; message: string; assertionResults: { fullName: string; status: string }[] }[] };
    return {
      failed: testResults.flatMap(({ assertionResults }) => assertionResults.filter(({ status }) => status === 'failed').map(({ fullName }) => fullName)),
      broken: testResults.filter(({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0).map(({ message }) => message),
    };
  }

  remove(): void {
    rmSync(this.#folder, { recursive: true, force: true });
  }
}
