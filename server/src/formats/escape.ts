const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/**
 * A text without what no reader sees and no format should carry: control characters but for tab and line ends (ESC and BEL
 * steer a terminal, and most can't stand in XML: XML 1.0, section 2.2), halves of pairs, characters that Unicode keeps for
 * inner use (U+FFFE and U+FFFF among them), and the signs that turn the direction of what stands after them (Unicode
 * Technical Report 36, section 2.7), which make a line read as another than it is.
 */
export function visibleText(text: string): string {
  return text.replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069\p{Cs}\p{Noncharacter_Code_Point}]/gu, '');
}

/** A text as it may stand in HTML or SVG, in an element or in a quoted attribute. */
export function escapeMarkup(text: string): string {
  return visibleText(text).replace(/[&<>"']/g, (sign) => entities[sign] ?? sign);
}

/** A text as it may stand in Markdown: signs that mean something there or in HTML stand for themselves; so does what would start a list in a list. */
export function escapeMarkdown(text: string): string {
  return (isPlain.test(text) ? text : plainMarkdown(text)).replace(/^( ?\d*)([-+.)])(?= |$)/, '$1\\$2');
}

/** What most texts are: letters, digits and signs that mean nothing in Markdown, with single spaces between. */
const isPlain = /^(?:[A-Za-z0-9!"$%'()+,\-./:;=?@^]| (?! ))*$/;

function plainMarkdown(text: string): string {
  return visibleText(text)
    .replace(/[\\`*_{}[\]<>#|~&]/g, (sign) => (sign === '<' ? '&lt;' : sign === '>' ? '&gt;' : sign === '&' ? '&amp;' : `\\${sign}`))
    .replace(/[\s\p{Cc}]+/gu, ' ');
}
