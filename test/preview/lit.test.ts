import { describe, expect, it } from 'vitest';
import type { PreviewCompared } from '../../server/src/preview/drawing-data.ts';
import { findAt } from '../../client/preview/cursor.ts';
import { Draft } from './specs.ts';

const spec = `pattern "Lit"
unit cm
sizes S, L
choice lid is flat or domed
length base_w = 10 for S, 14 for L
length wall_h = base_w / 2
length apart = 3
material felt "Wool felt" {
  width 90
}
material cork "Cork" {
  width 60
}
piece base "Base" {
  outline rectangle base_w by 8
  mark knob at 2, 2
  cut 1 felt
}
piece wall "Wall" {
  outline rectangle 30 by wall_h
  line crease = level at wall_h / 2
  mark hook at apart, 1
  cut 1 cork
}
piece second "Second base" from base {
  cut 1 cork
}
piece cap "Cap" {
  outline rectangle 9 by 9
  cut 1 cork when lid is flat
}
supply button "Button" {
  kind snap
  across 10 mm
  at base.knob
}
seam foot = base.bottom with wall.bottom
check base.top matches wall.top else warning
`;
const draft = new Draft();
const data = draft.data(spec);
const at = (text: string): ReturnType<typeof findAt> => findAt(data, 'draft.piece', spec.indexOf(text) + 1);
/** `wall: line crease, cutting top` of what is lit. */
const lit = (text: string): Readonly<Record<string, readonly string[]>> => Object.fromEntries([...at(text).lit].map(([name, parts]) => {
  const drawn = data.pieces.find((piece) => piece.name === name)?.drawing.parts ?? [];
  return [name, [...new Set(parts.map((part) => drawn[part]?.name ?? '?'))].sort()];
}));

describe('the cursor lights', () => {
  it('all that hangs on a value, by way of others too, down to the lines that use them', () => {
    expect(lit('length base_w')).toEqual({ base: ['bottom', 'left', 'right', 'top'], wall: ['bottom', 'crease', 'left', 'right', 'top'], second: ['bottom', 'left', 'right', 'top'] });
    expect(lit('length wall_h')).toEqual({ wall: ['bottom', 'crease', 'left', 'right', 'top'] });
    expect(lit('length apart')).toEqual({ wall: ['hook'] });
    expect(at('length wall_h').says).toBe('wall_h = 5 cm · changes the outline of Wall');
  });

  it('an outline where a value only rounds its corners', () => {
    const text = spec.replace('length apart', 'length soft = 1\nlength apart').replace('outline rectangle base_w by 8', 'outline rectangle base_w by 8\n  corner top round soft');
    expect(findAt(new Draft().data(text), 'draft.piece', text.indexOf('length soft') + 8).says).toBe('soft = 1 cm · changes the outline of Base, Second base');
  });

  it('nothing of what no piece hangs on, and says what else does', () => {
    const text = `${spec}length spare = 3\nlength strap_l = 60 + spare\nlength alone = 1\nsupply strap "Strap" {\n  kind webbing\n  across 25 mm\n  length strap_l\n}\ncheck strap_l >= 60\n`;
    const says = (words: string): string => findAt(new Draft().data(text), 'draft.piece', text.indexOf(words) + 1).says;
    expect(says('length spare')).toBe('spare = 3 cm · changes no piece that is drawn, only Strap to buy; used in a check');
    expect(says('length alone')).toBe('alone = 1 cm · changes no piece that is drawn');
  });

  it('what is to be bought otherwise is told beside the pieces, and not what only goes elsewhere', () => {
    const text = spec.replace('  across 10 mm\n', '  across 10 mm\n  note "Set it {apart} from the edge."\n').replace('mark knob at 2, 2', 'mark knob at apart, 2')
      .replace('supply button', 'supply tape "Tape" {\n  kind binding\n  across 1\n  length wall.top + 2\n}\nsupply button').replace('outline rectangle 30 by', 'outline rectangle apart * 10 by');
    const says = (words: string): string => findAt(new Draft().data(text), 'draft.piece', text.indexOf(words) + 1).says;
    // By way of a piece that is measured; the button is only set at another place.
    expect(says('length apart')).toBe('apart = 3 cm · changes the outline of Wall; lines on Base, Second base; Tape to buy');
    expect(says('length base_w')).toBe('base_w = 10 cm · changes the outline of Base, Wall, Second base; Tape to buy');
  });

  it('only the edges that a value moves, and what lies on them or runs along the whole outline', () => {
    const text = `pattern "Edges"
unit cm
allowance 1
drawn to stitching
length wide = 20
length high = 12
length turn = 3
length deep = 2
length in_from = 2
length bulge = -2
length knee = 4
count copies = 2
material felt "Felt" {
  width 90
}
piece body "Body" {
  outline path from 0, 0 {
    line to wide, 0 as foot
    line to wide, knee as side
    line to wide / 2, high as slope
    curve to 0, 4 by wide / 4, high + bulge and 1, 6 as back
    close as spine
  }
  allowance foot turn
  dart tuck on back at 50% wide deep deep 3
  line core = inset 1 from stitching
  line tab = rectangle in_from by 1 at 5, 1
  notch slope at 50%
  notch foot at 50%
  cut copies felt
  cut 1 felt along tab
}
piece lining "Lining" from body {
  cut 1 felt
}
`;
    const found = (words: string): ReturnType<typeof findAt> => findAt(new Draft().data(text), 'draft.piece', text.indexOf(words) + 1);
    const drawn = new Draft().data(text).pieces;
    const parts = (words: string): Readonly<Record<string, readonly string[]>> => Object.fromEntries([...found(words).lit].map(([name, all]) => {
      const own = drawn.find((piece) => piece.name === name)?.drawing.parts ?? [];
      return [name, all.map((part) => `${own[part]?.kind ?? ''} ${own[part]?.name ?? ''}`).sort()];
    }));
    const both = (...edges: readonly string[]): readonly string[] => ['cutting', 'stitching'].flatMap((kind) => edges.map((edge) => `${kind} ${edge}`));
    // An edge that ends elsewhere has the next one begin there.
    const upper = [...both('back', 'slope'), 'line core', 'line tuck', 'notch notch on slope'].sort();
    expect(parts('length high')).toEqual({ body: upper, lining: upper });
    expect(found('length high')).toMatchObject({ says: 'high = 12 cm · changes the outline of Body, Lining', inPart: new Set(['body', 'lining']) });
    expect(parts('length knee')['body']).toEqual([...both('side', 'slope'), 'line core', 'notch notch on slope'].sort());
    // A curve that only bends otherwise ends where it did.
    expect(parts('length bulge')['body']).toEqual([...both('back'), 'line core', 'line tuck'].sort());
    // An allowance moves the line that is cut along.
    expect(parts('length turn')['body']).toContain('cutting foot');
    expect(parts('length turn')['body']).not.toContain('stitching foot');
    expect(parts('length turn')['body']).not.toContain('cutting slope');
    // What is cut has a peak over a dart.
    expect(found('length deep').says).toBe('deep = 2 cm · changes the outline of Body, Lining');
    expect(parts('length deep')['body']).toEqual(expect.arrayContaining(['cutting back', 'line tuck']));
    expect(found('length in_from').says).toBe('in_from = 2 cm · changes what is cut of Body; lines on Lining');
    // Another piece may have a line of the same name.
    const stripped = `${text}piece strip "Strip" {\n  outline rectangle 9 by 5\n  line tab = upright at 4\n  quilt rows "Rows" body.spine / 4 apart along tab\n  cut 1 felt\n}\n`;
    expect(findAt(new Draft().data(stripped), 'draft.piece', stripped.indexOf('length in_from') + 1).says).toBe(found('length in_from').says);
    expect(found('count copies')).toMatchObject({ says: 'copies = 2 · changes how many are cut of Body', inPart: new Set() });
    // Also where both its outline and its number hang on the same.
    const more = text.replace('count copies = 2', 'count copies = round_down(wide / high, 1)');
    expect(findAt(new Draft().data(more), 'draft.piece', more.indexOf('length wide') + 1).says).toBe('wide = 20 cm · changes the outline of Body, Lining; how many are cut of Body');
    expect(found('length wide').inPart).toEqual(new Set(['body', 'lining']));
    const square = text.replace('allowance foot turn', 'allowance turn').replace('allowance 1\n', '');
    expect(findAt(new Draft().data(square), 'draft.piece', square.indexOf('length turn') + 1)).toMatchObject({ says: 'turn = 3 cm · changes the outline of Body, Lining', inPart: new Set() });
  });

  it('what is not there in the options that are shown', () => {
    const text = `${spec}length deep = 2\nlength far = 1\npiece dome "Dome" when lid is domed {\n  outline rectangle 9 by deep\n  cut 1 felt\n}\npiece tuft "Tuft" from wall above crease when lid is domed {\n  cut 1 felt\n}\nsupply cord "Cord" when lid is domed {\n  kind other\n  length dome.top + far + tuft.top\n}\n`;
    const found = (words: string, lid: string): string => findAt(new Draft().data(text, { lid }), 'draft.piece', text.indexOf(words) + 1).says;
    expect(new Draft().data(text, { lid: 'flat' }).links.filter(({ elsewhere }) => elsewhere).map(({ name }) => name)).toEqual(['dome', 'tuft', 'cord']);
    expect(found('length deep', 'flat')).toBe('deep = 2 cm · changes no piece that is drawn; with other choices Dome, Cord');
    expect(found('length deep', 'domed')).toBe('deep = 2 cm · changes the outline of Dome; Cord to buy');
    expect(found('length far', 'flat')).toBe('far = 1 cm · changes no piece that is drawn; with other choices Cord');
    expect(found('length wall_h', 'flat')).toBe('wall_h = 5 cm · changes the outline of Wall; with other choices also Tuft, Cord');
    // Also where it is made along a line that moves.
    const moved = text.replace('level at wall_h / 2', 'level at far * 2');
    expect(findAt(new Draft().data(moved, { lid: 'flat' }), 'draft.piece', moved.indexOf('length far') + 1).says).toBe('far = 1 cm · changes lines on Wall; with other choices also Tuft, Cord');
    // What the cloth runs along stays.
    const domed = new Draft().data(moved, { lid: 'domed' });
    const tuft = findAt(domed, 'draft.piece', moved.indexOf('length far') + 1).lit.get('tuft') ?? [];
    expect(new Set(tuft.map((part) => domed.pieces.find(({ name }) => name === 'tuft')?.drawing.parts[part]?.kind))).toEqual(new Set(['cutting']));
  });

  it('what only words say', () => {
    const text = `${spec}length free = 4\nlength told = 1\nnote "Leave {free} of it."\nstep "Sew the foot, {free} from the end." does foot\nstep "Turn it in by {told + free}." when lid is flat\nstep "Turn it out by {told}." when lid is domed\n`;
    const says = (words: string): string => findAt(new Draft().data(text), 'draft.piece', text.indexOf(words) + 1).says;
    expect(says('length free')).toBe('free = 4 cm · changes no piece that is drawn, only the words of step 1, step 2, a note');
    expect(says('length told')).toBe('told = 1 cm · changes no piece that is drawn, only the words of step 2');
    // The step itself, and a note, say what they did before.
    expect(says('step "Sew')).toBe(findAt(new Draft().data(text), 'draft.piece', text.indexOf('does foot')).says);
    expect(findAt(new Draft().data(text), 'draft.piece', text.indexOf('note "Leave') + 1)).toMatchObject({ says: '', lit: new Map() });
  });

  it('only the line of a piece that stays as it is otherwise, there and in what is made from it', () => {
    expect(at('length apart')).toMatchObject({ says: 'apart = 3 cm · changes lines on Wall', inPart: new Set(['wall']) });
    expect(at('length base_w').inPart).toEqual(new Set());
    const text = `${spec}length eye = 2\nlength round_base = base.perimeter\npiece patch "Patch" {\n  outline rectangle round_base by 4\n  cut 1 felt\n}\n`.replace('knob at 2, 2', 'knob at eye, eye');
    const found = findAt(new Draft().data(text), 'draft.piece', text.indexOf('length eye') + 1);
    // What is measured on the outline is no other.
    expect([...found.lit.keys()]).toEqual(['base', 'second']);
    expect(found.says).toBe('eye = 2 cm · changes lines on Base, Second base');
    const cut = text.replace('from base {', 'from base below knob_line {').replace('  mark knob', '  line knob_line = level at eye\n  mark knob').replace('mark knob at eye, eye', 'mark knob at 1, 1');
    expect(findAt(new Draft().data(cut), 'draft.piece', cut.indexOf('length eye') + 1).says).toBe('eye = 2 cm · changes the outline of Second base; lines on Base');
  });

  it('what hangs on the sizes and on a choice', () => {
    expect(Object.keys(lit('sizes S'))).toEqual(['base', 'wall', 'second']);
    expect(lit('choice lid')).toEqual({ cap: [] });
    expect(at('choice lid').says).toBe('lid: flat · changes what is cut of Cap');
  });

  it('what is cut from a material', () => {
    expect(Object.keys(lit('material cork'))).toEqual(['wall', 'second', 'cap']);
    expect(at('material cork').says).toBe('Cork · 3 pieces: Wall, Second base, Cap');
  });

  it('where a supply goes, and what a seam joins', () => {
    expect(lit('supply button')).toEqual({ base: ['knob'] });
    expect(lit('seam foot')).toEqual({ base: ['bottom'], wall: ['bottom'] });
  });

  it('a piece, and says its sizes', () => {
    expect(at('piece wall').says).toBe('Wall · cut and finished 30 cm × 5 cm');
  });

  it('what a check compares, and says by how much it fails', () => {
    expect(lit('check base')).toEqual({ base: ['top'], wall: ['top'] });
    expect(at('check base').says).toBe('The check fails: base.top is 10 cm and wall.top is 30 cm: 20 cm too short · 2 pieces: Base, Wall');
    expect(findAt(draft.data(spec, { size: 'L' }), 'draft.piece', spec.indexOf('check base') + 1).says).toContain('base.top is 14 cm');
  });

  it('what a check that fails has measured, and nothing of one that holds', () => {
    expect(at('check base').compared).toEqual({ by: '20 cm', both: [{ says: 'base.top', text: '10 cm', width: 100, height: null, on: [['base', 'top']], more: '' }, { says: 'wall.top', text: '30 cm', width: 300, height: null, on: [['wall', 'top']], more: '' }] });
    expect(at('seam foot').compared).toBeUndefined();
    const compared = (rule: string): unknown => {
      const text = `${spec}thing tag "Tag" = 12 by 3\ncheck ${rule}\n`;
      return findAt(new Draft().data(text), 'draft.piece', text.lastIndexOf('check ') + 1).compared;
    };
    expect(compared('wall.top matches base.top eased by 2')).toMatchObject({ by: '18 cm', both: [{ text: '30 cm' }, { says: 'base.top with 2 cm to ease in', text: '12 cm', width: 120 }] });
    expect(compared('base_w > 12')).toMatchObject({ by: '2 cm', both: [{ says: 'base_w', text: '10 cm' }, { says: '12', text: '12 cm', width: 120 }] });
    expect(compared('wall.crease clears wall.cutting by 4')).toMatchObject({ both: [{ says: 'from wall.crease to wall.cutting', text: '0 cm' }, { says: 'wanted', text: '4 cm' }] });
    expect(compared('base holds tag with ease 1/2')).toMatchObject({ by: '', both: [{ says: 'base', text: '10 cm × 8 cm', width: 100, height: 80 }, { text: '12.5 cm × 3.5 cm', width: 125, height: 35 }] });
    expect(compared('base_w > 8')).toBeUndefined();
    // Where it was measured is known of what is added up, and of nothing that is reckoned otherwise.
    expect(compared('base.top matches (wall.top + wall.left)')).toMatchObject({ both: [{ on: [['base', 'top']] }, { on: [['wall', 'top'], ['wall', 'left']] }] });
    expect((compared('base.top matches wall.top * 2') as PreviewCompared).both[1].on).toBeUndefined();
    expect((compared('base.top matches wall.top - wall.left') as PreviewCompared).both[1].on).toBeUndefined();
    expect(compared('base holds tag with ease 1/2')).toMatchObject({ both: [{ on: [['base']] }, {}] });
  });

  it('the narrowest line of the piece that it is in', () => {
    expect(lit('line crease')).toEqual({ wall: ['crease'] });
    expect(at('line crease').piece).toBe('wall');
    expect(at('pattern "Lit"').lit.size).toBe(0);
  });
});

it('says of many pieces only the first, and how many more', () => {
  const many = `pattern "Many"\nunit cm\nlength w = 4\nmaterial felt "Felt" {\n  width 90\n}\n${Array.from({ length: 9 }, (_, index) => `piece p${index} "P${index}" {\n  outline rectangle w by 3\n  cut 1 felt\n}\n`).join('')}`;
  expect(findAt(new Draft().data(many), 'draft.piece', many.indexOf('length w') + 1).says).toBe('w = 4 cm · changes the outline of P0, P1, P2, P3, 5 more');
  // That there is one more takes as long to say as which.
  const five = many.slice(0, many.indexOf('piece p5'));
  expect(findAt(new Draft().data(five), 'draft.piece', five.indexOf('length w') + 1).says).toBe('w = 4 cm · changes the outline of P0, P1, P2, P3, P4');
});

it('an allowance for all pieces lights them all, and so does a value that it uses', () => {
  const text = spec.replace('length apart = 3', 'length apart = 3\nallowance apart / 3');
  const found = new Draft().data(text);
  for (const where of ['allowance apart', 'length apart']) expect([...findAt(found, 'draft.piece', text.indexOf(where) + 1).lit.keys()].sort(), where).toEqual(['base', 'cap', 'second', 'wall']);
});
