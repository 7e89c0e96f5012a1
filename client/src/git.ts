import * as vscode from 'vscode';

/** As much of the built-in git extension's public interface (its version 1) as is used here. */
interface Repository {
  /** What a file said in a revision; fails where it was not there. */
  readonly show: (revision: string, path: string) => Promise<string>;
  readonly state: { readonly onDidChange: vscode.Event<void> };
}
interface Git {
  readonly getRepository: (uri: vscode.Uri) => Repository | null;
  readonly onDidOpenRepository: vscode.Event<Repository>;
  readonly repositories: readonly Repository[];
}
interface GitExtension {
  readonly enabled: boolean;
  readonly getAPI: (version: 1) => Git;
}

/** What a file said when it was last committed; undefined where it was not there, or where there is no git. */
export async function committedText(uri: vscode.Uri): Promise<string | undefined> {
  const git = await gitOf();
  try {
    return await git?.getRepository(uri)?.show('HEAD', uri.fsPath);
  } catch {
    return undefined;
  }
}

/** Calls back where something may have been committed; not at all where there is no git. */
export async function onCommit(run: () => void, disposables: vscode.Disposable[]): Promise<void> {
  const git = await gitOf();
  if (git === undefined) return;
  const follow = (repository: Repository): void => void disposables.push(repository.state.onDidChange(run));
  git.repositories.forEach(follow);
  disposables.push(git.onDidOpenRepository((repository) => {
    follow(repository);
    run();
  }));
}

async function gitOf(): Promise<Git | undefined> {
  const extension = vscode.extensions.getExtension<GitExtension>('vscode.git');
  try {
    const exports = await extension?.activate();
    return exports?.enabled === true ? exports.getAPI(1) : undefined;
  } catch {
    return undefined;
  }
}
