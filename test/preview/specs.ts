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
import { previewData, type PreviewBackground, type PreviewData } from '../../server/src/preview/drawing.ts';
import { remembered, type Earlier } from '../../server/src/preview/earlier.ts';
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
  private earlier: Earlier = new Map();
  private version = 0;
  private file: SourceFile | undefined;
  private readonly path: string;

  constructor(path = 'draft.piece') {
    this.path = path;
  }

  data(text: string, combination: Readonly<Record<string, string>> = {}, wish: Pick<PreviewBackground, 'handled' | 'beside'> = {}): PreviewData {
    this.file = parseFile(this.path, text, this.file);
    const pattern = this.analyst.analyse(this.file, this.library);
    const data = previewData(snapshotOf(pattern), new Map(Object.entries(combination)), { numbers: this.numbers, earlier: this.earlier, ...wish });
    this.earlier = remembered(this.earlier, data, pattern, ++this.version);
    return data;
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

const head = `pattern "Shapes"
revision 1
unit cm
step 0.1
use "studio/materials.piece"
`;

/** Curves, folds, notches, windows, marks and drill holes, in centimetres; invented. */
export const shapes = `${head}
sizes S, M, L
length body = 24 for S, 28 for M, 32 for L
length flap_depth = body / 2 + 1

piece flap "Rounded flap" {
  outline path from 0, 0 {
    line to body, 0 as hinge
    line to body, flap_depth / 2 as right
    curve to 0, flap_depth / 2 by body, flap_depth * 1.2 and 0, flap_depth * 1.2 as sweep
    close as left
  }
  allowance hinge 1.5
  allowance sweep 1
  line edge_stitch = inset 0.6 from stitching
  notch hinge at 50%
  notch sweep at 25%
  notch sweep at 75%
  drill rivet at body / 2, 3
  grain bias
  cut 1 canvas
  cut 1 poplin
}

piece base "Round base" {
  outline circle across 16
  allowance 1
  foldline middle = level at 8
  grain none
  cut 2 cork
}

piece gusset "Half gusset" {
  outline polygon from 0, 0 to 6, 0 to 9, 20 to 0, 20
  edge side4 as centre
  on fold centre
  allowance 1
  placement pocket = rectangle 3 by 6 at 1.2, 6
  mark eyelet for snap 10 mm at 2.5, 16
  notch side2 at 8
  grain up
  this way up
  cut 2 print on fold
}

piece panel "Panel with a window" {
  outline rectangle body by 18
  corner top chamfer 2
  window view = ellipse 10 by 6 centred at body / 2, 9
  line zip_tape = from 3, 3 to body - 3, 3
  grain up or across
  cut 1 canvas
  cut 1 stay along stitching without view
}
`;

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
