import { describe, expect, test } from 'vitest';
import { hover } from '../../server/src/language/hover.ts';
import { meaningOf } from '../../server/src/syntax/statements/elements.ts';
import { innerWords } from '../../server/src/syntax/statements/inner-words.ts';
import { statements, wordsIn } from '../../server/src/syntax/statements/table.ts';
import { reservedWords } from '../../server/src/syntax/statements/vocabulary.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { readFileSync } from 'node:fs';
import { marked } from '../support/marked.ts';
import { pouch, materials } from '../support/pouch.ts';

const others = { 'materials.piece': materials };

function told(from: string, to: string, total?: Parameters<typeof hover>[2]): string {
  const { snapshot, offset, text } = marked(pouch.replace(from, to), others);
  const found = hover(snapshot, offset, total);
  if (found === undefined) return '';
  return `[${text.slice(found.start, found.end)}] ${found.markdown}`;
}

describe('values', () => {
  test('a value tells its formula, its value in both units, and where that comes from', () => {
    expect(told('length high', 'length hi|gh')).toBe([
      '[high] **high**, a length', '',
      'when size is S: `base / 2 + 1` = **4 in (10.2 cm)**',
      '- `base` = `6 in for S` = 6 in (15.2 cm)', '',
      'when size is L: `base / 2 + 1` = **5 in (12.7 cm)**',
      '- `base` = `8 in for L` = 8 in (20.3 cm)',
    ].join('\n'));
  });
  test('the trail goes down through all names', () => {
    const { snapshot, offset } = marked('length a = 2\nlength b = a * 3\nlength c| = b + 1/3\n');
    expect(hover(snapshot, offset)?.markdown).toBe('**c**, a length\n\n`b + 1/3` = **6 3/8 in (16.1 cm), exactly 6 1/3 in**\n- `b` = `a * 3` = 6 in (15.2 cm)\n  - `a` = 2 in (5.1 cm)');
  });
  test('any part of a formula', () => {
    expect(told('base / 2 + 1', 'base / |2 + 1')).toContain('[base / 2] when size is S: `base / 2` = **3 in (7.6 cm)**');
  });
  test('a measure of a piece', () => expect(told('check front.hem matches', 'check front.h|em matches')).toBe('[hem] **hem**, an edge of **front**\n\n5 1/4 in (13.3 cm) or 7 1/4 in (18.4 cm)'));
  test('a function', () => {
    const { snapshot, offset } = marked('length a = rou|nd(3.1, 1/8)\n');
    expect(hover(snapshot, offset)?.markdown).toContain('round(value, step)');
  });
  test('a name without a value says so by its kind alone', () => {
    const { snapshot, offset } = marked('length a| = missing + 1\n');
    expect(hover(snapshot, offset)?.markdown).toBe('**a**, a length');
  });
});

describe('numbers', () => {
  const inPiece = (line: string): string => told('  cut 1 canvas\n', `  ${line}\n  cut 1 canvas\n`);
  const inFile = (line: string): string => {
    const { snapshot, offset } = marked(`${line}\n`);
    return hover(snapshot, offset)?.markdown ?? '';
  };
  test('a bare number takes its unit from its place', () => {
    expect(inPiece('placement p = rectangle 1| 1/4 by 1')).toBe('[1 1/4] `1 1/4` = **1 1/4 in (3.2 cm)**\n');
    expect(inPiece('line p = inset 3|/8')).toContain('`3/8` = **3/8 in (1 cm)**');
    expect(inPiece('corner all round 1|/2')).toContain('`1/2` = **1/2 in (1.3 cm)**');
    expect(inPiece('drill p at 1, 2|')).toContain('`2` = **2 in (5.1 cm)**');
    expect(inPiece('allowance hem 1|/2')).toContain('`1/2` = **1/2 in (1.3 cm)**');
    expect(inFile('length front_w = 9| 1/2')).toContain('`9 1/2` = **9 1/2 in (24.1 cm)**');
    expect(inFile('unit cm\nlength front_w = 9|')).toContain('`9` = **9 cm (3 1/2 in)**');
    expect(inFile('check 3 in matches 3|')).toContain('`3` = **3 in (7.6 cm)**');
    expect(inFile('area patch = 12|')).toContain('`12` = **12 sq in (77.4 sq cm)**');
  });
  test('and so does one with a unit', () => expect(inPiece('line p = inset 1| cm')).toContain('`1 cm` = **3/8 in (1 cm), about 0.394 in**'));
  test('a number before an option has a unit too', () => {
    expect(inFile('sizes S, M\nlength hip = 36| for S, 40 for M')).toContain('when size is S: `36 for S, 40 for M` = **36 in (91.4 cm)**');
    expect(inFile('sizes S, M\nlength hip = max(36| for S, 40 for M, 1)')).toContain('= **36 in (91.4 cm)**');
    expect(inFile('sizes S, M\nlength hip = 36 for S, 40 for M\nlength h| = hip / 2')).toContain('- `hip` = `36 for S` = 36 in (91.4 cm)');
  });
  test('what is no length gets no unit', () => {
    expect(inFile('count rows = 2|')).toBe('');
    expect(inFile('revision 2|')).toBe('');
    expect(inFile('angle slant = 1|5')).toContain('`15` = **15°**');
    expect(inPiece('cut 2| canvas')).toBe('');
    expect(inPiece('grain 1|2')).toContain('`12` = **12°**');
    expect(inPiece('placement p = circle across 1 from 0 to 9|0')).toContain('`90` = **90°**');
    expect(inPiece('allowance hem 1 mitred limit 2|')).toBe('');
    expect(told('base / 2 + 1', 'base / |2 + 1')).not.toContain('2 in');
  });
  test('only what is exact is called so', () => {
    expect(inFile('length a = 1|4 mm')).toContain('= **1/2 in (1.4 cm), about 0.551 in**');
    expect(inFile('length a| = 19/6')).toContain('= **3 1/8 in (8 cm), exactly 3 1/6 in**');
    expect(inFile('unit cm\nlength a| = 1/8')).toContain('exactly 0.125 cm');
    expect(inFile('unit cm\nlength a| = 10/67')).toContain('about 0.149 cm');
  });
});

describe('parts of pieces', () => {
  const piece = (line: string): string => told('  cut 1 canvas\n', `  ${line}\n  cut 1 canvas\n`);
  test('an edge has its length, where it is named and where it is used', () => {
    const length = '5 1/4 in (13.3 cm) or 7 1/4 in (18.4 cm)';
    expect(told('edge top as hem', 'edge top as h|em')).toBe(`[hem] **hem**, an edge of **front**\n\n${length}`);
    expect(told('edge top as hem', 'edge t|op as hem')).toContain(length);
    expect(told('notch hem', 'notch h|em')).toContain(length);
    expect(piece('notch le|ft at 1')).toBe('[left] **left**, a side of **front**\n\n3 1/4 in (8.3 cm) or 4 1/4 in (10.8 cm)');
  });
  test('the edge of a copy has its own length', () => expect(told('allowance hem 1/4', 'allowance h|em 1/4')).toContain('5 1/4 in (13.3 cm) or 7 1/4 in (18.4 cm)'));
  test('a closed line has its size, an open one its length', () => {
    expect(told('line core', 'line co|re')).toBe('[core] **core**, a line of **front**\n\n5 in (12.7 cm) × 3 in (7.6 cm), 16 in (40.6 cm) around or 7 in (17.8 cm) × 4 in (10.2 cm), 22 in (55.9 cm) around');
    expect(told('along core', 'along co|re')).toContain('5 in (12.7 cm) × 3 in (7.6 cm)');
    expect(piece('foldline cre|ase = level at 2')).toContain('6 in (15.2 cm) or 8 in (20.3 cm)');
  });
  test('a mark has its position', () => {
    const position = '1 in (2.5 cm) from the left, 2 in (5.1 cm) from below';
    expect(told('mark catch', 'mark cat|ch')).toBe(`[catch] **catch**, a mark of **front**\n\n${position}`);
    expect(told('at front.catch', 'at front.cat|ch')).toContain(position);
  });
  test('a position counts from the outline’s own left and lowest', () => {
    const { snapshot, offset } = marked('piece flag {\n  outline rectangle 4 by 3 at 0, -3\n  mark dot| at 1, -1\n}\n');
    expect(hover(snapshot, offset)?.markdown).toContain('1 in (2.5 cm) from the left, 2 in (5.1 cm) from below');
  });
  test('what can’t be drawn has no value', () => {
    const { snapshot, offset } = marked('piece flag {\n  outline rectangle missing by 3\n  mark dot| at 1, 1\n}\n');
    expect(hover(snapshot, offset)?.markdown).toBe('**dot**, a mark of **flag**');
  });
});

describe('declarations', () => {
  test('a material: what is cut from it, by the sizes and choices that make a difference', () => {
    expect(told('cut 1 canvas', 'cut 1 can|vas')).toBe([
      '[canvas] **canvas** “Canvas”', '',
      '- main, two ways', '- width 58 in (147.3 cm), usable 56 in (142.2 cm)', '- bought in lengths of 1/8 yd', '',
      'Cut from it:',
      '- size is S, closing is flap: 1 × Front; in all 1 piece, 24 sq in (154.8 sq cm)',
      '- size is S, closing is cord: 1 × Front, 2 × Lining; in all 3 pieces, 72 sq in (464.5 sq cm)',
      '- size is L, closing is flap: 1 × Front; in all 1 piece, 40 sq in (258.1 sq cm)',
      '- size is L, closing is cord: 1 × Front, 2 × Lining; in all 3 pieces, 120 sq in (774.2 sq cm)',
    ].join('\n'));
  });
  test('a choice that makes no difference is not told', () => {
    const text = told('cut 1 crisp', 'cut 1 cri|sp');
    expect(text).toContain('- size is S: 1 × Front; in all 1 piece, 13 sq in (83.9 sq cm)\n- size is L: ');
    expect(text).not.toContain('closing');
    const { snapshot, offset } = marked('sizes S, M\nmaterial felt| {\n  width 36\n}\npiece base "Base" {\n  outline rectangle 4 by 3\n  cut 2 felt\n}\n');
    expect(hover(snapshot, offset)?.markdown).toContain('Cut from it:\n- 2 × Base; in all 2 pieces, 24 sq in (154.8 sq cm)');
  });
  test('a material tells at its width what a lay gives, where there is one', () => {
    expect(told('cut 1 canvas', 'cut 1 can|vas', (material, combination) => `buy for ${material} ${combination.get('size') ?? ''}`)).toContain('- size is L, closing is flap: 1 × Front; in all 1 piece, 40 sq in (258.1 sq cm); at 56 in (142.2 cm) usable: buy for canvas L');
  });
  test('that nothing is cut from a material is told in a pattern alone', () => {
    const inPattern = marked('pattern "Plain"\nmaterial felt| {\n  width 36\n}\n');
    expect(hover(inPattern.snapshot, inPattern.offset)?.markdown).toContain('Nothing is cut from it.');
    const inList = marked('material felt| {\n  width 36\n}\n');
    expect(hover(inList.snapshot, inList.offset)?.markdown).toMatch(/^\*\*felt\*\* .*bought in lengths of 1\/8 yd$/s);
  });
  test('a piece: cut and finished size, area and layers', () => {
    const text = told('from front', 'from fr|ont');
    expect(text).toContain('- cut size 6 in (15.2 cm) × 4 in (10.2 cm) or 8 in (20.3 cm) × 5 in (12.7 cm)');
    expect(text).toContain('- finished size 5 1/4 in (13.3 cm) × 3 1/4 in (8.3 cm)');
    expect(text).toContain('- 1 × Crisp along core, on Canvas');
  });
  test('a supply', () => expect(told('supply catch_set', 'supply catch|_set')).toContain('- across 3/8 in'));
  test('a choice and an option', () => {
    expect(told('when closing', 'when clo|sing')).toBe('[closing] **closing**, a choice: flap or cord');
    expect(told('for S', 'for S|')).toBe('[S] **S**, a size');
  });
});

describe('words of the language', () => {
  test('in the sense of their block', () => {
    expect(told('across 11 mm', 'acr|oss 11 mm')).toContain('Gives a snap’s diameter');
    expect(told('grain up', 'gra|in up')).toContain('Says how the piece lies to the grain');
    expect(told('along core', 'alo|ng core')).toContain('Cuts along an inner line');
    expect(told('length high', 'len|gth high')).toContain('Names a length');
  });
  test('nothing in comments and texts', () => expect(told('"Pouch"', '"cut al|ong"')).toBe(''));
  test('by its place in the statement, also of several words', () => {
    expect(told('for snap 11 mm', 'for sn|ap 11 mm')).toMatch(/^\[for snap\] \*\*for snap\*\*\n\nSays what snap/);
    expect(told('cut 1 canvas', 'cut 1 canvas when closing is n|ot flap')).toContain('It must not hold');
    expect(told('inset 1/2', 'inset 1/2 fr|om stitching')).toContain('Says which line an inset is measured from');
  });
  test('every statement says what it does, and every example can be read', () => {
    const all = [...statements.flatMap(({ blocks, parts }) => wordsIn(parts).map((word) => ({ ...word, blocks }))), ...Object.values(innerWords).map((word) => ({ ...word, blocks: ['file'] as const }))];
    const explained = all.filter(({ meaning }) => meaning !== undefined);
    expect(explained.length).toBeGreaterThan(80);
    for (const { words, example = '', blocks } of explained) {
      const opened = example.endsWith('{') ? `${example}\n}` : example;
      const inBlock = (block: string): string => `${block} x {\n  ${opened}\n}\n`;
      const readings = [opened, ...['piece', 'material', 'supply'].map(inBlock), `piece x {\n  outline path from 0, 0 {\n    ${opened}\n  }\n}\n`, `piece x {\n  cut 1 y ${opened}\n}\n`];
      expect(example, words).not.toBe('');
      expect(readings.some((text) => parseFile('x', text).declarations.every(({ declaration }) => declaration.problems.length === 0)), `${blocks.join()} ${words}: ${example}`).toBe(true);
    }
    for (const { kind, parts } of statements) expect(meaningOf(parts), kind).not.toBe('');
  });
  test('the reserved words are those of the grammar', () => {
    const grammar = readFileSync(new URL('../../grammar/piece.peggy', import.meta.url), 'utf8');
    const list = /const reserved = new Set\(\[([^\]]*)\]/.exec(grammar)?.[1] ?? '';
    expect([...reservedWords].sort()).toEqual([...list.matchAll(/'([^']+)'/g)].map((match) => match[1]).sort());
  });
});

test('a seam says what it joins, how long both are, and what it needs', () => {
  const { snapshot, offset } = marked('unit in\nallowance 1/2\npiece a "Front" {\n  outline rectangle 5 by 3\n}\npiece b {\n  outline rectangle 4 by 3\n}\nseam to|p = a.top with b.top eased by 1\n');
  expect(hover(snapshot, offset)?.markdown).toBe('**top**, a seam\n\n- Front: top, 4 in\n- sewn to b: top, 3 in\n- 1 in eased in\n- allowance 1/2 in');
  const smooth = marked('unit in\nallowance 1/2\npiece a "Front" {\n  outline rectangle 5 by 3\n}\npiece b {\n  outline rectangle 4 by 3\n}\nseam to|p = a.top with b.top eased by 1 smooth at end\n');
  expect(hover(smooth.snapshot, smooth.offset)?.markdown).toContain('- smooth at its end: 90° and 90°');
});
