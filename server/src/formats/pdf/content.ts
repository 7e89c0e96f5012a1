import type { Path } from '../../pages/sheet.ts';
import type { Pen } from '../../pages/pens.ts';

/** Ten-thousandths of a millimetre: finer than any printer, and no error that could add up. */
export const number = (value: number): string => String(Math.round(value * 1e4) / 1e4 || 0);

/** Path construction operators (ISO 32000-1, table 59). */
export function pathOperators(path: Path): string {
  return path.map((step) => {
    switch (step.kind) {
      case 'move':
        return `${number(step.to.x)} ${number(step.to.y)} m`;
      case 'line':
        return `${number(step.to.x)} ${number(step.to.y)} l`;
      case 'cubic':
        return `${[step.control1, step.control2, step.to].map(({ x, y }) => `${number(x)} ${number(y)}`).join(' ')} c`;
      case 'close':
        return 'h';
    }
  }).join('\n');
}

/** Graphics state operators for a pen (ISO 32000-1, table 57). */
export const penOperators = ({ width, dashes, phase = 0, tone }: Pen): string => `${number(width)} w [${dashes.map(number).join(' ')}] ${number(phase)} d ${number(tone)} G`;
