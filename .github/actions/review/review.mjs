// Checks specs and compares them with an earlier revision: annotations, a comment, a page and the summary of the run. Ends
// with 1 where a spec has an error, or where its revision doesn't say what was changed.
import { execFileSync } from 'node:child_process';
import { appendFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { asComment } from './as-comment.mjs';

const program = process.env.REVIEW_PROGRAM ?? fileURLToPath(new URL('../../../dist/piecewright.cjs', import.meta.url));
const output = process.env.REVIEW_OUTPUT ?? 'piecewright-review';
const base = process.env.REVIEW_BASE ?? '';
const paths = (process.env.REVIEW_PATHS ?? '.').split('\n').map((path) => path.trim()).filter((path) => path !== '');

if (/^0*$/.test(base) || base.startsWith('-')) fail('There is no revision to compare with: name one as “base”.');
if (paths.length === 0 || paths.some((path) => path.startsWith('-'))) fail('Name specs and folders as “paths”, one on a line.');

const range = `${base}...HEAD`;
mkdirSync(output, { recursive: true });
const checked = run(['check', '--report', 'github', '--report', `sarif=${join(output, 'problems.sarif')}`, '--report', `junit=${join(output, 'problems.xml')}`, ...paths]);
process.stdout.write(checked.out);

const compared = run(['compare', '--git', range, '--format', 'json', '--output', join(output, 'comparison.json'), ...paths]);
const markdown = run(['compare', '--git', range, '--format', 'markdown', ...paths]).out;
run(['compare', '--git', range, '--output', join(output, 'comparison.html'), ...paths]);
const { comparisons, faults = [] } = JSON.parse(readFileSync(join(output, 'comparison.json'), 'utf8'));

const comment = asComment(markdown, compared.err);
writeFileSync(join(output, 'comment.md'), comment);
note('GITHUB_STEP_SUMMARY', comment);
note('GITHUB_OUTPUT', `changed=${String(compared.code !== 0)}\nwritten=true\n`);
process.exitCode = checked.code !== 0 || faults.length > 0 || comparisons.some(({ discipline }) => discipline?.severity === 'error') ? 1 : 0;

/** What the program says, without a shell; it ends with 1 where it has found something, and with 2 where it could not work. */
function run(args) {
  try {
    return { code: 0, out: execFileSync(process.execPath, [program, ...args], { encoding: 'utf8', maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'pipe'] }), err: '' };
  } catch (error) {
    if (error.status !== 1) fail(String(error.stderr ?? error));
    return { code: 1, out: error.stdout, err: error.stderr };
  }
}

function note(variable, text) {
  const file = process.env[variable];
  if (file !== undefined && file !== '') appendFileSync(file, text);
}

function fail(message) {
  console.error(message.trimEnd());
  process.exit(2);
}
