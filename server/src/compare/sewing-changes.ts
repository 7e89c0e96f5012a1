import type { ResolvedPiece } from '../model/pattern.ts';
import { fusingRows, type FusingRow } from '../table/layers.ts';
import { markRows, type MarkRow } from '../table/marks.ts';
import { dartRows } from '../table/darts.ts';
import { stitchingRows } from '../table/stitches.ts';
import { seamRows } from '../table/seams.ts';
import { listed, sizeText } from '../table/figures.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { differing, type Raw } from './change.ts';
import { bothUnits } from './lengths.ts';
import { matched } from './matched.ts';
import type { Pair } from './pair.ts';
import { notesIn } from './said.ts';

/** What is sewn, fused or marked otherwise on pieces that both have. */
export function sewingChanges(pair: Pair): readonly Raw[] {
  const { old, fresh, pieces, materials } = pair;
  const display = bothUnits(fresh.pattern.display);
  const titles = new Map(materials.both.map(([was, now]) => [was.title, now.title]));
  return pieces.both.flatMap(([was, now]) => {
    const changes: Raw[] = [];
    const causes = pair.causes.ofShape(now.shape.name, was.shape.name);
    const subject = now.shape.title;
    const [before, after] = [only(pair.was, was), only(pair.now, now)];
    const [seams, seamsNow] = [seamTexts(before, display), seamTexts(after, display)];
    const ofOutline = pair.causes.ofOutline(now.shape.name, was.shape.name);
    for (const [what, text] of seamsNow) differing(changes, { group: 'sew', subject, what, causes: what === 'size as folded' ? causes : ofOutline }, seams.get(what) ?? '', text);
    differing(changes, { group: 'sew', subject, what: 'darts and pleats', causes }, dartTexts(before, display), dartTexts(after, display));
    differing(changes, { group: 'sew', subject, what: 'topstitching and quilting', causes }, stitchTexts(before, display), stitchTexts(after, display));
    const layers = (rows: readonly FusingRow[], titleOf: (title: string) => string): string => rows.map((row) => layerText(row, titleOf)).join('; then ');
    differing(changes, { group: 'sew', subject, what: 'layers', causes: layerCauses(pair, was, now, causes) }, layers(fusingRows(before, display, 1), (title) => titles.get(title) ?? title), layers(fusingRows(after, display, 1), (title) => title));
    const marks = (rows: readonly MarkRow[], { shape }: ResolvedPiece): readonly MarkRow[] => rows.filter((row) => row.pieceName === shape.name);
    changes.push(...markChanges(marks(markRows({ ...old.pattern, display }, pair.was), was), marks(markRows({ ...fresh.pattern, display }, pair.now), now), subject, (places) => pair.causes.ofMark(now.shape.name, was.shape.name, places)));
    differing(changes, { group: 'words', subject, what: 'notes', causes: pair.causes.ofNotes(now.shape.notes, was.shape.notes) }, notesIn(was.shape.notes, pair.was, display).join(' '), notesIn(now.shape.notes, pair.now, display).join(' '));
    return changes;
  });
}

const only = (resolved: Pair['was'], piece: ResolvedPiece): Pair['was'] => ({ ...resolved, pieces: [piece] });

const dartTexts = (resolved: Pair['was'], display: Display): string => dartRows(resolved, display).map(({ first, length }) => `${first}, ${length.text}`).join('; ');

const stitchTexts = (resolved: Pair['was'], display: Display): string => stitchingRows(resolved, display).map(({ first, how, second, length }) => `${first} ${how} ${second}, ${length.text}`).join('; ');

function seamTexts(resolved: Pair['was'], display: Display): ReadonlyMap<string, string> {
  const rows = seamRows(resolved, display);
  return new Map([
    ['finished size', [...new Set(rows.map((row) => sizeText(row.finished)))].join(' or ')],
    ['size as folded', [...new Set(rows.flatMap((row) => (row.folded === undefined ? [] : [sizeText(row.folded)])))].join(' or ')],
    ['seam allowance', [...new Set(rows.map((row) => row.allowance))].join(' or ')],
  ]);
}

const layerText = ({ how, layer, onto, over, side, where, care }: FusingRow, titleOf: (title: string) => string): string =>
  `${how} ${titleOf(layer)} on the ${side} side of ${titleOf(onto)}${over.length === 0 ? '' : ` over ${listed(over.map(titleOf))}`}, ${where}${care.length === 0 ? '' : `, ${care.join(', ')}`}`;

function layerCauses({ causes }: Pair, was: ResolvedPiece, now: ResolvedPiece, ofShape: Raw['causes']): Raw['causes'] {
  const own = now.cuts.flatMap((line, index) => {
    const earlier = was.cuts[index];
    return earlier === undefined ? causes.at('new', line.place) : causes.ofCut(line, earlier);
  });
  return own.length > 0 ? own : ofShape;
}

const markText = ({ kind, fromLeft, fromBelow, facing }: MarkRow): string =>
  [kind, fromLeft === undefined ? '' : `${fromLeft.text} from the left`, fromBelow === undefined ? '' : `${fromBelow.text} from below`, facing === 'right side' ? '' : `with its ${facing} facing you`].filter((text) => text !== '').join(', ');

function markChanges(was: readonly MarkRow[], now: readonly MarkRow[], subject: string, causesOf: (places: readonly Place[]) => Raw['causes']): readonly Raw[] {
  // A mark that is at its place under another name is the same mark.
  const { both, gone, come } = matched(was, now, [
    (a, b) => a.mark === b.mark && markText(a) === markText(b),
    (a, b) => markText(a) === markText(b),
    (a, b) => a.mark === b.mark,
  ]);
  return [
    ...both.flatMap(([a, b]): readonly Raw[] => (markText(a) === markText(b) ? [] : [{ group: 'mark', kind: 'changed', subject, causes: causesOf([a.place, b.place]), what: b.mark, was: markText(a), now: markText(b) }])),
    ...come.map((row): Raw => ({ group: 'mark', kind: 'added', subject, causes: causesOf([row.place]), what: row.mark, was: '', now: markText(row) })),
    ...gone.map((row): Raw => ({ group: 'mark', kind: 'removed', subject, causes: causesOf([row.place]), what: row.mark, was: markText(row), now: '' })),
  ];
}
