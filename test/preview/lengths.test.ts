import { describe, expect, it } from 'vitest';
import type { DrawnPart } from '../../server/src/preview/drawing-data.ts';
import { Draft } from './specs.ts';

const said = (lines: string): ((kind: DrawnPart['kind'], name: string) => string | undefined) => {
  const [piece] = new Draft().data(`pattern "Lengths"\nrevision 1\nunit cm\nmaterial cloth {\n  width 150\n}\npiece one {\n${lines}\n  cut 1 cloth\n}\n`).pieces;
  return (kind, name) => piece?.drawing.parts.find((part) => part.kind === kind && part.name === name)?.detail;
};

describe('lengths in the preview', () => {
  it('tell of an edge how long it is sewn and how long it is cut, where these differ', () => {
    const of = said('  outline rectangle 22 by 12\n  allowance left 1\n  allowance right 1\n  allowance top 0.5\n  allowance bottom none');
    expect(of('cutting', 'bottom')).toBe('sewn 20 cm, cut 22 cm, no allowance');
    expect(of('cutting', 'top')).toBe('sewn 20 cm, cut 22 cm, allowance 0.5 cm');
    // 12 cm less the allowance of the top alone.
    expect(of('cutting', 'left')).toBe('sewn 11.5 cm, cut 12 cm, allowance 1 cm');
    expect(of('stitching', 'left')).toBe('11.5 cm long');
    expect(said('  outline rectangle 22 by 12\n  allowance none')('cutting', 'left')).toBe('12 cm long, no allowance');
  });

  it('tell it of an edge on the fold, too', () => {
    expect(said('  outline rectangle 22 by 12\n  allowance 1\n  on fold left')('fold', 'left')).toBe('sewn 10 cm, cut 12 cm, on the fold');
  });

  it('tell of a dart how long each leg is, and of its edge how long it is once that is closed', () => {
    // A dart 6 cm wide and 4 cm deep: half of it is a triangle of 3, 4 and 5.
    const of = said('  outline rectangle 30 by 20\n  allowance none\n  dart waist on top at 50% wide 6 deep 4');
    expect(of('line', 'waist')).toBe('each leg 5 cm long');
    expect(of('cutting', 'top')).toMatch(/^sewn 24 cm with its dart closed, cut 3\d(\.\d)? cm, no allowance$/);
    const allowed = said('  outline rectangle 30 by 20\n  drawn to stitching\n  allowance 1\n  dart first on top at 30% wide 6 deep 4\n  dart second on top at 70% wide 2 deep 4');
    expect(allowed('stitching', 'top')).toBe('30 cm long, sewn 22 cm with its darts closed');
    expect(allowed('cutting', 'top')).toMatch(/^sewn 22 cm with its darts closed, cut 3\d(\.\d)? cm, allowance 1 cm$/);
    expect(of('cutting', 'left')).toBe('20 cm long, no allowance');
  });
});
