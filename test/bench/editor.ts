import { cpSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { openBrowser } from '../editor/driver/browser.ts';
import { Workbench } from '../editor/driver/workbench.ts';
import { run } from '../editor/fetch/run.ts';
import { fetchWebHost } from '../editor/fetch/web-host.ts';
import { startWebHost } from '../editor/hosts/web.ts';

const root = process.cwd();
const folder = path.join(root, 'build/bench/workspace');

/** A pattern of a bag's parts, as many as are asked for; the first hangs on a length of its own, `first_w`. */
export function manyPieces(pieces: number): string {
  const piece = (index: number): string =>
    `piece part_${index} "Part ${index}" {\n  outline rectangle ${index === 0 ? 'first_w' : `unit_w + ${index % 17} / 2`} by ${3 + (index % 11)} 1/4\n  corner all round 1/2\n  line core = inset 3/8\n  foldline middle = upright at 2\n  placement label_here = rectangle 1 by 1/2 at 1, 1\n  mark eye at 1 1/2, 2\n  notch top at 50%\n  notch bottom at 50%\n  grain up\n  cut 2 canvas\n  cut 1 poplin along core\n}\n`;
  return `pattern "Many"\nrevision 1\nunit in\nuse "studio/materials.piece"\nallowance 3/8\nlength unit_w = 5\nlength first_w = 1\n${Array.from({ length: pieces }, (_, index) => piece(index)).join('\n')}`;
}

/** Opens a pattern, `many.piece`, in a web editor with the product as it is packed now. */
export async function inWebEditor(text: string, use: (workbench: Workbench) => Promise<void>): Promise<void> {
  await fetchWebHost();
  await run('npm', ['run', 'package'], { cwd: root });
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  cpSync(path.join(root, 'samples/studio'), path.join(folder, 'studio'), { recursive: true });
  writeFileSync(path.join(folder, 'many.piece'), text);
  const host = await startWebHost({ vsix: path.join(root, 'dist/piecewright.vsix'), samples: folder, trusted: true });
  const browser = await openBrowser();
  try {
    const workbench = await Workbench.open(browser, host);
    await workbench.openFile('many.piece');
    await use(workbench);
  } finally {
    await browser.close();
    await host.stop();
  }
}

/** What so large a share of some milliseconds is no more than, for a table. */
export const atShare = (values: readonly number[], share: number): string => ([...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? NaN).toFixed(1).padStart(7);
