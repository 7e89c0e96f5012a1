import { describe, expect, it } from 'vitest';
import { documentsOf } from '../../server/src/table/document.ts';
import { analyse, stock, type Analysed } from '../support/spec.ts';

const made = (cloth: string, lines = 'cut 1 shell'): Analysed => analyse(`pattern "T"
revision 1
unit in
allowance none
use "stock.piece"
material shell "Shell" {
  width 60
${cloth}
}
piece a "A" {
  outline rectangle 8 by 6
  ${lines}
}
`, { 'stock.piece': stock });

describe('materials', () => {
  it('say how they may be treated, and what the designer notes of them', () => {
    const care = (cloth: string) => made(cloth).table().materials.map((row) => [...row.care, ...row.notes]);
    expect(care('')).toEqual([]);
    expect(care('  note "Iron on the back."')).toEqual([['Iron on the back.']]);
    expect(care('  wash no\n  iron none\n  steam no\n  fuse no\n  hold clips')).toEqual([['do not wash', 'keep the iron off it', 'no steam', 'fuse nothing to it', 'hold it with clips: pins leave holes']]);
    expect(care('  wash yes\n  iron low')).toEqual([['may be washed', 'iron at low heat at most (one dot, 110 °C)']]);
    expect(care('  iron medium')).toEqual([['iron at medium heat at most (two dots, 150 °C)']]);
    expect(care('  iron high')).toEqual([['iron at high heat at most (three dots, 200 °C)']]);
    expect(care('  shrinks 4% by 2.5%')).toEqual([['shrinks 4 % along, 2.5 % across: pre-shrink as its maker says']]);
  });

  it('are to be pre-shrunk only where they may be washed', () => {
    expect(made('  shrinks 3%').table().notes).toEqual(['Pre-shrink before you cut, as the maker of the cloth says: Shell. What to buy allows for it.']);
    expect(made('  shrinks 3%\n  wash no').table().notes).toEqual([]);
    expect(made('  shrinks 3%\n  wash no').table().materials[0]?.care).toEqual(['shrinks 3 % along', 'do not wash']);
  });

  it('are told in every export with their notes', () => {
    const [document] = documentsOf([made('  note "Keep it dry."').table()], 'piece');
    expect(document?.sections.find((one) => one.key === 'materials')?.rows.map((row) => row.map((cell) => cell.text))).toEqual([['Shell', 'Keep it dry.']]);
  });

  it('tell what each layer asks for', () => {
    const steps = (cloth: string, lines: string): readonly string[] => made(cloth, lines).table().fusing.map((row) => [row.how, ...row.care].join(', '));
    expect(steps('', 'cut 1 shell\n  cut 1 fuse')).toEqual(['fuse']);
    expect(steps('  iron low\n  steam no', 'cut 1 shell\n  cut 1 fuse')).toEqual(['fuse, at low heat, without steam']);
    // The fusible itself, in the stock, takes any; of two that say, the cooler one holds.
    const both = analyse(`pattern "T"\nrevision 1\nunit in\nallowance none\nmaterial shell "Shell" {\n  width 60\n  iron low\n}\nmaterial glue "Glue" {\n  role fusible\n  width 60\n  iron high\n}\npiece a "A" {\n  outline rectangle 8 by 6\n  cut 1 shell\n  cut 1 glue\n}\n`);
    expect(both.table().fusing.map((row) => row.care)).toEqual([['at low heat']]);
    expect(steps('  hold clips', 'cut 1 shell\n  cut 1 foam')).toEqual(['baste, with clips, no pins']);
  });

  it('warn of fusing to what takes no heat, and over it', () => {
    const faults = (cloth: string, lines: string): readonly string[] => made(cloth, lines).faults;
    const fused = 'cut 1 shell\n  cut 1 fuse';
    expect(faults('', fused)).toEqual([]);
    expect(faults('  iron none', fused)).toEqual(['takes-no-heat: fuse']);
    expect(faults('  fuse no', fused)).toEqual(['takes-no-heat: fuse']);
    expect(faults('  iron none\n  fuse yes', fused)).toEqual([]);
    expect(faults('  iron none', 'cut 1 shell\n  cut 1 foam')).toEqual([]);
    // The vinyl lies on the cloth already when the fusible is to go on.
    expect(faults('  role foam\n  iron none', 'cut 1 cloth\n  cut 1 shell\n  cut 1 fuse')).toEqual(['stack-order: fuse', 'takes-no-heat: fuse']);
  });

  it('take no other word', () => {
    expect(made('  iron hot').only('unknown-word').message).toBe('“hot” isn’t known here: use none, low, medium or high.');
  });
});
