/** A number, be it mixed, with its unit, what it is exactly and in the other unit in brackets, and what it is multiplied by: `9 1/2 in (about 24.1 cm) × 7 in`. */
const number = String.raw`\d+(?: \d+\/\d+|\/\d+|\.\d+)?(?: ?(?:in|cm|mm|yd|ft|m|%|°)(?![\p{L}\d]))?`;
const measure = String.raw`(?:about )?${number}(?: \((?:about |exactly )?${number}(?:; (?:about )?${number})?\))?`;
const figures = new RegExp(String.raw`(?<![\p{L}\d.])${measure}(?: (?:×|by) ${measure})*`, 'gu');

/** What is left of a sentence without its figures. */
export const wordsOf = (text: string): string => text.replace(figures, '#');

/**
 * One sentence for all sizes whose sentences differ in figures alone: `Sew the side, (S, M) 9 in, (L) 11 in long.`
 *
 * @param told what is said in each size, with the same words
 */
export function inSizes(told: readonly { readonly size: string; readonly text: string }[]): string {
  const all = told.map(({ text }) => text.match(figures) ?? []);
  let at = -1;
  return (told[0]?.text ?? '').replace(figures, (own) => {
    at++;
    const bySize = new Map<string, string[]>();
    told.forEach(({ size }, index) => {
      const figure = all[index]?.[at] ?? own;
      bySize.set(figure, [...(bySize.get(figure) ?? []), size]);
    });
    return bySize.size === 1 ? own : [...bySize].map(([figure, sizes]) => `(${sizes.join(', ')}) ${figure}`).join(', ');
  });
}
