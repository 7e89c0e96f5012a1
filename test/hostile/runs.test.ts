import { describe, expect, it } from 'vitest';
import { fileName } from '../../server/src/formats/file-name.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { printFile } from '../../server/src/syntax/print.ts';

const many = 200_000;
const formatted = (text: string): string => printFile(parseFile('a.piece', text));

// Each took from many seconds to hours while a regular expression looked for the end of a run from each of its characters.
describe('one character over and over', () => {
  it('line ends in a file that is too long to be read stay', () => {
    const text = `piece a {\n${'\n'.repeat(many)}  grain up\n}\n`;
    expect(formatted(text)).toBe(text);
    expect(formatted(text.trimEnd())).toBe(text);
  });

  it('spaces between words become one', () => {
    expect(formatted(`length a =${' '.repeat(many)}1\n`)).toBe('length a = 1\n');
  });

  it('spaces in a line that can’t be read stay, and those after it go', () => {
    const broken = `piece a {\n  no${' '.repeat(many)}such line`;
    expect(formatted(`${broken}${' '.repeat(many)}\n}\n`)).toBe(`${broken}\n}\n`);
  });

  it('dashes of a title become one in a file’s name', () => {
    expect(fileName(`a${'-'.repeat(many)}b${'-'.repeat(many)}`)).toBe('a-b');
  });
});
