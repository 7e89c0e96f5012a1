import { isSame } from '../../server/src/preview/difference.ts';
import type { PreviewData, PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { element, setText } from './dom.ts';

/** What an edit did to a piece. */
export interface Ghost {
  /** Its cutting line as it was saved, as SVG path data; empty where that is as it was. */
  readonly outline: string;
  /** `Cut width 9 1/2 in, was 9 in`, one each. */
  readonly words: readonly string[];
}

/** What is otherwise than in pieces as they were saved, by the names of pieces. */
export function ghostsOf(saved: readonly PreviewPiece[], now: readonly PreviewPiece[]): ReadonlyMap<string, Ghost> {
  const before = new Map(saved.map((piece) => [piece.name, piece]));
  return new Map(now.flatMap((piece) => {
    const was = before.get(piece.name);
    const ghost = was === undefined ? { outline: '', words: ['new'] } : ghostOf(was, piece);
    return ghost.outline === '' && ghost.words.length === 0 ? [] : [[piece.name, ghost] as const];
  }));
}

function ghostOf(was: PreviewPiece, now: PreviewPiece): Ghost {
  if (was === now) return { outline: '', words: [] };
  const sizes = (['width', 'height'] as const).flatMap((side) => {
    const words = (of: 'cut' | 'finished'): readonly string[] => (was[of][side].text === now[of][side].text ? [] : [`${side} ${now[of][side].text}, was ${was[of][side].text}`]);
    const [cut, finished] = [words('cut'), words('finished')];
    // Without allowances both are one.
    return [...cut.map((one) => `Cut ${one}`), ...(isSame(cut, finished) ? [] : finished.map((one) => `Finished ${one}`))];
  });
  const cuts = isSame(was.cuts, now.cuts) ? [] : [`${now.cuts.join(', ') || 'not cut'}, was ${was.cuts.join(', ') || 'not cut'}`];
  const isOtherShape = was.drawing.area.cutting !== now.drawing.area.cutting;
  const isOtherwiseDrawn = isOtherShape || was.drawing.area.stitching !== now.drawing.area.stitching || !isSame(was.drawing.parts, now.drawing.parts);
  const words = [...sizes, ...cuts];
  return { outline: isOtherShape ? was.drawing.area.cutting : '', words: words.length > 0 || !isOtherwiseDrawn ? words : [isOtherShape ? 'outline changed' : 'lines or marks changed'] };
}

/** Keeps the pieces as they were saved, and says what is otherwise since. */
export class SinceSave {
  readonly element: HTMLElement;
  readonly #words = element('span', {});
  readonly #changed: (ghosts: ReadonlyMap<string, Ghost>) => void;
  /** As they were saved, by what is chosen: in another size other pieces were. */
  #saved = new Map<string, readonly PreviewPiece[]>();
  #now: PreviewData | undefined;

  constructor(changed: (ghosts: ReadonlyMap<string, Ghost>) => void) {
    this.#changed = changed;
    const dismiss = element('button', { type: 'button', class: 'tool wide', title: 'Show what is otherwise than now from here on' }, 'Dismiss');
    dismiss.addEventListener('click', () => {
      if (this.#now !== undefined) this.show(this.#now, true);
    });
    this.element = element('div', { class: 'since', hidden: true }, this.#words, dismiss);
  }

  /** @param isSaved whether what is shown is as it was saved */
  show(data: PreviewData, isSaved: boolean): void {
    this.#now = data;
    const chosen = JSON.stringify(data.choices.map((one) => one.chosen));
    if (isSaved) this.#saved = new Map([[chosen, data.pieces]]);
    const saved = this.#saved.get(chosen);
    const ghosts = saved === undefined ? new Map<string, Ghost>() : ghostsOf(saved, data.pieces);
    const away = new Set([...data.pieces, ...data.undrawn].map(({ name }) => name));
    const gone = (saved ?? []).filter(({ name }) => !away.has(name)).map(({ title }) => title);
    const titles = data.pieces.filter(({ name }) => ghosts.has(name)).map(({ title }) => title);
    this.element.hidden = titles.length === 0 && gone.length === 0;
    setText(this.#words, [
      ...(titles.length === 0 ? [] : [`Otherwise than saved: ${few(titles)}.`]),
      ...([...ghosts.values()].some(({ outline }) => outline !== '') ? ['Dotted outlines are as saved.'] : []),
      ...(gone.length === 0 ? [] : [`No longer there: ${few(gone)}.`]),
    ].join(' '));
    this.#changed(ghosts);
  }
}

const mostNamed = 4;
const few = (titles: readonly string[]): string => (titles.length <= mostNamed ? titles.join(', ') : `${titles.slice(0, mostNamed).join(', ')} and ${titles.length - mostNamed} more`);
