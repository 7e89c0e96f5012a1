import type { BuyingList } from '../buying/list.ts';
import type { MaterialPlan } from '../buying/plan.ts';
import { choiceTitle, optionTitle } from '../model/names/choice-titles.ts';
import type { Pattern } from '../model/pattern.ts';
import type { Combination } from '../model/query/query.ts';
import { placeOf } from '../model/settings.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { buyingRows, type BuyingRow } from './buying-rows.ts';
import { asLaid } from './as-laid.ts';
import { cautionsFor } from './cautions.ts';
import { cutRow, type CutRow } from './cut-rows.ts';
import { fusingRows, type FusingRow } from './layers.ts';
import { mannerText } from './manner.ts';
import { markRows, type MarkRow } from './marks.ts';
import { materialRows, shrinkageNotes, type MaterialRow } from './material-rows.ts';
import { seamRows, type SeamRow } from './seams.ts';
import { finishRows, type FinishRow } from './finishes.ts';
import { dartRows } from './darts.ts';
import { openingRows, type OpeningRow } from './openings.ts';
import { sewingRows, type SewingRow } from './sewing.ts';
import { stitchingRows } from './stitches.ts';
import { stepDrawings, type StepDrawing } from './step-drawings.ts';
import { stepRows, type StepRow } from './steps.ts';
import { noteTexts } from './said-text.ts';
import { supplyRows, type SupplyRow } from './supply-rows.ts';
import { templatesOf, type TemplateRow } from './templates.ts';

/**
 * The cutting table of a pattern in one combination, worked out once for all formats: texts as people read them, in the
 * order of the spec. Formats only lay it out.
 */
export interface CuttingTable {
  readonly title: string;
  readonly revision: string | undefined;
  readonly digest: string;
  /** How the cloth was planned, where that is not as usual; empty otherwise. See {@link mannerText}. */
  readonly manner: string;
  /** How many articles the numbers of pieces and supplies are for. */
  readonly articles: number;
  /** `tab` → `fabric`; empty where the pattern has no choices. */
  readonly combination: readonly ChosenOption[];
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly cuts: readonly CutRow[];
  readonly seams: readonly SeamRow[];
  /** What is sewn to what; empty where the spec doesn't say. */
  readonly sewing: readonly SewingRow[];
  readonly finishes: readonly FinishRow[];
  /** Openings and outer edges of what is sewn together; empty where the spec doesn't tell. */
  readonly openings: readonly OpeningRow[];
  /** The order of work; empty where the spec says none. */
  readonly steps: readonly StepRow[];
  /** What they sew, for whoever draws it. */
  readonly stepDrawings: readonly StepDrawing[];
  readonly fusing: readonly FusingRow[];
  readonly supplies: readonly SupplyRow[];
  readonly templates: readonly TemplateRow[];
  readonly marks: readonly MarkRow[];
  readonly pieceNotes: readonly PieceNote[];
  readonly materials: readonly MaterialRow[];
  /** Empty where nothing was laid out. */
  readonly buying: readonly BuyingRow[];
  /** The lays behind it, for whoever draws them, and how lengths are shown. */
  readonly plans: readonly MaterialPlan[];
  readonly display: Display;
}

/** An option that is chosen: names as they are written, and what exports call them. */
export interface ChosenOption {
  readonly choice: string;
  readonly option: string;
  readonly choiceTitle: string;
  readonly optionTitle: string;
}

/** What the designer says of a piece, as against one of its cut lines. */
export interface PieceNote {
  readonly pieceName: string;
  readonly piece: string;
  readonly note: string;
  readonly place: Place;
}

/** @param buying what to buy, for tables that are to say so: laying out takes its time. Numbers are for as many articles. */
export function cuttingTable(pattern: Pattern, combination: Combination, buying?: BuyingList): CuttingTable {
  const resolved = pattern.resolve(combination);
  const { world: { facts }, display } = pattern;
  const articles = buying?.articles ?? 1;
  const templates = templatesOf(resolved, display);
  return {
    title: facts.title ?? pattern.world.root.path,
    revision: facts.revision,
    digest: pattern.digest,
    manner: buying === undefined ? '' : mannerText(buying, display, facts.currency),
    articles,
    combination: [...resolved.combination].map(([choice, option]) => ({ choice, option, choiceTitle: choiceTitle(pattern.world, choice), optionTitle: optionTitle(pattern.world, choice, option) })),
    notes: [...noteTexts(facts.notes, resolved, display), ...shrinkageNotes(resolved)],
    cautions: cautionsFor(resolved),
    cuts: resolved.pieces.flatMap((piece) => piece.cuts.map((line) => asLaid(cutRow(line, display, articles, templates.numberOf(line), noteTexts(line.notes, resolved, display)), line, buying))),
    seams: seamRows(resolved, display),
    sewing: [...dartRows(resolved, display), ...sewingRows(resolved, display), ...stitchingRows(resolved, display)],
    finishes: finishRows(resolved, display),
    openings: openingRows(resolved, display),
    steps: stepRows(resolved, display),
    stepDrawings: stepDrawings(resolved, display),
    fusing: fusingRows(resolved, display, articles),
    supplies: supplyRows(resolved, display, articles),
    templates: templates.rows,
    marks: markRows(pattern, resolved),
    pieceNotes: resolved.pieces.filter((piece) => piece.cuts.length > 0).flatMap(({ shape }) => shape.notes.flatMap((note) => noteTexts([note], resolved, display).map((text) => ({ pieceName: shape.name, piece: shape.title, note: text, place: placeOf(note.declaration, note.sentence) })))),
    materials: materialRows(resolved, display),
    buying: buying === undefined ? [] : buyingRows(buying, display, facts.currency),
    plans: buying?.materials ?? [],
    display,
  };
}
