import { escapeMarkup } from './escape.ts';

/** A page that needs nothing else, loads nothing and runs nothing (Content Security Policy Level 3); it prints well in black and white. */
export const htmlPage = (title: string, body: string): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeMarkup(title)}</title>
<style>
${style}
</style>
</head>
<body>
${body}
</body>
</html>
`;

/** A list of texts, or nothing where there are none. */
export const htmlList = (texts: readonly string[]): string => (texts.length === 0 ? '' : `<ul>\n${texts.map((text) => `<li>${escapeMarkup(text)}</li>`).join('\n')}\n</ul>`);

const style = `
:root { color-scheme: light dark; }
body { font: 15px/1.4 system-ui, sans-serif; margin: 2rem auto; max-width: 70rem; padding: 0 1rem; }
h1 { font-size: 1.4rem; margin: 0; }
h2 { break-after: avoid; }
h2, caption { font-size: 1.05rem; font-weight: 600; text-align: left; margin: 0; padding: .2rem 0; }
.combination, .said { margin: 0; }
.said { font-weight: 400; font-size: .95em; }
ul { margin: .25rem 0; padding-left: 1.2rem; }
section { margin: 1.1rem 0; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid; border-color: color-mix(in srgb, currentColor 35%, transparent); padding: .15rem .4rem; text-align: left; vertical-align: top; }
thead th { border-bottom-width: 2px; }
tbody th { font-weight: 500; }
td.number { text-align: right; font-variant-numeric: tabular-nums; }
.pictures { display: flex; flex-wrap: wrap; gap: .75rem 1.25rem; }
figure { margin: 0; break-inside: avoid; }
figure svg { display: block; max-width: 100%; height: auto; background: #fff; }
figcaption { font-size: .9em; max-width: 14rem; }
.lays { display: grid; grid-template-columns: repeat(auto-fill, minmax(26rem, 1fr)); }
.lays figcaption { max-width: none; }
.safety { border: 2px solid; padding: .25rem 1rem; }
footer { margin-top: 1rem; font-size: .9rem; }
@media print {
  @page { margin: 7mm; }
  :root { color-scheme: light; }
  body { margin: 0; padding: 0; max-width: none; font-size: 8pt; line-height: 1.2; }
  h1 { font-size: 13pt; }
  h2, caption { font-size: 9.5pt; padding: .1rem 0; }
  .said { font-size: 8pt; }
  th, td { padding: .05rem .25rem; }
  td:nth-child(-n+3):last-child { max-width: 62mm; }
  .fact { white-space: nowrap; }
  /* Parts that are narrow stand side by side. */
  article { display: flex; flex-wrap: wrap; align-items: flex-start; gap: 0 5mm; }
  article > * { flex: 1 0 100%; box-sizing: border-box; min-width: 0; }
  article > section:not(.safety) { flex: 1 1 auto; max-width: 100%; }
  section { margin: .15rem 0; }
  ul { margin: 0; }
  .pictures { gap: .3rem 1rem; }
  figure svg { max-height: 26mm; width: auto; }
  figcaption, .pictures + ul { max-width: 45mm; }
  .steps svg { max-height: none; }
  .lays { grid-template-columns: repeat(auto-fill, minmax(44mm, 1fr)); }
  .lays figcaption { max-width: none; }
  footer { font-size: 8pt; margin-top: .1rem; }
  .safety { display: flex; gap: 5mm; padding: .1rem .6rem; }
  thead { display: table-header-group; }
  tr, .safety { break-inside: avoid; }
  caption { break-inside: avoid; break-after: avoid; }
  thead { break-after: avoid; }
  tbody tr:first-child { break-before: avoid; }
  article + article { break-before: page; }
  a { color: inherit; text-decoration: none; }
}`.trim();
