import { describe, expect, it } from 'vitest';
import { firstPlan, usualOptions, type BuyingOptions } from '../../server/src/buying/plan.ts';
import { needsOf } from '../../server/src/buying/requirements.ts';
import { laySheet } from '../../server/src/formats/lay-svg.ts';
import type { Pattern } from '../../server/src/model/pattern.ts';
import { patternOf, sample } from '../support/samples.ts';
import { analyse } from '../support/spec.ts';

const texts = { heading: 'Heading', footer: ['Blades: take care.', 'Revision 1'] };

function sheet(pattern: Pattern, material: string, options: Partial<BuyingOptions> = {}, articles = 1, heading = texts.heading): string {
  const need = needsOf(pattern.resolve(new Map()), articles).find((one) => one.material.name === material);
  if (need === undefined) throw new Error(`Nothing is cut from ${material}`);
  const plan = firstPlan(need, { ...usualOptions, effort: 0, ...options });
  if (plan.best === undefined) throw new Error('Nothing was planned');
  return laySheet(plan, plan.best, pattern.display, { ...texts, heading });
}

/** Names of elements in their order; throws where a start has no end, which no reader of XML would take. */
function elements(markup: string): readonly string[] {
  const open: string[] = [];
  const all: string[] = [];
  for (const [, close, name = '', , alone] of markup.matchAll(/<(\/?)([a-z]+)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>/g)) {
    if (close === '/') {
      if (open.pop() !== name) throw new Error(`</${name}> ends nothing`);
      continue;
    }
    all.push(name);
    if (alone !== '/') open.push(name);
  }
  if (open.length > 0) throw new Error(`<${open.join('><')}> never ends`);
  if (/[<>]/.test(markup.replace(/<\/?[a-z]+(?:\s+[\w:-]+="[^"<]*")*\s*\/?>/g, ''))) throw new Error('A bare bracket is left');
  return all;
}

describe('a drawing of lays', () => {
  const apron = patternOf(sample('market-apron.piece'));

  it('is well formed, stands alone and holds nothing but shapes and words', () => {
    const svg = sheet(apron, 'canvas');
    expect(new Set(elements(svg))).toEqual(new Set(['svg', 'title', 'rect', 'g', 'text', 'path']));
    expect(svg).not.toMatch(/href|style=|url\(|NaN|Infinity|undefined/);
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="\d/);
  });

  it('says what is bought, how the cloth is spread, and the cautions', () => {
    const svg = sheet(apron, 'canvas', { lay: 'folded' });
    for (const words of ['For one article: found 0.8', 'buy 1 yd, certain', 'folded selvedge to selvedge, right sides together', '>fold<', '>selvedges<', '1 Skirt, on fold', 'Blades: take care.', 'Left over, dotted']) expect(svg).toContain(words);
    const open = sheet(apron, 'canvas', { lay: 'open' });
    expect(open).toContain('open, in one layer, seen on the right side');
    expect(open.match(/>selvedge</g)).toHaveLength(2);
  });

  it('draws the other folds, and counts what lies where', () => {
    const folded = (fold: string): string => sheet(analyse(`pattern "T"\nrevision 1\nunit in\nallowance none\nmaterial cloth "Cloth" {\n  width 44 usable 42\n  fold ${fold}\n}\npiece half "Half" {\n  outline rectangle 9 by 12\n  on fold left\n  grain up\n  cut 1 cloth on fold\n}\npiece strip "Strip" {\n  outline rectangle 20 by 12\n  grain up\n  cut 1 cloth\n}\n`).pattern, 'cloth', { lay: 'folded' });
    const partial = folded('partial 10');
    expect(elements(partial).length).toBeGreaterThan(10);
    for (const words of ['folded in part, 10 in of it double, right sides together', '>selvedge; the other lies at the dashed line<', '>fold<', '1  Half: 1 on the fold', '2  Strip: 1 in the single layer', 'stroke-dasharray="9 5"']) expect(partial).toContain(words);
    const across = folded('crosswise');
    for (const words of ['folded crosswise, end to end, right sides together', '>fold at this end; selvedges<', '1  Half: 1 through both layers, 1 to spare', '2  Strip: 1 through both layers, 1 to spare']) expect(across).toContain(words);
    expect(across).not.toContain('stroke-dasharray="9 5"');
  });

  it('gives each piece a label of its own and tells a flipped one by a letter', () => {
    const bag = patternOf(sample('tidal-crossbody.piece'));
    const svg = sheet(bag, 'poplin');
    expect(svg).toContain('1 as drawn, 1 flipped (F)');
    expect(svg).toContain('Lining, flipped');
    // A grain arrow has two heads on plain cloth and one on a one-way print.
    const heads = (markup: string): number => Math.max(...[...markup.matchAll(/<path d="M[\d.]+ [\d.]+H[\d.]+((?:M[^"]*)?)" fill="none" stroke="#000000" stroke-width="0.9"/g)].map(([, rest = '']) => rest.split('M').length - 1));
    expect(heads(svg)).toBe(2);
    expect(heads(sheet(patternOf(sample('harvest-bunting.piece')), 'print'))).toBe(1);
  });

  it('draws every panel, and what is cut out of a piece', () => {
    const bag = patternOf(sample('tidal-crossbody.piece'));
    const svg = sheet(bag, 'board', {}, 5);
    expect(svg).toContain('Sheet 1, seen on the glued side');
    expect(svg).toContain('Sheet 2');
    expect(svg.match(/stroke-dasharray="4 2"/g)).toHaveLength(5);
  });

  it('escapes whatever a spec says', () => {
    const { pattern } = analyse(`pattern "T"\nrevision 1\nunit in\nallowance none\nmaterial cloth "<b>&" {\n  role main\n  width 44\n}\npiece p "</text><script>" {\n  outline rectangle 9 by 9\n  cut 1 cloth\n}\n`);
    const svg = sheet(pattern, 'cloth', {}, 1, 'A & B <i>');
    elements(svg);
    expect(svg).not.toContain('<script');
    expect(svg).toContain('&lt;/text&gt;&lt;script&gt;');
    expect(svg).toContain('A &amp; B &lt;i&gt;');
  });

  it('names what was left out', () => {
    const { pattern } = analyse('pattern "T"\nrevision 1\nunit in\nallowance none\nmaterial cloth "C" {\n  role main\n  width 44\n}\npiece p "Wide" {\n  outline rectangle 60 by 50\n  grain up\n  cut 1 cloth\n}\n');
    expect(sheet(pattern, 'cloth')).toContain('Attention: does not fit and is left out: Wide.');
  });
});

describe('small pieces', () => {
  it('have their number all the same, and whether they are flipped', () => {
    const { pattern } = analyse('pattern "T"\nrevision 1\nunit cm\nallowance none\nmaterial cloth "C" {\n  width 150\n}\npiece sheet "Sheet" {\n  outline rectangle 130 by 300\n  grain up\n  cut 1 cloth\n}\npiece tab "Tab" {\n  outline polygon from 0, 0 to 3, 0 to 0, 2\n  grain up\n  cut 2 cloth twins\n}\n');
    const drawn = sheet(pattern, 'cloth', { lay: 'open' });
    const tabs = [...drawn.matchAll(/<g><title>Tab[^<]*<\/title>.*?<\/g>/g)].map(([one]) => [...one.matchAll(/<text[^>]*>([^<]*)</g)].map(([, words]) => words));
    expect(tabs.map((words) => words.join()).sort()).toEqual(['2', '2 F']);
  });
});
