import { readFileSync } from 'node:fs';
import { Analyst, type Pattern } from '../../server/src/model/pattern.ts';
import { libraryOf, type Library } from '../../server/src/model/names/files.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import type { SourceFile } from '../../server/src/syntax/tree.ts';
import { snapshotOf } from '../../server/src/workspace/snapshot.ts';
import type { PlaceRef } from '../../server/src/preview/drawing-data.ts';
import type { PreviewLays } from '../../server/src/preview/lays-data.ts';
import type { LaysRequest } from '../../server/src/planner/requests.ts';
import { PlanCache } from '../../server/src/planner/plan-cache.ts';
import { plannerWork } from '../../server/src/planner/work.ts';
import { previewData, previewParts, type PreviewBackground, type PreviewData } from '../../server/src/preview/drawing.ts';
import { remembered, type Earlier } from '../../server/src/preview/earlier.ts';
import { Kept } from '../../server/src/preview/kept.ts';
import { ChunkNumbers, placeNow } from '../../server/src/preview/places.ts';

const file = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

export const wallet = file('samples/orchard-wallet.piece');
export const apron = file('samples/market-apron.piece');
const materials = new Map([['studio/materials.piece', file('samples/studio/materials.piece')]]);

/** A text that is edited again and again, with the data that the preview gets of it each time. */
export class Draft {
  private readonly analyst = new Analyst();
  private readonly library: Library = libraryOf(materials);
  private readonly numbers = new ChunkNumbers();
  private readonly kept = new Kept();
  private earlier: Earlier = new Map();
  private version = 0;
  private file: SourceFile | undefined;
  private readonly path: string;

  private readonly keeps: boolean;

  /** @param keeps whether what was made for one text is used for the next, as the server does */
  constructor(path = 'draft.piece', keeps = true) {
    this.path = path;
    this.keeps = keeps;
  }

  data(text: string, combination: Readonly<Record<string, string>> = {}, wish: Pick<PreviewBackground, 'handled' | 'beside'> = {}): PreviewData {
    const pattern = this.analysed(text);
    const data = previewData(snapshotOf(pattern), new Map(Object.entries(combination)), { numbers: this.numbers, kept: this.keeps ? this.kept : new Kept(), earlier: this.earlier, ...wish });
    this.earlier = remembered(this.earlier, data, pattern, ++this.version);
    return data;
  }

  /** Its pieces alone, without tables, which take longer; nothing of it is kept. */
  pieces(text: string): PreviewData['pieces'] {
    return previewParts(snapshotOf(this.analysed(text)), new Map()).drawing.pieces;
  }

  private analysed(text: string): Pattern {
    this.file = parseFile(this.path, text, this.file);
    return this.analyst.analyse(this.file, this.library);
  }
}

/** What a text means by itself, with the shop's materials. */
export const patternFrom = (text: string): Pattern => new Analyst().analyse(parseFile('draft.piece', text), libraryOf(materials));

/** Everything that the planner tells of the lays of a text, from the first to the last. */
export function laysTold(text: string, wish: { readonly articles?: number; readonly widths?: string; readonly lay?: 'open' | 'folded'; readonly effort?: number } = {}, cache = new PlanCache()): readonly PreviewLays[] {
  const files = [{ path: 'draft.piece', text }, ...[...materials].map(([path, one]) => ({ path, text: one }))];
  const request: LaysRequest = { kind: 'lays', texts: { id: 'draft', path: 'draft.piece', files }, combination: {}, articles: wish.articles ?? 1, widths: wish.widths ?? '', lay: wish.lay ?? 'shorter', effort: wish.effort ?? 0.02 };
  return [...plannerWork(cache)(request, () => false)].flatMap((reply) => (reply?.kind === 'lays' ? [reply.lays] : []));
}

/** The text that a place of a draft’s data refers to. */
export function textAt(text: string, data: PreviewData, place: PlaceRef | null | undefined): string | undefined {
  const now = placeNow(data, place);
  return now && text.slice(now.start, now.end);
}

/** Curves, folds, notches, windows, marks and drill holes, in centimetres; invented. Editors have it open too. */
export const shapes = file('test/editor/workspace/shapes.piece');

/** A pattern of many pieces, no two alike. */
export function manyPieces(count: number): string {
  const piece = (index: number): string => `
piece part_${index} "Part ${index}" {
  outline rectangle unit_w + ${index % 17} / 2 by ${3 + (index % 11)}
  corner all round 1/2
  line core = inset 3/8
  foldline middle = upright at unit_w / 2
  placement label_${index} = rectangle 1 by 1/2 at 1, 1
  mark eye_${index} at 1 1/2, 2
  notch top at 50%
  notch bottom at 50%
  grain up
  cut 2 canvas
  cut 1 poplin along core
}
`;
  return `pattern "Many"\nrevision 1\nunit in\nuse "studio/materials.piece"\nallowance 3/8\nlength unit_w = 5\n${Array.from({ length: count }, (_, index) => piece(index)).join('')}`;
}
