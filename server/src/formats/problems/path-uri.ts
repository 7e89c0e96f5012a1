/**
 * A path as a relative reference of RFC 3986 (section 4.2): each of its parts percent-encoded, so that it is read back as the
 * very same path. A whole path becomes a `file` address (RFC 8089).
 */
export function uriOfPath(path: string): string {
  const encoded = path.replace(/\p{Cs}/gu, '\uFFFD').split('/').map((part) => encodeURIComponent(part).replace(/[!'()*]/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`)).join('/');
  if (/^[A-Za-z]:\//.test(path)) return `file:///${path.slice(0, 2)}${encoded.slice(4)}`;
  return path.startsWith('/') ? `file://${encoded}` : encoded;
}
