import { describe, expect, it } from 'vitest';
import type { Comparison } from '../../server/src/compare/comparison.ts';
import { analyse } from '../support/spec.ts';
import { compared, edited, type Edit } from './edited.ts';

/** An invented card sleeve that says what it is to hold. */
const spec = `pattern "Card sleeve"
revision 2
unit cm
allowance 0.5
length room = 0.5
length wide = 11
material felt "Felt" {
  role non-fray
  width 90
}
thing card "Card" = 8 by 5
thing ticket "Ticket" = 8 by 5
piece front "Front" {
  outline rectangle wide by 8
  cut 1 felt
}
piece back "Back" {
  outline rectangle wide by 8
  cut 1 felt
}
seam side "Side" = front.left with back.left
check front holds card with ease room else error "No card goes in"
check front.width = back.width
check back holds ticket with ease room
check back holds card
`;
const to = (...edits: readonly Edit[]): Comparison => compared(analyse(spec, {}).pattern, analyse(edited(spec, ...edits), {}).pattern);
const rules = ({ changes }: Comparison): readonly string[] => changes.map(({ group, kind, what, was, now, causes }) => `${group} ${kind}, ${what}: ${was} → ${now} < ${causes.map(({ text }) => text).join('; ')}`);

describe('a check that still passes', () => {
  it.each<[string, readonly Edit[], string, string]>([
    ['asks for less', [['ease room', 'ease 1/4']], 'check front holds card with ease room else error "No card goes in"', 'check front holds card with ease 1/4 else error "No card goes in"'],
    ['only warns', [['else error', 'else warning']], 'check front holds card with ease room else error "No card goes in"', 'check front holds card with ease room else warning "No card goes in"'],
    ['says something else', [['No card', 'Nothing']], 'check front holds card with ease room else error "No card goes in"', 'check front holds card with ease room else error "Nothing goes in"'],
    ['asks it of another thing', [['holds card', 'holds ticket']], 'check front holds card with ease room else error "No card goes in"', 'check front holds ticket with ease room else error "No card goes in"'],
    ['asks for more', [['holds card\n', 'holds card with ease 0.1\n']], 'check back holds card', 'check back holds card with ease 0.1'],
    ['asks another question', [['check front.width = back', 'check front.width <= back']], 'check front.width = back.width', 'check front.width <= back.width'],
  ])('and %s is told, with no other revision asked for', (_, edits, was, now) => {
    const comparison = to(...edits);
    expect(rules(comparison)).toEqual([`checks changed, rule, passed as before: ${was} → ${now} < ${now}`]);
    expect(comparison).toMatchObject({ same: false, discipline: undefined });
  });

  it.each<[string, Edit, string, readonly string[]]>([
    ['a value', ['room = 0.5', 'room = 0.2'], 'length room = 0.2', ['check front holds card with ease room else error "No card goes in"', 'check back holds ticket with ease room']],
    ['what it is to hold', ['"Ticket" = 8 by 5', '"Ticket" = 7 by 5'], 'thing ticket "Ticket" = 7 by 5', ['check back holds ticket with ease room']],
  ])('and asks for something else since %s that it names is another, which changes nothing else, is told', (_, edit, line, checks) => {
    const comparison = to(edit);
    expect(rules(comparison)).toEqual(checks.map((check) => `checks changed, what it asks for, passed as before:  → ${check} < ${line}`));
    expect(comparison).toMatchObject({ same: false, discipline: undefined });
  });

  it('is not told where that value makes a piece larger, which is', () => {
    const [was, now] = ['11', '12'].map((wide) => analyse(`${spec.replace('wide = 11', `wide = ${wide}`)}check wide >= 9\n`, {}).pattern);
    expect(was && now && compared(was, now).changes.filter(({ group }) => group === 'checks')).toEqual([]);
  });

  it('is not told where only a value in what it names is called otherwise', () => {
    const sized = (name: string): ReturnType<typeof analyse>['pattern'] => analyse(edited(spec, ['"Card" = 8 by 5', `"Card" = 8 by ${name}`], ['length wide', `length ${name} = 5\nlength wide`]), {}).pattern;
    expect(compared(sized('long_side'), sized('card_side'))).toMatchObject({ same: true, changes: [] });
  });

  it('is not told where what it names is only called otherwise', () => {
    for (const edits of [[[/\bcard\b(?! goes)/g, 'pass']], [[/\bcard\b(?! goes)/g, 'pass'], ['unit cm', 'unit cm # Was card.']], [[/\broom\b/g, 'slack']], [[/\bfront\b/g, 'face']], [[/\bfront\b/g, 'face'], [/\broom\b/g, 'slack'], [/\bwide\b/g, 'across']]] as const) expect(to(...edits)).toMatchObject({ same: true, changes: [] });
  });

  it('is told where its name is that of something else', () => {
    expect(rules(to(['holds card\n', 'holds pass\n'], ['thing ticket', 'thing pass "Pass" = 8 by 5\nthing ticket'])).join()).toContain('check back holds card → check back holds pass <');
    expect(rules(to([/thing card .*\n/, ''], [/\bcard\b(?! goes)/g, 'ticket'])).join()).toContain('check back holds card → check back holds ticket <');
  });
});

describe('a problem', () => {
  it('in other words is another', () => {
    expect(rules(to(['front.left with back.left', 'front.right with back.right'])).filter((one) => one.startsWith('problems')).length).toBe(4);
  });
});
