import { describe, expect, it } from 'vitest';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { compare } from '../../server/src/compare/comparison.ts';
import { pattern } from '../support/spec.ts';

/** An invented sleeve for a flute. */
const spec = `length wide = 4
piece panel "Panel" {
  outline rectangle wide by 9
  edge top hemmed 1/4
  allowance 1/4
  edge left raw
  cut 2 cork
}
seam side "Side" = panel.right with panel.right
seam base "Base" = panel.bottom with panel.bottom
step "Mark all."
step "Hem the top." does panel.top
step "Sew the side." does side
step "Sew the base, {wide}." does base
`;
const changed = (change: (text: string) => string, before = spec): ReturnType<typeof compare>['changes'] => {
  const now = change(before);
  expect(now).not.toBe(before);
  return compare(pattern(before).pattern, pattern(now).pattern, { ...usualOptions, effort: 0 }).changes.filter(({ subject }) => subject === 'Order of work');
};
const told = (change: (text: string) => string): readonly string[] => changed(change).map(({ kind, what, was, now: text }) => `${kind} ${what}: ${was} → ${text}`);

describe('steps that are not as they were', () => {
  it.each([
    ['a sentence', (text: string) => text.replace('Sew the side', 'Stitch the side'), ['changed step: Sew the side. (Side) → Stitch the side. (Side)']],
    ['a measure in one', (text: string) => text.replace('wide = 4', 'wide = 5'), ['changed step: Sew the base, 4 in (about 10.2 cm). (Base) → Sew the base, 5 in (12.7 cm). (Base)']],
    ['what one does', (text: string) => text.replace('top." does panel.top', 'top."'), ['changed step: Hem the top. (Panel: top) → Hem the top.']],
    ['one more, after which the others have other numbers', (text: string) => text.replace('step "Hem', 'step "Press."\nstep "Hem'), ['added step:  → 2. Press.']],
    ['one less', (text: string) => text.replace('step "Mark all."\n', ''), ['removed step: 1. Mark all. → ']],
    ['one that is done earlier', (text: string) => text.replace('step "Sew the base, {wide}." does base\n', '').replace('step "Mark', 'step "Sew the base, {wide}." does base\nstep "Mark'), ['changed place of a step: step 4: Sew the base, 4 in (about 10.2 cm). → step 1: Sew the base, 4 in (about 10.2 cm).']],
    ['nothing but a name', (text: string) => text.replaceAll('side "Side"', 'flank "Side"').replace('does side', 'does flank'), []],
  ])('%s', (_, change, changes) => expect(told(change)).toEqual(changes));
});

it('tells once what is put otherwise in all sizes, though it comes from another line in each', () => {
  const sized = spec.replace('length wide = 4', 'sizes S, L\nlength low = 4\nlength high = 4\nlength wide = low for S, high for L');
  const changes = changed((text) => text.replace('low = 4', 'low = 5').replace('high = 4', 'high = 5'), sized);
  expect(changes.map(({ now, when, causes }) => [now, when, causes.map(({ text }) => text)])).toEqual([['Sew the base, 5 in (12.7 cm). (Base)', undefined, ['length low = 5', 'length high = 5']]]);
});

describe('why a step is told otherwise', () => {
  const causes = (change: (text: string) => string, before = spec): readonly string[] => changed(change, before).flatMap((one) => one.causes.map(({ text }) => text));
  const measured = spec.replace('{wide}', '{base.length}');

  it.each([
    ['the value that its sentence names, and not its own line, which is as it was', causes((text) => text.replace('wide = 4', 'wide = 5')), ['length wide = 5']],
    ['its own line where that says otherwise', causes((text) => text.replace('Sew the side', 'Stitch the side')), ['step "Stitch the side." does side']],
    ['both where both do', causes((text) => text.replace('wide = 4', 'wide = 5').replace('Sew the base', 'Stitch the base')), ['step "Stitch the base, {wide}." does base', 'length wide = 5']],
    ['what a seam is as long as', causes((text) => text.replace('rectangle wide by 9', 'rectangle wide + 1 by 9'), measured), ['outline rectangle wide + 1 by 9']],
    ['what a seam sews', causes((text) => text.replace('panel.bottom with panel.bottom', 'panel.left with panel.left'), measured), ['seam base "Base" = panel.left with panel.left']],
  ])('%s', (_, found, expected) => expect(found).toEqual(expected));
});

describe('a step that does nothing with a name', () => {
  const plain = spec.replace('Mark all.', 'Mark all, {wide} apart.');
  const found = (change: (text: string) => string): readonly (readonly [string, readonly string[]])[] => changed(change, plain).map(({ kind, was, now, causes }) => [`${kind}: ${was} → ${now}`, causes.map(({ text }) => text)]);

  it('is the same step where a measure in it is another', () => {
    expect(found((text) => text.replace('wide = 4', 'wide = 5'))[0]).toEqual(['changed: Mark all, 4 in (about 10.2 cm) apart. → Mark all, 5 in (12.7 cm) apart.', ['length wide = 5']]);
  });

  it('is the same step where it is put otherwise', () => {
    expect(found((text) => text.replace('Mark all,', 'Chalk all,'))).toEqual([['changed: Mark all, 4 in (about 10.2 cm) apart. → Chalk all, 4 in (about 10.2 cm) apart.', ['step "Chalk all, {wide} apart."']]]);
    expect(found((text) => text.replace('Mark all, {wide} apart.', 'Iron it.')).map(([text]) => text)).toEqual(['added:  → 1. Iron it.', 'removed: 1. Mark all, 4 in (about 10.2 cm) apart. → ']);
  });

  it('says the same, however wide the gaps between its words are', () => {
    expect(found((text) => text.replace('Mark all,', 'Mark  all, '))).toEqual([]);
  });
});
