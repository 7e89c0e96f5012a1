import type { Change, Group } from '../compare/change.ts';
import type { Comparison } from '../compare/comparison.ts';
import { causePlace, groupNames, headline, nothingMade, pointsOf, whenWords } from '../compare/summary.ts';
import { columnsOf } from './comparison-columns.ts';
import { comparisonPictures, drawingKey } from './comparison-drawings.ts';
import { escapeMarkdown } from './escape.ts';

/** Told openly; the rest is folded away. */
const open: readonly Group[] = ['cut', 'buy', 'template', 'choices'];

/** Longer lists of what to do are cut short in the lead; the tables have all of it. */
const mostItems = 12;

/**
 * A comparison for a comment of a review: what a maker must do first, then each change with its cause, the rest folded.
 *
 * @param pictureAt the address of each drawing of {@link comparisonPictures}; there are none without it
 */
export function comparisonMarkdown(comparison: Comparison, pictureAt?: (index: number) => string): string {
  const { changes, same, new: fresh, old } = comparison;
  const groups = [...new Set(changes.map(({ group }) => group))];
  const folded = groups.filter((group) => !open.includes(group));
  const rest = changes.filter(({ group }) => folded.includes(group));
  const parts = [
    same ? `**${escapeMarkdown(fresh.title)}: no change**` : `## ${escapeMarkdown(headline(comparison))}`,
    ...(comparison.discipline === undefined ? [] : [`**${comparison.discipline.severity === 'error' ? 'Error' : 'Note'}:** ${escapeMarkdown(comparison.discipline.message)}`]),
    ...errorNotes(comparison).map(escapeMarkdown),
    ...nothingMade(comparison),
    ...lead(comparison),
    ...pictures(comparison, pictureAt),
    ...groups.filter((group) => open.includes(group)).map((group) => section(group, changes)),
    ...(rest.length === 0 ? [] : [`${foldingOf(folded.map((group) => groupNames[group]).join(', '), rest.length, changes.length)}\n\n${folded.map((group) => section(group, rest)).join('\n\n')}\n\n</details>`]),
    ...renamings(comparison),
    `_${escapeMarkdown(`Compared: ${old.file} (${old.digest}) with ${fresh.file} (${fresh.digest}).`)}_`,
  ];
  return `${parts.join('\n\n')}\n`;
}

/** Where there is nothing else, a reviewer has that before them without unfolding it. */
const foldingOf = (what: string, number: number, ofAll: number): string =>
  (number === ofAll ? `<details open><summary>${what}: ${number} ${number === 1 ? 'change' : 'changes'}</summary>` : `<details><summary>${what}: ${number} more</summary>`);

/** What can't be worked out can't be compared. */
export function errorNotes({ old, new: fresh }: Comparison): readonly string[] {
  return [['earlier', old.errors] as const, ['new', fresh.errors] as const].filter(([, errors]) => errors > 0)
    .map(([which, errors]) => `The ${which} pattern has ${errors === 1 ? 'an error' : `${errors} errors`}: what can’t be worked out is missing from this comparison.`);
}

function lead(comparison: Comparison): readonly string[] {
  const lines = pointsOf(comparison).map(({ what, items }) => `- **${what}:** ${items.slice(0, mostItems).map(escapeMarkdown).join('; ')}${items.length > mostItems ? `; and ${items.length - mostItems} more` : ''}`);
  return lines.length === 0 ? [] : [lines.join('\n')];
}

function pictures({ outlines }: Comparison, pictureAt: ((index: number) => string) | undefined): readonly string[] {
  if (pictureAt === undefined || outlines.length === 0) return [];
  return [drawingKey, ...comparisonPictures(outlines).map(({ caption: [text = ''] }, index) => `![${escapeMarkdown(text)}](${pictureAt(index)})\n\n${escapeMarkdown(text)}`)];
}

function section(group: Group, changes: readonly Change[]): string {
  const rows = changes.filter((change) => change.group === group);
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  const { heads, cells } = columnsOf(rows);
  const head = [...heads, 'Why'];
  return [
    `### ${groupNames[group]}`,
    '',
    line(head),
    `|${head.map(() => ' --- |').join('')}`,
    ...rows.map((change) => line(cells(change).map(escapeMarkdown).concat(why(change)))),
  ].join('\n');
}

const why = ({ causes }: Change): string => causes.map((cause) => `${escapeMarkdown(cause.text)}${cause.before === undefined ? '' : ` (was ${escapeMarkdown(cause.before)})`}, ${escapeMarkdown(causePlace(cause))}`).join('<br>');

function renamings({ renamed }: Comparison): readonly string[] {
  return renamed.length === 0 ? [] : [['Named otherwise:', '', ...renamed.map(({ kind, was, now }) => `- ${kind} ${escapeMarkdown(was)} → ${escapeMarkdown(now)}`)].join('\n')];
}

/** How many pieces a cut line cuts now: ` (4 pieces)`. */
const piecesText = ({ pieces }: Change): string => (pieces === undefined ? '' : ` (${pieces} ${pieces === '1' ? 'piece' : 'pieces'})`);

/** The same for a terminal, a change on a line, its causes below it. */
export function comparisonText(comparison: Comparison): string {
  const { changes, discipline, renamed } = comparison;
  const lines = [
    headline(comparison),
    ...(discipline === undefined ? [] : [`${discipline.severity} ${discipline.code} ${discipline.message}`]),
    ...errorNotes(comparison),
    ...nothingMade(comparison),
    ...pointsOf(comparison).map(({ what, items }) => `${what}: ${items.join('; ')}`),
    ...[...new Set(changes.map(({ group }) => group))].flatMap((group) => [
      '', groupNames[group],
      ...changes.filter((change) => change.group === group).flatMap((change) => [
        `  ${change.subject}, ${change.what}${piecesText(change)}: ${change.was === '' || change.now === '' ? `${change.kind === 'changed' ? '' : `${change.kind}: `}${change.was}${change.now}` : `${change.was} → ${change.now}`}${whenWords(change)}`,
        ...change.causes.map((cause) => `    ${causePlace(cause)}  ${cause.text}${cause.before === undefined ? '' : `  (was ${cause.before})`}`),
      ]),
    ]),
    ...(renamed.length === 0 ? [] : ['', 'Named otherwise', ...renamed.map(({ kind, was, now }) => `  ${kind} ${was} → ${now}`)]),
  ];
  return lines.join('\n');
}
