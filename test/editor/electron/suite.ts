import assert from 'node:assert/strict';
import * as vscode from 'vscode';

const steps: Readonly<Record<string, () => Promise<void>>> = {
  'a pattern opens in its language and starts the extension': async () => {
    const [file] = await vscode.workspace.findFiles('first.piece');
    assert.ok(file);
    const { document } = await vscode.window.showTextDocument(file);
    assert.equal(document.languageId, 'piecewright');
    const extension = vscode.extensions.getExtension('piecewright.piecewright');
    await until(() => extension?.isActive === true);
  },
  'the server names what a pattern declares': async () => {
    const { document } = editor();
    await until(async () => {
      const symbols = await vscode.commands.executeCommand<readonly { name: string }[] | undefined>('vscode.executeDocumentSymbolProvider', document.uri);
      return symbols?.some(({ name }) => name.includes('body')) === true;
    });
  },
  'the preview opens beside the text': async () => {
    await vscode.commands.executeCommand('piecewright.openPreview');
    await until(() => vscode.window.tabGroups.all.some(({ tabs }) => tabs.some(({ label }) => label === 'first.piece, drawn')));
  },
};

/** Runs inside the desktop editor; throws at the first step that fails. */
export async function run(): Promise<void> {
  for (const [name, step] of Object.entries(steps)) {
    await step();
    console.log(`passed: ${name}`);
  }
  console.log(`${Object.keys(steps).length} passed, 0 failed`);
}

function editor(): vscode.TextEditor {
  assert.ok(vscode.window.activeTextEditor);
  return vscode.window.activeTextEditor;
}

async function until(holds: () => boolean | Promise<boolean>): Promise<void> {
  for (let waited = 0; !(await holds()); waited += 200) {
    assert.ok(waited < 20_000, 'waited too long');
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}
