import type { PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import type { PreviewLays } from '../../server/src/preview/lays-data.ts';
import type { BuyingWish, ChosenOptions, PreviewUpdate } from '../../server/src/lsp/messages.ts';

/** What the preview's host and its page say to each other. */

export type { BuyingWish };
export type Combination = ChosenOptions;

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
  readonly update: PreviewUpdate;
}
/** The cursor has moved in the text: the piece there is to be marked. */
export interface CursorMessage {
  readonly type: 'cursor';
  /** The file that the cursor is in: the pattern itself or one that it uses. */
  readonly file: string;
  readonly offset: number;
  /** Of the text that the offset is in; left out where that is none that is being edited. */
  readonly version?: number;
}
/** No drawing could be made of the text as it is now: what is shown is of an earlier text. */
export interface StaleMessage {
  readonly type: 'stale';
  readonly uri: string;
  readonly reason: string;
}
/** What to buy and how it lies, as far as it is known; sent again whenever something better is found. */
export interface LaysMessage {
  readonly type: 'lays';
  readonly uri: string;
  readonly lays: PreviewLays;
}
/** The pattern has another address: it was saved for the first time, or renamed. */
export interface MovedMessage {
  readonly type: 'moved';
  readonly uri: string;
}
/** Which texts hold what is not saved; sent before each drawing, and whenever one is saved. */
export interface UnsavedMessage {
  readonly type: 'unsaved';
  readonly files: readonly string[];
}
/** What moving a handle comes to, for the question of that number. */
export interface HandleMessage {
  readonly type: 'handle';
  readonly asked: number;
  /** Where the handle would be; null where it is gone. */
  readonly at: readonly [x: number, y: number] | null;
  readonly says: string;
  /** Whether the text is another now, so that a new drawing will come. */
  readonly isWritten: boolean;
}
/** The pieces as they were last committed, for the combination that they were asked for in; no pieces where there is no earlier version. */
export interface CommittedMessage {
  readonly type: 'committed';
  readonly combination: Combination | null;
  readonly pieces: readonly PreviewPiece[] | null;
}
export type HostMessage = CommittedMessage | ShowMessage | UnsavedMessage | CursorMessage | StaleMessage | LaysMessage | MovedMessage | HandleMessage;

/** The page has loaded, or has missed something, and waits for a whole drawing. */
export interface ReadyMessage {
  readonly type: 'ready';
}
/** What it was last sent has been painted, or is in a view that is not painted for it. */
export interface PaintedMessage {
  readonly type: 'painted';
}
/** The page's script or style was lost on the way. */
export interface UnloadedMessage {
  readonly type: 'unloaded';
  /** Which of the tries to load the page it was, counted from 1. */
  readonly load: number;
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
/** What the buying list and its lays are wanted for; left out where they are not looked at. */
export interface WishMessage {
  readonly type: 'wish';
  readonly buying?: BuyingWish;
}
/** Shorter lays are to be looked for, or no longer. */
export interface LookMessage {
  readonly type: 'look';
  readonly on: boolean;
}
/** The handles of a piece are wanted, or of none any more. */
export interface HandledMessage {
  readonly type: 'handled';
  readonly piece: string | null;
}
/** The other options of a choice are to be drawn under what is shown, or of none any more. */
export interface BesideMessage {
  readonly type: 'beside';
  readonly choice: string | null;
}
/** What moving a handle comes to is asked, and written where it is let go. */
export interface MoveMessage {
  readonly type: 'move';
  readonly asked: number;
  readonly piece: string;
  readonly handle: string;
  readonly to: readonly [x: number, y: number];
  readonly isLetGo: boolean;
}
/** Whether the pieces as they were last committed are wanted: now, and again whenever they are others. */
export interface SinceMessage {
  readonly type: 'since';
  readonly committed: boolean;
}
export type PageMessage = PaintedMessage | SinceMessage | ReadyMessage | UnloadedMessage | RevealMessage | ChooseMessage | WishMessage | LookMessage | HandledMessage | BesideMessage | MoveMessage;
