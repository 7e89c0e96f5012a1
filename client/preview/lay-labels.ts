/** What is written into a shape, and the room for it: millimetres of the drawing. */
export interface Label {
  readonly x: number;
  readonly y: number;
  readonly across: number;
  readonly high: number;
  /** The longest first. */
  readonly texts: readonly string[];
  readonly grain: { readonly path: SVGPathElement; readonly isOneWay: boolean } | undefined;
}

const labels = new WeakMap<Element, Label>();

/** Letters as wide as these are on average, and lines as high, pixels; no font is measured. */
const letter = 6;
const line = 14;

export function labelled(words: SVGTextElement, label: Label): void {
  labels.set(words, label);
}

/** Writes the longest text that there is room for into each shape, level or else upright, and draws the grain below it. */
export function fitLabels(field: Element, scale: number): void {
  for (const words of field.querySelectorAll<SVGTextElement>('.label')) {
    const label = labels.get(words);
    if (label !== undefined) fitLabel(words, label, scale);
  }
}

function fitLabel(words: SVGTextElement, { x, y, across, high, texts, grain }: Label, scale: number): void {
  const [wide, tall] = [across * scale, high * scale];
  let chosen = { text: '', isUpright: false };
  for (const text of texts) {
    const length = text.length * letter + 4;
    if (length <= wide && line <= tall) chosen = { text, isUpright: false };
    else if (length <= tall && line <= wide) chosen = { text, isUpright: true };
    if (chosen.text !== '') break;
  }
  if (words.textContent !== chosen.text) words.textContent = chosen.text;
  words.setAttribute('x', String(x));
  words.setAttribute('y', String(y));
  words.setAttribute('text-anchor', 'middle');
  words.setAttribute('dy', '.35em');
  if (chosen.isUpright) words.setAttribute('transform', `rotate(-90 ${x} ${y})`);
  else words.removeAttribute('transform');
  if (grain !== undefined) grain.path.setAttribute('d', arrow({ x, y }, wide, tall, chosen, grain.isOneWay, scale));
}

/** An arrow along the cloth: two heads where a piece may lie either way up, one where it may not. Empty without room. */
function arrow(at: { readonly x: number; readonly y: number }, wide: number, tall: number, label: { readonly text: string; readonly isUpright: boolean }, isOneWay: boolean, scale: number): string {
  const half = Math.min(wide * 0.4, 40);
  // Below the label; where there is none, in its place.
  const below = label.text === '' ? 0 : label.isUpright ? (label.text.length * letter) / 2 + 8 : line * 0.95;
  if (half < 8 || !(2 * (below + 4) <= tall)) return '';
  const mm = (pixels: number): number => pixels / scale;
  const y = at.y + mm(below);
  const head = (x: number, way: 1 | -1): string => `M${x - way * mm(4)} ${y - mm(3)}L${x} ${y}L${x - way * mm(4)} ${y + mm(3)}`;
  const [left, right] = [at.x - mm(half), at.x + mm(half)];
  return `M${left} ${y}H${right}${head(right, 1)}${isOneWay ? '' : head(left, -1)}`;
}
