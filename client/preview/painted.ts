import type { View } from './editor.ts';

/** What follows a drawing is asked for once that is on the screen, and at once where it is itself what is looked at. */
export function whenPainted(view: View, tell: () => void): void {
  if (view === 'board' || view === 'pieces') requestAnimationFrame(() => setTimeout(tell));
  else tell();
}
