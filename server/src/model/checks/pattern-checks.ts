import { problem, replacement, type Problem } from '../../problems/problem.ts';
import type { Place } from '../../problems/place.ts';
import type { Declaration, Node } from '../../syntax/tree.ts';
import { isTried } from '../names/unread-facts.ts';
import { isPattern } from '../names/unused.ts';
import type { NamedDeclaration, World } from '../names/world.ts';
import { placeOf } from '../settings.ts';

/** Title, revision, and marks that no supply is given for. */
export function patternChecks(world: World, digest: () => string): readonly Problem[] {
  if (!isPattern(world)) return [];
  const problems: Problem[] = [];
  const first = world.root.declarations[0]?.declaration;
  const { facts } = world;
  if (first !== undefined) {
    const top: Place = { chunk: first, start: first.tree.start, end: first.tree.start };
    const tried = (word: string): boolean => isTried(world.root.declarations, word);
    if (facts.title === undefined && !tried('pattern')) {
      problems.push(problem('missing-title', top, {}, { fixes: [{ title: 'Add a title', edits: [{ place: top, newText: 'pattern "Untitled"\n' }], safe: false }] }));
    }
    if (facts.revision === undefined && !tried('revision')) {
      problems.push(problem('missing-revision', top, {}, { fixes: [{ title: 'Add “revision 1”', edits: [{ place: { ...top, start: first.text.length, end: first.text.length }, newText: 'revision 1\n' }], safe: false }] }));
    }
  }
  if (facts.issued !== undefined && facts.revisionPlace !== undefined && Number(facts.revision) < Number(facts.issued.revision)) {
    problems.push(problem('revision-lowered', facts.revisionPlace, { revision: facts.revision ?? '', issued: facts.issued.revision }, { related: [{ place: facts.issued.place, message: 'This is what was given out.' }] }));
  }
  if (facts.issued !== undefined && facts.revisionPlace !== undefined && facts.issued.revision === facts.revision && facts.issued.digest !== digest()) {
    problems.push(problem('revision-not-raised', facts.revisionPlace, { revision: facts.revision }, {
      related: [{ place: facts.issued.place, message: 'This is what was given out.' }],
      fixes: [replacement(`Raise the revision to ${Number(facts.revision) + 1}`, facts.revisionPlace, String(Number(facts.revision) + 1), false)],
    }));
  }
  return [...problems, ...marksWithoutSupply(world)];
}

/** Marks for snaps that no supply names. Told from the text, since which supplies are wanted may hang on choices. */
function marksWithoutSupply(world: World): readonly Problem[] {
  const marked: NamedDeclaration[] = [];
  const supplied = new Set<string>();
  for (const declaration of world.names.values()) {
    const kind = declaration.tree.kind;
    if (kind === 'supply') for (const mark of markNames(declaration)) supplied.add(mark.name);
    else if (kind === 'piece' && markNames(declaration).length > 0) marked.push(declaration);
  }
  return marked.flatMap((declaration) => markNames(declaration).filter((mark) => !supplied.has(mark.name)).map(({ node, snap }) =>
    problem('mark-without-supply', placeOf(declaration, node), { mark: declaration.text.slice(node.start, node.end), size: declaration.text.slice(snap.start, snap.end) })));
}

interface MarkName {
  /** With its piece: `cover.clasp`. */
  readonly name: string;
  readonly node: Node;
  readonly snap: Node;
}

const marksByDeclaration = new WeakMap<Declaration, readonly MarkName[]>();

/** The marks for snaps that a piece draws, or those that a supply is set at. */
function markNames(declaration: NamedDeclaration): readonly MarkName[] {
  const known = marksByDeclaration.get(declaration);
  if (known !== undefined) return known;
  const { tree } = declaration;
  const marks: MarkName[] = [];
  if (tree.kind === 'supply') {
    for (const statement of tree.body.statements) {
      if (statement.kind === 'at') for (const mark of statement.marks) marks.push({ name: mark.path.map((part) => part.text).join('.'), node: mark, snap: mark });
    }
  } else if (tree.kind === 'piece') {
    for (const statement of tree.body.statements) {
      if (statement.kind === 'mark' && statement.snap !== undefined) marks.push({ name: `${tree.name.text}.${statement.name.text}`, node: statement.name, snap: statement.snap });
    }
  }
  marksByDeclaration.set(declaration, marks);
  return marks;
}
