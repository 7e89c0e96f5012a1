import { describe, expect, it } from 'vitest';
import { Analyst } from '../../server/src/model/pattern.ts';
import { libraryOf } from '../../server/src/model/names/files.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { renderTable } from '../../server/src/formats/format.ts';
import { pattern } from '../support/spec.ts';

/** An invented needle book in two sizes: 4 and 5 in wide, a third as deep as wide, sewn along its left. */
const spec = (more = '', notes = ''): string => `sizes small, large
length wide = 4 for small, 5 for large
note "Made {wide} wide."
piece cover "Cover" {
  outline rectangle wide by 3
  edge all raw
  note "The spine is {spine.length} long, the cover {cover.width} wide, {cover.area} in area, {2 + 1} layers."
  cut 1 cloth note "Keep {1/2 in} at {wide / 2}."
${notes}}
piece inner "Inner" from cover {
  cut 1 lining
}
supply cord "Cord" {
  kind other
  length 2 * spine.length
  note "Cut it {cord.length / 2} long, twice."
}
seam spine = cover.left with inner.left
check cover.width < 5 else warning "It is {cover.width}, {cover.width - 4 in} over"
${more}`;

describe('formulas in notes', () => {
  it('are worked out in every size, of pieces, cut lines, supplies and the pattern', () => {
    const analysed = pattern(spec());
    expect(analysed.problems.filter(({ code }) => code !== 'check-failed')).toEqual([]);
    const told = (size: string): unknown => {
      const { notes, cuts, pieceNotes, supplies } = analysed.table({ size });
      return [notes[0], pieceNotes.map(({ piece, note }) => `${piece}: ${note}`), cuts.map((row) => row.notes.at(-1)), supplies.map((row) => row.notes)];
    };
    // By hand: 4 and 5 in wide; a spine of 3 in; 12 and 15 square inches.
    const row = (wide: string, half: string, area: string): unknown => [
      `Made ${wide} wide.`,
      [`Cover: The spine is 3 in long, the cover ${wide} wide, ${area} sq in in area, 3 layers.`],
      [`Keep 1/2 in at ${half}.`, undefined], [['Cut it 3 in long, twice.']],
    ];
    expect(told('small')).toEqual(row('4 in', '2 in', '12'));
    expect(told('large')).toEqual(row('5 in', '2 1/2 in', '15'));
  });

  it('are worked out in what a check says', () => {
    expect(pattern(spec()).only('check-failed').message).toMatch(/^It is 5 in, 1 in over \(/);
  });

  it('may tell of what is made of their own piece, which is no circle', () => {
    expect(pattern(spec()).codes).not.toContain('circular-definition');
    expect(pattern(spec('length again = cover.width\n')).codes.filter((code) => code.includes('circ'))).toEqual([]);
  });

  it('are faults at their place, once, and only where they are told', () => {
    expect(pattern(spec('note "So {widde}."\n')).faults).toContain('unknown-name: widde');
    expect(pattern(spec('', '  note "So {cover.lfet}."\n')).faults).toContain('unknown-part: lfet');
    expect(pattern(spec('', '  cut 1 lining note "So {wide + 2 deg}."\n')).faults).toContain('mixed-kinds: wide + 2 deg');
    expect(pattern(spec('check wide > 0 else "So {nothing}"\n')).faults).toContain('unknown-name: nothing');
    expect(pattern(spec('', '  note "So {cover.lfet}."\n')).faults.filter((one) => one.includes('lfet'))).toHaveLength(1);
    // What isn't cut in any size, or isn't there, tells nothing.
    const unsaid = pattern(spec('choice lid is flap or zip\npiece strip "Strip" when lid is flap {\n  outline rectangle 1 by 2\n  edge all raw\n  cut 1 cloth\n}\nsupply zip when lid is zip {\n  kind zip\n  finished 4\n  note "Sew it to {cover.width}."\n}\n', '  cut 1 lining when lid is flap note "So {strip.width}."\n'));
    expect(unsaid.faults).toEqual(['check-failed: cover.width < 5']);
  });

  it('count as uses of a name', () => {
    expect(pattern(spec('length told = 2\nnote "So {told}."\n')).codes).not.toContain('unused-name');
    expect(pattern(spec('length untold = 2\n')).codes).toContain('unused-name');
  });

  it('leave a brace that is meant as such', () => {
    expect(pattern(spec('note "A \\{brace} and \\"more\\"."\n')).table().notes).toContain('A {brace} and "more".');
  });

  it('are escaped where they are written down, and differ from size to size in tables side by side', () => {
    const analysed = pattern(spec('note "<b>{wide}</b>"\n'));
    const html = renderTable([analysed.table({ size: 'small' }), analysed.table({ size: 'large' })], 'html', 'piece');
    expect(html).toContain('&lt;b&gt;(small) 4 in, (large) 5 in&lt;/b&gt;');
  });

  it('are worked out anew as the text changes, and leave nothing behind', () => {
    const analyst = new Analyst();
    const texts = ['4', '6'].map((wide) => `unit in\nlength wide = ${wide}\nmaterial cloth {\n  width 40\n  role outside\n}\npiece cover {\n  outline rectangle wide by 3\n  note "So {cover.width}."\n  cut 1 cloth\n}\n`);
    const said = (text: string): string => {
      const now = analyst.analyse(parseFile('main.piece', text), libraryOf(new Map()));
      const resolved = now.resolve(new Map());
      return resolved.pieces.flatMap(({ shape }) => shape.notes.map((note) => resolved.said(note).map((part) => (typeof part === 'string' ? part : Math.round(part.amount.valueOf() / 25.4))).join(''))).join();
    };
    expect(texts.map(said)).toEqual(['So 4.', 'So 6.']);
    const { cacheSize } = analyst;
    for (let round = 0; round < 6; round++) texts.map(said);
    expect(analyst.cacheSize).toBe(cacheSize);
  });
});
