import type { Zoom } from './zoom.ts';

/** For so long after two fingers have moved sideways, all that they do is panning, milliseconds. */
const gesture = 250;
/** Pixels of a line, where a wheel counts in lines. */
const line = 16;

/**
 * What a wheel does. With Ctrl, as a pinch also says it, it zooms at the pointer. On a map it does so by itself; Shift, and
 * two fingers that move sideways, pan there, as does what follows of the same gesture. In a list it scrolls.
 */
export function addWheel(field: HTMLElement, zoom: Zoom, isMap: boolean): void {
  let pannedAt = -Infinity;
  let turned = 0;
  let at = { x: 0, y: 0 };
  /** Several turns before one frame are one. */
  const zoomBy = (by: number, point: typeof at): void => {
    if (turned === 0) {
      requestAnimationFrame(() => {
        if (isMap) zoom.glide(Math.exp(-turned / 300), at);
        else zoom.set(zoom.scale() * Math.exp(-turned / 300), at);
        turned = 0;
      });
    }
    turned += by;
    at = point;
  };
  field.addEventListener('wheel', (event) => {
    const { deltaX, deltaY, deltaMode, clientX: x, clientY: y, timeStamp } = event;
    const pixels = deltaMode === WheelEvent.DOM_DELTA_LINE ? line : 1;
    const isPinch = event.ctrlKey || event.metaKey;
    if (!isPinch && !isMap) return;
    event.preventDefault();
    if (!isPinch && event.shiftKey) return field.scrollBy((deltaX === 0 ? deltaY : deltaX) * pixels, 0);
    if (!isPinch && (deltaX !== 0 || timeStamp - pannedAt < gesture)) {
      pannedAt = timeStamp;
      return field.scrollBy(deltaX * pixels, deltaY * pixels);
    }
    if (deltaY !== 0) zoomBy(deltaY * pixels, { x, y });
  }, { passive: false });
}
