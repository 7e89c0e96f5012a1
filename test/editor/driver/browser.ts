import { chromium, type Browser } from 'playwright-core';
import { browserPath } from '../fetch/system.ts';

/** Opens the browser that the editors are shown in. It calls nobody. */
export function openBrowser(more: readonly string[] = []): Promise<Browser> {
  const quiet = ['quic', 'background-networking', 'component-update', 'sync'].map((what) => `--disable-${what}`);
  return chromium.launch({ executablePath: browserPath, args: ['--no-sandbox', '--disable-gpu', '--no-first-run', ...quiet, ...more] });
}
