import { execFileSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { inEachHost } from './driver/each-host.ts';

const command = 'Piecewright: Show What Changed Since the Last Commit';
const file = 'market-apron.piece';

inEachHost('what has changed since the last commit', (workbench, kind) => {
  if (kind === 'web') {
    it('is nothing to compare with where no git is at hand, and that is said', async () => {
      await workbench().openFile(file);
      await workbench().runCommand(command);
      await workbench().message(/There is nothing to compare with/);
    });
    return;
  }

  it('is shown beside the text, and follows what is typed', async () => {
    const folder = workbench().folder;
    if (folder === undefined) throw new Error('The host has no folder.');
    const git = (...args: readonly string[]): unknown => execFileSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.com', '-c', 'commit.gpgsign=false', ...args], { cwd: folder, stdio: 'ignore' });
    git('init', '--quiet');
    git('add', '.');
    git('commit', '--quiet', '--message', 'First');
    await workbench().reload();
    await workbench().openFile(file);
    const page = workbench().markdownPage();
    // Until the editor has found the repository there is nothing to compare with: whoever asks again is shown it.
    for (let tries = 4; tries > 0 && (await page.getByText(/no change/).count()) === 0; tries--) {
      await workbench().runCommand(command);
      await page.getByText(/no change/).waitFor({ timeout: 15_000 }).catch(() => undefined);
    }
    await page.getByText(/no change/).waitFor();
    const text = (await workbench().savedText(file)) ?? '';
    await workbench().focusText();
    const line = text.split('\n').findIndex((one) => one.startsWith('revision '));
    await workbench().typeAt(line + 1, (text.split('\n')[line] ?? '').length + 1, '0');
    await page.getByText(/The revision was raised/).waitFor();
    await workbench().screenshot(`changes-${kind}`);
    // What is committed is what it is compared with from then on.
    await workbench().save();
    await expect.poll(() => workbench().savedText(file)).not.toBe(text);
    git('commit', '--quiet', '--all', '--message', 'Second');
    await expect.poll(() => page.getByText(/raised/).count(), { timeout: 20_000 }).toBe(0);
    await page.getByText(/no change/).waitFor();
  });

  it('lies under the board’s pieces, in what is typed now and until it is committed', async () => {
    const folder = workbench().folder;
    if (folder === undefined) throw new Error('The host has no folder.');
    await workbench().focusText();
    await workbench().runCommand('Piecewright: Open Preview');
    const frame = workbench().previewFrame();
    await frame.getByLabel('Changes:').selectOption('committed');
    const text = (await workbench().savedText(file)) ?? '';
    const line = text.split('\n').findIndex((one) => one.startsWith('length pocket_w = '));
    await workbench().focusText();
    await workbench().typeAt(line + 1, (text.split('\n')[line] ?? '').length + 1, ' + 1');
    await frame.locator('.since span:visible', { hasText: /^Changed since committed: (?:2 pieces|.*Pocket)/ }).waitFor();
    await workbench().save();
    await expect.poll(() => workbench().savedText(file)).not.toBe(text);
    await frame.locator('.since span:visible', { hasText: /^Changed since committed: (?:2 pieces|.*Pocket)/ }).waitFor();
    await workbench().screenshot(`changes-board-${kind}`);
    execFileSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.com', '-c', 'commit.gpgsign=false', 'commit', '--quiet', '--all', '--message', 'Third'], { cwd: folder, stdio: 'ignore' });
    await expect.poll(() => frame.locator('.since').isVisible(), { timeout: 20_000 }).toBe(false);
  });
}, { git: true });
