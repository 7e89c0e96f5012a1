import * as vscode from 'vscode';

const type = 'piecewright';

/** Offers `piecewright check` as a task, run by the command line that comes with the extension. */
export function registerTasks(context: vscode.ExtensionContext, commandLine: string): void {
  const provider: vscode.TaskProvider = {
    provideTasks: () => (vscode.workspace.workspaceFolders ?? []).map((folder) => checkTask(commandLine, folder, { type, command: 'check' })),
    resolveTask: (task) => checkTask(commandLine, task.scope ?? vscode.TaskScope.Workspace, task.definition),
  };
  context.subscriptions.push(vscode.tasks.registerTaskProvider(type, provider));
}

function checkTask(commandLine: string, scope: vscode.WorkspaceFolder | vscode.TaskScope, definition: vscode.TaskDefinition): vscode.Task {
  const folder = typeof scope === 'object' ? scope : vscode.workspace.workspaceFolders?.[0];
  const run = new vscode.ProcessExecution(process.execPath, [commandLine, 'check', ...paths(definition)], {
    // The desktop's own program runs scripts only when told to.
    env: { ELECTRON_RUN_AS_NODE: '1' },
    ...(folder === undefined ? {} : { cwd: folder.uri.fsPath }),
  });
  const task = new vscode.Task(definition, scope, 'check', 'piecewright', run, '$piecewright');
  task.group = vscode.TaskGroup.Test;
  task.presentationOptions = { reveal: vscode.TaskRevealKind.Silent, clear: true };
  return task;
}

function paths(definition: vscode.TaskDefinition): readonly string[] {
  const given: unknown = definition['paths'];
  const texts = Array.isArray(given) ? given.filter((item): item is string => typeof item === 'string') : [];
  return texts.length === 0 ? ['.'] : texts;
}
