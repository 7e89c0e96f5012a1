/**
 * Addresses of files. Clients spell the same file in different ways (`c%3A`, `C:`, `%20`), so files are told apart by a
 * key with the escapes resolved; what is sent back to the client is what it sent, where it has sent anything.
 */

/** One spelling for all spellings of an address. */
export function keyOf(uri: string): string {
  const key = decode(uri).replace(/\\/g, '/');
  return key.replace(/^(file:\/\/\/)([A-Za-z]):/, (_, start: string, drive: string) => `${start}${drive.toLowerCase()}:`).replace(/(?<=[^/:])\/+$/, '');
}

function decode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** The key of the folder that a file lies in. */
export function folderKeyOf(key: string): string {
  const slash = key.lastIndexOf('/');
  return slash < 0 ? '' : key.slice(0, slash);
}

/** The address of the folder that a file lies in, as the client spells it. */
export function folderUriOf(uri: string): string {
  const slash = uri.lastIndexOf('/');
  return slash < 0 ? '' : uri.slice(0, slash);
}

/** The path of a file in a folder, by their keys; undefined where it lies outside. */
export function pathIn(folderKey: string, key: string): string | undefined {
  const start = folderKey.endsWith('/') ? folderKey : `${folderKey}/`;
  return key.startsWith(start) ? key.slice(start.length) : undefined;
}

/** The address of a path in a folder. */
export function uriIn(folderUri: string, path: string): string {
  return `${folderUri.replace(/\/+$/, '')}/${path.split('/').map(encodeURIComponent).join('/')}`;
}
