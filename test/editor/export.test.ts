import { expect, it } from 'vitest';
import { printed } from './driver/command-line.ts';
import { inEachHost } from './driver/each-host.ts';

const wallet = 'orchard-wallet.piece';
const command = 'Piecewright: Export Cutting Table…';

inEachHost('exporting the cutting table', (workbench, kind) => {
  it.each([
    ['Markdown', 'md', 'markdown', 'Piece by piece', 'piece'],
    ['HTML', 'html', 'html', 'Material by material', 'material'],
  ] as const)('writes %s as the command line does, and shows it as a page', async (label, ending, format, grouping, by) => {
    await workbench().openFile(wallet);
    await workbench().runCommand(command);
    await workbench().pick(label);
    await workbench().pick(grouping);
    await workbench().pick('trim felt');
    if (format === 'markdown') await workbench().screenshot(`export-${kind}`);
    expect(await workbench().acceptFileName()).toMatch(new RegExp(`orchard-wallet-cutting-table\\.${ending}$`));
    const told = await workbench().message(new RegExp(`The cutting table is in orchard-wallet-cutting-table\\.${ending}`));
    // At once: a message goes by itself while a table is printed to hold against.
    await told.getByRole('button', { name: 'Open' }).click();
    // Not its source: that would be Markdown’s signs, or tags.
    const page = format === 'html' ? workbench().previewFrame() : workbench().markdownPage();
    await page.getByRole('heading', { name: /^Orchard wallet/ }).waitFor();
    expect(await workbench().savedText(`orchard-wallet-cutting-table.${ending}`)).toBe(printed('table', wallet, '--format', format, '--by', by, '--choose', 'trim=felt'));
    await workbench().closeAll();
  });

  it('writes every combination into one file', async () => {
    await workbench().openFile('harvest-bunting.piece');
    await workbench().runCommand(command);
    await workbench().pick('CSV');
    await workbench().pick('Piece by piece');
    await workbench().pick('Every combination');
    await workbench().acceptFileName();
    await workbench().message(/The cutting table is in harvest-bunting-cutting-table\.csv/);
    expect(await workbench().savedText('harvest-bunting-cutting-table.csv')).toBe(printed('table', 'harvest-bunting.piece', '--format', 'csv', '--all'));
  });

  it('is stopped by its Cancel, and then writes nothing', async () => {
    await workbench().openFile('many-ways.piece');
    await workbench().runCommand(command);
    await workbench().pick('CSV');
    await workbench().pick('Piece by piece');
    await workbench().pick('Every combination');
    await workbench().acceptFileName();
    const working = await workbench().message(/Writing the cutting table/);
    await workbench().screenshot(`export-working-${kind}`);
    await working.getByRole('button', { name: 'Cancel' }).click();
    await working.waitFor({ state: 'detached' });
    // The next is not kept waiting by the one that was stopped, and is the only one there is.
    await workbench().runCommand(command);
    await workbench().pick('JSON');
    await workbench().pick('size S1');
    await workbench().acceptFileName();
    await workbench().message(/The cutting table is in many-ways-cutting-table\.json/);
    expect(JSON.parse((await workbench().savedText('many-ways-cutting-table.json')) ?? '')).toMatchObject({ tables: [{ title: 'Many ways', combination: [{ option: 'S1' }, { option: 'shallow' }, { option: 'small' }] }] });
    expect(await workbench().savedText('many-ways-cutting-table.csv')).toBeUndefined();
  });

  it('refuses while the pattern has errors, and shows them', async () => {
    await workbench().openFile('unfinished.piece');
    await workbench().runCommand(command);
    const told = await workbench().message(/There is no cutting table while the pattern has errors\. Line 22: There is no value called “lid_height”/);
    await workbench().screenshot(`export-refused-${kind}`);
    await told.getByRole('button', { name: 'Show Problems' }).click();
    await workbench().page.locator('.markers-panel', { hasText: 'lid_height' }).waitFor();
  });
});
