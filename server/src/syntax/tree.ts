import type { Chunk } from '../problems/place.ts';

/**
 * The syntax tree of a spec. Positions are UTF-16 offsets from the start of the declaration's own text, so that a
 * declaration that only moved is still the same tree.
 */
export interface Node {
  readonly start: number;
  readonly end: number;
}

export interface Name extends Node {
  readonly text: string;
}

/** A quoted text, with its escapes resolved. */
export interface Quoted extends Node {
  readonly value: string;
}

/** A quoted text with formulas in it, each of which is shown with what it gives. */
export interface Sentence extends Node {
  readonly parts: readonly (string | Expression)[];
}

export const lengthUnits = ['in', 'cm', 'mm', 'm', 'yd', 'ft'] as const;
export type LengthUnit = (typeof lengthUnits)[number];
export type Unit = LengthUnit | 'deg' | '%';

// ---------------------------------------------------------------------------------------------- formulas

export interface NumberLiteral extends Node {
  readonly kind: 'number';
  /** As written, without its unit: `7 1/2`, `7.5`, `1/4`. */
  readonly digits: string;
  readonly unit?: Unit;
}
/** `cover_w`, `cover.top`, `cover.core.area`. */
export interface Reference extends Node {
  readonly kind: 'reference';
  readonly path: readonly Name[];
}
export interface Binary extends Node {
  readonly kind: 'binary';
  readonly operator: '+' | '-' | '*' | '/';
  readonly left: Expression;
  readonly right: Expression;
}
export interface Negation extends Node {
  readonly kind: 'negation';
  readonly operand: Expression;
}
export interface Call extends Node {
  readonly kind: 'call';
  readonly name: Name;
  readonly arguments: readonly Expression[];
}
/** One arm of `30 in for S, 34 in for M, 38 in otherwise`. */
export interface Arm extends Node {
  readonly value: Expression;
  /** Absent on `otherwise`. */
  readonly option?: Name;
  /** The choice's name, where the option's own name does not tell. */
  readonly choice?: Name;
}
export interface Selection extends Node {
  readonly kind: 'selection';
  readonly arms: readonly Arm[];
}
export interface Group extends Node {
  readonly kind: 'group';
  readonly inner: Expression;
}
export type Expression = NumberLiteral | Reference | Binary | Negation | Call | Selection | Group;

export interface Is extends Node {
  readonly kind: 'is';
  readonly choice: Name;
  readonly negated: boolean;
  readonly options: readonly Name[];
}
export interface Comparison extends Node {
  readonly kind: 'comparison';
  readonly operator: '<' | '<=' | '>' | '>=' | '=' | '!=';
  readonly left: Expression;
  readonly right: Expression;
}
export interface Logical extends Node {
  readonly kind: 'logical';
  readonly operator: 'and' | 'or';
  readonly left: Condition;
  readonly right: Condition;
}
export interface Not extends Node {
  readonly kind: 'not';
  readonly operand: Condition;
}
export interface ConditionGroup extends Node {
  readonly kind: 'condition group';
  readonly inner: Condition;
}
export type Condition = Is | Comparison | Logical | Not | ConditionGroup;

// ---------------------------------------------------------------------------------------------- shapes

export interface Position extends Node {
  readonly x: Expression;
  readonly y: Expression;
}
/** Where a shape stands: by its lower left corner, or by its middle. */
export interface Anchor extends Node {
  readonly by: 'corner' | 'middle';
  readonly position: Position;
}
export interface RectangleShape extends Node {
  readonly kind: 'rectangle';
  readonly width: Expression;
  readonly height: Expression;
  readonly anchor?: Anchor;
}
export interface RoundShape extends Node {
  readonly kind: 'round';
  /** Written as `circle across D` (no height) or `ellipse W by H`. */
  readonly width: Expression;
  readonly height?: Expression;
  readonly part?: { readonly from: Expression; readonly to: Expression; readonly throughMiddle: boolean };
  readonly anchor?: Anchor;
}
export interface PolygonShape extends Node {
  readonly kind: 'polygon';
  readonly points: readonly Position[];
}
export interface OpenShape extends Node {
  readonly kind: 'open';
  readonly points: readonly Position[];
}
export interface PathShape extends Node {
  readonly kind: 'path';
  readonly from: Position;
  readonly steps: Block<PathStep>;
}
export interface Inset extends Node {
  readonly kind: 'inset';
  readonly distance: Expression;
  readonly except: readonly { readonly edge: Name; readonly distance: Expression }[];
  readonly of?: 'cutting' | 'stitching';
}
/** A straight line right across the piece: level at a height, or upright at a distance from the left. */
export interface AcrossShape extends Node {
  readonly kind: 'across';
  readonly way: 'level' | 'upright';
  readonly at: Expression;
}
export type Shape = RectangleShape | RoundShape | PolygonShape | OpenShape | PathShape | Inset | AcrossShape;

interface Step extends Statement {
  readonly to: Position;
  readonly name?: Name;
}
export interface LineStep extends Step {
  readonly kind: 'line step';
}
export interface ArcStep extends Step {
  readonly kind: 'arc step';
  readonly through?: Position;
  readonly radius?: { readonly length: Expression; readonly turn: 'left' | 'right' };
}
export interface CurveStep extends Step {
  readonly kind: 'curve step';
  readonly control1: Position;
  readonly control2: Position;
}
export interface CloseStep extends Statement {
  readonly kind: 'close step';
  readonly name?: Name;
}
export type PathStep = LineStep | ArcStep | CurveStep | CloseStep | Broken;

// ---------------------------------------------------------------------------------------------- statements

/** What stands before a statement and is kept as written: a comment line, or a blank one. */
export type Trivia = { readonly kind: 'comment'; readonly text: string } | { readonly kind: 'blank' };

export interface Statement extends Node {
  readonly leading: readonly Trivia[];
  /** The comment at the end of the statement's last line, with its `#`. */
  readonly comment?: string;
}

/** A line that could not be read. It costs one problem; everything around it still counts. */
export interface Broken extends Statement {
  readonly kind: 'broken';
  readonly text: string;
}

/** The part of a block's first line that could not be read. */
export interface Unread extends Node {
  readonly text: string;
}

export type AllowanceJoin = { readonly kind: 'mitred'; readonly limit?: Expression } | { readonly kind: 'bevelled' } | { readonly kind: 'rounded' } | { readonly kind: 'turned' };

export interface OutlineStatement extends Statement {
  readonly kind: 'outline';
  readonly shape: Shape;
}
export interface CornerStatement extends Statement {
  readonly kind: 'corner';
  /** A corner (`top_left`), a side with both its corners (`top`), or `all`. */
  readonly which: Name;
  readonly treatment: 'round' | 'chamfer' | 'box';
  readonly size: Expression;
  readonly size2?: Expression;
}
export interface EdgeStatement extends Statement {
  readonly kind: 'edge';
  readonly edge: Name;
  readonly name: Name;
  readonly title?: Quoted;
}
/** `edge top "Upper edge"`: a title for exports alone. */
export interface EdgeTitleStatement extends Statement {
  readonly kind: 'edge title';
  readonly edge: Name;
  readonly title: Quoted;
}
/** What becomes of an edge that is sewn to no other: `edge top hemmed 1/2`, `edge top bound with tape`, `edge mouth takes zip`. */
export interface EdgeFinishStatement extends Statement {
  readonly kind: 'edge finish';
  /** An edge, or `all`. */
  readonly edge: Name;
  readonly finish: 'hemmed' | 'bound' | 'faced' | 'raw' | 'takes' | 'caught';
  /** The edge of another piece in whose hem it is caught. */
  readonly hem?: Reference;
  /** Of a hem, how wide it finishes. */
  readonly size?: Expression;
  /** What it is bound with, or takes, or what runs through its hem. */
  readonly supply?: Name;
}
/** `without clasp, notches`: what a copy does not take over. */
export interface WithoutStatement extends Statement {
  readonly kind: 'without';
  readonly names: readonly Name[];
}
/** `dart waist on top at 3 wide 1 deep 3`. */
export interface DartStatement extends Statement {
  readonly kind: 'dart';
  readonly name: Name;
  readonly title?: Quoted;
  readonly edge: Name;
  /** Where its middle lies on the stitching line: a length along the edge, or a share of it. */
  readonly at: Expression;
  readonly width: Expression;
  readonly depth: Expression;
}
/** `pleat front on top at 3 deep 3/4 towards end`: cloth that is folded over and lies double on what is beside it. */
export interface PleatStatement extends Statement {
  readonly kind: 'pleat';
  readonly name: Name;
  readonly title?: Quoted;
  readonly edge: Name;
  /** Where its middle lies on the stitching line before it is folded: a length along the edge, or a share of it. */
  readonly at: Expression;
  /** How far its fold lies from where it is turned back. */
  readonly depth: Expression;
  /** To which end of the edge its fold is laid. */
  readonly towards: 'start' | 'end';
  /** How far from the edge it is sewn down, where it is a tuck. */
  readonly stitched?: Expression;
}
/** `topstitch rim 1/8 from left, bottom, right`, `topstitch pens along pen`: a row of stitches beside finished edges, folds or windows, or along lines. */
export interface TopstitchStatement extends Statement {
  readonly kind: 'topstitch';
  readonly name: Name;
  readonly title?: Quoted;
  /** How far inside the finished edges; with them, or else there are lines. */
  readonly distance?: Expression;
  readonly edges?: readonly Name[];
  readonly lines?: readonly Name[];
}
/** `quilt rows 1 1/2 apart along middle`: rows of stitches through all that is cut, that straight line among them. */
export interface QuiltStatement extends Statement {
  readonly kind: 'quilt';
  readonly name: Name;
  readonly title?: Quoted;
  /** From one row to the next. */
  readonly distance: Expression;
  readonly line: Name;
}
/** `folded half`: along which lines the piece is folded, in this order. */
export interface FoldedStatement extends Statement {
  readonly kind: 'folded';
  readonly lines: readonly Name[];
}
export interface DrawnStatement extends Statement {
  readonly kind: 'drawn';
  readonly to: 'cutting' | 'stitching';
}
export interface AllowanceStatement extends Statement {
  readonly kind: 'allowance';
  /** Absent when it holds for all edges. */
  readonly edge?: Name;
  /** Absent for `none`. */
  readonly size?: Expression;
  readonly join?: AllowanceJoin;
}
export interface FoldStatement extends Statement {
  readonly kind: 'on fold';
  readonly edge: Name;
}
export interface GrainStatement extends Statement {
  readonly kind: 'grain';
  readonly way: 'up' | 'across' | 'bias' | 'none' | 'angle';
  readonly angle?: Expression;
  /** `grain up or across`. */
  readonly orAcross: boolean;
}
export interface WayUpStatement extends Statement {
  readonly kind: 'way up';
}
export interface TemplateFoldedStatement extends Statement {
  readonly kind: 'template folded';
}
export interface LineStatement extends Statement {
  readonly kind: 'line';
  readonly use: 'line' | 'placement' | 'foldline' | 'window';
  readonly name: Name;
  readonly title?: Quoted;
  readonly shape: Shape;
}
export interface NotchStatement extends Statement {
  readonly kind: 'notch';
  readonly edge: Name;
  readonly at: Expression;
  readonly from: 'start' | 'end';
}
/** `notch left meeting crease`: where a line of the piece meets the edge. */
export interface NotchMeetingStatement extends Statement {
  readonly kind: 'notch meeting';
  readonly edge: Name;
  readonly line: Name;
}
export interface MarkStatement extends Statement {
  readonly kind: 'mark';
  readonly use: 'mark' | 'drill';
  readonly name: Name;
  readonly title?: Quoted;
  /** Diameter of the snap that the mark is for. */
  readonly snap?: Expression;
  readonly at: Position;
}
export interface NoteStatement extends Statement {
  readonly kind: 'note';
  readonly text: Sentence;
}
export type CutClause =
  | (Node & { readonly kind: 'along'; readonly line: Name })
  | (Node & { readonly kind: 'twins' })
  | (Node & { readonly kind: 'mirrored' })
  | (Node & { readonly kind: 'fold' })
  | (Node & { readonly kind: 'without'; readonly windows: readonly Name[] })
  | (Node & { readonly kind: 'sized'; readonly width: Expression; readonly height: Expression })
  | (Node & { readonly kind: 'large'; readonly by: Expression })
  /** Of a stiff layer: that it reaches into a seam is meant. */
  | (Node & { readonly kind: 'into the seam' })
  /** What a piece says of all its cloth, of this line alone. */
  | (Node & { readonly kind: 'way up' })
  | (Node & { readonly kind: 'side'; readonly side: 'right' | 'wrong'; readonly of?: Name })
  | (Node & { readonly kind: 'when'; readonly condition: Condition })
  | (Node & { readonly kind: 'note'; readonly text: Sentence });
export interface CutStatement extends Statement {
  readonly kind: 'cut';
  readonly count: Expression;
  readonly material: Name;
  readonly clauses: readonly CutClause[];
}
export type PieceStatement =
  | OutlineStatement | CornerStatement | EdgeStatement | DrawnStatement | AllowanceStatement | FoldStatement
  | GrainStatement | WayUpStatement | TemplateFoldedStatement | LineStatement | NotchStatement | NotchMeetingStatement | MarkStatement | NoteStatement | CutStatement | EdgeTitleStatement | EdgeFinishStatement
  | FoldedStatement | DartStatement | PleatStatement | TopstitchStatement | QuiltStatement | WithoutStatement | Broken;

export interface WidthStatement extends Statement {
  readonly kind: 'width';
  readonly nominal: Expression;
  readonly usable?: Expression;
}
/** A fact that takes one of a few words: `role lining`, `faces glued`, `direction one way`, `kind zip`. */
export interface WordStatement extends Statement {
  readonly kind: 'role' | 'faces' | 'direction' | 'weight' | 'wash' | 'iron' | 'steam' | 'fuse' | 'hold' | 'supply kind';
  readonly word: Name;
}
export interface BoughtStatement extends Statement {
  readonly kind: 'bought';
  readonly form: 'lengths' | 'panels' | 'sheets';
  readonly size: Expression;
  readonly height?: Expression;
}
export interface ShrinksStatement extends Statement {
  readonly kind: 'shrinks';
  readonly along: Expression;
  readonly across?: Expression;
}
/** What squaring and fraying take of a length bought; nothing where it has no size. */
export interface SpareStatement extends Statement {
  readonly kind: 'spare';
  readonly size?: Expression;
}
/** How cloth is folded before it is cut. */
export interface ClothFoldStatement extends Statement {
  readonly kind: 'cloth fold';
  readonly way: 'lengthwise' | 'crosswise' | 'partial';
  /** How wide it lies double where it is folded in part. */
  readonly depth?: Expression;
}
export interface PriceStatement extends Statement {
  readonly kind: 'price';
  readonly amount: Expression;
  readonly per: Name;
}
export type MaterialStatement = WidthStatement | WordStatement | BoughtStatement | ShrinksStatement | SpareStatement | ClothFoldStatement | PriceStatement | NoteStatement | Broken;

/** A supply's number: `count`, `finished`, `across`, `length`. */
export interface MeasureStatement extends Statement {
  readonly kind: 'count' | 'finished' | 'across' | 'length';
  readonly value: Expression;
}
export interface FromStatement extends Statement {
  readonly kind: 'from';
  readonly source: 'closed' | 'tape';
  readonly length: Expression;
}
export interface AtStatement extends Statement {
  readonly kind: 'at';
  readonly marks: readonly Reference[];
}
export interface FitsStatement extends Statement {
  readonly kind: 'fits';
  /** A supply, a piece, or the edge of a piece that lies across. */
  readonly strap: Reference;
}
/** `bought in packs of 10`. */
export interface PacksStatement extends Statement {
  readonly kind: 'packs';
  readonly count: Expression;
}
/** For how many articles one is enough: `serves 6`. */
export interface ServesStatement extends Statement {
  readonly kind: 'serves';
  readonly articles: Expression;
}
export type SupplyStatement = WordStatement | MeasureStatement | FromStatement | AtStatement | FitsStatement | PacksStatement | ServesStatement | BoughtStatement | PriceStatement | NoteStatement | Broken;

// ---------------------------------------------------------------------------------------------- declarations

export interface Block<S extends Statement> extends Node {
  readonly statements: readonly S[];
  /** Comments standing before the closing brace. */
  readonly trailing: readonly Trivia[];
  /** The comment after the opening brace. */
  readonly opening?: string;
  /** False when the closing brace is missing. */
  readonly closed: boolean;
}

export interface PatternDeclaration extends Statement {
  readonly kind: 'pattern';
  readonly title: Quoted;
}
export interface RevisionDeclaration extends Statement {
  readonly kind: 'revision';
  readonly number: NumberLiteral;
}
/** The revision last given out, with the digest of what it said. */
export interface IssuedDeclaration extends Statement {
  readonly kind: 'issued';
  readonly number: NumberLiteral;
  readonly digest: Quoted;
}
export interface UnitDeclaration extends Statement {
  readonly kind: 'unit';
  readonly unit: 'in' | 'cm' | 'mm';
  /** What exports give beside it. */
  readonly also?: 'in' | 'cm' | 'mm';
}
export interface StepDeclaration extends Statement {
  readonly kind: 'step';
  readonly size: Expression;
}
export interface CurrencyDeclaration extends Statement {
  readonly kind: 'currency';
  readonly text: Quoted;
}
export interface UseDeclaration extends Statement {
  readonly kind: 'use';
  readonly path: Quoted;
}
export interface SizesDeclaration extends Statement {
  readonly kind: 'sizes';
  readonly options: readonly Name[];
}
/** The name of an option, and perhaps what exports call it. */
export interface OptionName extends Name {
  readonly title?: Quoted;
}
export interface ChoiceDeclaration extends Statement {
  readonly kind: 'choice';
  readonly name: Name;
  readonly title?: Quoted;
  readonly options: readonly OptionName[];
}
export type ValueKind = 'length' | 'count' | 'ratio' | 'angle' | 'area';
export interface ValueDeclaration extends Statement {
  readonly kind: 'value';
  readonly of: ValueKind;
  readonly name: Name;
  readonly value: Expression;
}
export interface ThingDeclaration extends Statement {
  readonly kind: 'thing';
  readonly name: Name;
  readonly title?: Quoted;
  readonly width: Expression;
  readonly height: Expression;
}
export interface MaterialDeclaration extends Statement {
  readonly kind: 'material';
  readonly name: Name;
  readonly title?: Quoted;
  readonly unread?: Unread;
  readonly body: Block<MaterialStatement>;
}
export interface SupplyDeclaration extends Statement {
  readonly kind: 'supply';
  readonly name: Name;
  readonly title?: Quoted;
  readonly condition?: Condition;
  readonly unread?: Unread;
  readonly body: Block<SupplyStatement>;
}
export type Part =
  /** Of a stiff layer: that it reaches into a seam is meant. */
  | (Node & { readonly kind: 'into the seam' })
  | (Node & { readonly kind: 'side'; readonly side: 'above' | 'below' | 'left of' | 'right of'; readonly line: Name })
  | (Node & { readonly kind: 'mirrored' })
  | (Node & { readonly kind: 'inset'; readonly distance: Expression });
export interface PieceDeclaration extends Statement {
  readonly kind: 'piece';
  readonly name: Name;
  readonly title?: Quoted;
  readonly parent?: { readonly name: Name; readonly parts: readonly Part[] };
  readonly condition?: Condition;
  readonly unread?: Unread;
  readonly body: Block<PieceStatement>;
}
/** An end of an edge, or a place along it. */
export interface Bound extends Node {
  readonly endOf?: 'start' | 'end';
  readonly place?: Expression;
}
/** An edge, or part of one, in a run of edges. */
export interface RunPart extends Node {
  readonly edge: Reference;
  /** Both or neither. */
  readonly from?: Bound;
  readonly to?: Bound;
  /** All of it, as it lies once the piece is folded. */
  readonly folded?: true;
}
/** `seam side = front.left with back.left`: one run of edges is sewn to another. */
export interface SeamDeclaration extends Statement {
  readonly kind: 'seam';
  readonly name: Name;
  readonly title?: Quoted;
  readonly first: readonly RunPart[];
  /** `with`: the two lie on opposite sides once opened out. `onto`: the first is laid on the second. */
  readonly way: 'with' | 'onto';
  readonly second: readonly RunPart[];
  /** By how much the first run is longer, as a length or a share of the second. */
  readonly eased?: Expression;
  readonly gathered?: true;
  /** How much of it is left open. */
  readonly open?: Expression;
  /** The edge that {@link openAt} is measured along; the whole seam where it is left out. */
  readonly openOn?: Reference;
  /** Where the middle of what is left open lies: a length along, or a share. */
  readonly openAt?: Expression;
  readonly within?: Expression;
  readonly smooth?: SmoothClause;
  readonly condition?: Condition;
}
/** `smooth at end within 5 deg`: the outline runs on without a bend where the seam ends; at both ends unless it says which. */
export interface SmoothClause extends Node {
  readonly at?: 'start' | 'end';
  /** How much of a bend there may be. */
  readonly within?: Expression;
}
/** `step "Sew the side." does side`: one step of the order of work, numbered by its place in the file. */
export interface WorkStepDeclaration extends Statement {
  readonly kind: 'work step';
  readonly text: Sentence;
  /** Seams, supplies, edges and layers that are done by then. */
  readonly does: readonly Reference[];
  readonly condition?: Condition;
}
export type CheckRule =
  | (Node & { readonly kind: 'matches'; readonly left: Expression; readonly right: Expression; readonly eased?: Expression; readonly within?: Expression })
  | (Node & { readonly kind: 'clears'; readonly inner: Reference; readonly outer: Reference; readonly by: Expression })
  | (Node & { readonly kind: 'holds'; readonly holder: Reference; readonly thing?: Name; readonly size?: { readonly width: Expression; readonly height: Expression }; readonly ease?: Expression })
  | (Node & { readonly kind: 'mates'; readonly left: Name; readonly right: Name })
  | (Node & { readonly kind: 'condition'; readonly condition: Condition });
export interface CheckDeclaration extends Statement {
  readonly kind: 'check';
  readonly rule: CheckRule;
  readonly condition?: Condition;
  /** How grave a failure is (an error unless said) and the designer's words for it. */
  readonly otherwise?: { readonly severity?: 'error' | 'warning' | 'note'; readonly message?: Sentence };
}

export type DeclarationTree =
  | PatternDeclaration | RevisionDeclaration | IssuedDeclaration | UnitDeclaration | StepDeclaration | CurrencyDeclaration
  | UseDeclaration | SizesDeclaration | ChoiceDeclaration | ValueDeclaration | ThingDeclaration | MaterialDeclaration
  | SupplyDeclaration | PieceDeclaration | CheckDeclaration | SeamDeclaration | WorkStepDeclaration | DrawnStatement | AllowanceStatement | NoteStatement | Broken;

/** One declaration with its own text; the unit of parsing and of recomputing. */
export interface Declaration extends Chunk {
  readonly tree: DeclarationTree;
  /** Worked out when first asked for: to say what would have been right takes longer than to read. */
  readonly problems: readonly SyntaxProblem[];
}

/** A line that could not be read: where, and what would have been right there. */
export interface SyntaxProblem extends Node {
  readonly kind: 'unreadable' | 'unclosed block' | 'unopened block' | 'unclosed text' | 'unreadable file' | 'file too long' | 'too long' | 'too deep' | 'too many terms';
  readonly found: string;
  readonly expected: readonly string[];
  /** What to write instead, where a usual slip is seen. */
  readonly hint?: string;
  /** The change that mends it, where one is certain. */
  readonly mend?: Mend;
}

/** A change of a declaration’s text that mends a line, with its title. */
export interface Mend extends Node {
  readonly title: string;
  readonly newText: string;
}

/** A run of a file’s text, in UTF-16 offsets. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** One of two versions that a merge has left, with what its mark says of it. */
export interface Version extends Span {
  readonly label: string;
}

/** Where a merge has left two versions in a file, from the first mark to the end of the last. */
export interface Conflict extends Span {
  readonly first: Version;
  readonly second: Version;
}

/** A whole file: its declarations with where each starts, and the comments after the last. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
  readonly declarations: readonly { readonly declaration: Declaration; readonly offset: number }[];
  readonly trailing: readonly Trivia[];
  /** Where a merge has left two versions: the declarations are those of the first. */
  readonly conflicts: readonly Conflict[];
}
