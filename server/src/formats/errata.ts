import type { Errata } from '../compare/errata.ts';
import { headings } from '../table/words.ts';
import { escapeMarkdown, visibleText } from './escape.ts';

/** A notice as plain text, or as Markdown. */
export function errataText({ title, opening, tasks, cautions }: Errata, form: 'text' | 'markdown'): string {
  const text = form === 'markdown' ? escapeMarkdown : (one: string): string => visibleText(one).replace(/\s+/g, ' ');
  const heading = (level: number, one: string): string => (form === 'markdown' ? `${'#'.repeat(level)} ${text(one)}` : text(one));
  const list = (all: readonly string[]): string => all.map((one) => `- ${text(one)}`).join('\n');
  const parts = [heading(1, title), text(opening), ...tasks.flatMap((task) => [heading(2, task.heading), list(task.items)]), heading(2, headings.safety), list(cautions)];
  return `${parts.join('\n\n')}\n`;
}
