import { describe, expect, it } from 'vitest';
import { compare } from '../../server/src/compare/comparison.ts';
import { toCsv } from '../../server/src/formats/csv.ts';
import { renderTable } from '../../server/src/formats/format.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { printFile } from '../../server/src/syntax/print.ts';
import { analyse } from '../support/spec.ts';

const spec = `pattern "Pouch"
revision 1
unit in
choice lid_kind "Closed by" is flap_lid "A flap" or zip
choice foot is round_foot or square_foot
material cloth "Cloth" {
  width 60
}
piece a "A" {
  outline rectangle 8 by 6
  allowance none
  cut 1 cloth when lid_kind is flap_lid
  cut 2 cloth when lid_kind is zip
  cut 1 cloth when foot is round_foot
}
`;

describe('titles of choices and their options', () => {
  const { pattern, problems, table } = analyse(spec);

  it('are written after their names', () => {
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect([...pattern.choices]).toEqual([['lid_kind', ['flap_lid', 'zip']], ['foot', ['round_foot', 'square_foot']]]);
    expect(printFile(parseFile('test.piece', spec))).toBe(spec);
  });

  it('stand in every export in place of the names, which read as words where there is none', () => {
    const one = table({ lid_kind: 'flap_lid' });
    expect(renderTable([one], 'markdown', 'piece')).toContain('# Pouch (Closed by: A flap, foot: round foot)');
    expect(renderTable([one], 'html', 'piece')).toContain('<p class="combination">Closed by: A flap, foot: round foot</p>');
    const [head, row] = toCsv([one], 'piece', 'cuts').split('\r\n');
    expect(head).toMatch(/^Choice: Closed by,Choice: foot,Piece,/);
    expect(row).toMatch(/^A flap,round foot,A,/);
    const [data] = (JSON.parse(renderTable([one], 'json', 'piece')) as { tables: { combination: unknown[] }[] }).tables;
    // Programs go by the names.
    expect(data?.combination[0]).toEqual({ choice: 'lid_kind', option: 'flap_lid', choiceTitle: 'Closed by', optionTitle: 'A flap' });
    expect(renderTable([table({ lid_kind: 'zip' })], 'markdown', 'piece')).toContain('(Closed by: zip, ');
  });

  it('are compared', () => {
    const changed = (from: string, to: string): readonly string[] =>
      compare(pattern, analyse(spec.replace(from, to)).pattern).changes.map(({ group, subject, what, was, now }) => `${group}: ${subject}, ${what}: ${was} → ${now}`);
    expect(changed('"A flap"', '"With a flap"')).toEqual(['words: Closed by, title of an option: A flap → With a flap']);
    expect(changed('"Closed by" ', '')).toEqual(['words: lid kind, title: Closed by → lid kind']);
  });
});
