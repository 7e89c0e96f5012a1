import { describe, expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

/** An invented cover: an outside, a lining and a strip. */
const seams = (outside: string, lining: string, more = '', seam = 'lining.top'): ReturnType<typeof pattern> => pattern(`piece outside {
  outline rectangle 9 by 7
  edge left raw
  edge right raw
  edge bottom raw
  cut ${outside} cloth
}
piece lining {
  outline rectangle 9 by 7
  edge left raw
  edge right raw
  edge bottom raw
  cut ${lining} cloth
}
${more}seam mouth = outside.top with ${seam}`);

describe('the numbers cut on both sides of a seam', () => {
  it('are told where the one is there more often', () => {
    const told = seams('1', '2').only('seam-counts');
    expect(told.message).toBe('As they are cut, outside.top is there once and lining.top twice, so 1 of lining.top is sewn to nothing. Cut as many of both, or write another seam.');
    expect([told.marked, told.severity]).toEqual(['mouth', 'warning']);
    expect(seams('5', '2').only('seam-counts').message).toContain('outside.top is there 5 times and lining.top twice, so 3 of outside.top are sewn to nothing.');
  });

  it.each([
    ['as many', seams('2', '2')],
    ['two of one piece in a seam each', seams('1', '2', 'piece back from outside {\n  cut 1 cloth\n}\nseam other = back.top with lining.top\n')],
    ['two of a piece that are sewn to one another', seams('2', '1', '', 'outside.top')],
    ['many on a part of one edge, as they may be all along it', seams('6', '1', 'piece tape {\n  outline rectangle 60 by 1\n  edge left raw\n  edge right raw\n  edge bottom raw\n  edge top raw\n  cut 1 cloth\n}\n', 'tape.top from 0 to 9')],
    ['a seam beside one that can’t be read', seams('1', '2', 'seam broken = outside.bottom with lining.botom\n')],
  ])('are as they should be: %s', (_, found) => expect(found.codes).not.toContain('seam-counts'));

  it('are asked for in outside and lining apart', () => {
    const both = (count: string): readonly string[] => pattern(`piece front {\n  outline rectangle 9 by 7\n  edge left raw\n  edge right raw\n  edge bottom raw\n  cut 1 cloth\n  cut ${count} lining\n}\npiece back from front {\n  cut 1 cloth\n  cut 1 lining\n}\nseam top = front.top with back.top`).codes;
    expect(both('1')).not.toContain('seam-counts');
    expect(both('2')).toContain('seam-counts');
  });
});

describe('the number of a layer', () => {
  const layered = (cuts: string): ReturnType<typeof pattern> => pattern(`piece panel {\n  outline rectangle 9 by 7\n${cuts}\n}`);
  it.each([
    ['  cut 1 cloth\n  cut 2 fuse', '2 of fuse are cut, and there is one piece for it to go on: 2 lie on it.'],
    ['  cut 2 cloth\n  cut 4 fuse', '4 of fuse are cut, and there are 2 pieces for it to go on: 2 lie on each.'],
    ['  cut 2 cloth\n  cut 3 fuse', '3 of fuse are cut, and there are 2 pieces for it to go on: some have more of it than others.'],
  ])('%j', (cuts, message) => expect(layered(cuts).only('layers-to-spare')).toMatchObject({ message, severity: 'note' }));

  it.each([
    ['as many', '  cut 2 cloth\n  cut 2 fuse'],
    ['fewer', '  cut 2 cloth\n  cut 1 fuse'],
    ['one for the outside and one for its lining', '  cut 1 cloth\n  cut 1 lining\n  cut 2 fuse'],
  ])('is as it should be: %s', (_, cuts) => expect(layered(cuts).codes).not.toContain('layers-to-spare'));
});
