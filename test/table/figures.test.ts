import { describe, expect, it } from 'vitest';
import { isCircle } from '../../server/src/geometry/circle.ts';
import { toJson } from '../../server/src/formats/json.ts';
import { inOneLine } from '../../server/src/table/figures.ts';
import { pattern } from '../support/spec.ts';

const base = (outline: string, more = ''): ReturnType<ReturnType<typeof pattern>['table']> => pattern(`piece base "Base" {\n  outline ${outline}\n${more}  cut 1 cloth\n}`).table();

describe('a circle', () => {
  it('is told by how far it is across, cut and between its seams, in words and as data', () => {
    const table = base('circle across 4', '  allowance 1/2\n  placement patch = circle across 2 at 2, 2\n');
    expect([table.cuts[0]!.size, table.templates[0]!.size.circle, table.seams[0]!.finished.circle]).toEqual(['circle, 4 in across', true, true]);
    expect(table.marks.map(({ kind }) => kind)).toContain('placement, circle, 2 in across');
    expect(JSON.parse(toJson([table]))).toMatchObject({ tables: [{ cuts: [{ circle: true, width: { value: 4 } }] }] });
  });

  it('is nothing else that is as wide as it is high', () => {
    for (const outline of ['circle across 4 from 0 to 180', 'ellipse 4 by 4.01', 'rectangle 4 by 4']) expect(base(outline).cuts[0]!.size, outline).not.toContain('circle');
    const ring = (corners: number, radius: (index: number) => number): readonly { readonly x: number; readonly y: number }[] => Array.from({ length: corners }, (_, index) => ({ x: radius(index) * Math.cos((2 * Math.PI * index) / corners), y: radius(index) * Math.sin((2 * Math.PI * index) / corners) }));
    expect([ring(400, () => 50), ring(16, () => 50), ring(400, (index) => (index === 37 ? 49.9 : 50))].map((one) => isCircle([...one]))).toEqual([true, false, false]);
  });
});

it('remarks in one line have no full stop before the next', () => {
  expect(inOneLine(['Not lined.', 'press it', 'Wait …', 'It dries.'])).toBe('Not lined; press it; Wait …; It dries.');
});
