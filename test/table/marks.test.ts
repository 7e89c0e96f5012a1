import { describe, expect, it } from 'vitest';
import { sizeText } from '../../server/src/table/figures.ts';
import type { MarkRow } from '../../server/src/table/marks.ts';
import { pattern } from '../support/spec.ts';

/** What a maker would be told to mark, in the fewest words. */
const told = (rows: readonly MarkRow[]): readonly string[] =>
  rows.map((row) => [row.piece, row.materials, row.mark, row.fromLeft?.text ?? '', row.fromBelow?.text ?? ''].filter((text) => text !== '').join(' | '));

/** A tab of cloth with allowances, or of cork without: 5 in by 3 in drawn to the cutting line, the seams 1/2 in inside. */
const tab = pattern(`choice tab is sewn, raw or both
piece tab "Tab" {
  outline rectangle 5 by 3
  mark cap for snap 14 mm at 4, 1 1/2
  drill rivet at 1, 1
  notch top at 50%
  notch left at 1
  allowance left none
  foldline bend = upright at 3
  cut 2 cloth when tab is not raw
  cut 1 cork along stitching when tab is not sewn
}
supply snap "Snap" {
  kind snap
  across 14 mm
  at tab.cap
}`, 'unit in\nallowance 1/2');

describe('marks', () => {
  it('are measured from the line that is cut in the option', () => {
    // No notch on the left, where there is no allowance to notch; the designer is told so.
    expect(tab.faults).toEqual(['notch-without-allowance: notch left at 1']);
    expect(told(tab.table({ tab: 'sewn' }).marks)).toEqual([
      'Tab | notch on top | 2 1/2 in | 3 in',
      'Tab | cap | 4 in | 1 1/2 in',
      'Tab | rivet | 1 in | 1 in',
      'Tab | bend | 3 in',
    ]);
    // Along the stitching line the left is where it was, and all else 1/2 in nearer to the lower end; nothing is notched.
    expect(told(tab.table({ tab: 'raw' }).marks)).toEqual(['Tab | cap | 4 in | 1 in', 'Tab | rivet | 1 in | 1/2 in', 'Tab | bend | 3 in']);
  });

  it('are told once for each line that a piece is cut along', () => {
    const rows = tab.table({ tab: 'both' }).marks;
    expect(told(rows)).toEqual([
      'Tab | Cloth | notch on top | 2 1/2 in | 3 in', 'Tab | Cloth | cap | 4 in | 1 1/2 in', 'Tab | Cloth | rivet | 1 in | 1 in', 'Tab | Cloth | bend | 3 in',
      'Tab | Cork | cap | 4 in | 1 in', 'Tab | Cork | rivet | 1 in | 1/2 in', 'Tab | Cork | bend | 3 in',
    ]);
  });

  it('go with allowances that are there: seams are told for the line that is cut', () => {
    const seams = (option: string): readonly string[] => tab.table({ tab: option }).seams.map((row) => [row.materials, sizeText(row.finished), row.allowance].filter((text) => text !== '').join(' | '));
    // 5 − 1/2 wide, 3 − 2 · 1/2 high.
    expect(seams('sewn')).toEqual(['4 1/2 in × 2 in | 1/2 in, but none on left']);
    expect(seams('raw')).toEqual(['4 1/2 in × 2 in | none']);
    expect(seams('both')).toEqual(['Cloth | 4 1/2 in × 2 in | 1/2 in, but none on left', 'Cork | 4 1/2 in × 2 in | none']);
  });

  it('are measured from what is cut larger, along an inner line or at a size of its own, and left out where nothing is cut', () => {
    const found = pattern(`piece a "A" {
  outline rectangle 10 by 8
  line core = inset 2
  mark inner at 5, 5
  mark outer at 1, 1
  placement pocket = rectangle 3 by 2 at 1, 3
  placement badge = rectangle 1 by 1 at 0, 0
  cut 1 cork along core
  cut 1 lining sized 6 by 4
  cut 1 cloth large by 1/2
}`, 'unit in\nallowance none');
    expect(told(found.table().marks)).toEqual([
      // The core runs from 2 to 8 and from 2 to 6; the pocket begins 1 in outside it.
      'A | Cork | inner | 3 in | 3 in', 'A | Cork | pocket | 1 in beyond the edge | 1 in',
      'A | Lining | inner | 3 in | 3 in', 'A | Lining | pocket | 1 in beyond the edge | 1 in',
      'A | Cloth | inner | 5 1/2 in | 5 1/2 in', 'A | Cloth | outer | 1 1/2 in | 1 1/2 in', 'A | Cloth | pocket | 1 1/2 in | 3 1/2 in', 'A | Cloth | badge | 1/2 in | 1/2 in',
    ]);
  });

  it('belong to their supply: they are told only where that is set in the option', () => {
    const bag = pattern(`choice lid is snapped or tied
piece cover "Cover" {
  outline rectangle 8 by 6
  mark clasp for snap 14 mm at 4, 5
  drill eye at 1, 1
  mark dot at 2, 2
  cut 1 cloth
}
piece inside "Inside" from cover {
  cut 1 lining
}
supply snap "Snap" when lid is snapped {
  kind snap
  across 14 mm
  at cover.clasp
}
supply rivet "Rivet" when lid is snapped {
  at cover.eye, hood.top, strap.end
}
piece strap "Strap" {
  outline rectangle 3 by 3
  drill end at 1, 1
  cut 1 cloth when lid is tied
}
piece hood "Hood" when lid is tied {
  outline rectangle 3 by 3
  drill top at 1, 1
  cut 1 cloth
}`);
    // The lining is a copy of the cover, and nothing is set in it.
    expect(told(bag.table({ lid: 'snapped' }).marks)).toEqual(['Cover | clasp | 4 in | 5 in', 'Cover | eye | 1 in | 1 in', 'Cover | dot | 2 in | 2 in', 'Inside | dot | 2 in | 2 in']);
    expect(told(bag.table({ lid: 'tied' }).marks)).toEqual(['Cover | dot | 2 in | 2 in', 'Inside | dot | 2 in | 2 in']);
    // The hood is not there when snapped, and no strap is cut, so nothing is set at them.
    expect(bag.table({ lid: 'snapped' }).supplies.map((row) => row.at)).toEqual([['Cover: clasp'], ['Cover: eye']]);
  });

  it('tell the windows of layers on the cloth that is cut whole', () => {
    const found = (lines: string): readonly string[] => pattern(`piece a "A" {
  outline rectangle 8 by 6
  line core = inset 1
  window gap = rectangle 4 by 1 at 2, 3 1/2
${lines}
}`).table().marks.map((row) => [row.materials, row.mark, row.kind, row.fromLeft?.text ?? '', row.fromBelow?.text ?? '', row.facing].filter((text) => text !== '').join(' | '));
    expect(found('  cut 1 cloth\n  cut 1 board along core without gap')).toEqual(['gap | window of Board, 4 in × 1 in | 2 in | 3 1/2 in | right side']);
    // What the cloth is cut without itself, its notes tell; a window that nothing is cut without is no matter of the maker's.
    expect(found('  cut 1 cloth without gap\n  cut 1 board along core without gap')).toEqual([]);
    expect(found('  cut 1 cloth\n  cut 1 board along core')).toEqual([]);
    expect(found('  cut 1 cloth\n  cut 1 board along core without gap\n  cut 1 foam without gap\n  cut 1 lining')).toEqual(['Cloth | gap | window of Board and Foam, 4 in × 1 in | 2 in | 3 1/2 in | right side']);
    // A window left of the middle isn't where it was once cloth cut mirrored is turned over.
    expect(pattern('piece a "A" {\n  outline rectangle 8 by 6\n  window gap = rectangle 2 by 1 at 1, 1\n  cut 1 cloth mirrored\n  cut 1 board mirrored without gap\n}').table().marks.map((row) => row.facing)).toEqual(['wrong side']);
  });

  it('beside a fold tell windows on both halves', () => {
    const rows = pattern('piece a "A" {\n  outline rectangle 4 by 6\n  on fold left\n  window gap = rectangle 2 by 1 at 1, 1\n  window middle = rectangle 2 by 1 at 0, 4\n  cut 1 cloth on fold\n  cut 1 board without gap and middle\n}').table().marks;
    expect(rows.map((row) => [row.mark, row.kind, row.fromLeft?.text])).toEqual([
      ['gap', 'window of Board, 2 in × 1 in', '5 in'], ['gap, other half', 'window of Board, 2 in × 1 in', '1 in'], ['middle', 'window of Board, 4 in × 1 in', '2 in'],
    ]);
  });

  it('of an edge that a mirrored copy has on its other side say so', () => {
    const found = pattern('piece a "A" {\n  outline polygon from 0, 0 to 8, 0 to 7, 6 to 0, 6\n  edge side2 as far "Right side"\n  edge side4 as near "Left side"\n  notch far at 2\n  notch near at 2\n  cut 1 cloth\n}\npiece b "B" from a mirrored {\n  cut 1 cloth\n}', 'unit in\nallowance 1/2').table().marks;
    expect(found.map(({ piece, mark }) => `${piece}: ${mark}`)).toEqual(['A: notch on Right side', 'A: notch on Left side', 'B: notch on Right side (here on the left)', 'B: notch on Left side (here on the right)']);
  });
});
