import { millimetresIn } from '../../units/length.ts';
import { zero, type Rational } from '../../units/rational.ts';
import { evaluateAs, inCycle, positiveLength } from '../formulas/evaluate.ts';
import { factsOnce } from '../facts.ts';
import type { Query } from '../query/query.ts';
import { readPrice, readPurchase, usualPurchase, usualSpare, type Price, type Purchase } from './purchase.ts';
import { placeIn, report, scopeOf } from '../query/scope.ts';
import type { Place } from '../../problems/place.ts';
import { directions, facings, roles, weights, holds, irons, permitted } from '../../syntax/statements/vocabulary.ts';
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
  readonly treatment: Treatment;
  readonly price: Price | undefined;
  readonly notes: readonly string[];
}

/** Materials that are worn on the outside or inside, as against what is put between. */
export const isCloth = (material: Material): boolean => ['main', 'accent', 'lining', 'non-fray'].includes(material.role);
export const isStiff = (material: Material): boolean => material.role === 'stabiliser' || material.role === 'foam';

/**
 * What selvedges take of a cloth's width unless the spec says otherwise: 2 in, as public width tables have it (44 in
 * cloth gives 42 in). Sold rolls of other stuff have none (common practice, no source).
 */
const selvedges = millimetresIn.in.mul(2);

export const materialOf: Query<NamedDeclaration, Material | undefined> = {
  name: 'material',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    if (tree.kind !== 'material') return undefined;
    const scope = scopeOf(context, declaration);
    if (inCycle(scope, tree.name)) return undefined;
    let role: Role = 'main';
    let weight: Weight | undefined;
    let faces: Faces | undefined;
    let direction: Direction | undefined;
    let width: Rational | undefined;
    let usable: Rational | undefined;
    let purchase: Purchase | undefined;
    let price: Price | undefined;
    let spare: Rational | undefined;
    let shrinkage = { along: zero, across: zero };
    let treatment: Treatment = { wash: undefined, iron: undefined, steam: undefined, fuse: undefined, hold: undefined };
    let widthTried = false;
    const notes: string[] = [];
    for (const statement of factsOnce(scope, tree.body.statements)) {
      switch (statement.kind) {
        case 'role':
          role = oneOf(scope, statement.word, roles) ?? role;
          break;
        case 'weight':
          weight = oneOf(scope, statement.word, weights);
          break;
        case 'faces':
          faces = oneOf(scope, statement.word, facings);
          break;
        case 'wash':
        case 'steam':
        case 'fuse': {
          const may = oneOf(scope, statement.word, permitted);
          treatment = { ...treatment, [statement.kind]: may === undefined ? undefined : may === 'yes' };
          break;
        }
        case 'iron':
          treatment = { ...treatment, iron: oneOf(scope, statement.word, irons) };
          break;
        case 'hold':
          treatment = { ...treatment, hold: oneOf(scope, statement.word, holds) };
          break;
        case 'direction':
          direction = oneOf(scope, statement.word, directions);
          break;
        case 'width': {
          widthTried = true;
          width = positiveLength(scope, statement.nominal, 'A width')?.amount;
          if (statement.usable === undefined) break;
          usable = positiveLength(scope, statement.usable, 'A width')?.amount;
          if (width !== undefined && usable !== undefined && usable.compare(width) > 0) {
            report(scope, 'usable-too-wide', statement.usable, {});
            usable = width;
          }
          break;
        }
        case 'bought':
          widthTried ||= statement.form !== 'lengths';
          purchase = readPurchase(scope, statement);
          break;
        case 'shrinks': {
          const along = evaluateAs(scope, statement.along, 'number');
          const across = statement.across === undefined ? undefined : evaluateAs(scope, statement.across, 'number');
          for (const [value, node] of [[along, statement.along], [across, statement.across]] as const) {
            if (value !== undefined && node !== undefined && (value.amount.compare(0) < 0 || value.amount.compare(1) >= 0)) report(scope, 'shrinks-too-much', node, { written: scope.declaration.text.slice(node.start, node.end), percent: node.kind !== 'number' || node.unit === '%' });
          }
          const inRange = (amount: Rational | undefined): Rational => (amount !== undefined && amount.compare(0) >= 0 && amount.compare(1) < 0 ? amount : zero);
          shrinkage = { along: inRange(along?.amount), across: inRange(across?.amount) };
          break;
        }
        case 'spare':
          spare = statement.size === undefined ? zero : (positiveLength(scope, statement.size, 'A spare')?.amount ?? spare);
          break;
        case 'price':
          price = readPrice(scope, statement);
          break;
        case 'note':
          notes.push(statement.text.value);
      }
    }
    if (!widthTried && !tree.body.statements.some((statement) => statement.kind === 'broken')) {
      report(scope, 'missing-width', tree.name, { material: tree.name.text });
    }
    const boughtAs = purchase ?? usualPurchase(scope);
    const isWoven = role === 'main' || role === 'accent' || role === 'lining';
    return {
      name: tree.name.text,
      title: titleText(tree.title, tree.name),
      place: placeIn(scope, tree.name),
      role, weight, width, shrinkage, treatment, price, notes,
      usable: usable ?? (width !== undefined && isWoven && width.compare(selvedges) > 0 ? width.sub(selvedges) : width),
      faces: faces ?? (role === 'fusible' ? 'glued' : isStiffRole(role) ? 'alike' : 'differ'),
      direction: direction ?? (role === 'non-fray' || isStiffRole(role) ? 'any' : 'two ways'),
      purchase: boughtAs,
      spare: boughtAs.form === 'lengths' ? (spare ?? usualSpare(scope)) : zero,
    };
  },
};

const isStiffRole = (role: Role): boolean => role === 'stabiliser' || role === 'foam';
