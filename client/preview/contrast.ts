/** A colour as red, green and blue from 0 to 255, and how much of it covers, from 0 to 1. */
export type Colour = readonly [red: number, green: number, blue: number, alpha: number];

/** Reads what a browser computes: `rgb(0, 95, 184)`, `rgba(41, 41, 41, 0.9)`, `color(srgb 0 0.4 0.7)`. Undefined for what is none of these. */
export function readColour(text: string): Colour | undefined {
  const isShare = text.startsWith('color(srgb ');
  const numbers = text.replace('color(srgb', '').match(/[\d.]+(?:e-?\d+)?/g)?.map(Number) ?? [];
  const [red, green, blue, alpha = 1] = numbers;
  if ((!isShare && !text.startsWith('rgb')) || red === undefined || green === undefined || blue === undefined) return undefined;
  const by = isShare ? 255 : 1;
  return [red * by, green * by, blue * by, alpha];
}

/** Some share of one colour over another that covers. */
const over = ([r, g, b]: Colour, [gr, gg, gb]: Colour, share: number): Colour => [gr + (r - gr) * share, gg + (g - gg) * share, gb + (b - gb) * share, 1];

/** WCAG 2.2, “relative luminance”. */
function luminance([red, green, blue]: Colour): number {
  const linear = (value: number): number => (value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4);
  return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
}

/** WCAG 2.2, “contrast ratio”: from 1 to 21. */
export function contrast(one: Colour, other: Colour): number {
  const [a, b] = [luminance(one), luminance(other)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

/** A colour on a ground, as much nearer to the ink as it must be to be seen there; the ink itself where nothing less will do. */
export function seenOn(ground: Colour, colour: Colour, ink: Colour, least: number): Colour {
  const flat = over(colour, ground, colour[3]);
  for (let share = 0; share < 1; share += 0.1) {
    const mixed = over(ink, flat, share);
    if (contrast(mixed, ground) >= least) return mixed;
  }
  return over(ink, ground, ink[3]);
}

const [white, black]: readonly [Colour, Colour] = [[255, 255, 255, 1], [0, 0, 0, 1]];
const readable = 4.5;

/** What is read, and what is only to be seen: the least contrasts of WCAG 2.2, 1.4.3 and 1.4.11. */
const least: Readonly<Record<string, number>> = {
  '--soft': readable, '--link': readable, '--tab': readable, '--tab-now': readable,
  '--stitching': 3, '--fold': 3, '--line-inner': 3, '--placement': 3, '--foldline': 3, '--window': 3, '--grain': 3, '--mark': 3, '--warn': 3, '--now': 3,
};

/** Keeps every colour of an editor's theme apart from its ground, whatever theme that is. */
export function keepContrast(body: HTMLElement): void {
  const probe = document.createElement('span');
  probe.hidden = true;
  body.append(probe);
  const colourOf = (name: string): Colour | undefined => {
    probe.style.setProperty('color', `var(${name})`);
    return readColour(getComputedStyle(probe).color);
  };
  const mend = (): void => {
    for (const name of ['--ink', ...Object.keys(least)]) body.style.removeProperty(name);
    if (window.matchMedia('(forced-colors: active)').matches) return;
    const [ground, text] = [colourOf('--paper'), colourOf('--ink')];
    if (ground === undefined || text === undefined) return;
    const keep = (name: string, colour: Colour, towards: Colour, ratio: number): Colour => {
      if (contrast(over(colour, ground, colour[3]), ground) >= ratio) return colour;
      const seen = seenOn(ground, colour, towards, ratio);
      const [red, green, blue] = seen.map(Math.round);
      body.style.setProperty(name, `rgb(${red}, ${green}, ${blue})`);
      return seen;
    };
    // Some themes have even their text too pale.
    const ink = keep('--ink', text, contrast(black, ground) > contrast(white, ground) ? black : white, readable);
    for (const [name, ratio] of Object.entries(least)) {
      const colour = colourOf(name);
      if (colour !== undefined) keep(name, colour, ink, ratio);
    }
  };
  mend();
  const themes = new MutationObserver(mend);
  themes.observe(document.documentElement, { attributes: true, attributeFilter: ['style'] });
  themes.observe(body, { attributes: true, attributeFilter: ['class'] });
  window.matchMedia('(prefers-color-scheme: dark)').addEventListener('change', mend);
}
