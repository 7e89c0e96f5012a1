// Whose work is in the bundles, and on what terms.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** The folder of the package that a bundled file is from: `node_modules/a/node_modules/@b/c`. Our own files are from none. */
const packageOf = (file) => /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(file)?.[1];

/**
 * The notices of all packages that files were bundled from, by name.
 *
 * @throws where a package says no terms: nothing may be shipped without
 */
export function noticesOf(root, files) {
  const folders = new Set([...files].map(packageOf).filter((folder) => folder !== undefined));
  const notices = new Map([...folders].map((folder) => noticeOf(path.join(root, folder))));
  const sorted = [...notices].sort(([a], [b]) => (a < b ? -1 : 1));
  return ['Piecewright contains parts of these packages.\n', ...sorted.map(([title, terms]) => `${'='.repeat(80)}\n${title}\n${'='.repeat(80)}\n\n${terms}\n`)].join('\n');
}

function noticeOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));
  const terms = termsIn(folder);
  if (terms === '') throw new Error(`${name} ${version} comes without the text of its licence.`);
  return [`${name} ${version} (${license})`, terms];
}

/** The files that hold the licence, or else that section of what the package says of itself. */
function termsIn(folder) {
  const read = (file) => readFileSync(path.join(folder, file), 'utf8').trim();
  const names = readdirSync(folder).sort();
  const files = names.filter((file) => /^(licen[cs]e|copying|notice)/i.test(file));
  if (files.length > 0) return files.map(read).join('\n\n');
  const about = names.filter((file) => /^readme/i.test(file)).map(read).join('\n');
  return /^(?:#+ *Licen[cs]e\b.*|Licen[cs]e\b.*\n[-=]+)\n([^]*?)(?=^#+ |(?![^]))/im.exec(about)?.[1]?.trim() ?? '';
}
