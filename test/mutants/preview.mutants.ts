import { noticed, type Mutant } from './notice.ts';

/* Faults of what is seen: which piece lies where, what is lit, what an edit did, what is measured, what travels. */

const board = ['test/preview/board.browser.test.ts'];
const arranged = ['test/preview/board.test.ts'];
const lit = ['test/preview/lit.test.ts'];
const saved = ['test/preview/since-save.test.ts'];
const ruler = ['test/preview/measuring.test.ts'];
const travels = ['test/preview/standalone.test.ts'];
const drawn = ['test/preview/drawing.test.ts', 'test/preview/piece-labels.test.ts'];

const mutants: readonly Mutant[] = [
  // Where pieces lie.
  { what: 'pieces laid over one another', file: 'server/src/preview/board.ts', before: 'one.x >= other.x + other.width + room ||', after: 'one.x >= other.x ||', tests: arranged },
  { what: 'places that are forgotten from edit to edit', file: 'server/src/preview/board.ts', before: 'if (!pieces.some(({ name }) => before.has(name))) return', after: 'if (pieces.length > 0) return', tests: arranged },
  { what: 'all lines invisible', file: 'client/preview/preview.css', before: '.part {\n  fill: none;', after: '.part {\n  opacity: 0;\n  fill: none;', tests: ['test/preview/sight.browser.test.ts'] },
  { what: 'an allowance as dark as the piece', file: 'client/preview/preview.css', before: '.inner-fill { fill: var(--tone); fill-opacity: 0.14; }', after: '.inner-fill { fill: none; }\n.hatch { display: none; }', tests: board },
  { what: 'materials that look alike', file: 'client/preview/hatching.ts', before: "  'M-1 -1L9 9',", after: "  'M-1 9L9 -1',", tests: board },
  { what: 'zooming away from the pointer', file: 'client/preview/zoom.ts', before: 'field.scrollBy(after.left + share.x * after.width - point.x,', after: 'field.scrollBy(0,', tests: board },
  { what: 'a wheel that zooms nothing', file: 'client/preview/wheel.ts', before: 'if (!isPinch && !isMap) return;', after: 'if (!isPinch) return;', tests: board },
  { what: 'two fingers that zoom in place of panning', file: 'client/preview/wheel.ts', before: 'timeStamp - pannedAt < gesture', after: 'timeStamp - pannedAt < 0', tests: board },
  { what: 'no overview', file: 'client/preview/overview.ts', before: 'made.hidden = field.scrollWidth', after: 'made.hidden = true || field.scrollWidth', tests: board },
  { what: 'a double click that does nothing', file: 'client/preview/board.ts', before: "this.field.addEventListener('dblclick', () => this.fit());", after: '', tests: board },
  { what: 'pieces that stand back though they are asked for', file: 'client/preview/board.ts', before: 'const isAside = !this.#isAskedFor(item);', after: 'const isAside = this.#isAskedFor(item);', tests: board },
  { what: 'names of a spec in place of titles', file: 'client/preview/cards.ts', before: 'flatMap(({ title: text, kind, label })', after: 'flatMap(({ name: text, kind, label })', tests: board },
  { what: 'names that stick out of narrow pieces', file: 'client/preview/board-names.ts', before: 'if (widthOf(word) > width) return undefined;', after: '', tests: board },
  { what: 'a preview that opens elsewhere', file: 'client/preview/editor.ts', before: "view: 'board', scale", after: "view: 'table', scale", tests: board },

  // What is lit.
  { what: 'what hangs on a value by way of another', file: 'client/preview/cursor.ts', before: "link.kind === 'value' ||", after: '', tests: lit },
  { what: 'lines that do not use it', file: 'client/preview/cursor.ts', before: '&& lines.some(([start, end]) => start <= written[1] && written[2] <= end)', after: '', tests: lit },
  { what: 'what is cut from a material', file: 'client/preview/cursor.ts', before: 'if (materials.includes(link.name)) add(name, []);', after: '', tests: lit },
  { what: 'what hangs on an option', file: 'server/src/preview/links.ts', before: "role === 'option' ? '='", after: "role === 'option' ? ''", tests: lit },
  { what: 'how a check fails in another size', file: 'server/src/preview/links.ts', before: ' && arisesIn(one, combination)', after: '', tests: lit },
  { what: 'an allowance for all pieces', file: 'client/preview/cursor.ts', before: "if (link.kind === 'general') for", after: 'if (false) for', tests: lit },

  // What an edit did.
  { what: 'a size that changed', file: 'client/preview/since-save.ts', before: "was[of][side].text === now[of][side].text ? []", after: 'was[of][side].text !== now[of][side].text ? []', tests: saved },
  { what: 'the saved outline', file: 'client/preview/since-save.ts', before: 'outline: isOtherShape ? was.drawing.area.cutting', after: 'outline: isOtherShape ? now.drawing.area.cutting', tests: saved },
  { what: 'a ghost that stays once all is saved', file: 'client/preview/since-save.ts', before: 'if (isSaved) this.#saved', after: 'if (isSaved && this.#saved.size === 0) this.#saved', tests: board },
  { what: 'a piece that is gone', file: 'client/preview/since-save.ts', before: 'filter(({ name }) => !away.has(name))', after: 'filter(({ name }) => name === undefined)', tests: board },

  // What is measured.
  { what: 'a distance that is not the straight one', file: 'client/preview/measuring.ts', before: 'Math.hypot(x, y), unit', after: 'Math.abs(x) + Math.abs(y), unit', tests: ruler },
  { what: 'ends of lines written as steps', file: 'client/preview/measuring.ts', before: "command === 'l' ? ends.at(-1)", after: "command === 'q' ? ends.at(-1)", tests: ruler },
  { what: 'coordinates from the wrong side', file: 'client/preview/focus.ts', before: 'caught({ x, y: -y },', after: 'caught({ x, y },', tests: board },

  // What travels.
  { what: 'a page that may ask the network', file: 'server/src/preview/standalone.ts', before: "default-src 'none';", after: "default-src *;", tests: travels },
  { what: 'a text that ends the script', file: 'server/src/preview/standalone.ts', before: "json.replace(/</g, '\\\\u003c')", after: 'json', tests: travels },
  { what: 'where the text is, told to a buyer', file: 'server/src/preview/standalone.ts', before: 'files: [], chunks: {},', after: '', tests: travels },

  // What is drawn.
  { what: 'a description without its edges', file: 'server/src/preview/parts.ts', before: '    `edges ${', after: '    `sides ${', tests: drawn },
];

noticed(mutants);
