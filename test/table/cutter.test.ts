import { describe, expect, it } from 'vitest';
import { buyingList } from '../../server/src/buying/list.ts';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { sizedCombinations, templatesOf, type Template } from '../../server/src/pages/templates.ts';
import { documentsOf } from '../../server/src/table/document.ts';
import { cuttingTable } from '../../server/src/table/table.ts';
import { analyse, pattern, type Analysed } from '../support/spec.ts';

/* What whoever cuts must be told, worked out by hand. */

const templates = ({ pattern: made }: Analysed): readonly Template[] => templatesOf(made, sizedCombinations(made, new Map(), undefined), 'all');
const told = (made: Analysed): readonly string[] => documentsOf([made.table()], 'piece').flatMap(({ sections }) => sections.flatMap(({ said, rows, below }) => [...said, ...rows.flat().map(({ text }) => text), ...below]));
const leaning = 'outline polygon from 0, 0 to 8, 0 to 5, 6 to 0, 6';

describe('cloth that runs one way', () => {
  const cut = (lines: string): Analysed => pattern(`piece a "A" {\n  ${leaning}\n  ${lines}\n}`);
  it('is told beside each piece, with its care, and on its template', () => {
    const made = cut('grain up\n  cut 1 cloth\n  cut 1 nap on right side');
    expect(made.rows().map(({ notes }) => notes)).toEqual([[], ['one way: all pieces with the same end up']]);
    expect(made.table().materials.map(({ material, care }) => [material, care])).toEqual([['Nap', ['runs one way: all pieces with the same end up']]]);
    expect(templates(made).map(({ variants }) => variants.map(({ notes, oneWay }) => [notes, oneWay]))).toEqual([[[['Nap, one way: all pieces with the same end up'], true]]]);
    expect(templates(cut('grain up\n  cut 1 nap')).map(({ variants }) => variants.map(({ notes, oneWay }) => [notes, oneWay]))).toEqual([[[['One way: all pieces with the same end up'], true]]]);
  });

  it('is not told where it is of no account', () => {
    const plain = cut('grain up\n  cut 1 cloth');
    expect(plain.rows()[0]?.notes).toEqual([]);
    expect(templates(plain)[0]?.variants.map(({ notes, oneWay }) => [notes, oneWay])).toEqual([[[], false]]);
    // It may lie upright or on its side, so there is no one end that is up.
    expect(cut('grain up or across\n  cut 1 nap').rows()[0]?.notes).toEqual([]);
  });
});

describe('a piece that is cut mirrored', () => {
  const cut = (outline: string, more = ''): readonly (string | undefined)[] => {
    const made = pattern(`piece a "A" {\n  ${outline}\n  mark dot at 4, 2\n  ${more}\n  grain up\n  cut 1 cloth mirrored\n}`);
    return [templates(made)[0]?.variants[0]?.cuts[0], made.table().marks[0]?.facing];
  };
  it('is flipped only where that makes a difference', () => {
    expect(cut('outline rectangle 8 by 6')).toEqual(['Cut 1 × Cloth', 'right side']);
    expect(cut(leaning)).toEqual(['Cut 1 × Cloth: flip the template', 'wrong side']);
    // 3 in from the left is 5 in from the left once flipped.
    expect(cut('outline rectangle 8 by 6', 'mark eye at 3, 1')).toEqual(['Cut 1 × Cloth: flip the template', 'wrong side']);
    expect(cut('outline rectangle 8 by 6', 'mark eye at 3, 1\n  mark other at 5, 1')).toEqual(['Cut 1 × Cloth', 'right side']);
    // A pleat looks the other way once flipped.
    expect(cut('outline rectangle 8 by 6', 'pleat p on top at 50% deep 1/2 towards end')).toEqual(['Cut 1 × Cloth: flip the template', 'wrong side']);
    expect(cut('outline rectangle 8 by 6', 'placement pocket = rectangle 2 by 2 at 1, 1')).toEqual(['Cut 1 × Cloth: flip the template', 'wrong side']);
    expect(cut('outline rectangle 8 by 6', 'placement pocket = rectangle 2 by 2 at 3, 1')).toEqual(['Cut 1 × Cloth', 'right side']);
    expect(cut('outline rectangle 8 by 6\n  on fold left', 'placement pocket = rectangle 2 by 2 at 3, 1')).toEqual(['Cut 1 × Cloth', 'right side']);
  });
});

describe('seam allowances', () => {
  const allowance = (lines: string): string | undefined => pattern(`piece a "A" {\n  outline rectangle 8 by 6\n  edge bottom as hem\n  ${lines}\n  cut 1 cloth\n}`, 'unit in\nallowance 1/2').table().seams[0]?.allowance;
  it('name every edge where no width is that of most', () => {
    expect(allowance('')).toBe('1/2 in all round');
    expect(allowance('allowance hem 1 1/2')).toBe('1/2 in, but 1 1/2 in on hem');
    expect(allowance('allowance hem 1 1/2\n  allowance top 1')).toBe('1 1/2 in on hem, 1/2 in on right and left and 1 in on top');
    // Hem, right and top remain beside the fold, each with a width of its own.
    expect(allowance('on fold left\n  allowance hem 1 1/2\n  allowance top 1')).toBe('1 1/2 in on hem, 1/2 in on right and 1 in on top');
  });
});

describe('a template drawn as half', () => {
  const size = (lines: string): readonly (readonly [string, string, string, string])[] => pattern(`piece a "A" {\n  outline rectangle 6 by 14\n  corner right round 1\n  ${lines}\n}`).table().templates.map(({ line, size: { width, height }, note }) => [line, width.text, height.text, note]);
  it('is as large as what is printed', () => {
    expect(size('on fold left\n  cut 1 cloth on fold')).toEqual([['cutting line', '6 in', '14 in', 'half, on the fold']]);
    expect(size('on fold bottom\n  cut 1 cloth on fold')).toEqual([['cutting line', '6 in', '14 in', 'half, on the fold']]);
    // 1 in from the bottom, the top and the right, and nothing from the fold.
    expect(size('on fold left\n  line core = inset 1\n  cut 1 cloth on fold along core')).toEqual([['core', '5 in', '12 in', 'half, on the fold']]);
    expect(size('cut 1 cloth')).toEqual([['cutting line', '6 in', '14 in', '']]);
    // What is cut large is printed whole: twice 6 in, and 1/2 in more on every side.
    expect(size('on fold left\n  cut 1 foam large by 1/2')).toEqual([['cutting line, 1/2 in more all round', '13 in', '15 in', '']]);
  });
});

describe('a line that nothing is cut along', () => {
  it('is on no template of that option; what is to be marked is', () => {
    const made = pattern('choice body is stiff or soft\npiece a "A" {\n  outline rectangle 8 by 6\n  line inner "Inner" = inset 1\n  placement pocket "Pocket" = rectangle 2 by 2 at 1, 1\n  foldline mouth "Mouth" = level at 4\n  cut 1 cloth\n  cut 1 board along inner when body is stiff\n}').pattern;
    const lines = (body: string): readonly string[] => templatesOf(made, sizedCombinations(made, new Map([['body', body]]), undefined), 'all')[0]?.variants[0]?.drawing.strokes.flatMap(({ role, name }) => (role === 'cutting' ? [] : [`${role} ${name}`])) ?? [];
    expect(lines('stiff')).toEqual(['ghost Inner', 'placement Pocket', 'foldline Mouth']);
    expect(lines('soft')).toEqual(['placement Pocket', 'foldline Mouth']);
  });
});

describe('where things are', () => {
  it('is said of templates, and of marks on what is cut on the fold', () => {
    const words = told(pattern(`piece a "A" {\n  ${leaning}\n  mark dot at 2, 2\n  cut 1 cloth\n}`));
    expect(words).toContain('Print them from the booklet of this pattern, at 100 %.');
    expect(words).toContain('Distances run from the left and from the lower end of the piece as it is cut.');
    const folded = (cut: string): string => told(pattern(`piece a "A" {\n  outline rectangle 4 by 3\n  on fold left\n  mark dot at 2, 2\n  ${cut}\n  cut 1 fuse\n}`)).join('\n');
    expect(folded('cut 1 cloth on fold')).toContain('from the lower end of the piece as it is cut, unfolded where it is cut on the fold.');
    expect(folded('cut 1 cloth on fold')).toContain('from the edges of the cloth as it is cut, unfolded where it is cut on the fold, whatever');
    expect(folded('cut 1 cloth')).not.toContain('on the fold');
  });
});

describe('cloth to buy', () => {
  const notes = (lines: string): readonly string[] | undefined => {
    const { pattern: spec } = analyse(`pattern "T"\nrevision 1\nunit in\nallowance none\nmaterial cloth "C" {\n  width 42 usable 40\n  bought in lengths of 1 yd\n${lines}}\npiece p "P" {\n  outline rectangle 20 by 14\n  grain up\n  cut 1 cloth\n}\n`);
    const [row] = cuttingTable(spec, new Map(), buyingList(spec.resolve(new Map()), 1, { ...usualOptions, effort: 0, lay: 'open' })).buying;
    return row && [...row.notes, ...row.leftovers];
  };
  it('says what of it is spared and what shrinks away, and that what is left over has shrunk', () => {
    // 36 in, less 1 in to spare: 14 in of the 35 are cut from, 20 of the 40 beside them are free.
    expect(notes('')).toEqual(['open, in one layer', '1 in of it for squaring and fraying', expect.stringMatching(/^left over: /)]);
    expect(notes('  shrinks 3%\n')).toEqual(['open, in one layer', '1 in of it for squaring and fraying and 3 % for shrinking', expect.stringMatching(/^left over after shrinking: /)]);
    expect(notes('  shrinks 3%\n  spare none\n')?.[1]).toBe('3 % of it for shrinking');
  });
});
