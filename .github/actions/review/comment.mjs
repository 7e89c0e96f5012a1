// Writes the comment of a review, or puts it in the place of the one of the last run.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { mark } from './as-comment.mjs';

const { GITHUB_API_URL: api = 'https://api.github.com', GITHUB_REPOSITORY: repository = '', REVIEW_OUTPUT: output = '', REVIEW_PULL_REQUEST: number = '', REVIEW_TOKEN: token = '' } = process.env;
if (!/^\d+$/.test(number) || !/^[\w.-]+\/[\w.-]+$/.test(repository)) {
  console.error('There is no pull request to comment on.');
  process.exit(2);
}

const body = JSON.stringify({ body: readFileSync(join(output, 'comment.md'), 'utf8') });
const issues = `${api}/repos/${repository}/issues`;
const earlier = await find();
const answer = await ask(earlier === undefined ? `${issues}/${number}/comments` : `${issues}/comments/${earlier}`, { method: earlier === undefined ? 'POST' : 'PATCH', body });
// A pull request from a fork may not write: the summary of the run has the same.
if (answer.status === 403) console.log('::notice::This run may not comment: the comparison stands in its summary.');
else if (!answer.ok) {
  console.error(`The comment could not be written: ${answer.status}.`);
  process.exitCode = 1;
}

/** The comment of an earlier run: only a program's own counts, since anybody can write the mark. */
async function find() {
  for (let page = 1; page <= 20; page++) {
    const listed = await ask(`${issues}/${number}/comments?per_page=100&page=${page}`);
    if (!listed.ok) return undefined;
    const comments = await listed.json();
    const own = comments.find((comment) => comment.user?.type === 'Bot' && comment.body?.startsWith(mark));
    if (own !== undefined) return own.id;
    if (comments.length < 100) return undefined;
  }
  return undefined;
}

function ask(address, init = {}) {
  return fetch(address, { ...init, headers: { accept: 'application/vnd.github+json', authorization: `Bearer ${token}`, 'x-github-api-version': '2022-11-28', ...(init.body === undefined ? {} : { 'content-type': 'application/json' }) } });
}
