import type { PreviewData } from '../../server/src/exports/drawing-model.ts';

/** What the preview's host, its page and the server say to each other. */

/** The chosen option of each choice, the size among them. */
export type Combination = Readonly<Record<string, string>>;

/** What the page keeps so that a preview comes back after the editor is reloaded. */
export interface PreviewState {
  /** The pattern that is shown. */
  readonly uri: string;
  readonly combination?: Combination;
}

// ------------------------------------------------------------------------------------------------ host and page

/** The drawing of one version of the pattern. */
export interface ShowMessage {
  readonly type: 'show';
  readonly version: number;
  readonly uri: string;
  readonly data: PreviewData;
}
/** The cursor has moved in the text: the piece there is to be marked. */
export interface CursorMessage {
  readonly type: 'cursor';
  /** The file that the cursor is in: the pattern itself or one that it uses. */
  readonly file: string;
  readonly offset: number;
}
/** No drawing could be made of the text as it is now: what is shown is of an earlier text. */
export interface StaleMessage {
  readonly type: 'stale';
  readonly uri: string;
  readonly reason: string;
}
export type HostMessage = ShowMessage | CursorMessage | StaleMessage;

/** The page has loaded and waits for a drawing. */
export interface ReadyMessage {
  readonly type: 'ready';
}
/** The part of the text that a drawn thing comes from is to be selected. */
export interface RevealMessage {
  readonly type: 'reveal';
  readonly file: string;
  readonly start: number;
  readonly end: number;
}
/** Another combination of sizes and choices is to be drawn. */
export interface ChooseMessage {
  readonly type: 'choose';
  readonly combination: Combination;
}
export type PageMessage = ReadyMessage | RevealMessage | ChooseMessage;

// ------------------------------------------------------------------------------------------------ client and server

/** The request for what the preview draws. */
export const previewRequest = 'piecewright/preview';
export interface PreviewParams {
  readonly uri: string;
  readonly combination?: Combination;
}
/** `null` when there is nothing to draw. */
export type PreviewAnswer = { readonly version: number; readonly data: PreviewData } | null;

/** The server's word that a pattern, or a file that it uses, has changed. */
export const changedNotification = 'piecewright/changed';
export interface ChangedParams {
  readonly uri: string;
  readonly version: number;
}
