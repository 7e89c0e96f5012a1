import { isUtf8 } from 'node:buffer';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import writeFileAtomic from 'write-file-atomic';
import { UsageError } from './files.ts';
import { isRefused, openSpec } from './open.ts';

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
  if (issued?.revision === revision && issued.digest !== pattern.digest) throw new UsageError(`Revision ${revision} was issued as something else: raise the revision first.`);
  const line = `issued ${revision} as "${pattern.digest}"`;
  const at = root.declarations.find(({ declaration }) => declaration.tree.kind === 'issued') ?? root.declarations.find(({ declaration }) => declaration.tree.kind === 'revision');
  if (at === undefined) throw new UsageError('The pattern’s revision stands in another file: write it in the pattern itself.');
  const full = join(spec.folder, spec.path);
  const bytes = readFileSync(full);
  // What is written back must be what was there: signs of another encoding would be lost for good.
  if (!isUtf8(bytes)) throw new UsageError(`“${named}” isn’t written in UTF-8: save it as UTF-8 first.`);
  const hasMark = bytes.toString('utf8').startsWith('\uFEFF');
  const tree = at.declaration.tree;
  const eol = root.text.includes('\r\n') ? '\r\n' : '\n';
  const text = tree.kind === 'issued'
    ? root.text.slice(0, at.offset + tree.start) + line + root.text.slice(at.offset + tree.end)
    : root.text.slice(0, at.offset + at.declaration.text.length).replace(/(\r\n|\n|\r)?$/, `${eol}${line}${eol}`) + root.text.slice(at.offset + at.declaration.text.length);
  await writeFileAtomic(full, hasMark ? `\uFEFF${text}` : text, 'utf8');
  process.stdout.write(`Revision ${revision} is issued as ${pattern.digest}.\n`);
  return 0;
}
