import { element } from './dom.ts';
import { scaleBar } from './scale-bar.ts';
import { addZoom, addZoomControls, type Fitting, type Zoom } from './zoom.ts';

/** A scrolling field of drawings with its scale: buttons, keys, wheel, a scale bar. */
export interface ScaledField {
  readonly zoom: Zoom;
  /** The buttons and the scale bar, for the foot of the view. */
  readonly row: HTMLElement;
  /** Says the scale anew. */
  readonly show: () => void;
}

export interface FieldWays {
  readonly fitting: Fitting;
  /** Whether a wheel by itself zooms, as on a map, or scrolls, as in a list. */
  readonly isMap?: boolean;
  /** What the button to fit says. */
  readonly whole: string;
}

/**
 * @param start screen pixels to a millimetre, or as large as fits
 * @param changed called with what is to be kept whenever the scale is another
 */
export function scaledField(field: HTMLElement, start: number | 'fit', { fitting, isMap = false, whole }: FieldWays, changed: (scale: number | 'fit') => void): ScaledField {
  const bar = scaleBar();
  const text = element('output', { 'aria-live': 'polite', title: 'Share of true size' });
  let shown = 0;
  const show = (): void => {
    if (zoom.scale() === shown) return;
    shown = zoom.scale();
    bar.update(shown);
    text.textContent = zoom.text();
  };
  const zoom = addZoom(field, start, { fitting, isMap }, () => {
    show();
    changed(zoom.isFit() ? 'fit' : zoom.scale());
  });
  addZoomControls(field, zoom, isMap);
  const button = (words: string, label: string, act: () => void): HTMLElement => {
    const made = element('button', { type: 'button', class: 'tool', 'aria-label': label, title: label }, words);
    made.addEventListener('click', act);
    return made;
  };
  const tools = element('div', { class: 'tools', role: 'group', 'aria-label': 'Scale' },
    button('−', 'Smaller', zoom.smaller), text, button('+', 'Larger', zoom.larger), button('Fit', whole, () => zoom.set('fit')));
  return { zoom, row: element('div', { class: 'foot-row' }, tools, bar.element), show };
}
