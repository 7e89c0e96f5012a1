import type { Display } from '../units/length.ts';

/**
 * A pure function of an object and a display, whose result is kept as long as the object is: what hasn’t changed since
 * the last keystroke is not worked out again.
 */
export function keptFor<Of extends object, Result>(compute: (of: Of, display: Display) => Result): (of: Of, display: Display) => Result {
  const kept = new WeakMap<Of, { readonly display: Display; readonly result: Result }>();
  return (of, display) => {
    const known = kept.get(of);
    if (known !== undefined && (known.display === display || (known.display.unit === display.unit && known.display.also === display.also && known.display.step.equals(display.step)))) return known.result;
    const result = compute(of, display);
    kept.set(of, { display, result });
    return result;
  };
}
