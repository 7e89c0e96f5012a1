import { describe, expect, it } from 'vitest';
import { errataOf } from '../../server/src/compare/errata.ts';
import { analyse } from '../support/spec.ts';
import { compared, tasksOf } from './edited.ts';

/** An invented mat, whose corners change while its size stays. */
const mat = (shape: string): ReturnType<typeof analyse>['pattern'] => analyse(`pattern "Mat"\nrevision 1\nunit in\nallowance none\nmaterial cloth "Cloth" {\n  width 44\n}\npiece mat "Mat" {\n  ${shape}\n  edge all raw\n  cut 1 cloth\n}`, {}).pattern;
const square = 'outline rectangle 12 by 9';
const told = (was: string, now: string): readonly string[] => compared(mat(was), mat(now)).changes.filter(({ group }) => group === 'cut').map(({ what, was: before, now: after }) => `${what}: ${before} → ${after}`);
const size = '12 in (30.5 cm) × 9 in (22.9 cm)';

describe('a rectangle of the same size with other corners', () => {
  it.each([
    ['rounder ones', `${square}\n  corner all round 1`, `${square}\n  corner all round 2`, `Cloth: shape: within ${size}, all corners rounded 1 in → within ${size}, all corners rounded 2 in`],
    ['some chamfered', `${square}\n  corner all round 1`, `${square}\n  corner top chamfer 1\n  corner bottom round 1`, `Cloth: shape: within ${size}, all corners rounded 1 in → within ${size}, both top corners chamfered 1 in, both bottom corners rounded 1 in`],
  ])('tells which: %s', (_, was, now, text) => expect(told(was, now)).toEqual([text]));

  it('tells so where they were square, and to those who have the earlier one', () => {
    const comparison = compared(mat(square), mat(`${square}\n  corner all round 1`));
    expect(tasksOf(errataOf(comparison))['Cut these pieces again']).toEqual([`Mat, from Cloth: shape within ${size}, all corners rounded 1 in, in place of 12 in (about 30.5 cm) × 9 in (about 22.9 cm), square corners`]);
  });

  it('is told as another outline where it is no rectangle', () => {
    expect(told(`${square}\n  corner all round 1`, 'outline polygon from 1, 0 to 11, 0 to 12, 9 to 0, 9')).toEqual([`Cloth: shape: within ${size} → the same, with another outline`]);
    expect(told('outline polygon from 0, 0 to 12, 0 to 12, 9 to 1, 9', 'outline polygon from 0, 0 to 12, 0 to 12, 9 to 2, 9')).toEqual([`Cloth: shape: within ${size} → the same, with another outline`]);
  });
});
