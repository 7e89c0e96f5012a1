import { distance } from '../geometry/vector.ts';
import type { ResolvedPiece } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { hasGrain, needsTemplate } from '../table/cut-rows.ts';
import { alongText } from '../table/names.ts';
import { alikeByLine } from '../table/templates.ts';
import { together } from './causes.ts';
import type { Cause, Raw } from './change.ts';
import type { Matched } from './matched.ts';
import type { Pair } from './pair.ts';
import { cutsTheSame, printsTheSame } from './same-outline.ts';

/** A template by the cut lines that it serves, of which there is one at least. */
type Template = readonly [CutLine, ...CutLine[]];

/** Templates of a piece that both have which no longer serve, are new, or are needed no more. */
export function templateChanges(pair: Pair, was: ResolvedPiece, now: ResolvedPiece, lines: Matched<CutLine>): readonly Raw[] {
  const [before, after] = [templatesOf(was), templatesOf(now)];
  const partnersOf = (template: Template): readonly Template[] => before.filter((one) => lines.both.some(([a, b]) => one.includes(a) && template.includes(b)));
  const others = [alongs(was), alongs(now)] as const;
  const kept = new Set(after.flatMap(partnersOf));
  return [
    ...after.flatMap((template) => {
      const partners = partnersOf(template);
      const partner = partners.find((one) => printsTheSame(drawnFor(one), drawnFor(template), others)) ?? partners[0];
      return partner === undefined ? alone(template, 'added', causesOf(pair, template, lines)) : reprinted(pair, partner, template, lines, others);
    }),
    ...before.filter((template) => !kept.has(template)).flatMap((template) => alone(template, 'removed', causesOf(pair, template, lines))),
    ...lines.both.flatMap(([a, b]) => refolded(pair, a, b)),
  ];
}

/** Templates of a piece that only one of two patterns has. */
export const lonelyTemplates = (piece: ResolvedPiece, kind: 'added' | 'removed', causes: readonly Cause[]): readonly Raw[] =>
  templatesOf(piece).flatMap((template) => alone(template, kind, causes));

/** A template that only one of two patterns has; what is cut to measure is told by its size, and misses none. */
function alone(template: Template, kind: 'added' | 'removed', causes: readonly Cause[]): readonly Raw[] {
  if (!template.some(needsTemplate)) return [];
  const [line] = template;
  return [{ group: 'template', kind, subject: line.piece.title, what: alongText(line), was: kind === 'removed' ? 'not needed any more' : '', now: kind === 'added' ? 'new' : '', causes }];
}

/** What it is cut along; of a plain rectangle with the words that it may do without. */
const alongWords = (template: Template): string => `${alongText(template[0])}${template.some(needsTemplate) ? '' : ', unless cut to measure'}`;

/** The line that a template is drawn for: one with a grain, whose arrow all of them have. */
const drawnFor = (template: Template): CutLine => template.find(hasGrain) ?? template[0];

function reprinted(pair: Pair, was: Template, now: Template, lines: Matched<CutLine>, others: readonly [ReadonlySet<string>, ReadonlySet<string>]): readonly Raw[] {
  const common = { group: 'template', kind: 'changed', subject: now[0].piece.title, what: alongWords(now), was: '' } as const;
  if (!printsTheSame(drawnFor(was), drawnFor(now), others)) return [{ ...common, now: cutsTheSame(was[0], now[0]) ? 'the same outline, with other lines or marks on it' : 'another outline', causes: causesOf(pair, now, lines) }];
  if (writtenOn(was) === writtenOn(now)) return [];
  return [{ ...common, now: 'the same outline; what to cut by it, as it is written there, has changed', causes: writtenCauses(pair, was, now, lines) }];
}

/** What has changed about the template of another piece that one is cut from, folded. */
function refolded(pair: Pair, was: CutLine, now: CutLine): readonly Raw[] {
  const { title } = now.piece;
  const common = { group: 'template', kind: 'changed', what: alongText(now), was: '', causes: together([pair.causes.ofShape(now.piece.name, was.piece.name), pair.causes.ofCut(now, was)]) } as const;
  if (now.foldedFrom !== undefined) return !cutsTheSame(was, now) || !foldsTheSame(was, now) ? [{ ...common, subject: now.foldedFrom.parentTitle, now: `another line to fold it at for “${title}”` }] : [];
  return was.foldedFrom === undefined ? [] : [{ ...common, subject: was.foldedFrom.parentTitle, now: `no longer folded for “${title}”` }];
}

/** Whether both are cut from a template that is folded at the same line, as far as whoever folds it can see. */
const foldsTheSame = (was: CutLine, now: CutLine): boolean =>
  was.foldedFrom !== undefined && now.foldedFrom !== undefined && was.foldedFrom.ends.every((end, index) => distance(end, now.foldedFrom?.ends[index] ?? end) < 0.05);

function causesOf({ causes }: Pair, template: Template, { both, come, gone }: Matched<CutLine>): readonly Cause[] {
  return together([
    ...both.filter(([was, now]) => template.includes(was) || template.includes(now)).flatMap(([was, now]) => [causes.ofShape(now.piece.name, was.piece.name), causes.ofCut(now, was)]),
    ...come.filter((line) => template.includes(line)).map((line) => causes.at('new', line.place)),
    ...gone.filter((line) => template.includes(line)).map((line) => causes.at('old', line.place)),
  ]);
}

function writtenCauses({ causes, sameMaterial }: Pair, was: Template, now: Template, { both, come, gone }: Matched<CutLine>): readonly Cause[] {
  return together([
    ...both.filter(([a, b]) => now.includes(b) && writtenOn([a]) !== writtenOn([b])).flatMap(([a, b]) => [causes.ofCut(b, a), a.material.title === b.material.title || !sameMaterial(a.material, b.material) ? [] : causes.ofNamed(b.material.name, a.material.name)]),
    ...come.filter((line) => now.includes(line)).map((line) => causes.at('new', line.place)),
    ...gone.filter((line) => was.includes(line)).map((line) => causes.at('old', line.place)),
  ]);
}

/** What a template says to cut by it; the title of its material may be another. */
const writtenOn = (lines: readonly CutLine[]): string =>
  lines.map(({ count, hand, onFold, material, wayUp }) => [count.toFraction(), hand, String(onFold), material.title, wayUp].join(' ')).sort().join('\n');

/** All that may be printed, those of plain rectangles too: whoever has such a page may cut by it. */
const templatesOf = ({ cuts }: ResolvedPiece): readonly Template[] => [...alikeByLine(cuts, 'all').values()].flatMap(([first, ...others]): readonly Template[] => (first === undefined ? [] : [[first, ...others]]));

/** The lines that something of a piece is cut along. */
const alongs = ({ cuts }: ResolvedPiece): ReadonlySet<string> => new Set(cuts.flatMap(({ along }) => (along === undefined ? [] : [along])));
