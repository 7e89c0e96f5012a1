const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** A text as it may stand in HTML or SVG, in an element or in a quoted attribute. */
export function escapeMarkup(text: string): string {
  // Control characters can't stand in XML at all, and mean nothing in a pattern.
  return text.replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F]/g, '').replace(/[&<>"']/g, (sign) => entities[sign] ?? sign);
}
