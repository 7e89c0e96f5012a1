import { escapeMarkdown } from '../formats/escape.ts';
import { combinationsToShow } from '../table/combinations.ts';
import { stepRows } from '../table/steps.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import type { Hover } from './hover.ts';

/** A step's number, what it says with its measures worked out, and what it does. */
export function aboutStep(snapshot: Snapshot, offset: number): Hover | undefined {
  const at = snapshot.declarationAt(offset);
  const tree = at?.declaration.tree;
  if (at === undefined || tree?.kind !== 'work step' || offset < at.offset + tree.text.start || offset > at.offset + tree.text.end) return undefined;
  const { pattern } = snapshot;
  const texts = new Set<string>();
  for (const combination of combinationsToShow(pattern).combinations) {
    const resolved = pattern.resolve(combination);
    const row = stepRows({ ...resolved, steps: resolved.steps.filter(({ declaration }) => declaration === at.declaration) }, pattern.display)[0];
    if (row !== undefined) texts.add([`**Step ${row.number}**`, escapeMarkdown(row.text), row.does.map(({ title }) => `- ${escapeMarkdown(title)}`).join('\n')].filter((text) => text !== '').join('\n\n'));
  }
  if (texts.size === 0) return undefined;
  return { start: at.offset + tree.text.start, end: at.offset + tree.text.end, markdown: [...texts].join('\n\n') };
}
