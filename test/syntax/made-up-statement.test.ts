import { readFileSync } from 'node:fs';
import peggy from 'peggy';
import { beforeAll, describe, expect, test, vi } from 'vitest';

/**
 * A statement with two names and a formula, made up for this test: it is written in the grammar and in the table of
 * statements, and nowhere else. All the rest of the program is as it is.
 */
const rule = `
Tie = "tie" W name:Name _ "round" W edge:Name _ "over" W size:Sum when:(_ @When)? { return at({ kind: 'tie', name, edge, size, condition: when }); }
Hem = "hem" W name:Name _ "=" _ width:Sum { return at({ kind: 'hem', name, width }); }
`;

vi.mock('../../server/src/syntax/generated/parser.js', () => {
  const grammar = readFileSync(new URL('../../grammar/piece.peggy', import.meta.url), 'utf8')
    .replace(/^PieceStatement\n {2}= /m, '$&Tie / ').replace(/^DeclarationBody\n {2}= /m, '$&Hem / ') + rule;
  return peggy.generate(grammar, { allowedStartRules: [...grammar.matchAll(/^(\w+Strict|Declaration|TriviaOnly) = /gm)].map((match) => match[1] ?? '') });
});
vi.mock('../../server/src/syntax/statements/pieces.ts', async (original) => {
  const { condition, declares, length, name, optional, statement, words } = await vi.importActual<typeof import('../../server/src/syntax/statements/elements.ts')>('../../server/src/syntax/statements/elements.ts');
  const own = await original<typeof import('../../server/src/syntax/statements/pieces.ts')>();
  const tie = statement('tie', ['piece'], [
    words('tie', 'Ties a bow.', 'tie bow round top over 3', 'tie ${1:name} round ${2:top} over ${3:1}'), declares('name', 'line', 'NAME', 'the bow’s name'),
    words('round'), name('edge', 'edge', 'EDGE', 'the edge that it is on'), words('over', 'Says how long it is.', 'tie bow round top over 3'), length('size', 'SIZE', 'how long'),
    optional(words('when'), condition('condition', 'CONDITION', 'in which sizes')),
  ]);
  return { ...own, pieceLines: [...own.pieceLines, tie] };
});
vi.mock('../../server/src/syntax/statements/file.ts', async (original) => {
  const { declares, formula, statement, words } = await vi.importActual<typeof import('../../server/src/syntax/statements/elements.ts')>('../../server/src/syntax/statements/elements.ts');
  const own = await original<typeof import('../../server/src/syntax/statements/file.ts')>();
  const hem = statement('hem', ['file'], [words('hem', 'Names a hem.', 'hem wide = 2'), declares('name', 'declared', 'NAME', 'its name'), words('='), formula('width', 'angle', 'ANGLE', 'how steep')]);
  return { ...own, rareFacts: [...own.rareFacts, hem] };
});

type Program = Awaited<ReturnType<typeof load>>;
let program: Program;
const load = async () => ({
  ...await import('../../server/src/syntax/parse.ts'), ...await import('../../server/src/syntax/print.ts'), ...await import('../../server/src/syntax/walk.ts'), ...await import('../../server/src/syntax/split.ts'),
  ...await import('../../server/src/language/completion.ts'), ...await import('../../server/src/language/signature.ts'), ...await import('../../server/src/language/hover-word.ts'),
  ...await import('../../server/src/language/wanted.ts'), ...await import('../../server/src/language/semantic-tokens.ts'), ...await import('../../server/src/language/symbols.ts'),
  ...await import('../../server/src/language/names.ts'), ...await import('../../grammar/highlighting.ts'), ...await import('../support/marked.ts'),
});
beforeAll(async () => {
  program = await load();
});

const opened = 'length long = 3\nchoice trim is plain or fancy\npiece p "P" {\n  outline rectangle 4 by 3\n  ';
const at = (line: string) => program.marked(`${opened}${line}\n}\n`);
const offered = (line: string): readonly string[] => {
  const { snapshot, offset } = at(line);
  return program.completion(snapshot, offset, []).map(({ label }) => label);
};
const shown = (line: string): string => {
  const { snapshot, offset } = at(line);
  const found = program.signature(snapshot, offset);
  const active = found?.parameters[found.active ?? -1];
  return found === undefined || active === undefined ? '' : `${found.label.slice(0, active.start)}‹${found.label.slice(active.start, active.end)}›${found.label.slice(active.end)}`;
};

describe('a made-up statement', () => {
  const read = (text: string) => program.parseDeclaration('a.piece', text);
  test('is read, and printed as everything is', () => {
    const { tree, problems } = read('piece p {\n    tie   bow round  top over 3+long   when trim is not  plain  # so\n}\n');
    expect(problems).toEqual([]);
    expect(program.printDeclaration(tree)).toBe('piece p {\n  tie bow round top over 3 + long when trim is not plain  # so\n}\n');
  });
  test('its names are told by their roles, and its formula by its dimension', () => {
    const { tree } = read('piece p {\n  tie bow round top over 3 + long when trim is plain\n}\n');
    expect(program.namesIn(tree).map(({ name, role, declares }) => [name.text, role, declares])).toEqual([
      ['p', 'declared', true], ['bow', 'line', true], ['top', 'edge', false], ['long', 'any', false], ['trim', 'choice', false], ['plain', 'option', false],
    ]);
    const tie = 'body' in tree ? tree.body.statements[0] : undefined;
    if (tie === undefined || !('size' in tie)) throw new Error('Another tree was expected');
    expect(program.wantedOf(tree, tie.size)).toBe('length');
    const hem = read('hem wide = 2').tree;
    if (!('width' in hem)) throw new Error('Another tree was expected');
    expect(program.wantedOf(hem, hem.width)).toBe('angle');
  });
  test('is offered, and what may follow', () => {
    expect(offered('|')).toContain('tie');
    expect(offered('tie |')).toEqual([]);
    expect(offered('tie bow |')).toEqual(['round']);
    expect(offered('tie bow round |')).toEqual(['top', 'right', 'bottom', 'left'].sort((a, b) => offered('notch |').indexOf(a) - offered('notch |').indexOf(b)));
    expect(offered('tie bow round top |')).toEqual(['over']);
    expect(offered('tie bow round top over |')).toEqual(expect.arrayContaining(['long', 'max']));
    expect(offered('tie bow round top over 3 |')).toEqual(expect.arrayContaining(['in', 'when']));
    expect(offered('tie bow round top over 3 when trim is |')).toEqual(['plain', 'fancy', 'not']);
  });
  test('its form is shown', () => {
    expect(shown('tie |')).toBe('tie ‹NAME› round EDGE over SIZE [when CONDITION]');
    expect(shown('tie bow round |')).toBe('tie NAME round ‹EDGE› over SIZE [when CONDITION]');
    expect(shown('tie bow round top over 3 when |')).toBe('tie NAME round EDGE over SIZE ‹[when CONDITION]›');
  });
  test('its words are explained, its names lead to what they stand for', () => {
    const word = at('tie bow round top o|ver 3');
    expect(program.aboutWord(word.snapshot, word.offset)?.markdown).toContain('**over**\n\nSays how long it is.');
    const own = at('tie b|ow round top over 3\n  cut 1 x along bow');
    expect(program.nameAt(own.snapshot, own.offset)?.target).toMatchObject({ kind: 'part', part: 'line' });
    const used = at('tie bow round top over 3\n  cut 1 x along b|ow');
    const target = program.nameAt(used.snapshot, used.offset)?.target;
    expect(target && program.declarationPlace(used.snapshot, target)?.start).toBe(used.text.indexOf('bow'));
    expect(program.symbols(used.snapshot.file).flatMap(({ children }) => children.map((one) => `${one.kind} ${one.name}`))).toContain('line bow');
  });
  test('is coloured', () => {
    const { snapshot, text } = at('tie bow round top over 3');
    expect(program.semanticTokens(snapshot).filter(({ start }) => start >= text.indexOf('tie')).map(({ start, length, type, modifiers }) => `${text.slice(start, start + length)}:${type}${modifiers.includes('declaration') ? '!' : ''}`))
      .toEqual(['tie:keyword', 'bow:property!', 'round:keyword', 'top:property', 'over:keyword', '3:number']);
    const colours = JSON.stringify(program.highlighting());
    expect(colours).toMatch(/\(\?:tie\)\)\\\\s\+\(/);
    expect(colours).toMatch(/[|:]over[|)]/);
  });
  test('of a file ends a block that is left open', () => {
    expect(program.splitDeclarations('piece p {\n  cut 1 x\nhem wide = 2\n')).toHaveLength(2);
    expect(program.splitDeclarations('piece p {\n  cut 1 x\nhemline wide = 2\n')).toHaveLength(1);
  });
});
