import { parseFile } from '../parse.ts';
import type { DeclarationTree, Node } from '../tree.ts';
import { nameUses } from '../walk.ts';
import { mergeLines, type Marking, type Merged } from './lines.ts';
import { mergedOrder } from './order.ts';

/** A line of a block, with the comments before it and behind it. */
interface Fact {
  /** What it is about: its kind, and the name that it gives or the names that it is told of; numbers and formulas left aside. */
  readonly about: string;
  readonly text: string;
}

/** A declaration's block taken apart. */
interface Block {
  readonly opening: string;
  readonly facts: readonly Fact[];
  readonly ending: string;
}

type Keyed = ReadonlyMap<string, Fact>;

/**
 * Three texts of one declaration merged fact by fact: each line of a block says something of its own, so that changes of lines
 * beside one another are no conflict. What both sides say otherwise of one thing stands between marks.
 *
 * @returns undefined where the texts are no blocks of a fact a line, or where it can't be told which fact has become which
 */
export function mergeFacts(base: string, ours: string, theirs: string, marking: Marking): Merged | undefined {
  const [before, left, right] = [blockOf(base), blockOf(ours), blockOf(theirs)];
  if (before === undefined || left === undefined || right === undefined) return undefined;
  const repeated = new Set([before, left, right].flatMap(({ facts }) => facts.map(({ about }) => about).filter((about, index, all) => all.indexOf(about) !== index)));
  const [was, one, other] = [keyed(before, repeated), keyed(left, repeated), keyed(right, repeated)];
  if (was === undefined || one === undefined || other === undefined || isUnclear(was, one, other)) return undefined;
  const merged = [
    mergeFact(before.opening, left.opening, right.opening, marking),
    ...mergedOrder([...was.keys()], [...one.keys()], [...other.keys()]).map((key) => mergeFact(was.get(key)?.text, one.get(key)?.text, other.get(key)?.text, marking)),
    mergeFact(before.ending, left.ending, right.ending, marking),
  ];
  return { text: merged.map(({ text }) => text).join(''), conflicts: merged.reduce((sum, { conflicts }) => sum + conflicts, 0) };
}

function mergeFact(base: string | undefined, ours: string | undefined, theirs: string | undefined, marking: Marking): Merged {
  if (ours === theirs || theirs === base) return { text: ours ?? '', conflicts: 0 };
  if (ours === base) return { text: theirs ?? '', conflicts: 0 };
  return mergeLines(base ?? '', ours ?? '', theirs ?? '', marking);
}

/** Facts by what they are about; of several about the same each is known by all that it says. */
function keyed({ facts }: Block, repeated: ReadonlySet<string>): Keyed | undefined {
  const found = new Map(facts.map((fact) => [repeated.has(fact.about) ? `says ${fact.text.trim()}` : fact.about, fact]));
  return found.size === facts.length ? found : undefined;
}

/** A fact that neither side has any more may be another now on one of them: then what the other did to it would be lost. */
function isUnclear(base: Keyed, ours: Keyed, theirs: Keyed): boolean {
  const hasCome = (side: Keyed): boolean => [...side.keys()].some((key) => !base.has(key));
  return [...base.keys()].some((key) => !ours.has(key) && !theirs.has(key)) && (hasCome(ours) || hasCome(theirs));
}

function blockOf(text: string): Block | undefined {
  const { declarations: [only, ...more], conflicts } = parseFile('', text);
  if (only === undefined || more.length > 0 || conflicts.length > 0 || !('body' in only.declaration.tree)) return undefined;
  const { tree } = only.declaration;
  const opened = text.indexOf('\n', text.indexOf('{', only.offset)) + 1;
  let end = opened;
  const facts: Fact[] = [];
  for (const statement of 'body' in tree ? tree.body.statements : []) {
    const last = text.indexOf('\n', only.offset + statement.end) + 1;
    // Several on a line, or one that begins on the line of the brace.
    if (end === 0 || last === 0 || only.offset + statement.start < end) return undefined;
    facts.push({ about: `${statement.kind} ${namesIn(tree, statement).join(' ')}`, text: text.slice(end, last) });
    end = last;
  }
  return end === 0 ? undefined : { opening: text.slice(0, opened), facts, ending: text.slice(end) };
}

function namesIn(tree: DeclarationTree, { start, end }: Node): readonly string[] {
  const names = nameUses(tree).filter(({ name, role, declares }) => name.start >= start && name.end <= end && (declares || role !== 'any'));
  const own = names.filter(({ declares }) => declares);
  return (own.length > 0 ? own : names).map(({ name }) => name.text);
}
