import type { Role } from './sheet.ts';
import type { Stroke } from './strokes.ts';
import type { Template, Variant } from './templates.ts';

/** A line of a template with what is written beside it. */
export interface NamedStroke extends Stroke {
  readonly words: string;
}

/**
 * The lines of a template that have a name beside them: one that is the same in all sizes once, else each with the sizes
 * that it is for, as in “clasp S”. A stitching line is named only where it is not the same in all sizes, on its longest edge.
 */
export function namedStrokes(template: Pick<Template, 'line' | 'variants'>): readonly NamedStroke[] {
  const { variants, line } = template;
  const lines = new Map<string, { readonly stroke: Stroke; readonly variants: Variant[] }>();
  for (const variant of variants) {
    for (const stroke of variant.drawing.strokes) {
      const key = JSON.stringify([stroke.role, stroke.name, onceOnly.has(stroke.role) ? '' : stroke.path]);
      const same = lines.get(key);
      if (same === undefined) lines.set(key, { stroke, variants: [variant] });
      else if (!same.variants.includes(variant)) same.variants.push(variant);
    }
  }
  const own = [...lines.values()].filter((one) => one.variants.length < variants.length);
  const named = [...lines.values()].map((one) => {
    const sizes = one.variants.length === variants.length || onceOnly.has(one.stroke.role) ? '' : sizesOf(one.variants);
    return { ...one.stroke, words: wordsFor(one.stroke, sizes, line) };
  });
  const stitching = variants.flatMap((variant) => {
    const edges = own.filter((one) => one.stroke.role === 'stitching' && one.variants[0] === variant).sort((a, b) => lengthOf(b.stroke) - lengthOf(a.stroke));
    const [longest] = edges;
    return longest === undefined ? [] : [{ ...longest.stroke, words: `stitching ${sizesOf(longest.variants)}` }];
  });
  return [...named, ...stitching];
}

/** What is said once, whatever it is in each size: the legend or the line beside it tells the rest. */
const onceOnly: ReadonlySet<Role> = new Set<Role>(['fold', 'ghost']);

const sizesOf = (variants: readonly Variant[]): string => variants.flatMap(({ sizes }) => sizes).join(', ');

/** What is written beside a line; nothing beside what the legend tells. */
function wordsFor({ role, name }: Stroke, sizes: string, line: string): string {
  const words = sizes === '' ? name : `${name} ${sizes}`;
  switch (role) {
    case 'partfold': case 'line': case 'placement': case 'window': case 'topstitch': case 'mark': case 'drill':
      return words;
    case 'foldline':
      // A title may well say it: “first fold”.
      return /\bfold(?: ?line)?$/i.test(name) ? words : `${words}: fold`;
    case 'notch':
      // A line that sizes share has the notches of all of them.
      return sizes;
    case 'fold':
      return 'on the fold';
    case 'ghost':
      return `${name}: see its own template`;
    case 'cutting':
      return name === 'cutting line' || name === line.split(',')[0] ? '' : words;
    default:
      return '';
  }
}

const lengthOf = ({ points }: Stroke): number =>
  points.reduce((sum, { x, y }, index) => sum + (index === 0 ? 0 : Math.hypot(x - (points[index - 1]?.x ?? x), y - (points[index - 1]?.y ?? y))), 0);
