import { describe, expect, test } from 'vitest';
import { pattern } from '../../support/spec.ts';

const facts = 'unit cm\nallowance 1\ndrawn to stitching';
const bag = (front: string, lining: string, more = ''): ReturnType<typeof pattern> => pattern(`piece front "Front" {
  outline rectangle 20 by 15
  allowance top 3
  edge all raw
  edge top ${front}
  cut 2 cloth
}
piece liner "Liner" {
  outline rectangle 20 by 14
  edge all raw
${lining}
  cut 2 lining
}
supply cord "Cord" {
  across 0.5
  length 60
}
seam round = front.left, front.bottom, front.right with front.right, front.bottom, front.left
seam lined = liner.left, liner.bottom, liner.right with liner.right, liner.bottom, liner.left
${more}`, facts);
const faults = (...parts: Parameters<typeof bag>): readonly string[] => bag(...parts).faults.filter((fault) => !fault.startsWith('left-out'));

describe('a lining in a casing', () => {
  const caught = '  allowance top 2.5\n  edge top caught in front.top';
  test('is folded into the hem of the outside, which alone makes the casing', () => {
    const found = bag('hemmed 2.5 with cord', caught);
    expect(found.faults).toEqual([]);
    expect(found.table().finishes.map(({ piece, edges, finish }) => `${piece}: ${edges} ${finish}`)).toContain('Liner: top caught in the hem of Front: top, folded together with it');
    // Two fronts of 20 each; the liners are folded into the same hem.
    expect(found.table().supplies.find(({ supply }) => supply === 'Cord')?.notes.join(' ')).toContain('runs through a casing 40 cm long, 20 cm of it comes out');
  });
  test('a gap between both, which that hem folds shut, is no opening', () => {
    // The back and its liner are sewn to one another at the top, the front and its liner are folded.
    const gap = (top: string): readonly string[] => pattern(`piece front "Front" {\n  outline rectangle 20 by 15\n  allowance top 3\n  edge top hemmed 2\n  cut 1 cloth\n}\npiece back "Back" {\n  outline rectangle 20 by 15\n  cut 1 cloth\n}\npiece front_liner "Front liner" from front {\n  allowance top 2\n  edge top ${top}\n  cut 1 lining\n}\npiece back_liner "Back liner" from back {\n  cut 1 lining\n}\nseam rim = back.top with back_liner.top\nseam round = front.left, front.bottom, front.right with back.right, back.bottom, back.left\nseam lined = front_liner.left, front_liner.bottom, front_liner.right with back_liner.right, back_liner.bottom, back_liner.left`, facts)
      .table().openings.map(({ edges }) => edges);
    expect(gap('raw')).toEqual(['Front: top; Front liner: top']);
    expect(gap('caught in front.top')).toEqual([]);
  });
  test('no step need name it, and its opening says so', () => {
    const found = bag('hemmed 2.5 with cord', caught, 'step "Sew." does round, lined\nstep "Turn the top down over the liner and draw the cord in." does cord');
    expect(found.faults).toEqual([]);
    expect(found.table().openings.map(({ finish }) => finish.join(', '))).toEqual(['hemmed, 2.5 cm wide, with Cord in it', 'caught in the hem of Front: top, folded together with it']);
  });
  test('needs that hem, as long, and an allowance', () => {
    expect(faults('bound', caught)).toEqual(['caught-nowhere: edge top caught in front.top']);
    expect(faults('hemmed 2.5 with cord', '  allowance top none\n  edge top caught in front.top')).toEqual(['caught-nowhere: edge top caught in front.top']);
    expect(faults('hemmed 2.5 with cord', '  edge top caught in front.left')).toEqual(['caught-nowhere: edge top caught in front.left']);
    expect(faults('hemmed 2.5 with cord', '  edge top caught in front.tpo')).toEqual(['unknown-part: tpo']);
    expect(faults('hemmed 2.5 with cord', '  edge top caught in front')).toEqual(['wrong-thing: front']);
    expect(bag('hemmed 2.5 with cord', '  outline rectangle 19 by 14\n  edge top caught in front.top'.replace('  outline rectangle 19 by 14\n', '')).faults).toEqual([]);
  });
  test('of another length than the hem it can’t be folded together with that', () => {
    const [short] = pattern('piece front {\n  outline rectangle 20 by 15\n  allowance top 3\n  edge top hemmed 2\n  cut 1 cloth\n}\npiece liner {\n  outline rectangle 19.9 by 15\n  edge top caught in front.top\n  cut 1 lining\n}', facts).problems;
    expect(short?.message).toBe('“liner.top” is 19.9 cm long and “front.top”, in whose hem it is caught, 20 cm: both are folded together, so they must be as long.');
  });
});

describe('a cord', () => {
  const order = (steps: string, kind = 'other'): readonly string[] => pattern(`piece front "Front" {\n  outline rectangle 20 by 15\n  allowance top 3\n  edge all raw\n  edge top hemmed 2 with cord\n  cut 1 cloth\n}\nsupply cord "Cord" {\n  kind ${kind}\n  across 0.5\n  length 15\n}\nseam tube = front.left with front.right\nstep "0" does tube\n${steps}`, facts).faults;
  test('is drawn in after its casing is stitched, or in that step', () => {
    expect(order('step "1" does front.top\nstep "2" does cord')).toEqual([]);
    expect(order('step "1" does cord, front.top')).toEqual([]);
    expect(order('step "1" does cord')).toEqual([]);
    expect(order('step "1" does cord\nstep "2" does front.top')).toEqual(['not-yet-finished: cord']);
  });
  test('an elastic may be laid in and stitched over', () => {
    expect(order('step "1" does cord\nstep "2" does front.top', 'elastic')).toEqual([]);
  });
});

describe('a ring against a piece that runs through it', () => {
  const ring = (across: string, fits: string, lines = '  foldline left_quarter = upright at 2.5\n  foldline right_quarter = upright at 7.5\n  foldline middle = upright at 5\n  folded left_quarter, right_quarter, middle'): readonly string[] =>
    pattern(`piece tab "Tab" {\n  outline rectangle 10 by 8\n${lines}\n  edge all raw\n  cut 1 cloth\n}\nsupply ring "Ring" {\n  kind ring\n  across ${across}\n  fits ${fits}\n}`, facts).faults;
  test('is as wide as that is folded: in four, 10 cm are 2.5', () => {
    expect(ring('25 mm', 'tab')).toEqual([]);
    expect(ring('27 mm', 'tab')).toEqual([]);
    expect(ring('28 mm', 'tab')).toEqual(['ring-misfit: tab']);
    expect(ring('25 mm', 'tab.bottom')).toEqual([]);
    expect(ring('25 mm', 'tab.left')).toEqual(['ring-misfit: tab.left']);
    expect(ring('80 mm', 'tab.left')).toEqual([]);
  });
  test('of a piece that isn’t folded, between its seams', () => {
    expect(ring('80 mm', 'tab', '')).toEqual([]);
    expect(ring('100 mm', 'tab.top', '')).toEqual([]);
    expect(ring('25 mm', 'tab', '')).toEqual(['ring-misfit: tab']);
  });
  test('names what there is', () => {
    expect(ring('25 mm', 'tba')).toEqual(['unknown-name: tba']);
    expect(ring('25 mm', 'tab.botom')).toEqual(['unknown-part: botom']);
    expect(ring('25 mm', 'cloth')).toEqual(['wrong-thing: cloth']);
  });
  test('may say how wide that is', () => {
    expect(pattern('piece tab "Tab" {\n  outline rectangle 4 * ring.across by 8\n  foldline half = upright at 2 * ring.across\n  folded half\n  edge all raw\n  cut 1 cloth\n}\nsupply ring "Ring" {\n  kind ring\n  across 25 mm\n  fits tab\n}', facts).faults).toEqual(['ring-misfit: tab']);
  });
});

describe('a piece that asks for itself', () => {
  test('may do so in the size of a layer', () => {
    const found = pattern('piece front "Front" {\n  outline rectangle 20 by 15\n  cut 1 cloth\n  cut 1 fuse sized front.width - 2 by front.top / 4\n}', facts);
    expect(found.faults).toEqual([]);
    expect(found.rows().map(({ size }) => size)).toContain('18 cm × 5 cm');
  });
  test('is told where it does so in a line that draws it, with the way out', () => {
    const { problems } = pattern('piece front "Front" {\n  outline rectangle 20 by 15\n  line core = upright at front.width / 2\n  cut 1 cloth\n  cut 1 fuse sized front.width - 2 by 3\n}', facts);
    expect(problems.map(({ code, marked }) => `${code}: ${marked}`)).toEqual(['cycle: front']);
    expect(problems[0]?.message).toBe('“front” asks for a measure of its own, but what it measures hangs on this line. Give that size a name outside of the piece, as in length front_w = 9, and use the name in both places.');
  });
});

test('a run over copies of one piece says that it takes two pieces', () => {
  const told = (cut: string): string | undefined => pattern(`piece front "Front" {\n  outline rectangle 10 by 7\n  edge all raw\n  cut ${cut} cloth\n}\npiece band "Band" {\n  outline rectangle 20 by 3\n  edge all raw\n  cut 1 cloth\n}\nseam waist = band.bottom with front.top, front.top`, facts).problems.find(({ code }) => code === 'run-broken')?.message;
  expect(told('2')).toContain('make them two pieces, as in piece front_2 from front');
  expect(told('1')).toContain('Name the edges of “front” in the order in which they are sewn');
});

test('what comes too late says which seam might be sewn later', () => {
  const { problems } = pattern('piece p "Piece" {\n  outline rectangle 10 by 6\n  edge top raw\n  cut 2 cloth\n  cut 2 fuse along stitching\n}\nseam round = p.left, p.bottom, p.right with p.right, p.bottom, p.left\nstep "Press."\nstep "Sew." does round\nstep "Fuse." does p.layers', facts);
  expect(problems.find(({ code }) => code === 'too-late')?.message).toBe('By then “p” is sewn to other pieces all round, so “p.layers” can’t be done any more. Do it in an earlier step, or sew “round” later, such as where a lining is dropped in.');
});
