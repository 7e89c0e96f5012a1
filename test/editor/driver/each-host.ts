import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe } from 'vitest';
import { hostKinds, type Host, type HostKind } from '../hosts/host.ts';
import { startHost } from '../hosts/start.ts';
import { vsix, workspace } from '../setup.ts';
import { openBrowser } from './browser.ts';
import { Workbench } from './workbench.ts';

/**
 * Declares tests that run in each kind of editor, all those of one call in one window.
 *
 * @param drawn flags for how the browser is to draw
 */
export function inEachHost(name: string, declare: (workbench: () => Workbench, kind: HostKind) => void, { trusted = true, git = false, drawn = [] }: { readonly trusted?: boolean; readonly git?: boolean; readonly drawn?: readonly string[] } = {}): void {
  describe.each(hostKinds)(`${name} (%s host)`, (kind) => {
    let host: Host | undefined;
    let browser: Browser | undefined;
    let workbench: Workbench | undefined;
    const opened = (): Workbench => {
      if (workbench === undefined) throw new Error('The editor is not open.');
      return workbench;
    };

    beforeAll(async () => {
      const start = Date.now();
      host = await startHost(kind, { vsix, samples: workspace, trusted, git });
      const up = Date.now();
      browser = await openBrowser(drawn);
      workbench = await Workbench.open(browser, host);
      console.log(`${kind} host: up in ${up - start} ms, window in ${Date.now() - up} ms`);
    });
    afterEach(async ({ task }) => {
      if (task.result?.state !== 'fail') return;
      await workbench?.screenshot(`failed-${kind}-${task.name.replace(/\W+/g, '-')}`);
      // What is still open on top must not make the next test fail too.
      await workbench?.page.keyboard.press('Escape');
    });
    afterAll(async () => {
      await browser?.close();
      await host?.stop();
    });

    declare(opened, kind);
  });
}
