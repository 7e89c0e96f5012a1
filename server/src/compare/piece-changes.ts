import type { ResolvedPiece } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { cornerNotes } from '../table/cut-rows.ts';
import { alongText } from '../table/names.ts';
import { together } from './causes.ts';
import { differing, type Cause, type Raw } from './change.ts';
import { factsOtherwise } from './cut-facts.ts';
import { cutSizeText, fineSizeText } from './lengths.ts';
import { matched, type Matched } from './matched.ts';
import type { Pair } from './pair.ts';
import { notesIn } from './said.ts';
import { cutsTheSame, hasSameOutline } from './same-outline.ts';
import { lonelyTemplates, templateChanges } from './template-changes.ts';

/** What is cut otherwise, and which templates no longer serve. */
export function pieceChanges(pair: Pair): readonly Raw[] {
  const { pieces, causes } = pair;
  return [
    ...pieces.come.flatMap((piece) => wholePiece(pair, piece, 'added', causes.at('new', piece.shape.place))),
    ...pieces.gone.flatMap((piece) => wholePiece(pair, piece, 'removed', causes.at('old', piece.shape.place))),
    ...pieces.both.flatMap(([was, now]) => {
      const lines = cutLines(pair, was, now);
      return [
        ...lines.come.map((line) => wholeLine(pair, line, now, 'added', causes.at('new', line.place))),
        ...lines.gone.map((line) => wholeLine(pair, line, was, 'removed', causes.at('old', line.place))),
        ...addedUp(lines.both.flatMap(([a, b]) => lineChanges(pair, a, b, now))),
        ...templateChanges(pair, was, now, lines),
      ];
    }),
  ];
}

/** The cut lines of a piece that belong together, be it that their material or their line is another. */
export function cutLines({ sameMaterial }: Pair, was: ResolvedPiece, now: ResolvedPiece): Matched<CutLine> {
  return matched(was.cuts, now.cuts, [
    (a, b) => sameMaterial(a.material, b.material) && a.along === b.along && cutsTheSame(a, b),
    (a, b) => sameMaterial(a.material, b.material) && a.along === b.along,
    (a, b) => sameMaterial(a.material, b.material) && cutsTheSame(a, b),
    (a, b) => a.along === b.along && cutsTheSame(a, b),
    (a, b) => sameMaterial(a.material, b.material),
    (a, b) => a.along === b.along && a.material.role === b.material.role,
  ]);
}

function wholePiece(pair: Pair, piece: ResolvedPiece, kind: 'added' | 'removed', causes: readonly Cause[]): readonly Raw[] {
  return [...piece.cuts.map((line) => wholeLine(pair, line, piece, kind, causes)), ...lonelyTemplates(piece, kind, causes)];
}

function wholeLine({ fresh: { pattern } }: Pair, line: CutLine, piece: ResolvedPiece, kind: 'added' | 'removed', causes: readonly Cause[]): Raw {
  const text = `${line.count.toFraction()} × ${cutSizeText(line, pattern.display)}`;
  return { group: 'cut', kind, subject: line.piece.title, what: cutFrom(line, piece), was: kind === 'removed' ? text : '', now: kind === 'added' ? text : '', causes };
}

function lineChanges(pair: Pair, was: CutLine, now: CutLine, piece: ResolvedPiece): readonly Raw[] {
  const { causes, sameMaterial, fresh: { pattern: { display } } } = pair;
  const changes: Raw[] = [];
  const own = causes.ofCut(now, was);
  const isShaped = !cutsTheSame(was, now);
  const subject = now.piece.title;
  const what = cutFrom(now, piece);
  const pieces = now.count.toFraction();
  const shaped = (): readonly Cause[] => together([causes.ofOutline(now.piece.name, was.piece.name, now.along), causes.ofCutShape(now, was)]);
  if (isShaped) changes.push({ group: 'cut', kind: 'changed', subject, what: `${what}: ${sizeWord(was, now)}`, ...shapeTexts(was, now, display), pieces, causes: shaped() });
  differing(changes, { group: 'cut', subject, what: `${what}: count`, causes: own }, was.count.toFraction(), now.count.toFraction());
  if (!sameMaterial(was.material, now.material)) changes.push({ group: 'cut', kind: 'changed', subject, what: 'material', was: was.material.title, now: now.material.title, pieces, causes: own });
  for (const fact of factsOtherwise(was, now, display)) {
    changes.push({ group: 'cut', kind: 'changed', subject, what: `${what}: ${fact.name}`, was: fact.was, now: fact.now, ...(fact.serves ? { serves: true } : {}), pieces, causes: factCauses(pair, was, now, isShaped) });
  }
  differing(changes, { group: 'words', subject, what: `${what}: notes`, causes: causes.ofNotes(now.notes, was.notes) }, notesIn(was.notes, pair.was, display).join(' '), notesIn(now.notes, pair.now, display).join(' '));
  return changes;
}

/** The material, with the line where the piece is cut from it along several. */
const cutFrom = (line: CutLine, { cuts }: ResolvedPiece): string =>
  (line.along !== undefined && cuts.some(({ material, along }) => material.name === line.material.name && along !== line.along) ? `${line.material.title}, ${alongText(line)}` : line.material.title);

/** Cut lines of which the very same is told are told once, with all of their pieces. */
function addedUp(changes: readonly Raw[]): readonly Raw[] {
  const alike = new Map<string, Raw>();
  for (const change of changes) {
    const key = JSON.stringify(change);
    const earlier = alike.get(key);
    alike.set(key, earlier?.pieces === undefined || change.pieces === undefined ? change : { ...earlier, pieces: String(Number(earlier.pieces) + Number(change.pieces)) });
  }
  return [...alike.values()];
}

/** Why other materials, or others of them, are cut of a piece: its cut lines. */
export function cutCauses(pair: Pair, was: ResolvedPiece, now: ResolvedPiece): readonly Cause[] {
  const { causes } = pair;
  const { both, come, gone } = cutLines(pair, was, now);
  return together([...both.map(([a, b]) => causes.ofCut(b, a)), ...come.map((line) => causes.at('new', line.place)), ...gone.map((line) => causes.at('old', line.place))]);
}

/** Its own line, what is said of its piece, or else what its material is; which side is up also follows from the outline. */
function factCauses({ causes }: Pair, was: CutLine, now: CutLine, isShaped: boolean): readonly Cause[] {
  const found = together([causes.ofCut(now, was), isShaped ? [] : causes.ofShape(now.piece.name, was.piece.name)]);
  const behind = found.length > 0 ? found : causes.ofNamed(now.material.name, was.material.name);
  return behind.length > 0 ? behind : causes.ofOutline(now.piece.name, was.piece.name, now.along);
}

const sizeWord = (was: CutLine, now: CutLine): string => (was.bounds.width === now.bounds.width && was.bounds.height === now.bounds.height ? 'shape' : 'size');

function shapeTexts(was: CutLine, now: CutLine, display: Pair['fresh']['pattern']['display']): { readonly was: string; readonly now: string } {
  const [before, after] = [cutSizeText(was, display), cutSizeText(now, display)];
  const [corners = '', cornersNow = ''] = [was, now].map((line) => cornerWords(line, display));
  if (corners !== cornersNow && corners !== '' && cornersNow !== '') return { was: `${before}, ${corners}`, now: `${after}, ${cornersNow}` };
  const figures = (text: string): string => text.replaceAll('about ', '');
  if (figures(before) !== figures(after)) return { was: before, now: after };
  if (sizeWord(was, now) === 'shape') return { was: before, now: hasSameOutline(was, now) ? windowText(now) : 'the same, with another outline' };
  const [finely, fine] = [fineSizeText(was, display), fineSizeText(now, display)];
  return finely === fine ? { was: before, now: 'within a thousandth the same, with another outline' } : { was: finely, now: fine };
}

/** What was made of the corners of a rectangle; empty of any other shape. */
const cornerWords = (line: CutLine, display: Pair['fresh']['pattern']['display']): string => (line.rectangle === undefined ? cornerNotes(line, display).join(', ') : 'square corners');

const windowText = ({ holes }: CutLine): string => (holes.length === 0 ? 'the same, without a window' : 'the same, with another window');
