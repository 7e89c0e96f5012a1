import { millimetresIn } from '../../units/length.ts';
import { zero, type Rational } from '../../units/rational.ts';
import { evaluateAs, inCycle, positiveLength } from '../formulas/evaluate.ts';
import { factsOnce } from '../facts.ts';
import type { Note } from '../notes.ts';
import type { Value } from '../formulas/value.ts';
import type { Query } from '../query/query.ts';
import { readFact, type FactReaders } from '../read-facts.ts';
import { checkFold } from './cloth-fold.ts';
import { readPrice, readPurchase, usualPurchase, usualSpare, type Price, type Purchase } from './purchase.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import type { Place } from '../../problems/place.ts';
import { directions, facings, roles, weights, holds, irons, permitted } from '../../syntax/statements/vocabulary.ts';
import type { ClothFoldStatement, Expression, MaterialStatement, Name, ShrinksStatement, WidthStatement } from '../../syntax/tree.ts';
import { titleText } from '../titles.ts';
import { oneOf } from '../words.ts';
import type { NamedDeclaration } from '../names/world.ts';

export type Role = (typeof roles)[number];

/** Whether its two sides differ: a right and a wrong one, none, or one with glue. */
export type Faces = (typeof facings)[number];

/** How pieces may lie on it: along the grain either way up, one way only (nap, one-way print), or in any turn. */
export type Direction = (typeof directions)[number];

export type Weight = (typeof weights)[number];

export type Iron = (typeof irons)[number];

/** What may be done to a material; undefined where nothing is said. */
export interface Treatment {
  readonly wash: boolean | undefined;
  /** The hottest iron that it takes. */
  readonly iron: Iron | undefined;
  readonly steam: boolean | undefined;
  /** Whether a layer may be fused to it. */
  readonly fuse: boolean | undefined;
  readonly hold: (typeof holds)[number] | undefined;
}

/** Whether something may be fused to it, or ironed over it. */
export const takesHeat = ({ treatment: { iron, fuse } }: Material): boolean => (fuse ?? iron !== 'none');

/** How cloth is folded before it is cut: in half along or across its length; or one selvedge folded in, so that it lies double so far, in millimetres, from the fold. */
export type ClothFold = { readonly way: 'lengthwise' | 'crosswise' } | { readonly way: 'partial'; readonly depth: Rational };

/** A material with what the pattern needs to know of it. Lengths in millimetres, shrinkage as a share of one. */
export interface Material {
  readonly name: string;
  readonly title: string;
  readonly place: Place;
  readonly role: Role;
  readonly weight: Weight | undefined;
  readonly width: Rational | undefined;
  readonly usable: Rational | undefined;
  readonly faces: Faces;
  readonly direction: Direction;
  readonly purchase: Purchase;
  readonly shrinkage: { readonly along: Rational; readonly across: Rational };
  /** What squaring its ends and fraying take of every length bought; none of panels and sheets, which are sold square. */
  readonly spare: Rational;
  /** Undefined where nothing is said, so that it may be laid open or in half, whichever is shorter. */
  readonly fold: ClothFold | undefined;
  readonly treatment: Treatment;
  readonly price: Price | undefined;
  readonly notes: readonly Note[];
}

/** Materials that are worn on the outside or inside, as against what is put between. */
export const isCloth = (material: Material): boolean => ['main', 'accent', 'lining', 'non-fray'].includes(material.role);
export const isStiff = (material: Material): boolean => material.role === 'stabiliser' || material.role === 'foam';

/**
 * What selvedges take of a cloth's width unless the spec says otherwise: 2 in, as public width tables have it (44 in
 * cloth gives 42 in). Sold rolls of other stuff have none (common practice, no source).
 */
const selvedges = millimetresIn.in.mul(2);

/** What the lines of a material say, as far as they can be read. */
type Said = Pick<Material, 'role' | 'weight' | 'width' | 'usable' | 'shrinkage' | 'fold' | 'treatment' | 'price' | 'notes'> & {
  readonly [Fact in 'faces' | 'direction' | 'purchase' | 'spare']: Material[Fact] | undefined;
};

const nothingSaid: Said = {
  role: 'main',
  weight: undefined,
  width: undefined,
  usable: undefined,
  faces: undefined,
  direction: undefined,
  purchase: undefined,
  shrinkage: { along: zero, across: zero },
  spare: undefined,
  fold: undefined,
  treatment: { wash: undefined, iron: undefined, steam: undefined, fuse: undefined, hold: undefined },
  price: undefined,
  notes: [],
};

function isAllowed(scope: Scope, word: Name): boolean | undefined {
  const may = oneOf(scope, word, permitted);
  return may === undefined ? undefined : may === 'yes';
}

const readers: FactReaders<MaterialStatement, Scope, Said> = {
  role: (scope, { word }) => ({ role: oneOf(scope, word, roles) ?? nothingSaid.role }),
  weight: (scope, { word }) => ({ weight: oneOf(scope, word, weights) }),
  faces: (scope, { word }) => ({ faces: oneOf(scope, word, facings) }),
  direction: (scope, { word }) => ({ direction: oneOf(scope, word, directions) }),
  wash: (scope, { word }, { treatment }) => ({ treatment: { ...treatment, wash: isAllowed(scope, word) } }),
  iron: (scope, { word }, { treatment }) => ({ treatment: { ...treatment, iron: oneOf(scope, word, irons) } }),
  steam: (scope, { word }, { treatment }) => ({ treatment: { ...treatment, steam: isAllowed(scope, word) } }),
  fuse: (scope, { word }, { treatment }) => ({ treatment: { ...treatment, fuse: isAllowed(scope, word) } }),
  hold: (scope, { word }, { treatment }) => ({ treatment: { ...treatment, hold: oneOf(scope, word, holds) } }),
  width: readWidth,
  bought: (scope, statement) => ({ purchase: readPurchase(scope, statement) }),
  shrinks: readShrinkage,
  spare: (scope, { size }) => ({ spare: size === undefined ? zero : positiveLength(scope, size, 'A spare')?.amount }),
  'cloth fold': (scope, statement) => ({ fold: readFold(scope, statement) }),
  price: (scope, statement) => ({ price: readPrice(scope, statement) }),
  note: ({ declaration }, { text: sentence }, { notes }) => ({ notes: [...notes, { declaration, sentence }] }),
};

function readWidth(scope: Scope, statement: WidthStatement): Pick<Said, 'width' | 'usable'> {
  const width = positiveLength(scope, statement.nominal, 'A width')?.amount;
  if (statement.usable === undefined) return { width, usable: undefined };
  const usable = positiveLength(scope, statement.usable, 'A width')?.amount;
  if (width === undefined || usable === undefined || usable.compare(width) <= 0) return { width, usable };
  report(scope, 'usable-too-wide', statement.usable, {});
  return { width, usable: width };
}

function readFold(scope: Scope, { way, depth }: ClothFoldStatement): ClothFold | undefined {
  if (way !== 'partial') return { way };
  const amount = depth === undefined ? undefined : positiveLength(scope, depth, 'A fold')?.amount;
  return amount && { way, depth: amount };
}

/** Cloth may not shrink by all of itself, nor grow; a share that says so is reported and counts as none. */
function readShrinkage(scope: Scope, statement: ShrinksStatement): Pick<Said, 'shrinkage'> {
  const along = evaluateAs(scope, statement.along, 'number');
  const across = statement.across === undefined ? undefined : evaluateAs(scope, statement.across, 'number');
  const share = (value: Value | undefined, node: Expression | undefined): Rational => {
    if (value === undefined || node === undefined) return zero;
    if (value.amount.compare(0) >= 0 && value.amount.compare(1) < 0) return value.amount;
    report(scope, 'shrinks-too-much', node, { written: scope.declaration.text.slice(node.start, node.end), percent: node.kind !== 'number' || node.unit === '%' });
    return zero;
  };
  return { shrinkage: { along: share(along, statement.along), across: share(across, statement.across) } };
}

/** Whether a line gives the width, or may have, were it readable: panels and sheets are bought by their size. */
const mayGiveWidth = (statement: MaterialStatement): boolean =>
  statement.kind === 'width' || statement.kind === 'broken' || (statement.kind === 'bought' && statement.form !== 'lengths');

export const materialOf: Query<NamedDeclaration, Material | undefined> = {
  name: 'material',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    if (tree.kind !== 'material') return undefined;
    const scope = scopeOf(context, declaration);
    if (inCycle(scope, tree.name)) return undefined;
    const statements = factsOnce(scope, tree.body.statements);
    const said = statements.reduce((before, statement) => readFact(readers, scope, statement, before), nothingSaid);
    if (!statements.some(mayGiveWidth)) report(scope, 'missing-width', tree.name, { material: tree.name.text });
    const purchase = said.purchase ?? usualPurchase(scope);
    const direction = said.direction ?? (said.role === 'non-fray' || isStiffRole(said.role) ? 'any' : 'two ways');
    const usable = said.usable ?? usualUsable(said);
    const folding = statements.find((one) => one.kind === 'cloth fold');
    if (folding !== undefined) checkFold(scope, folding, { name: tree.name.text, fold: said.fold, purchase, direction, usable });
    return {
      ...said,
      name: tree.name.text,
      title: titleText(tree.title, tree.name),
      place: placeIn(scope, tree.name),
      usable,
      faces: said.faces ?? usualFaces(said.role),
      direction,
      purchase,
      spare: purchase.form === 'lengths' ? (said.spare ?? usualSpare(scope)) : zero,
    };
  },
};

const isStiffRole = (role: Role): boolean => role === 'stabiliser' || role === 'foam';

const usualFaces = (role: Role): Faces => (role === 'fusible' ? 'glued' : isStiffRole(role) ? 'alike' : 'differ');

/** The whole width, less the selvedges of woven cloth. */
function usualUsable({ role, width }: Said): Rational | undefined {
  const isWoven = role === 'main' || role === 'accent' || role === 'lining';
  return width !== undefined && isWoven && width.compare(selvedges) > 0 ? width.sub(selvedges) : width;
}
