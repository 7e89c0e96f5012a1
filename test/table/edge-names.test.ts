import { describe, expect, test } from 'vitest';
import { pattern } from '../support/spec.ts';

const pocket = (lines: string, more: string) => pattern(`piece pocket {\n  outline rectangle 4 by 6\n  on fold top\n${lines}\n  cut 1 cloth on fold\n}\n${more}`);
const seams = (lines: string): readonly string[] => pocket(lines, 'seam side = pocket.left with pocket.left_twin\nseam low = pocket.bottom, pocket.right with pocket.bottom_twin, pocket.right_twin').table().sewing.map(({ first, second }) => `${first} to ${second}`);

describe('an edge of the other half of a fold', () => {
  test('is the other of its name', () => {
    expect(seams('')).toEqual(['pocket: left to pocket: the other left', 'pocket: bottom and right to pocket: the other bottom and the other right']);
  });
  test('is the other of its title', () => {
    expect(seams('  edge left "Left side"')[0]).toBe('pocket: Left side to pocket: the other Left side');
  });
  test('has a title of its own once it is opened out', () => {
    const opened = pocket('  line cut_at = upright at 2', 'piece half from pocket left of cut_at {\n  edge left_twin "Upper side"\n  allowance left_twin 1/4\n  edge all raw\n  cut 1 cloth\n}\npiece plain from pocket left of cut_at {\n  allowance left_twin 1/4\n  cut 1 cloth\n}');
    expect(opened.table().seams.map(({ allowance }) => allowance).slice(1)).toEqual([expect.stringContaining('1/4 in on Upper side'), expect.stringContaining('1/4 in on the other left')]);
  });
});

test('what is told to be left over is said of the edge that is drawn', () => {
  const left = (lines: string): readonly string[] => pocket(lines, 'seam side = pocket.left with pocket.right').problems.filter(({ code }) => code === 'edges-left').map(({ message }) => message);
  expect(left('  edge bottom raw')).toEqual(['Nothing is said of what becomes of right_twin, left_twin of “pocket”: name them in a seam, or say so here, as in edge right raw.']);
});

test('what becomes of an edge of the other half may be said of that alone, once it is opened out', () => {
  const left = (finish: string): readonly string[] => pocket('  line cut_at = upright at 2', `piece half from pocket left of cut_at {\n  edge bottom raw\n  edge cut_at raw\n${finish}\n  cut 1 cloth\n}\npiece other {\n  outline rectangle 6 by 4\n  edge all raw\n  cut 1 cloth\n}\nseam side = half.left with other.left within 9`).problems.filter(({ code, message }) => code === 'edges-left' && message.includes('“half”')).map(({ message }) => message.split(':')[0] ?? '');
  expect(left('')).toEqual(['Nothing is said of what becomes of left_twin of “half”']);
  expect(left('  edge left_twin raw')).toEqual([]);
});
