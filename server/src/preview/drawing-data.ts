import type { Place } from '../problems/place.ts';
import type { MarkRow } from '../table/marks.ts';
import type { SeamRow } from '../table/seams.ts';
import type { CutRow } from '../table/cut-rows.ts';
import type { FusingRow } from '../table/layers.ts';
import type { MaterialRow } from '../table/material-rows.ts';
import type { SupplyRow } from '../table/supply-rows.ts';
import type { PieceNote } from '../table/table.ts';
import type { TemplateRow } from '../table/templates.ts';

/**
 * What the preview shows, as plain data that can be sent as JSON: texts as people read them, lines as SVG path data in
 * millimetres (y upwards), and where in the text each thing comes from.
 */
export interface PreviewData extends PreviewDrawing, PreviewTables {}

/** What is known of the cutting and of the buying without laying anything out. */
export interface PreviewTables {
  readonly table: PreviewTable;
  readonly buying: PreviewBuying;
}

/** All that is drawn, and what is told beside it. */
export interface PreviewDrawing {
  readonly title: string;
  readonly revision: string | null;
  readonly unit: 'in' | 'cm' | 'mm';
  /** The files that chunks refer to by their index. */
  readonly files: readonly string[];
  /** Where the runs of text now stand that places refer to by their number. */
  readonly chunks: Readonly<Record<string, ChunkStart>>;
  /** Sizes first; empty where the pattern has no choices. */
  readonly choices: readonly PreviewChoice[];
  readonly problems: ProblemCounts;
  readonly pieces: readonly PreviewPiece[];
  /** Pieces that can’t be drawn now, since a fault stands in the way. */
  readonly undrawn: readonly UndrawnPiece[];
  /** How many pieces there are, where these are too many to draw and only the first are. */
  readonly tooMany: number | null;
  /** Everything written that something drawn may hang on, in the order of the text. */
  readonly links: readonly PreviewLink[];
  readonly walks: readonly PreviewWalk[];
  /** The order of work; empty where the spec says none. */
  readonly steps: readonly PreviewStep[];
  /** What can be taken hold of in the piece that it was asked of; null where it was asked of none that is drawn. */
  readonly handles: PreviewHandles | null;
  /** What is otherwise in the other options of the choice that it was asked of; null where it was asked of none. */
  readonly nested: PreviewNested | null;
}

export interface PreviewNested {
  readonly choice: string;
  readonly title: string;
  readonly options: readonly NestedOption[];
}

export interface NestedOption {
  readonly option: string;
  readonly title: string;
  /** By name, those that are shown and are otherwise there. */
  readonly pieces: Readonly<Record<string, NestedPiece>>;
  /** Titles of pieces that are there alone, and of those that are not there. */
  readonly only: readonly string[];
  readonly without: readonly string[];
}

export interface NestedPiece {
  /** All that is cut out there, as SVG path data; empty where that is the same. */
  readonly outline: string;
  readonly box: PieceDrawing['box'];
  /** `finished 12 cm × 8 cm, 1 × Wool felt`. */
  readonly says: string;
}

export interface PreviewHandles {
  readonly piece: string;
  /** The step of its file, millimetres. */
  readonly step: number;
  /** The same in words: `1/16 in`. */
  readonly by: string;
  readonly list: readonly PreviewHandle[];
}

/** A point, a notch, a mark or a size that can be moved, or that says why not. */
export interface PreviewHandle {
  /** Unique in the piece; stays the same while numbers are edited. */
  readonly id: string;
  /** `point 2 of the outline`. */
  readonly title: string;
  /** Millimetres, y upwards. */
  readonly x: number;
  readonly y: number;
  /** `x 3 1/2 in, y set by a formula: body / 2`. */
  readonly says: string;
  /** Whether there is no number to be changed. */
  readonly fixed: boolean;
}

/** A declaration, and the names that it uses. */
export interface PreviewLink {
  /** General is what is said of all pieces; a note is one on the pattern. */
  readonly kind: 'value' | 'thing' | 'material' | 'supply' | 'piece' | 'seam' | 'check' | 'choice' | 'general' | 'step' | 'note';
  /** The name that it gives; empty where it gives none. */
  readonly name: string;
  /** `panel_w = 4 1/2 in`, or how a check came out. */
  readonly says: string;
  readonly span: PlaceRef | null;
  readonly uses: readonly PreviewUse[];
  /** Left out of what there is in the options that are shown. */
  readonly elsewhere?: true;
  /** What a check that fails has measured: what there is, and what it should be. */
  readonly compared?: PreviewCompared;
}

/** Both runs of a seam, as they are laid along each other. */
export interface PreviewWalk {
  readonly title: string;
  readonly span: PlaceRef | null;
  readonly runs: readonly [first: PreviewRun, second: PreviewRun];
  /** `1/4 in eased in`, `gathered, 2 times as long`, `1/8 in too long`; empty where both are as long. */
  readonly ease: string;
}

export interface PreviewRun {
  readonly says: string;
  readonly text: string;
  /** In millimetres, from its beginning: how long it is, where it goes round a corner or on to another edge, and where notches are. */
  readonly length: number;
  readonly corners: readonly number[];
  readonly notches: readonly number[];
}

export interface PreviewStep {
  readonly number: number;
  readonly text: string;
  readonly span: PlaceRef | null;
  /** By the names of pieces, the names of the edges and lines that are worked on; none of a piece that is meant as a whole. */
  readonly lights: Readonly<Record<string, readonly string[]>>;
  /** Pieces that hang together once it is done, by name. */
  readonly joined: readonly (readonly string[])[];
}

export interface PreviewCompared {
  readonly both: readonly [is: PreviewMeasure, wanted: PreviewMeasure];
  /** By how much they differ: `1/2 in`; empty where both sides of it are told by themselves. */
  readonly by: string;
}

export interface PreviewMeasure {
  readonly says: string;
  /** `4 1/2 in`, `4 in × 3 in`. */
  readonly text: string;
  /** Millimetres; no height of what is only long. */
  readonly width: number;
  readonly height: number | null;
  /** Names of the pieces that it was measured on, each with the part of it; left out of what was reckoned otherwise than by adding those up. */
  readonly on?: readonly (readonly [piece: string, part?: string])[];
  /** What its width has beyond what was measured there: ` with 1/4 in to ease in`. */
  readonly more?: string;
}

/**
 * From where to where in its run of text what changes with some names is written; `front` or `front.left`, or options without their choice, `=L`;
 * of a piece or a supply also what such a line is about.
 */
export type PreviewUse = readonly [start: number, end: number, names: readonly string[], about?: UseAbout];

/** Its outline; the piece that it is made from; a line or a mark inside it; what is cut, and how many; how much is to be bought; or only what is said of it. */
export type UseAbout = 'outline' | 'from' | 'inside' | 'cut' | 'count' | 'bought' | 'said';

/** Stands among the names that a line of a piece uses for all of its outline, as a line does that runs at a distance inside it. */
export const wholeOutline = '*';

/**
 * Where something is written: the number of the run of text, and UTF-16 offsets from where that starts; the end is
 * exclusive. An edit further up moves the run, and leaves this as it is.
 */
export type PlaceRef = readonly [chunk: number, start: number, end: number];

/** Index of a file, and where in it a run of text starts, in UTF-16 code units. */
export type ChunkStart = readonly [file: number, start: number];

export interface PreviewChoice {
  readonly name: string;
  readonly title: string;
  readonly options: readonly string[];
  /** What each option is called. */
  readonly titles: Readonly<Record<string, string>>;
  readonly chosen: string;
}

export interface ProblemCounts {
  readonly errors: number;
  readonly warnings: number;
  readonly notes: number;
}

/** A number with the steps that lead to it. */
export interface Figure {
  readonly text: string;
  /** `cover_w = 9 1/2 in`, one step a line, the first the number’s own formula. */
  readonly trail: readonly string[];
  /** Null where nothing in the text gives it. */
  readonly place: PlaceRef | null;
}

export interface PreviewSize {
  readonly width: Figure;
  readonly height: Figure;
  /** Whether it is a circle, of which both are the diameter. */
  readonly circle: boolean;
}

export interface PreviewPiece {
  /** Unique in the pattern; stays the same while a piece is edited. */
  readonly name: string;
  readonly title: string;
  /** The piece that it is made from; null where it is drawn by itself. */
  readonly from: string | null;
  readonly drawing: PieceDrawing;
  /** Places of the drawing’s parts, which refer to them by index. */
  readonly places: readonly (PlaceRef | null)[];
  /** The piece’s name. */
  readonly place: PlaceRef | null;
  /** Its whole declaration. */
  readonly span: PlaceRef | null;
  readonly cut: PreviewSize;
  readonly finished: PreviewSize;
  /** `pleats open`, since that is how its finished size is told; empty where it has neither pleats nor darts. */
  readonly open: string;
  /** Between the stitching lines, opened out, to a whole mm²: by how large it is. */
  readonly area: number;
  /** `9 in × 3 1/2 in`, as it is folded before it is sewn; null where it isn't. */
  readonly folded: string | null;
  /** `3 × Waxed canvas, on the fold`: how many are cut of each material, and how, in the order of the cut lines. */
  readonly cuts: readonly string[];
  /** Names of the materials that it is cut from, the first cut line's first, each once. */
  readonly materials: readonly string[];
  /** How many are cut, of whatever material; 0 where none is. */
  readonly count: number;
  /** Which of them are cut on the fold: a layer may lie clear of it. */
  readonly onFold: 'all' | 'some' | 'none';
  /** What lies on it, in the order written: interfacing, foam, cloth on cloth. */
  readonly layers: readonly PreviewLayer[];
  /** Problems in the piece’s own text. */
  readonly problems: ProblemCounts;
}

export interface PreviewLayer {
  readonly material: string;
  /** What its material is called. */
  readonly title: string;
  readonly side: 'right' | 'wrong';
  /** The name of the line that it is cut along; null where that is none of the piece's own. */
  readonly line: string | null;
  /** What is cut, opened out, with what is cut out of it, as SVG path data like that of the drawing. */
  readonly path: string;
  /** `1/2 in inside every edge`. */
  readonly where: string;
}

export interface UndrawnPiece {
  readonly name: string;
  readonly title: string;
  /** As it was last drawn in the same combination; null where it never was. */
  readonly earlier: EarlierDrawing | null;
  readonly place: PlaceRef | null;
  readonly span: PlaceRef | null;
}

export interface EarlierDrawing {
  /** The version of the text that it is of. */
  readonly version: number;
  readonly piece: PreviewPiece;
}

/** The middle of a rectangle inside a piece, y upwards, and how wide and high that is, in millimetres. */
export interface NameRoom {
  readonly x: number;
  readonly y: number;
  readonly across: number;
  readonly high: number;
}

/** A piece’s drawing: nothing in it changes unless the piece does. */
export interface PieceDrawing {
  /** The box round the piece opened out, in millimetres. */
  readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /** All that is cut out, and what of it lies within the stitching lines, as SVG path data like that of the parts. */
  readonly area: { readonly cutting: string; readonly stitching: string };
  /** Where its name stands clear of its lines; where at least clear of its folds, its marks and the arrow along its grain; and where it has the most room however they run. */
  readonly room: NameRoom;
  readonly wide: NameRoom;
  readonly whole: NameRoom;
  readonly parts: readonly DrawnPart[];
  /** The piece in words, for whoever can’t see it. */
  readonly description: string;
  /** `half, on the fold` and the like; empty where there is nothing to say. */
  readonly note: string;
}

export const partKinds = ['cutting', 'stitching', 'fold', 'line', 'placement', 'foldline', 'window', 'topstitch', 'grain', 'notch', 'mark', 'drill'] as const;
export type PartKind = (typeof partKinds)[number];

export interface DrawnPart {
  readonly kind: PartKind;
  /** The name that it has in the text, or a word for what has none. */
  readonly name: string;
  /** What people call it: its title, or else its name with spaces. */
  readonly title: string;
  /** What there is to say: `9 1/2 in long, allowance 3/8 in`. */
  readonly detail: string;
  /** SVG path data, millimetres, y upwards; empty for what is shown by signs alone. */
  readonly path: string;
  /** The same on the other side of the fold; empty without one. */
  readonly twin: string;
  /** What only points something out, such as a notch or an arrowhead; left out where there is none. */
  readonly signs?: readonly DrawnSign[];
  /** The point that its name belongs to; null for what is told by its place alone. */
  readonly label: { readonly x: number; readonly y: number } | null;
  /** Index into the piece’s places. */
  readonly place: number;
  /** Whether it lies on the side that is not seen; left out of a piece that is seen as it is drawn. */
  readonly behind?: true;
}

/** A sign that is as large on screen at every scale: it has a place in the piece, but no size there. */
export interface DrawnSign {
  /** Where it points, in millimetres, y upwards. */
  readonly x: number;
  readonly y: number;
  /** SVG path data round that point, CSS pixels, y upwards. */
  readonly shape: string;
  /** Whether it stands on the other side of the fold. */
  readonly twin?: true;
}

// ------------------------------------------------------------------------------------------------ tables

export interface PreviewTable {
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly cuts: readonly PreviewCut[];
  readonly pieceNotes: readonly PreviewNote[];
  readonly marks: readonly PreviewMark[];
  readonly seams: readonly PreviewSeam[];
  readonly fusing: readonly PreviewFusing[];
  readonly templates: readonly PreviewTemplate[];
  readonly materials: readonly PreviewCare[];
}

/** A row of the table with where it is written as the page knows it. */
type Shown<Row extends { readonly place: Place }> = Omit<Row, 'place'> & { readonly place: PlaceRef | null };

/** A line to cut, with how its count and its size came about. */
export interface PreviewCut extends Shown<CutRow> {
  /** Tells the cut lines of a pattern apart, and stays the same while the text around is edited. */
  readonly key: string;
  readonly piecePlace: PlaceRef | null;
  readonly materialPlace: PlaceRef | null;
  readonly countFigure: Figure;
  readonly sizeFigure: Figure;
}

export type PreviewFusing = Shown<FusingRow>;
export type PreviewSeam = Shown<SeamRow>;
export type PreviewMark = Shown<MarkRow>;
export type PreviewNote = Shown<PieceNote>;

export type PreviewCare = Shown<MaterialRow>;
/** What a template looks like is shown by the piece's own drawing. */
export type PreviewTemplate = Omit<Shown<TemplateRow>, 'outline' | 'holes' | 'number'>;

/** What is known to be needed without laying anything out: no length of cloth is given here. */
export interface PreviewBuying {
  readonly materials: readonly PreviewMaterial[];
  readonly supplies: readonly PreviewSupply[];
}

export interface PreviewMaterial {
  readonly name: string;
  readonly title: string;
  readonly role: string;
  /** How many pieces are cut from it. */
  readonly pieces: number;
  /** The area of those pieces, without what falls away between them. */
  readonly area: string;
  /** `58 in wide, 56 in usable`; empty where the spec doesn’t say. */
  readonly width: string;
  /** `lengths of 1/8 yd`. */
  readonly sold: string;
  readonly place: PlaceRef | null;
}

export type PreviewSupply = Shown<SupplyRow>;
