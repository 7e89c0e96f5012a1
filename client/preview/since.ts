import { isSame } from '../../server/src/preview/difference.ts';
import type { PreviewData, PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { element, setText } from './dom.ts';

/** What an edit did to a piece. */
export interface Ghost {
  /** Its cutting line as it was, as SVG path data; empty where that is as it was. */
  readonly outline: string;
  /** `Cut width 9 1/2 in, was 9 in`, one each. */
  readonly words: readonly string[];
}

/** What is otherwise than in pieces as they were, by the names of pieces. */
export function ghostsOf(earlier: readonly PreviewPiece[], now: readonly PreviewPiece[]): ReadonlyMap<string, Ghost> {
  const before = new Map(earlier.map((piece) => [piece.name, piece]));
  return new Map(now.flatMap((piece) => {
    const was = before.get(piece.name);
    const ghost = was === undefined ? { outline: '', words: ['new'] } : ghostOf(was, piece);
    return ghost.outline === '' && ghost.words.length === 0 ? [] : [[piece.name, ghost] as const];
  }));
}

function ghostOf(was: PreviewPiece, now: PreviewPiece): Ghost {
  if (was === now) return { outline: '', words: [] };
  const sizes = (['width', 'height'] as const).flatMap((side) => {
    const words = (of: 'cut' | 'finished'): readonly string[] => {
      const [before, after] = [was[of][side].text, now[of][side].text];
      // A circle is told once, by its diameter.
      const isRound = was[of].circle && now[of].circle;
      return before === after || (isRound && side === 'height') ? [] : [isRound ? `${after} across, was ${before}` : `${side} ${after}, was ${before}`];
    };
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

/** What pieces are held against: as they were saved, as they were committed, or nothing. */
export const sinces = ['saved', 'committed', 'off'] as const;
export type SinceWhat = (typeof sinces)[number];

const titles: Readonly<Record<SinceWhat, string>> = { saved: 'since saved', committed: 'since committed', off: 'not shown' };

/** Chooses what pieces are held against. */
export function sinceControl(start: SinceWhat, changed: (what: SinceWhat) => void): HTMLElement {
  const select = element('select', { id: 'since-what' }, ...sinces.map((what) => element('option', { value: what }, titles[what])));
  select.value = start;
  select.addEventListener('change', () => changed(sinces.find((what) => what === select.value) ?? 'saved'));
  return element('span', { class: 'since-what' }, element('label', { for: select.id }, 'Changes: '), select);
}

/** Pieces as they were last committed, in the sizes and options that are chosen. */
export interface Committed {
  /** Null where the pattern has not been committed, or where no git is at hand. */
  readonly pieces: readonly PreviewPiece[] | null;
}

/** Keeps the pieces as they were saved or committed, and says what is otherwise since. */
export class Since {
  readonly element: HTMLElement;
  readonly #words = element('span', { class: 'at-length' });
  /** The same where there is little room. */
  readonly #short = element('span', { class: 'in-short' });
  readonly #dismiss = element('button', { type: 'button', class: 'tool wide', title: 'Show what is otherwise than now from here on' }, 'Dismiss');
  readonly #changed: (ghosts: ReadonlyMap<string, Ghost>) => void;
  /** As they were saved, by what is chosen: in another size other pieces were. */
  #saved = new Map<string, readonly PreviewPiece[]>();
  /** Undefined while it is not known. */
  #committed: Committed | undefined;
  #what: SinceWhat;
  #now: PreviewData | undefined;

  constructor(what: SinceWhat, changed: (ghosts: ReadonlyMap<string, Ghost>) => void) {
    this.#what = what;
    this.#changed = changed;
    this.#dismiss.addEventListener('click', () => {
      if (this.#now !== undefined) this.show(this.#now, true);
    });
    this.element = element('div', { class: 'since', hidden: true }, this.#words, this.#short, this.#dismiss);
  }

  /** @param isSaved whether what is shown is as it was saved */
  show(data: PreviewData, isSaved: boolean): void {
    this.#now = data;
    const chosen = chosenIn(data);
    if (isSaved) this.#saved = new Map([[chosen, data.pieces]]);
    this.#tell(data, this.#what === 'saved' ? this.#saved.get(chosen) : this.#what === 'committed' ? (this.#committed?.pieces ?? undefined) : undefined);
  }

  /** Holds the pieces against something else. */
  against(what: SinceWhat): void {
    this.#what = what;
    this.#committed = undefined;
    if (this.#now !== undefined) this.show(this.#now, false);
  }

  /** @param committed undefined while they are asked for: what is chosen is another */
  committed(committed: Committed | undefined): void {
    this.#committed = committed;
    if (this.#now !== undefined && this.#what === 'committed') this.show(this.#now, false);
  }

  #tell(data: PreviewData, before: readonly PreviewPiece[] | undefined): void {
    const ghosts = before === undefined ? new Map<string, Ghost>() : ghostsOf(before, data.pieces);
    const away = new Set([...data.pieces, ...data.undrawn].map(({ name }) => name));
    const gone = (before ?? []).filter(({ name }) => !away.has(name)).map(({ title }) => title);
    const changed = data.pieces.filter(({ name }) => ghosts.has(name)).map(({ title }) => title);
    const hasNone = this.#what === 'committed' && this.#committed?.pieces === null;
    this.element.hidden = !hasNone && changed.length === 0 && gone.length === 0;
    this.#dismiss.hidden = this.#what !== 'saved';
    setText(this.#words, hasNone ? 'Nothing to compare with: no earlier version of this pattern has been committed, or no git is at hand.' : [
      ...(changed.length === 0 ? [] : [`Changed since ${this.#what}: ${few(changed)}.`]),
      ...([...ghosts.values()].some(({ outline }) => outline !== '') ? [`Dotted outlines are as ${this.#what}.`] : []),
      ...(gone.length === 0 ? [] : [`No longer there: ${few(gone)}.`]),
    ].join(' '));
    setText(this.#short, hasNone ? 'Nothing to compare with.' : `Changed since ${this.#what}: ${changed.length + gone.length === 1 ? '1 piece' : `${changed.length + gone.length} pieces`}.`);
    this.#changed(ghosts);
  }
}

const chosenIn = ({ choices }: PreviewData): string => JSON.stringify(choices.map((one) => one.chosen));

const mostNamed = 4;
const few = (titles: readonly string[]): string => (titles.length <= mostNamed ? titles.join(', ') : `${titles.slice(0, mostNamed).join(', ')} and ${titles.length - mostNamed} more`);
