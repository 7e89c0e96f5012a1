import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare } from '../../server/src/compare/comparison.ts';
import { diagnose } from '../../server/src/language/diagnostics.ts';
import { fixes } from '../../server/src/language/fixes.ts';
import { format } from '../../server/src/language/format.ts';
import { hover } from '../../server/src/language/hover.ts';
import { conflictsIn, withFirst } from '../../server/src/syntax/conflicts.ts';
import { mergeSpecs } from '../../server/src/syntax/merge/merge.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { printFile } from '../../server/src/syntax/print.ts';
import { materials, spec } from '../compare/changes.ts';
import { computed, snapshotOfText } from '../support/samples.ts';

const others = { 'stock.piece': materials };
const snapshot = (text: string): ReturnType<typeof snapshotOfText> => snapshotOfText(text, others);
const four = spec.replace('cut 2 foam', 'cut 4 foam');
const six = spec.replace('cut 2 foam', 'cut 6 foam');
const merged = mergeSpecs(spec, four, six, { ours: 'HEAD', theirs: 'a *bold* <branch>', size: 7 }).text;
const faults = (text: string): readonly string[] => diagnose(snapshot(text)).filter(({ found: { severity } }) => severity === 'error').map(({ found: { code } }) => code);
const titled = (text: string, title: string): string => {
  const one = snapshot(text);
  const at = text.indexOf('<<<<<<<');
  const edit = fixes(one, { start: at, end: at }).find((fix) => fix.title.startsWith(title))?.edits[0];
  return edit === undefined ? '' : text.slice(0, edit.start) + edit.newText + text.slice(edit.end);
};

describe('two versions that a merge has left', () => {
  it('are one problem, at the first mark, and everything else is worked out with the first', () => {
    const errors = diagnose(snapshot(merged)).filter(({ found: { severity } }) => severity === 'error');
    expect(errors.map(({ found: { code }, start, end, message }) => [code, merged.slice(start, end), message])).toEqual([
      ['merge-conflict', '<<<<<<< HEAD', 'A merge has left two versions here, the first (HEAD) and the second (a *bold* <branch>). Everything is worked out with the first: choose one.'],
    ]);
    const { problems, ...rest } = computed(snapshot(merged).pattern) as { problems: readonly unknown[] };
    const { problems: known, ...wanted } = computed(snapshot(four).pattern) as { problems: readonly unknown[] };
    expect(rest).toEqual(wanted);
    expect(problems).toHaveLength(known.length + 1);
  });

  it('give way to either, or to both, by a fix', () => {
    expect(titled(merged, 'Keep the first (HEAD)')).toBe(four);
    expect(titled(merged, 'Keep the second (a *bold* <branch>)')).toBe(six);
    expect(titled(merged, 'Keep both')).toBe(four.replace('  cut 4 foam along padding\n', '  cut 4 foam along padding\n  cut 6 foam along padding\n'));
  });

  it('tell what would be made otherwise with the second, at the marks and within it', () => {
    const at = (needle: string): string | undefined => hover(snapshot(merged), merged.indexOf(needle) + 2)?.markdown;
    const told = 'Everything is worked out with the first version. With the second (a \\*bold\\* &lt;branch&gt;), leaving aside what cloth to buy:\n\n- **Cut in another number:** Body (Foam): 4 → 6\n- **Reprint:** Body (padding)\n- **Other changes:** Problems';
    expect([at('<<<<<<<'), at('======='), at('cut 6'), at('>>>>>>>')]).toEqual([told, told, told, told]);
    // In the first, what is always told.
    expect(at('foam along')).toContain('Foam');
    const same = mergeSpecs(spec, spec.replace('cut 2 foam', 'cut 4/2 foam'), spec.replace('cut 2 foam', 'cut 6/3 foam'), { ours: '', theirs: '', size: 7 }).text;
    expect(hover(snapshot(same), same.indexOf('======='))?.markdown).toBe('Everything is worked out with the first version. With the second, nothing is made otherwise.');
  });

  it('are left alone by formatting, and so is their file', () => {
    const loose = merged.replace('unit in', 'unit    in');
    expect(printFile(parseFile('a.piece', loose))).toBe(loose);
    expect(format(snapshot(loose))).toEqual([]);
  });

  it('are told with the third version between them that git can show, after the last declaration and before the first', () => {
    const three = 'pattern "A"\n<<<<<<< ours\nlength a = 1\n||||||| base\nlength a = 2\n=======\nlength a = 3\n>>>>>>> theirs\ncheck a < 2 in\n';
    expect(faults(three)).toEqual(['merge-conflict']);
    expect(titled(three, 'Keep the first')).toBe('pattern "A"\nlength a = 1\ncheck a < 2 in\n');
    expect(titled(three, 'Keep the second')).toBe('pattern "A"\nlength a = 3\ncheck a < 2 in\n');
    const last = 'pattern "A"\n<<<<<<< ours\n=======\nnote "B"\n>>>>>>> theirs\n';
    expect(faults(last)).toEqual(['merge-conflict']);
    expect(titled(last, 'Keep the second')).toBe('pattern "A"\nnote "B"\n');
    const first = `<<<<<<< ours\n=======\nnote "B"\n>>>>>>> theirs\npattern "A"\n`;
    expect(faults(first)).toEqual(['merge-conflict']);
    expect(titled(first, 'Keep the second')).toBe('note "B"\npattern "A"\n');
  });

  it('are told where there is nothing else in the file', () => {
    expect(faults('<<<<<<< ours\n=======\nnote "B"\n>>>>>>> theirs\n')).not.toEqual([]);
  });

  it('are as many problems as there are places', () => {
    const two = mergeSpecs(spec, four.replace('case_h = 7', 'case_h = 8'), six.replace('case_h = 7', 'case_h = 9'), { ours: 'a', theirs: 'b', size: 7 }).text;
    expect(faults(two)).toEqual(['merge-conflict', 'merge-conflict']);
    expect(titled(titled(two, 'Keep the second'), 'Keep the second')).toBe(six.replace('case_h = 7', 'case_h = 9'));
    expect(compare(snapshot(titled(titled(two, 'Keep the first'), 'Keep the first')).pattern, snapshot(four.replace('case_h = 7', 'case_h = 8')).pattern).same).toBe(true);
  });
});

describe('marks that don’t belong together', () => {
  it.each(['<<<<<<< a\nnote "x"\n', '=======\n', '>>>>>>> b\n', '<<<<<<< a\n>>>>>>> b\n=======\n', ' <<<<<<< a\n=======\n>>>>>>> b\n', '<<<<<< a\n=======\n>>>>>>> b\n', '<<<<<<< a\n======= c\n>>>>>>> b\n'])('%j are lines that don’t fit', (text) => {
    expect(conflictsIn(text)).toEqual([]);
    expect(faults(`pattern "A"\n${text}`)).toContain('unreadable-line');
  });

  it('keep every place of any text where it is', () => {
    const lines = fc.constantFrom('<<<<<<< a', '=======', '>>>>>>> b', '||||||| c', 'note "x"', '', '  é𝔘');
    fc.assert(fc.property(fc.array(lines, { maxLength: 14 }), fc.constantFrom('\n', '\r\n', '\r'), (all, eol) => {
      const text = all.join(eol);
      const conflicts = conflictsIn(text);
      const kept = withFirst(text, conflicts);
      expect(kept.replace(/[^\n\r]/g, '')).toBe(text.replace(/[^\n\r]/g, ''));
      expect(kept).toHaveLength(text.length);
      for (const { first } of conflicts) expect(kept.slice(first.start, first.end)).toBe(text.slice(first.start, first.end));
      expect(() => diagnose(snapshot(text))).not.toThrow();
    }));
  });
});
