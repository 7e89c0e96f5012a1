import { cpSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { openBrowser } from '../editor/driver/browser.ts';
import { Workbench } from '../editor/driver/workbench.ts';
import { run } from '../editor/fetch/run.ts';
import { fetchWebHost } from '../editor/fetch/web-host.ts';
import { startWebHost } from '../editor/hosts/web.ts';

const root = process.cwd();
const folder = path.join(root, 'build/bench/workspace');

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
