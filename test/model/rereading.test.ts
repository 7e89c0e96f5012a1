import { describe, expect, it } from 'vitest';
import { cuttingTable } from '../../server/src/table/table.ts';
import { Analyst, type Pattern } from '../../server/src/model/pattern.ts';
import { combinationsOf } from '../../server/src/model/query/explore.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import type { SourceFile } from '../../server/src/syntax/tree.ts';
import { stock } from '../support/spec.ts';
import { libraryOf } from '../../server/src/model/names/files.ts';

const library = libraryOf(new Map([['stock.piece', stock]]));

/** Reads texts one after the other, keeping what holds. */
class Reader {
  readonly #analyst = new Analyst();
  #file: SourceFile | undefined;

  read(text: string): Pattern {
    this.#file = parseFile('a.piece', text, this.#file);
    return this.#analyst.analyse(this.#file, library);
  }
}

/** All tables and problems of a text, by a reader that may have read others before it. */
function told(reader: Reader, text: string): unknown {
  const pattern = reader.read(text);
  const tables = [...combinationsOf([...pattern.choices.keys()], pattern.choices, new Map())].map((combination) => cuttingTable(pattern, combination).cuts.map((row) => `${row.pieceName} ${row.materialName} ${row.size}`));
  return { tables, problems: pattern.problems.map(({ code, when }) => [code, when === undefined ? undefined : JSON.stringify(when)]) };
}

const head = 'pattern "T"\nrevision 1\nallowance none\nuse "stock.piece"\n';

describe('what hangs on more choices after an edit than before', () => {
  it.each([
    ['a choice that comes later', ['piece p when bib is lined {\n  outline rectangle 4 by 3\n  cut 1 cloth\n}\n', 'choice bib is plain or lined\npiece p when bib is lined {\n  outline rectangle 4 by 3\n  cut 1 cloth\n}\n']],
    ['a value that is mended for one size only', ['sizes S, L\nlength w = nope\nlength w2 = w + 1\nlength x = w2 * 2\npiece p {\n  outline rectangle x by 3\n  cut 1 cloth\n}\n', 'sizes S, L\nlength w = nope for S, 20 for L\nlength w2 = w + 1\nlength x = w2 * 2\npiece p {\n  outline rectangle x by 3\n  cut 1 cloth\n}\n']],
    ['an option with another name', ['choice bib is plain or lined\nlength w = 3 for plain, 4 otherwise\nlength v = w\npiece p {\n  outline rectangle v by 3\n  cut 1 cloth\n}\n', 'choice bib is smooth or lined\nlength w = 3 for plain, 4 otherwise\nlength v = w\npiece p {\n  outline rectangle v by 3\n  cut 1 cloth\n}\n']],
  ] as const)('is worked out as if read for the first time: %s', (_, [before, after]) => {
    const reader = new Reader();
    told(reader, head + before);
    for (const text of [after, before, after]) expect(told(reader, head + text)).toEqual(told(new Reader(), head + text));
  });
});

describe('what asks for itself by way of the allowance for all pieces', () => {
  it.each(['length a = p.width / 20\nallowance a', 'allowance p.top / 10', 'allowance 1 mitred limit p.width'])('is told, and nothing runs on and on: %s', (line) => {
    const text = `pattern "T"\nrevision 1\nunit in\nuse "stock.piece"\n${line}\npiece p {\n  outline rectangle 4 by 3\n  cut 1 cloth\n}\n`;
    const { problems } = told(new Reader(), text) as { problems: readonly (readonly [string])[] };
    expect(problems.length).toBeGreaterThan(0);
    // The same by edits, from a text without it.
    const reader = new Reader();
    told(reader, text.replace(line, 'allowance 1'));
    expect(told(reader, text)).toEqual(told(new Reader(), text));
  });
});

describe('what asks for itself by way of a seam that it is as long as', () => {
  const text = `${head}piece a {\n  outline rectangle 3 by s.length\n  cut 1 cloth\n}\npiece b {\n  outline rectangle 4 by 7\n  cut 1 cloth\n}\nseam s = a.left with b.left\n`;
  const round = text.replace('with b.left', 'with a.right');
  it('is told when the seam alone is edited, and no more once it is mended', () => {
    const reader = new Reader();
    const before = told(reader, text);
    expect(JSON.stringify(before)).not.toContain('cycle');
    expect(JSON.stringify(told(reader, round))).toContain('cycle');
    expect(told(reader, round)).toEqual(told(new Reader(), round));
    expect(told(reader, text)).toEqual(before);
  });
});
