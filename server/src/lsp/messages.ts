import type { ChosenOptions } from '../table/combinations.ts';
import type { PreviewPiece } from '../preview/drawing-data.ts';
import type { PreviewLays } from '../preview/lays-data.ts';

/** What client and server say to each other beyond the language server protocol. */

export type { ChosenOptions };

// ------------------------------------------------------------------------------------------------ client to server

/**
 * The request for what the preview draws: as it is now, or as soon as it is otherwise than what was last told of. A client
 * that always has one such question waiting is told of each change by the answer itself, and never of more than it takes in.
 */
export const previewRequest = 'piecewright/preview';
export interface PreviewParams {
  readonly uri: string;
  readonly combination?: ChosenOptions;
  /** What the buying list is wanted for; it is planned only where this is given. */
  readonly buying?: BuyingWish | null;
  /** The serial number of what the client shows of it now, so that only what has changed need be sent. */
  readonly known?: number;
  /** The piece whose handles are wanted. */
  readonly handled?: string | null;
  /** The choice whose other options are to be drawn under what is shown. */
  readonly beside?: string | null;
  /** The answer is to wait until there is another text than that of the answer before. */
  readonly waits?: boolean;
}
/** What the buying list is wanted for. */
export interface BuyingWish {
  /** How many articles are made; one where it is left out. */
  readonly articles?: number;
  /** Other widths that the materials may be sold in, as they were typed: `44 in, 60 in = 12.50`. */
  readonly widths?: string;
  /** How the cloth is spread; whichever is shorter where it is left out. */
  readonly lay?: 'shorter' | 'open' | 'folded';
}
/** The version is the text's; `null` when there is nothing to draw. */
export type PreviewAnswer = { readonly version: number; readonly update: PreviewUpdate } | null;
/** The whole of what is shown, or what is different from what was shown before. */
export interface PreviewUpdate {
  readonly serial: number;
  /** The serial number of what it changes; left out where it is the whole. */
  readonly since?: number;
  /**
   * JSON of a `PreviewData`, or of a `Delta` to one. It is handed on as it is from thread to thread: a text is copied many
   * times faster than what it says.
   */
  readonly data: string;
}

/** The request for what moving a handle of a piece's drawing comes to. */
export const moveRequest = 'piecewright/move';
export interface MoveParams {
  readonly uri: string;
  readonly combination?: ChosenOptions;
  readonly piece: string;
  readonly handle: string;
  /** Millimetres in the piece's own frame, y upwards. */
  readonly to: readonly [x: number, y: number];
}
/** Where the handle is then, what is said of that, and what to write for it; `null` when there is no such handle. */
export type MoveAnswer = { readonly at: readonly [x: number, y: number]; readonly says: string; readonly changes: readonly MoveChange[] } | null;
/** A number to write in the place of another. */
export interface MoveChange {
  readonly uri: string;
  /** UTF-16 offsets in its document; the end is exclusive. */
  readonly start: number;
  readonly end: number;
  /** What stands there in the text that the server has. */
  readonly before: string;
  readonly text: string;
}

/** The request for what may be chosen before a table is exported. */
export const choicesRequest = 'piecewright/choices';
export interface ChoicesParams {
  readonly uri: string;
}
/** Each choice with its options, the size among them, or the errors that leave no table. */
export type ChoicesAnswer = { readonly choices: readonly { readonly name: string; readonly options: readonly string[] }[] } | { readonly problems: readonly string[] };

/** The request for a pattern's cutting table as a text. */
export const exportRequest = 'piecewright/export';
export const exportFormats = ['markdown', 'csv', 'html', 'json'] as const;
export type ExportFormat = (typeof exportFormats)[number];
export interface ExportParams {
  readonly uri: string;
  readonly format: ExportFormat;
  readonly by: 'piece' | 'material';
  /** One combination, or one table for each; the first combination where it is left out. */
  readonly combination?: ChosenOptions | 'all';
}
/** The text; or the errors that leave no table, each a sentence with where it stands; or why there is none of what was asked for. */
export type ExportAnswer = { readonly text: string } | { readonly problems: readonly string[] } | { readonly refused: string };

/** The request for a pattern's pages, or for the files that other programs take. */
export const pagesRequest = 'piecewright/pages';
export interface PagesParams {
  readonly uri: string;
  readonly format: 'pdf' | 'projector' | 'svg' | 'dxf' | 'xlsx' | 'json';
  /** `a4`, `roll-36in`: as on the command line; A4 where it is left out. */
  readonly paper?: string;
  /** All pieces that are cut along a line, or only those that can't be cut to measure; all where it is left out. */
  readonly templates?: 'all' | 'needed';
  /** One combination; all its sizes where it names none. */
  readonly combination?: ChosenOptions;
}
/** One file, its name empty, or one for each template, in base64; and what there is to say of them. */
export type PagesAnswer =
  | { readonly files: readonly { readonly name: string; readonly base64: string }[]; readonly notes: readonly string[] }
  | { readonly problems: readonly string[] }
  | { readonly refused: string };

/** The request for what is different in a pattern since it was last committed, in all sizes and choices that both have. */
export const changesRequest = 'piecewright/changes';
export interface ChangesParams {
  readonly uri: string;
}
/** The comparison as Markdown; or why there is none. */
export type ChangesAnswer = { readonly markdown: string } | { readonly refused: string };

/** The request for a pattern's pieces as they were when it was last committed, as the preview draws them. */
export const committedPiecesRequest = 'piecewright/committedPieces';
export interface CommittedPiecesParams {
  readonly uri: string;
  readonly combination?: ChosenOptions;
}
/** No pieces where there is no earlier version. */
export interface CommittedPiecesAnswer {
  readonly pieces: readonly PreviewPiece[] | null;
}

/** The client's word whether shorter lays are to be looked for in a pattern that a preview was asked for. */
export const lookNotification = 'piecewright/look';
export interface LookParams {
  readonly uri: string;
  readonly on: boolean;
}

// ------------------------------------------------------------------------------------------------ server to client

/** What to buy and how it lies, for what a preview was asked for: the first lays soon, and better ones as they are found. */
export const laysNotification = 'piecewright/lays';
export interface LaysParams {
  readonly uri: string;
  readonly lays: PreviewLays;
}

/** The server's request for the text of a file that it can't read itself; `null` when there is none. */
export const readRequest = 'piecewright/read';
export interface ReadParams {
  readonly uri: string;
}

/** The server's request for what a file said when it was last committed; `null` where it was not there, or where nothing is. */
export const committedRequest = 'piecewright/committed';

/** The server's request for the addresses of all patterns in the workspace. */
export const listRequest = 'piecewright/list';

/** The client’s command that lists places: the address and the position it is given at, and where they are. */
export const showPlacesCommand = 'piecewright.showPlaces';

/** What a client may say at the start. */
export interface InitializationOptions {
  /** Where the language reference is: each problem's code becomes an address in it. */
  readonly referenceUri?: string;
  /** Where in it each code is, as the fragment of its address; at the code itself where this doesn’t say. */
  readonly referenceAnchors?: Readonly<Record<string, string>>;
  /** Whether the client has the command {@link showPlacesCommand}. */
  readonly showsPlaces?: boolean;
}
