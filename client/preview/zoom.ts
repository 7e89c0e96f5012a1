import { pageHeight, pageWidth } from './print.ts';
import { addWheel } from './wheel.ts';

/** CSS pixels in a millimetre at true size: 96 to the inch (CSS Values and Units 4, section 6.2). */
const trueScale = 96 / 25.4;
const least = 0.03;
const most = trueScale * 4;
const step = 1.25;
/** Round a board, pixels. */
export const boardPadding = 24;
/** Pixels that the longest side of the largest drawing has at least where all are fitted in, and where that can't be (invented, by eye). */
const thumb = 150;
const comfortable = 260;
/** Below this many pixels to a millimetre, names in the drawings would hide them. */
const labelsFrom = 0.55;

export interface Zoom {
  readonly scale: () => number;
  readonly isFit: () => boolean;
  readonly set: (scale: number | 'fit', at?: { readonly x: number; readonly y: number }) => void;
  /** The same by a factor, for as long as a gesture goes on: what is there is stretched, and drawn anew once it has ended. */
  readonly glide: (by: number, at: { readonly x: number; readonly y: number }) => void;
  /** As large as fits a printed page, until it is back on screen; the largest drawing unless it is told what. */
  readonly print: (size?: { readonly width: number; readonly height: number }) => void;
  readonly back: () => void;
  readonly larger: () => void;
  readonly smaller: () => void;
  /** `42%` of true size. */
  readonly text: () => string;
}

/** Finds the largest scale that fits; `apply` tries one. */
export type Fitting = (field: HTMLElement, apply: (scale: number) => void) => number;

/** All drawings at once. The page lays itself out, so the scale is found by trying. */
export const fitAll: Fitting = (field, apply) => {
  let low = least;
  let high = trueScale;
  for (let tries = 0; tries < 9; tries++) {
    const middle = Math.sqrt(low * high);
    apply(middle);
    if (field.scrollWidth <= field.clientWidth && field.scrollHeight <= field.clientHeight) low = middle;
    else high = middle;
  }
  // What can't all be seen at once is scrolled through; then the largest is to be seen well, and whole.
  const { width, height } = largestOf(field);
  const [across, down] = [field.clientWidth - 96, field.clientHeight * 0.7];
  const whole = Math.min(trueScale, across / width, down / height);
  return low * Math.max(width, height) >= thumb ? low : Math.min(whole, Math.max(low, comfortable / Math.max(width, height)));
};

/** A part of a board, in millimetres. */
export const fitBox = (box: () => { readonly width: number; readonly height: number }): Fitting => (field) =>
  Math.min(trueScale, (field.clientWidth - boardRoom) / Math.max(1, box().width), (field.clientHeight - boardRoom) / Math.max(1, box().height));
/** Padding of the field on both sides, and a pixel for what rounding adds. */
const boardRoom = 2 * boardPadding + 2;

/** Every drawing by itself, with some room for its words. */
export const fitEach: Fitting = (field) => {
  const { width, height } = largestOf(field);
  return Math.min(trueScale, (field.clientWidth - 48) / width, (field.clientHeight * 0.62) / height);
};

/**
 * The scale of all drawings in a scrolling field. The drawings size themselves by the property `--scale`, so that
 * changing it touches none of them.
 */
export function addZoom(field: HTMLElement, start: number | 'fit', { fitting, isMap }: { readonly fitting: Fitting; readonly isMap: boolean }, changed: () => void): Zoom {
  let scale = 1;
  let fit = true;
  let onScreen: number | undefined;

  const apply = (value: number): void => {
    scale = Math.min(most, Math.max(least, value));
    field.style.setProperty('--scale', String(scale));
    field.classList.toggle('far', scale < labelsFrom);
  };

  const glide = stretching(field, (by, at) => set(scale * by, at));
  const set: Zoom['set'] = (value, at) => {
    fit = value === 'fit';
    // What is fitted in as a board is put in the middle.
    const kept = fit && isMap ? (): void => undefined : anchorAt(field, at);
    glide.end();
    apply(value === 'fit' ? fitting(field, apply) : value);
    kept();
    changed();
  };

  if (start !== 'fit') {
    fit = false;
    apply(start);
  }
  return {
    scale: () => scale,
    isFit: () => fit,
    set,
    glide: (by, at) => glide.by(by, scale, at),
    print: (size = largestOf(field)) => {
      onScreen ??= scale;
      apply(Math.min(trueScale, pageWidth / Math.max(1, size.width), pageHeight / Math.max(1, size.height)));
    },
    back: () => {
      if (onScreen !== undefined) apply(onScreen);
      onScreen = undefined;
    },
    larger: () => set(scale * step),
    smaller: () => set(scale / step),
    text: () => `${Math.round((scale / trueScale) * 100)}%`,
  };
}

/** A gesture is over once nothing has come of it for so long, milliseconds, and in so many frames, however slow they are (invented). */
const gestureRest = 160;
const gestureFrames = 3;

/** Stretches a board about a point, which costs no layout, until a gesture is over. */
function stretching(field: HTMLElement, settle: (by: number, at: { readonly x: number; readonly y: number }) => void): { readonly by: (by: number, scale: number, at: { readonly x: number; readonly y: number }) => void; readonly end: () => void } {
  let [k, x, y] = [1, 0, 0];
  let turns = 0;
  const board = (): HTMLElement | null => field.querySelector('.board');
  return {
    by: (by, scale, at) => {
      const drawn = board();
      if (drawn === null) return;
      const next = Math.min(most / scale, Math.max(least / scale, k * by));
      // Where the point lies on the board as it is stretched now stays under it.
      const box = drawn.getBoundingClientRect();
      [x, y, k] = [x - (at.x - box.left) * (next / k - 1), y - (at.y - box.top) * (next / k - 1), next];
      drawn.style.transform = `translate(${x}px, ${y}px) scale(${k})`;
      const turn = ++turns;
      const start = performance.now();
      const wait = (frames: number): void => {
        if (turn !== turns) return;
        if (frames >= gestureFrames && performance.now() - start >= gestureRest) settle(k, at);
        else requestAnimationFrame(() => wait(frames + 1));
      };
      wait(0);
    },
    end: () => {
      turns++;
      [k, x, y] = [1, 0, 0];
      board()?.style.removeProperty('transform');
    },
  };
}

/** The greatest width and the greatest height among the drawings, millimetres. */
function largestOf(field: HTMLElement): { readonly width: number; readonly height: number } {
  let [width, height] = [1, 1];
  for (const figure of field.querySelectorAll<HTMLElement>(':not([hidden]) > .figure')) {
    width = Math.max(width, Number(figure.style.getPropertyValue('--width')));
    height = Math.max(height, Number(figure.style.getPropertyValue('--height')));
  }
  return { width, height };
}

/** Remembers what lies at a point of the field, and brings it back there. */
function anchorAt(field: HTMLElement, at: { readonly x: number; readonly y: number } | undefined): () => void {
  const box = field.getBoundingClientRect();
  const point = at ?? { x: box.left + box.width / 2, y: box.top + Math.min(box.height / 2, 120) };
  const under = document.elementsFromPoint(point.x, point.y).find((one) => one.matches('.drawing, .card')) ?? field.querySelector('.board');
  if (under === null) return () => undefined;
  const before = under.getBoundingClientRect();
  const share = { x: (point.x - before.left) / (before.width || 1), y: (point.y - before.top) / (before.height || 1) };
  return () => {
    const after = under.getBoundingClientRect();
    field.scrollBy(after.left + share.x * after.width - point.x, after.top + share.y * after.height - point.y);
  };
}

/**
 * Zooming by wheel and keys, and panning by dragging. Arrow keys scroll by themselves.
 *
 * @param isMap whether a wheel by itself zooms, as on a map, or scrolls, as in a list
 */
export function addZoomControls(field: HTMLElement, zoom: Zoom, isMap: boolean): void {
  addWheel(field, zoom, isMap);

  field.addEventListener('keydown', (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === '+' || event.key === '=') zoom.larger();
    else if (event.key === '-' || event.key === '−') zoom.smaller();
    else if (event.key === '0') zoom.set('fit');
    else return;
    event.preventDefault();
  });

  let from: { readonly x: number; readonly y: number; readonly left: number; readonly top: number } | undefined;
  let dragged = false;
  field.addEventListener('pointerdown', (event) => {
    dragged = false;
    if (event.button !== 0 || event.pointerType === 'touch') return;
    from = { x: event.clientX, y: event.clientY, left: field.scrollLeft, top: field.scrollTop };
  });
  field.addEventListener('pointermove', (event) => {
    if (from === undefined) return;
    const x = event.clientX - from.x;
    const y = event.clientY - from.y;
    if (!dragged && Math.hypot(x, y) < 5) return;
    if (!dragged) {
      dragged = true;
      field.setPointerCapture(event.pointerId);
      field.classList.add('dragging');
    }
    field.scrollTo(from.left - x, from.top - y);
  });
  const end = (): void => {
    from = undefined;
    field.classList.remove('dragging');
  };
  field.addEventListener('pointerup', end);
  field.addEventListener('pointercancel', end);
  // A drag that ends on a line is no click on it.
  field.addEventListener('click', (event) => {
    if (!dragged) return;
    dragged = false;
    event.stopPropagation();
    event.preventDefault();
  }, { capture: true });
}
