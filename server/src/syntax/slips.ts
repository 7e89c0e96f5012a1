/** Words that people write for the units of the language. */
const unitWords: Readonly<Record<string, string>> = {
  inch: 'in', inches: 'in', ins: 'in', millimetre: 'mm', millimetres: 'mm', millimeter: 'mm', millimeters: 'mm',
  centimetre: 'cm', centimetres: 'cm', centimeter: 'cm', centimeters: 'cm', metre: 'm', metres: 'm', meter: 'm', meters: 'm',
  yard: 'yd', yards: 'yd', yds: 'yd', foot: 'ft', feet: 'ft', degree: 'deg', degrees: 'deg',
};

/** A usual slip where a line could not be read on, with what to write instead. */
export function slipAt(line: string, offset: number, found: string): { readonly hint?: string } {
  const unit = Object.hasOwn(unitWords, found.toLowerCase()) ? unitWords[found.toLowerCase()] : undefined;
  if (unit !== undefined) return { hint: `write “${unit}”` };
  if (found === ',' && /\d$/.test(line.slice(0, offset)) && /^,\d/.test(line.slice(offset))) return { hint: 'write a decimal with a point, as in 1.25' };
  if (/^[€$£¥]/u.test(found)) return { hint: 'leave the sign out, and say currency "…" once for the whole pattern' };
  if (found === ':') return { hint: 'no colon is needed' };
  if (found === '/' && line.slice(offset).startsWith('//')) return { hint: 'a comment starts with #' };
  return {};
}
