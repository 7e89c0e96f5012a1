import { expect, it } from 'vitest';
import { renderTable } from '../../server/src/formats/format.ts';
import { wholeTables } from '../../server/src/table/whole-table.ts';
import { analyse } from '../support/spec.ts';

/*
 * Figures of four patterns that no other test has, worked out by hand from what the specs say, and looked up in the
 * exported text by a reader of its own. Nothing of the core is used but to write the tables.
 */

type Row = Readonly<Record<string, string>>;

/** The rows under a heading of one document in Markdown, by the headings of their columns. */
function rowsUnder(text: string, heading: string): readonly Row[] {
  const part = text.split(/^## /m).find((one) => one.startsWith(`${heading}\n`)) ?? '';
  const cells = (line: string): readonly string[] => line.slice(2, -2).split(' | ').map((cell) => cell.trim());
  const [head = '', , ...lines] = part.split('\n').filter((line) => line.startsWith('|'));
  return lines.map((line) => Object.fromEntries(cells(line).map((cell, index) => [cells(head)[index] ?? '', cell])));
}

/** `7 1/2`, `-3`, `12.5`. */
function numberOf(text: string): number {
  return text.trim().split(/ +/).reduce((sum, part) => {
    const [above = '', below = '1'] = part.split('/');
    return sum + Number(above) / Number(below);
  }, 0);
}

interface Told {
  readonly value: number;
  readonly about: boolean;
  readonly exactly: number | undefined;
}

/** All lengths that a cell tells: `about 2 3/4 in (exactly 2 11/16 in)`. */
function lengthsIn(cell: string): readonly Told[] {
  return [...cell.matchAll(/(about )?((?:\d+ )?\d+(?:\/\d+)?|\d+\.\d+) (?:in|cm|mm)(?: \(exactly ([\d ./]+) (?:in|cm|mm)\))?/g)]
    .map(([, about, value = '', exactly]) => ({ value: numberOf(value), about: about !== undefined, exactly: exactly === undefined ? undefined : numberOf(exactly) }));
}

let checked = 0;
const wrong: string[] = [];

/** Every length of a cell against what it ought to be: to the nearest step, and told to be about where that is not it. */
function compare(where: string, cell: string | undefined, expected: readonly number[], step: number): void {
  const told = lengthsIn(cell ?? '');
  if (told.length !== expected.length) wrong.push(`${where}: “${cell ?? ''}” has ${told.length} lengths for ${expected.length}`);
  expected.forEach((length, index) => {
    checked++;
    const one = told[index];
    const isStep = Math.abs(length / step - Math.round(length / step)) < 1e-3;
    const isRight = one !== undefined && Math.abs(one.value - length) <= step / 2 + 1e-9 && one.about === !isStep && Math.abs((one.exactly ?? length) - length) < 1e-6;
    if (!isRight) wrong.push(`${where}: “${cell ?? ''}”, not ${length}`);
  });
}

const tableOf = (spec: string, options: Readonly<Record<string, string>>): string => {
  const { pattern, problems } = analyse(spec);
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return renderTable([...wholeTables(pattern, [new Map(Object.entries(options))])], 'markdown', 'piece');
};
const find = (rows: readonly Row[], cells: Row): Row => {
  const found = rows.find((row) => Object.entries(cells).every(([heading, text]) => row[heading] === text));
  if (found === undefined) throw new Error(`There is no row ${JSON.stringify(cells)} among ${JSON.stringify(rows)}`);
  return found;
};
const size = 'Width × height';

it('a pouch in inches, drawn to its seams', () => {
  const spec = `pattern "Seed pouch"
revision 1
unit in
drawn to stitching
allowance 3/8
sizes S, L
length w = 7 1/2 for S, 9 1/4 for L
length h = 5 3/8
material hemp "Hemp" {
  width 55 usable 53
  shrinks 5%
  bought in lengths of 1/8 yd
  price 14 per yd
}
material web "Web" {
  role fusible
  width 18
}
material felt "Felt" {
  role non-fray
  wash no
  bought in sheets of 9 by 12
  price 1.10 per sheet
}
piece front "Front" {
  outline rectangle w by h
  allowance top 1 1/4
  allowance bottom 1/4
  line core "Core" = inset 3/8 from stitching
  window slot "Slot" = rectangle 3 by 5/8 at 1 1/2, 2
  mark clasp "Clasp" for snap 10 mm at w / 2, h - 1
  foldline mouth "Mouth" = level at h - 1/2
  foldline side "Side fold" = upright at 1 1/8
  placement tag "Tag" = rectangle 1 1/2 by 3/4 at 2 1/16, 1
  notch left at 2
  notch top at 25%
  notch right meeting mouth
  grain up
  cut 2 hemp
  cut 2 web along stitching
  cut 1 felt along core without slot on wrong side
}
supply snap "Snap" {
  kind snap
  across 10 mm
  at front.clasp
  count 2
}
supply band "Band" {
  kind binding
  across 5/8
  length 2 * w + 3 1/4
  count 2
}
`;
  const h = 5.375;
  for (const [name, w] of [['S', 7.5], ['L', 9.25]] as const) {
    const text = tableOf(spec, { size: name });
    const step = 1 / 8;
    const cuts = rowsUnder(text, 'Cut, piece by piece');
    compare(`${name} hemp`, find(cuts, { Material: 'Hemp' })[size], [w + 2 * 0.375, h + 1.25 + 0.25], step);
    compare(`${name} web`, find(cuts, { Material: 'Web' })[size], [w, h], step);
    const felt = find(cuts, { Material: 'Felt' });
    compare(`${name} felt`, felt[size], [w - 2 * 0.375, h - 2 * 0.375], step);
    compare(`${name} slot`, felt['Notes']?.replace(/^.*cut out Slot: /, ''), [3, 0.625, 1.5 - 0.375, 2 - 0.375], step);
    compare(`${name} grain`, find(cuts, { Material: 'Hemp' })['Grain runs along'], [h + 1.5], step);
    expect(cuts.map((row) => row['How many'])).toEqual(['2', '2', '1']);
    const [seam] = rowsUnder(text, 'Seams');
    compare(`${name} seams`, seam?.['Size between seams'], [w, h], step);
    const [, said = ''] = /Seam allowance: ([^\n]*)\.\n/.exec(text) ?? [];
    compare(`${name} allowances`, seam?.['Seam allowance'] ?? said, [0.25, 0.375, 1.25], step);
    const marks = rowsUnder(text, 'Mark, before sewing');
    // The cut edge lies 3/8 in left of and 1/4 in below where positions count from.
    const mark = (what: string, left: number | undefined, below: number | undefined): void => {
      const row = find(marks, { Mark: what });
      compare(`${name} ${what}, from the left`, row['From the left'], left === undefined ? [] : [left], step);
      compare(`${name} ${what}, from below`, row['From below'], below === undefined ? [] : [below], step);
    };
    mark('Clasp', w / 2 + 0.375, h - 1 + 0.25);
    mark('Mouth', undefined, h - 0.5 + 0.25);
    mark('Side fold', 1.125 + 0.375, undefined);
    mark('Tag', 2.0625 + 0.375, 1.25);
    compare(`${name} tag`, find(marks, { Mark: 'Tag' })['Kind'], [1.5, 0.75], step);
    mark('notch on left', 0, 2.25);
    mark('notch on top', w / 4 + 0.375, h + 1.5);
    mark('notch on right', w + 0.75, h - 0.5 + 0.25);
    const layers = rowsUnder(text, 'Put layers on, in this order');
    compare(`${name} web lies`, find(layers, { Layer: 'Web' })['Where on the cloth'], [1.25, 0.25, 0.375], step);
    compare(`${name} felt lies`, find(layers, { Layer: 'Felt' })['Where on the cloth'], [1.25 + 0.375, 0.25 + 0.375, 0.75], step);
    const band = find(rowsUnder(text, 'Supplies'), { Supply: 'Band' });
    compare(`${name} band`, band['Size'], [0.625, 2 * w + 3.25, 2 * (2 * w + 3.25), 4 * 0.625], step);
    const buying = rowsUnder(text, 'What to buy');
    // Two side by side, 1 in to spare, before it shrinks by 5 %: 6 7/8 in or turned none; a ninth of a yard is 4 in.
    const length = (h + 1.5) / 0.95 + 1;
    const eighths = Math.ceil(length / 4.5);
    checked += 2;
    if (numberOf((find(buying, { Item: 'Hemp' })['Buy'] ?? '').replace(' yd', '')) !== eighths / 8) wrong.push(`${name} hemp to buy: ${find(buying, { Item: 'Hemp' })['Buy'] ?? ''}, not ${eighths}/8 yd`);
    if (find(buying, { Item: 'Hemp' })['Cost'] !== ((eighths / 8) * 14).toFixed(2)) wrong.push(`${name} hemp costs ${find(buying, { Item: 'Hemp' })['Cost'] ?? ''}`);
    checked++;
    if (find(buying, { Item: 'Felt' })['Buy'] !== '1 sheet') wrong.push(`${name} felt`);
  }
});

it('a pad in centimetres, round, half on a fold and parted by choice', () => {
  const spec = `pattern "Kneeling pad"
revision 1
unit cm
step 0.5
allowance 1
choice closing is sewn or raw
material lin "Linen" {
  width 140 usable 136
  shrinks 6%
  bought in lengths of 10
  price 20 per m
}
material cork "Cork" {
  role non-fray
  width 90
}
piece base "Base" {
  outline circle across 24.5
  notch edge at 25%
  cut 2 cork
}
piece wall "Wall" {
  outline rectangle around(22.5) / 2 by 12
  on fold left
  mark dot "Dot" at 10, 3
  grain up
  cut 1 cork on fold
}
piece flap "Flap" {
  outline polygon from 0, 0 to 18, 0 to 9, 12
  allowance none
  drill eye "Eye" at 9, 6
  cut 1 cork
}
piece tab "Tab" {
  outline rectangle 6 by 3
  allowance 0.75
  allowance left none
  mark stud "Stud" at 4.5, 1.5
  notch top at 2
  notch left at 1
  cut 2 cork when closing is sewn
  cut 1 cork along stitching when closing is raw
}
piece top "Top" {
  outline rectangle 60 by 45
  grain up
  cut 2 lin
}
supply strap "Strap" {
  kind webbing
  across 25 mm
  length 40
  count 3
}
`;
  const step = 0.5;
  const half = (Math.PI * 22.5) / 2;
  for (const closing of ['sewn', 'raw']) {
    const text = tableOf(spec, { closing });
    const cuts = rowsUnder(text, 'Cut, piece by piece');
    compare('base', find(cuts, { Piece: 'Base' })[size], [24.5], step);
    compare('wall', find(cuts, { Piece: 'Wall' })[size], [2 * half, 12], step);
    compare('flap', find(cuts, { Piece: 'Flap' })[size], [18, 12], step);
    compare('tab', find(cuts, { Piece: 'Tab' })[size], closing === 'sewn' ? [6, 3] : [5.25, 1.5], step);
    compare('top', find(cuts, { Piece: 'Top' })[size], [60, 45], step);
    const seams = rowsUnder(text, 'Seams');
    compare('base between seams', find(seams, { Piece: 'Base' })['Size between seams'], [22.5], step);
    compare('wall between seams', find(seams, { Piece: 'Wall' })['Size between seams'], [2 * half - 2, 10], step);
    compare('tab between seams', find(seams, { Piece: 'Tab' })['Size between seams'], [5.25, 1.5], step);
    compare('tab allowance', find(seams, { Piece: 'Tab' })['Seam allowance'], closing === 'sewn' ? [0.75] : [], step);
    const marks = rowsUnder(text, 'Mark, before sewing');
    const mark = (piece: string, what: string, left: number, below: number): void => {
      const row = find(marks, { Piece: piece, Mark: what });
      compare(`${what}, from the left`, row['From the left'], [left], step);
      compare(`${what}, from below`, row['From below'], [below], step);
    };
    mark('Base', 'notch on edge', 12.25, 24.5);
    mark('Wall', 'Dot', half + 10, 3);
    mark('Wall', 'Dot, other half', half - 10, 3);
    mark('Flap', 'Eye', 9, 6);
    // Along the stitching line the left edge stays where it is, and the lower one is 0.75 cm higher.
    mark('Tab', 'Stud', 4.5, closing === 'sewn' ? 1.5 : 0.75);
    if (closing === 'sewn') mark('Tab', 'notch on top', 2, 3);
    checked++;
    if (marks.filter((row) => row['Piece'] === 'Tab').length !== (closing === 'sewn' ? 2 : 1)) wrong.push(`marks of the tab, ${closing}`);
    compare('strap', find(rowsUnder(text, 'Supplies'), { Supply: 'Strap' })['Size']?.replace('25 mm', '2.5 cm'), [2.5, 40, 120], step);
    const linen = find(rowsUnder(text, 'What to buy'), { Item: 'Linen' });
    // Side by side in 136 cm: 45 cm, shrinking by 6 %, and 3 cm to spare make 50.9 cm.
    checked += 2;
    if (linen['Buy'] !== '0.6 m' || linen['Cost'] !== '12.00') wrong.push(`linen: ${linen['Buy'] ?? ''}, ${linen['Cost'] ?? ''}`);
  }
});

it('a panel in millimetres, parted, inset and mirrored', () => {
  const text = tableOf(`pattern "Panel"
revision 1
unit mm
allowance 10
material sheet "Sheeting" {
  width 1500
}
piece panel "Panel" {
  outline rectangle 300 by 200
  placement seam "Seam" = level at 150
  mark dot "Dot" at 100, 160
  drill eye "Eye" at 220.5, 40
  cut 1 sheet
}
piece upper "Upper" from panel above seam {
  allowance seam 6
  cut 1 sheet
}
piece lower "Lower" from panel below seam {
  allowance seam 6
  cut 1 sheet
}
piece lining "Lining" from panel inset 4 {
  without seam
  cut 1 sheet
}
piece back "Back" from panel mirrored {
  cut 1 sheet
}
`, {});
  const cuts = rowsUnder(text, 'Cut, piece by piece');
  const seams = rowsUnder(text, 'Seams');
  const marks = rowsUnder(text, 'Mark, before sewing');
  const sizes: Readonly<Record<string, readonly [number, number, number, number]>> = {
    Panel: [300, 200, 280, 180], Back: [300, 200, 280, 180],
    // Stitching from 150 to 190 and from 10 to 150; 6 mm at the parting, 10 mm elsewhere.
    Upper: [300, 40 + 10 + 6, 280, 40], Lower: [300, 140 + 10 + 6, 280, 140],
    // 4 mm inside the stitching line all round, and 10 mm allowances again.
    Lining: [300 - 8, 200 - 8, 280 - 8, 180 - 8],
  };
  for (const [piece, [width, height, between, upright]] of Object.entries(sizes)) {
    compare(piece, find(cuts, { Piece: piece })[size], [width, height], 1);
    compare(`${piece} between seams`, find(seams, { Piece: piece })['Size between seams'], [between, upright], 1);
  }
  const mark = (piece: string, what: string, left: number, below: number): void => {
    const row = find(marks, { Piece: piece, Mark: what });
    compare(`${piece} ${what}, from the left`, row['From the left'], [left], 1);
    compare(`${piece} ${what}, from below`, row['From below'], [below], 1);
  };
  mark('Panel', 'Dot', 100, 160);
  mark('Panel', 'Eye', 220.5, 40);
  mark('Back', 'Dot', 300 - 100, 160);
  mark('Back', 'Eye', 300 - 220.5, 40);
  // Its cut edge lies 6 mm below the parting at 150.
  mark('Upper', 'Dot', 100, 160 - 144);
  mark('Lower', 'Eye', 220.5, 40);
  mark('Lining', 'Dot', 100 - 4, 160 - 4);
  mark('Lining', 'Eye', 220.5 - 4, 40 - 4);
  checked++;
  if (marks.some((row) => row['Piece'] === 'Lining' && row['Mark'] === 'Seam')) wrong.push('the lining has a seam that it is without');
});

it('a sleeve in inches, with layers over one another, seams, and cloth of a spare of its own', () => {
  const text = tableOf(`pattern "Map sleeve"
revision 1
unit in
drawn to stitching
allowance 1/2
material hemp "Hemp" {
  width 40 usable 38
  shrinks 4%
  spare 5
  bought in lengths of 1/8 yd
  price 12 per yd
}
material web "Web" {
  role fusible
  width 18
}
material stiff "Stiffener" {
  role stabiliser
  faces glued
  width 20
}
piece wall "Wall" {
  outline rectangle 9 by 5 1/2
  line core = inset 1/2 from stitching
  line tab_at = rectangle 2 by 1 at 3 1/2, 3 1/2
  window port "Port" = rectangle 3 by 1/2 at 3, 1 1/4
  placement crease = level at 2
  notch left meeting crease
  notch bottom at 3
  grain up
  cut 2 hemp
  cut 2 web along stitching
  cut 2 stiff along core without port
}
piece gusset "Gusset" {
  outline rectangle 2 by 20 1/4
  grain up
  cut 1 hemp
}
piece tab "Tab" {
  outline rectangle 2 by 1
  grain up
  cut 1 hemp
}
supply cord "Cord" {
  kind other
  across 1/4
  length 2 * 9 + 1 1/2
  count 2
}
seam front_seam "Front seam" = gusset.left with wall.left, wall.bottom, wall.right eased by 1/4
seam tab_seam "Tab seam" = tab.left, tab.bottom, tab.right onto wall.tab_at
seam ends "Ends" = gusset.top from 0 to 3/4 with gusset.bottom from 1/4 to 1
`, {});
  const step = 1 / 8;
  const layers = rowsUnder(text, 'Put layers on, in this order');
  // 1/2 in of allowance, and for the stiffener 1/2 in more.
  const column = 'Where on the cloth';
  compare('web lies', find(layers, { Layer: 'Web' })[column], [0.5], step);
  compare('stiffener lies', find(layers, { Layer: 'Stiffener' })[column], [1], step);
  checked++;
  if (find(layers, { Layer: 'Stiffener' })['On'] !== 'Hemp (over Web)') wrong.push('what the stiffener lies on');
  const marks = rowsUnder(text, 'Mark, before sewing');
  const mark = (what: string, left: number | undefined, below: number | undefined): void => {
    const row = find(marks, { Mark: what });
    compare(`${what}, from the left`, row['From the left'], left === undefined ? [] : [left], step);
    compare(`${what}, from below`, row['From below'], below === undefined ? [] : [below], step);
  };
  mark('notch on left', 0, 2 + 0.5);
  mark('notch on bottom', 3 + 0.5, 0);
  mark('Port', 3 + 0.5, 1.25 + 0.5);
  const port = find(rowsUnder(text, 'Cut, piece by piece'), { Material: 'Stiffener' })['Notes']?.replace(/^.*cut out Port: /, '');
  compare('the port in the stiffener', port, [3, 0.5, 3 - 0.5, 1.25 - 0.5], step);
  const sewing = rowsUnder(text, 'Sew, edge to edge');
  const front = find(sewing, { Seam: 'Front seam' });
  // Up one side, along the bottom and up the other: 5 1/2 + 9 + 5 1/2; the gusset is 20 1/4.
  compare('front seam', front['Length'], [20], step);
  compare('front seam, ease', front['Ease'], [0.25], step);
  const tab = find(sewing, { Seam: 'Tab seam' });
  compare('tab seam', tab['Length'], [1 + 2 + 1], step);
  compare('where the tab goes', tab['Other edges'], [3.5 + 0.5, 3.5 + 0.5], step);
  compare('part of the top', find(sewing, { Seam: 'Ends' })['Edges'], [0.75], step);
  compare('part of the bottom', find(sewing, { Seam: 'Ends' })['Other edges'], [0.25, 1], step);
  const cord = find(rowsUnder(text, 'Supplies'), { Supply: 'Cord' });
  compare('cord', cord['Size'], [0.25, 19.5, 39], step);
  const hemp = find(rowsUnder(text, 'What to buy'), { Item: 'Hemp' });
  // All side by side, the gusset being the longest: 21 1/4 in, shrinking by 4 %, and 5 in to spare; an eighth of a yard is 4 1/2 in.
  const eighths = Math.ceil((21.25 / 0.96 + 5) / 4.5);
  checked += 2;
  if (hemp['Buy'] !== `${eighths}/8 yd` || hemp['Cost'] !== ((eighths / 8) * 12).toFixed(2)) wrong.push(`hemp: ${hemp['Buy'] ?? ''}, ${hemp['Cost'] ?? ''}`);
});

it('is right in each of its figures', () => {
  expect(wrong).toEqual([]);
  expect(checked).toBe(212);
});
