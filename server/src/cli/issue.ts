import { join } from 'node:path';
import type { SourceFile } from '../syntax/tree.ts';
import { UsageError } from './files.ts';
import { isRefused, openSpec } from './open.ts';
import { replaceText } from './replace-text.ts';
import { say } from './terminal.ts';

/**
 * `piecewright issue`: writes into the spec that its revision, as it now is, has been given out. From then on a change
 * without a higher revision is a warning.
 */
export async function issue(named: string): Promise<number> {
  const opened = await openSpec(named);
  if (isRefused(opened, 'A pattern with errors can’t be issued.')) return 1;
  const { spec, pattern } = opened;
  const { root, facts: { revision, issued } } = pattern.world;
  if (revision === undefined) throw new UsageError('The pattern has no revision to issue: add a line such as revision 1.');
  if (issued !== undefined && Number(revision) < Number(issued.revision)) throw new UsageError(`Revision ${issued.revision} has been issued already, so ${revision} would go back: raise the revision first.`);
  if (issued !== undefined && Number(revision) === Number(issued.revision) && issued.digest !== pattern.digest) throw new UsageError(`Revision ${revision} was issued as something else: raise the revision first.`);
  const text = withIssued(root, `issued ${revision} as "${pattern.digest}"`);
  if (text === undefined) throw new UsageError('The pattern’s revision stands in another file: write it in the pattern itself.');
  await replaceText(join(spec.folder, spec.path), named, root.text, text, 'issue it again');
  say(`Revision ${revision} is issued as ${pattern.digest}.`);
  return 0;
}

/** The text with that line in place of the earlier one, or after the revision; undefined where it has neither. */
function withIssued(root: SourceFile, line: string): string | undefined {
  const at = root.declarations.find(({ declaration }) => declaration.tree.kind === 'issued') ?? root.declarations.find(({ declaration }) => declaration.tree.kind === 'revision');
  if (at === undefined) return undefined;
  const { tree, text } = at.declaration;
  const eol = root.text.includes('\r\n') ? '\r\n' : '\n';
  return tree.kind === 'issued'
    ? root.text.slice(0, at.offset + tree.start) + line + root.text.slice(at.offset + tree.end)
    : root.text.slice(0, at.offset + text.length).replace(/(\r\n|\n|\r)?$/, `${eol}${line}${eol}`) + root.text.slice(at.offset + text.length);
}
