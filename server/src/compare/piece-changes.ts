import { noteTexts } from '../table/said-text.ts';
import { bothUnits } from './lengths.ts';
import { distance } from '../geometry/vector.ts';
import type { ResolvedPiece } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { cutRow, isIntoSeam, needsTemplate, type CutRow } from '../table/cut-rows.ts';
import { alongText } from '../table/names.ts';
import { together } from './causes.ts';
import { differing, type Cause, type Raw } from './change.ts';
import { cutSizeText, fineSizeText } from './lengths.ts';
import { matched, type Matched } from './matched.ts';
import type { Pair } from './pair.ts';
import { cutsTheSame, printsTheSame } from './same-outline.ts';

/** What is cut otherwise, and which templates no longer serve. */
export function pieceChanges(pair: Pair): readonly Raw[] {
  const { pieces, causes } = pair;
  return [
    ...pieces.come.flatMap((piece) => wholePiece(pair, piece, 'added', causes.at('new', piece.shape.place))),
    ...pieces.gone.flatMap((piece) => wholePiece(pair, piece, 'removed', causes.at('old', piece.shape.place))),
    ...pieces.both.flatMap(([was, now]) => {
      const lines = cutLines(pair, was, now);
      return [
        ...lines.come.flatMap((line) => wholeLine(pair, line, 'added', causes.at('new', line.place))),
        ...lines.gone.flatMap((line) => wholeLine(pair, line, 'removed', causes.at('old', line.place))),
        ...lines.both.flatMap(([a, b]) => lineChanges(pair, a, b, [alongs(was), alongs(now)])),
      ];
    }),
  ];
}

/** The cut lines of a piece that belong together, be it that their material or their line is another. */
export function cutLines({ sameMaterial }: Pair, was: ResolvedPiece, now: ResolvedPiece): Matched<CutLine> {
  return matched(was.cuts, now.cuts, [
    (a, b) => sameMaterial(a.material, b.material) && a.along === b.along && cutsTheSame(a, b),
    (a, b) => sameMaterial(a.material, b.material) && cutsTheSame(a, b),
    (a, b) => sameMaterial(a.material, b.material) && a.along === b.along,
    (a, b) => a.along === b.along && cutsTheSame(a, b),
    (a, b) => sameMaterial(a.material, b.material),
    (a, b) => a.along === b.along && a.material.role === b.material.role,
  ]);
}

function wholePiece(pair: Pair, { cuts }: ResolvedPiece, kind: 'added' | 'removed', causes: readonly Cause[]): readonly Raw[] {
  return cuts.flatMap((line) => wholeLine(pair, line, kind, causes));
}

function wholeLine({ fresh: { pattern } }: Pair, line: CutLine, kind: 'added' | 'removed', causes: readonly Cause[]): readonly Raw[] {
  const text = `${line.count.toFraction()} × ${cutSizeText(line, pattern.display)}`;
  const change = { kind, subject: line.piece.title, was: kind === 'removed' ? text : '', now: kind === 'added' ? text : '', causes };
  return [
    { group: 'cut', what: line.material.title, ...change },
    ...(needsTemplate(line) ? [{ ...change, group: 'template' as const, what: alongText(line), was: kind === 'removed' ? 'not needed any more' : '', now: kind === 'added' ? 'new' : '' }] : []),
  ];
}

/** The lines that something of a piece is cut along. */
const alongs = ({ cuts }: ResolvedPiece): ReadonlySet<string> => new Set(cuts.flatMap(({ along }) => (along === undefined ? [] : [along])));

function lineChanges(pair: Pair, was: CutLine, now: CutLine, others: readonly [ReadonlySet<string>, ReadonlySet<string>]): readonly Raw[] {
  const { causes, sameMaterial, fresh: { pattern: { display } } } = pair;
  const changes: Raw[] = [];
  const own = causes.ofCut(now, was);
  const isShaped = !cutsTheSame(was, now);
  const isDrawn = needsTemplate(now) && !(needsTemplate(was) && printsTheSame(was, now, others));
  const outline = isShaped ? together([causes.ofOutline(now.piece.name, was.piece.name, now.along), causes.ofCutShape(now, was)]) : own;
  const why = isShaped || isDrawn ? together([causes.ofShape(now.piece.name, was.piece.name), own]) : own;
  const subject = now.piece.title;
  const what = now.material.title;
  const pieces = now.count.toFraction();
  const refolded = refolding(was, now, isShaped);
  if (isShaped) changes.push({ group: 'cut', kind: 'changed', subject, what: `${what}: ${sizeWord(was, now)}`, ...shapeTexts(was, now, display), pieces, causes: outline });
  differing(changes, { group: 'cut', subject, what: `${what}: count`, causes: own }, was.count.toFraction(), now.count.toFraction());
  if (!sameMaterial(was.material, now.material)) changes.push({ group: 'cut', kind: 'changed', subject, what: 'material', was: was.material.title, now: what, pieces, causes: own });
  const [before, after] = [cutRow(was, display, 1, undefined), cutRow(now, display, 1, undefined)];
  for (const [name, textOf] of cutFacts) differing(changes, { group: 'cut', subject, what: `${what}: ${name}`, pieces, causes: together([own, isShaped ? [] : causes.ofShape(now.piece.name, was.piece.name)]) }, textOf(before, was), textOf(after, now));
  differing(changes, { group: 'words', subject, what: `${what}: notes`, causes: own }, noteTexts(was.notes, pair.was, bothUnits(display)).join(' '), noteTexts(now.notes, pair.now, bothUnits(display)).join(' '));
  if (isDrawn) changes.push({ group: 'template', kind: 'changed', subject, what: alongText(now), was: '', now: isShaped ? 'another outline' : 'the same outline, with other lines or marks on it', causes: why });
  else if (needsTemplate(now) && writtenOn(was) !== writtenOn(now)) changes.push({ group: 'template', kind: 'changed', subject, what: alongText(now), was: '', now: 'the same outline; what to cut by it, as it is written there, has changed', causes: own });
  else if (refolded !== undefined) changes.push({ group: 'template', kind: 'changed', ...refolded, what: alongText(now), was: '', causes: together([causes.ofShape(now.piece.name, was.piece.name), own]) });
  else if (needsTemplate(was) && !needsTemplate(now)) changes.push({ group: 'template', kind: 'removed', subject, what: alongText(was), was: 'not needed any more', now: '', causes: why });
  return changes;
}

/** What has changed about the template of another piece that one is cut from, folded; undefined where nothing has. */
function refolding(was: CutLine, now: CutLine, isShaped: boolean): Pick<Raw, 'subject' | 'now'> | undefined {
  const { title } = now.piece;
  if (now.foldedFrom !== undefined) return isShaped || !foldsTheSame(was, now) ? { subject: now.foldedFrom.parentTitle, now: `another line to fold it at for “${title}”` } : undefined;
  return was.foldedFrom && { subject: was.foldedFrom.parentTitle, now: `no longer folded for “${title}”` };
}

/** Whether both are cut from a template that is folded at the same line, as far as whoever folds it can see. */
const foldsTheSame = (was: CutLine, now: CutLine): boolean =>
  was.foldedFrom !== undefined && now.foldedFrom !== undefined && was.foldedFrom.ends.every((end, index) => distance(end, now.foldedFrom?.ends[index] ?? end) < 0.05);

/** What a template says to cut by it; the title of its material may be another. */
const writtenOn = ({ count, hand, onFold, material, wayUp }: CutLine): string => [count.toFraction(), hand, String(onFold), material.title, wayUp].join(' ');

const sizeWord = (was: CutLine, now: CutLine): string => (was.bounds.width === now.bounds.width && was.bounds.height === now.bounds.height ? 'shape' : 'size');

function shapeTexts(was: CutLine, now: CutLine, display: Pair['fresh']['pattern']['display']): { readonly was: string; readonly now: string } {
  const [before, after] = [cutSizeText(was, display), cutSizeText(now, display)];
  const figures = (text: string): string => text.replaceAll('about ', '');
  if (figures(before) !== figures(after)) return { was: before, now: after };
  if (sizeWord(was, now) === 'shape') return { was: before, now: 'the same, with another outline' };
  const [finely, fine] = [fineSizeText(was, display), fineSizeText(now, display)];
  return finely === fine ? { was: before, now: 'within a thousandth the same, with another outline' } : { was: finely, now: fine };
}

/** What else is told of a cut line, besides its size, its number and its material. */
const cutFacts: readonly (readonly [string, (row: CutRow, line: CutLine) => string])[] = [
  ['on the fold', ({ onFold }) => (onFold ? 'yes' : 'no')],
  ['twins', ({ twins }) => (twins ? 'as mirrored pairs' : 'all alike')],
  ['which way up', ({ wayUp }) => wayUp],
  ['way of the print', (_, line) => (line.thisWayUp ? 'this way up' : 'either end up')],
  ['grain', ({ grain }, line) => (line.material.direction === 'any' ? '' : (line.piece.grain.angle === undefined ? 'any' : grainText(grain, line)))],
  ['into the seam', (_, line) => (isIntoSeam(line) ? 'yes' : 'no')],
  ['cut large', (_, line) => (line.large === undefined ? 'no' : 'trim later')],
];

/** Which side runs along the grain; not how long that side is, which is told as the size. */
const grainText = (grain: string, { piece: { grain: { angle, orAcross } } }: CutLine): string => (grain === '' || /^its /.test(grain) ? `${String(angle)}°${orAcross ? ', or across' : ''} from upright` : grain.replace(/, as is usual$/, ''));
