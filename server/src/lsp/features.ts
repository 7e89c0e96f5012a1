import type { ServerCapabilities } from 'vscode-languageserver';
import type { Session } from './session.ts';

export function featureCapabilities(_session: Session): ServerCapabilities {
  return {};
}
export function registerFeatures(_session: Session): void {}
