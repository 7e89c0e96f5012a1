import { Ajv2020 } from 'ajv/dist/2020.js';
import MarkdownIt from 'markdown-it';
import { readFileSync } from 'node:fs';
import { parse, type DefaultTreeAdapterTypes } from 'parse5';
import * as sax from 'sax';
import { describe, expect, it } from 'vitest';
import { usualOptions } from '../../server/src/buying/plan.ts';
import type { CatalogueComparison } from '../../server/src/compare/catalogue.ts';
import { compare } from '../../server/src/compare/comparison.ts';
import { errataOf } from '../../server/src/compare/errata.ts';
import { comparisonPictures } from '../../server/src/formats/comparison-drawings.ts';
import { catalogueHtml, catalogueMarkdown } from '../../server/src/formats/comparison-catalogue.ts';
import { comparisonJson } from '../../server/src/formats/comparison-json.ts';
import { comparisonMarkdown } from '../../server/src/formats/comparison-markdown.ts';
import { errataText } from '../../server/src/formats/errata.ts';
import { printQuoted } from '../../server/src/syntax/print-words.ts';
import { patternOf } from '../support/samples.ts';
import { materials, spec } from './changes.ts';

/*
 * What anybody may write between quotes, through every way out of a comparison, each read by a program that we didn't write:
 * markdown-it (CommonMark with tables, HTML let through as on a site that shows comments), parse5 (HTML), sax (XML), ajv.
 */
const texts = [
  '<script>alert(1)</script>', '"><img src=x onerror=alert(1)>', '![x](https://example.com/x.png)', '[x](javascript:alert(1))', '| a | b |', '</details><h1>x', '# x', '- x', '1. x',
  '`x`', '*x* _x_ ~~x~~', '<!-- x', ']]>', '&lt;b&gt;', '\u202Eabc\u2066', '\u0007\u001B[31mx', 'a\\', '```', '$x$', '{{x}}', '<https://example.com>', ' x ', '\u2028x',
];

const quoted = (text: string): string => printQuoted({ value: text, start: 0, end: 0 });
const titled = (text: string, title: string): string => ['Glasses case', 'Body', 'Inside', 'Flap', 'Zip'].reduce((all, one) => all.replace(`"${one}"`, quoted(`${title} ${one}`)), text);
const stock = (title: string): Readonly<Record<string, string>> => ({ 'stock.piece': ['Canvas', 'Lining', 'Foam'].reduce((all, one) => all.replace(`"${one}"`, quoted(`${title} ${one}`)), materials) });
const comparison = (title: string): ReturnType<typeof compare> => compare(
  patternOf(titled(spec, title), stock(title)),
  patternOf(`${titled(spec.replace('revision 1', 'revision 2').replace('case_h = 7', 'case_h = 8').replace('cut 2 foam', 'cut 4 foam').replace('piece inside', 'piece inner').replace('inside.top', 'inner.top').replace('from closed 6', 'from closed 7'), title).replace('piece inner "', 'piece inner "New ')}\nnote ${quoted(title).replaceAll('{', '\\{')}\n`, stock(title)),
  { ...usualOptions, effort: 0 },
);

/** The elements of a page by name, and all that is said on it. */
function read(html: string): { readonly elements: ReadonlySet<string>; readonly attributes: ReadonlySet<string>; readonly text: string } {
  const [elements, attributes] = [new Set<string>(), new Set<string>()];
  let text = '';
  const walk = (node: DefaultTreeAdapterTypes.Node): void => {
    if (node.nodeName === '#text') text += (node as DefaultTreeAdapterTypes.TextNode).value;
    if ('attrs' in node) for (const { name } of node.attrs) attributes.add(name);
    if (!node.nodeName.startsWith('#')) elements.add(node.nodeName);
    if ('childNodes' in node) node.childNodes.forEach(walk);
  };
  walk(parse(html));
  return { elements, attributes, text };
}

const plain = comparison('x');
const alone = (one: ReturnType<typeof compare>): CatalogueComparison => ({ comparisons: [one], lone: [], moved: [], faults: [] });
const among = (one: ReturnType<typeof compare>, title: string): CatalogueComparison => ({ comparisons: [one, plain], lone: [{ file: title, is: 'added' }], moved: [{ was: title, now: title }], faults: [{ file: title, why: title }] });
const markdown = new MarkdownIt({ html: true });
const shown = (text: string): ReturnType<typeof read> => read(markdown.render(text));
/** What a reader sees of a text: spaces in a row are one. */
const seen = (text: string): string => text.replace(/\s+/g, ' ').trim();
const visible = (text: string): string => seen(text.replace(/[\u0000-\u001f\u202a-\u202e\u2066-\u2069]/g, ''));

describe.each(texts)('%j in every title', (title) => {
  const one = comparison(title);
  it('adds nothing to Markdown', () => {
    const [page, usual] = [shown(comparisonMarkdown(one, (index) => `p-${index}.svg`)), shown(comparisonMarkdown(plain, (index) => `p-${index}.svg`))];
    expect([...page.elements].sort()).toEqual([...usual.elements].sort());
    expect(page.attributes).toEqual(usual.attributes);
    expect(seen(page.text)).toContain(visible(`${title} Body`));
  });
  it('adds nothing to the page', () => {
    const [page, usual] = [read(catalogueHtml(alone(one))), read(catalogueHtml(alone(plain)))];
    expect([...page.elements].sort()).toEqual([...usual.elements].sort());
    expect(page.attributes).toEqual(usual.attributes);
    expect(seen(page.text)).toContain(visible(`${title} Body`));
  });
  it('adds nothing to the report of a catalogue', () => {
    for (const [page, usual] of [
      [shown(catalogueMarkdown(among(one, title))), shown(catalogueMarkdown(among(plain, 'x')))], [read(catalogueHtml(among(one, title))), read(catalogueHtml(among(plain, 'x')))],
    ] as const) {
      expect([...page.elements].sort()).toEqual([...usual.elements].sort());
      expect(page.attributes).toEqual(usual.attributes);
      expect(seen(page.text)).toContain(visible(`${title} Glasses case`));
    }
  });
  it('leaves drawings well-formed, and JSON as its schema says', () => {
    for (const { svg } of comparisonPictures(one.outlines)) {
      const parser = sax.parser(true);
      const names = new Set<string>();
      parser.onopentag = ({ name }: { name: string }) => names.add(name);
      parser.onerror = (error: Error) => { throw error; };
      parser.write(svg).close();
      expect([...names].sort()).toEqual(['path', 'rect', 'svg']);
    }
    const validate = new Ajv2020({ strict: true }).compile(JSON.parse(readFileSync(new URL('../../server/src/formats/compare.schema.json', import.meta.url), 'utf8')) as object);
    expect(validate(JSON.parse(comparisonJson(among(one, title)))), JSON.stringify(validate.errors)).toBe(true);
  });
  it('adds nothing to a notice', () => {
    const [notice, usual] = [one, plain].map((each) => errataOf(each)!) as [NonNullable<ReturnType<typeof errataOf>>, NonNullable<ReturnType<typeof errataOf>>];
    const [page, other] = [shown(errataText(notice, 'markdown')), shown(errataText(usual, 'markdown'))];
    expect([...page.elements].sort()).toEqual([...other.elements].sort());
    expect(errataText(notice, 'text')).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202a-\u202e\u2066-\u2069]/);
    expect(errataText(notice, 'text').split('\n')).toHaveLength(errataText(usual, 'text').split('\n').length);
  });
});
