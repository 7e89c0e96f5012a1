import type * as vscode from 'vscode';

/**
 * Ends with the next event, or when nobody waits for it any more.
 *
 * @param longest milliseconds after which it is not waited for any longer; without an end where left out
 */
export async function next(event: vscode.Event<void>, token: vscode.CancellationToken, longest?: number): Promise<void> {
  if (token.isCancellationRequested) return;
  const listeners: vscode.Disposable[] = [];
  let timer: ReturnType<typeof setTimeout> | undefined;
  await new Promise<void>((resolve) => {
    listeners.push(event(resolve), token.onCancellationRequested(() => resolve()));
    if (longest !== undefined) timer = setTimeout(resolve, longest);
  });
  clearTimeout(timer);
  for (const listener of listeners) listener.dispose();
}
