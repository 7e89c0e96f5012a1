/** Whether a file can have such a name: half of a pair of code units stands for nothing in any file system. */
export const canBeName = (written: string): boolean => !/\p{Cs}/u.test(written);

/**
 * The path that a `use` names, relative to the working folder and with forward slashes.
 *
 * @param from the file that the `use` stands in, relative to the working folder
 * @returns undefined where the path is absolute, climbs out of the working folder or can be the name of no file
 */
export function resolvePath(from: string, written: string): string | undefined {
  if (/^[/\\]|^[A-Za-z]:|\0/.test(written) || written.trim() === '' || !canBeName(written)) return undefined;
  const parts = from.split('/').slice(0, -1);
  for (const part of written.split(/[/\\]/)) {
    if (part === '' || part === '.') continue;
    if (part === '..') {
      if (parts.length === 0) return undefined;
      parts.pop();
    } else parts.push(part);
  }
  return parts.join('/');
}

/** How a file names another in a `use`: the shortest way from its own folder. Both paths relative to the working folder. */
export function relativePath(from: string, to: string): string {
  const [folders, parts] = [from.split('/').slice(0, -1), to.split('/')];
  let same = 0;
  while (same < folders.length && same < parts.length - 1 && folders[same] === parts[same]) same++;
  return [...folders.slice(same).map(() => '..'), ...parts.slice(same)].join('/');
}
