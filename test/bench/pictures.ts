import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pagesOf } from '../../server/src/pages/pages.ts';
import { greyPng, sideBySide } from '../support/png.ts';
import { made, optionsFor, rasterOf, samplePattern, samplePatterns } from '../support/pages.ts';

/**
 * Pictures of every sample’s booklet for whoever looks at what is printed: black and white at 300 dots an inch, on A4 and
 * on Letter, in `build/pages/`. With `--readme` only the readme’s picture, from the wallet. Needs Debian’s poppler-utils.
 */
const dotsPerInch = 300;

if (process.argv.includes('--readme')) readmePicture();
else for (const name of samplePatterns) for (const paper of ['a4', 'letter']) pictures(name, paper);

function pictures(name: string, paper: string): void {
  const folder = join('build', 'pages', `${name}-${paper}`);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const file = join(folder, `${name}.pdf`);
  writeFileSync(file, made(samplePattern(name), 'pdf', optionsFor(paper)));
  const { status, stderr, error } = spawnSync('pdftoppm', ['-r', String(dotsPerInch), '-mono', '-png', file, join(folder, 'page')], { encoding: 'utf8' });
  if (error !== undefined || status !== 0) throw new Error(`pdftoppm can’t paint ${file}: ${error?.message ?? stderr}`);
  console.log(folder);
}

/** The booklet’s first page, and the last of the sheets that hold whole templates. */
function readmePicture(): void {
  const pattern = samplePattern('orchard-wallet');
  const { sheets } = pagesOf(pattern, new Map(), optionsFor());
  const pdf = made(pattern, 'pdf');
  const whole = sheets.findLastIndex(({ kind }) => kind === 'templates');
  writeFileSync(join('client', 'media', 'pages.png'), greyPng(sideBySide([rasterOf(pdf, 1, 62), rasterOf(pdf, whole + 1, 62)], 14)));
}
