import type { Mutant } from './mutant.ts';

/* Faults of what is seen: which piece lies where, what is lit, what an edit did, what is measured, what travels. */

const board = ['test/preview/board.browser.test.ts'];
const named = ['test/preview/name-form.test.ts'];
const arranged = ['test/preview/board.test.ts'];
const lit = ['test/preview/lit.test.ts'];
const saved = ['test/preview/since.test.ts'];
const ruler = ['test/preview/measuring.test.ts'];
const travels = ['test/preview/standalone.test.ts'];
const moved = ['test/preview/handles.test.ts'];
const held = ['test/preview/handles.browser.test.ts'];
const nested = ['test/preview/nested.browser.test.ts'];
const layers = ['test/preview/layers.browser.test.ts'];
const drawn = ['test/preview/drawing.test.ts', 'test/preview/piece-labels.test.ts'];

export const previewFaults: readonly Mutant[] = [
  // Where pieces lie.
  { what: 'pieces laid over one another', file: 'server/src/preview/board.ts', before: 'one.x >= other.x + other.width + room ||', after: 'one.x >= other.x ||', tests: arranged },
  { what: 'pieces looked for in too few strips of the board', file: 'server/src/preview/board.ts', before: 'length: last - first + 1', after: 'length: last - first', tests: arranged },
  { what: 'places that are forgotten from edit to edit', file: 'server/src/preview/board.ts', before: 'if (!pieces.some(({ name }) => before.has(name))) return', after: 'if (pieces.length > 0) return', tests: arranged },
  { what: 'all lines invisible', file: 'client/preview/preview.css', before: '.part {\n  fill: none;', after: '.part {\n  opacity: 0;\n  fill: none;', tests: ['test/preview/sight.browser.test.ts'] },
  { what: 'a view that looks otherwise', file: 'client/preview/preview.css', before: '.inner-fill { fill: var(--tone); fill-opacity: 0.14; }', after: '.inner-fill { fill: var(--ink); fill-opacity: 0.9; }', tests: ['test/preview/reference.browser.test.ts'] },
  { what: 'an allowance as dark as the piece', file: 'client/preview/preview.css', before: '.inner-fill { fill: var(--tone); fill-opacity: 0.14; }', after: '.inner-fill { fill: none; }\n.hatch { display: none; }', tests: board },
  { what: 'materials that look alike', file: 'client/preview/hatching.ts', before: "  'M-1 -1L9 9',", after: "  'M-1 9L9 -1',", tests: board },
  { what: 'zooming away from the pointer', file: 'client/preview/zoom.ts', before: 'field.scrollBy(after.left + share.x * after.width - point.x,', after: 'field.scrollBy(0,', tests: board },
  { what: 'a wheel that zooms nothing', file: 'client/preview/wheel.ts', before: 'if (!isPinch && !isMap) return;', after: 'if (!isPinch) return;', tests: board },
  { what: 'two fingers that zoom in place of panning', file: 'client/preview/wheel.ts', before: 'timeStamp - pannedAt < gesture', after: 'timeStamp - pannedAt < 0', tests: board },
  { what: 'a page that is lost unseen', file: 'client/src/preview/html.ts', before: "target === window || editor.postMessage", after: "target === null && editor.postMessage", tests: ['test/preview/loading.browser.test.ts'] },
  { what: 'no overview', file: 'client/preview/overview.ts', before: 'made.hidden = (across', after: 'made.hidden = true || (across', tests: board },
  { what: 'a double click that does nothing', file: 'client/preview/board.ts', before: "this.field.addEventListener('dblclick', () => this.fit());", after: '', tests: board },
  { what: 'pieces that stand back though they are asked for', file: 'client/preview/board.ts', before: 'const isAside = !this.#isAskedFor(item);', after: 'const isAside = this.#isAskedFor(item);', tests: board },
  { what: 'names of a spec in place of titles', file: 'client/preview/cards.ts', before: 'flatMap(({ title: text, kind, label }, index)', after: 'flatMap(({ name: text, kind, label }, index)', tests: board },
  { what: 'names that stick out of narrow pieces', file: 'client/preview/board-names.ts', before: 'if (widthOf(word) > width) return undefined;', after: '', tests: named },
  { what: 'a preview that opens elsewhere', file: 'client/preview/editor.ts', before: "view: 'board', scale", after: "view: 'table', scale", tests: board },

  { what: 'a name across a fold', file: 'server/src/preview/label-room.ts', before: 'row >= 0 && row < cells) taken[', after: 'row >= 0 && row < 0) taken[', tests: ['test/preview/label-room.test.ts'] },
  { what: 'a name outside of its piece, over another', file: 'client/preview/outside-names.ts', before: 'taken.some((other) => meet(other, at))', after: 'false', tests: ['test/preview/outside-names.test.ts'] },
  { what: 'a line to a name through another piece', file: 'client/preview/outside-names.ts', before: 'return start < end;', after: 'return start > end;', tests: ['test/preview/outside-names.test.ts'] },
  { what: 'a name without the finished size', file: 'client/preview/board-names.ts', before: 'for (const one of details) {', after: 'for (const one of details.slice(2)) {', tests: named },
  { what: 'a list of sizes from the smallest', file: 'client/preview/size-list.ts', before: 'other.piece.area - one.piece.area', after: 'one.piece.area - other.piece.area', tests: board },
  { what: 'another piece as the largest', file: 'client/preview/size-list.ts', before: 'Math.max(...pieces.map(({ area }) => area))', after: 'Math.min(...pieces.map(({ area }) => area))', tests: board },

  // What is lit.
  { what: 'what hangs on a value by way of another', file: 'client/preview/changes.ts', before: "if (link.kind === 'value' || link.kind === 'thing') return", after: "if (link.kind === 'thing') return", tests: lit },
  { what: 'lines that do not use it', file: 'client/preview/changes.ts', before: '&& start <= written[1] && written[2] <= end;', after: ';', tests: lit },
  { what: 'a line that moves, told as its whole piece', file: 'client/preview/cursor.ts', before: 'return parts.length > 0 &&', after: 'return parts.length < 0 &&', tests: lit },
  { what: 'a line of a piece that is taken over', file: 'client/preview/changes.ts', before: 'line !== undefined && isTakenOver(user, head, line)', after: 'false', tests: lit },
  { what: 'how a piece changes', file: 'server/src/preview/links.ts', before: "    case 'mark':\n    case 'grain':\n      return 'inside';", after: "    case 'mark':\n    case 'grain':\n      return 'outline';", tests: lit },
  { what: 'what is cut from a material', file: 'client/preview/cursor.ts', before: 'if (materials.includes(link.name)) add(name, []);', after: '', tests: lit },
  { what: 'what hangs on an option', file: 'server/src/preview/links.ts', before: "role === 'option' ? '='", after: "role === 'option' ? ''", tests: lit },
  { what: 'how a check fails in another size', file: 'server/src/preview/links.ts', before: ' && arisesIn(one, combination)', after: '', tests: lit },
  { what: 'what is to be bought otherwise', file: 'client/preview/changes.ts', before: 'pieceGroups(data, pieces), ...toBuy', after: 'pieceGroups(data, pieces)', tests: lit },
  { what: 'where a supply only goes', file: 'server/src/preview/links.ts', before: "kind === 'at' || kind === 'fits'", after: "kind === 'fits'", tests: lit },
  { what: 'where an edge begins', file: 'server/src/preview/links.ts', before: '(steps[at + 1] ?? step).end', after: 'step.end', tests: lit },
  { what: 'what runs along the whole outline', file: 'server/src/preview/links.ts', before: '{ also: wholeOutline }', after: '{}', tests: lit },
  { what: 'an edge with another allowance', file: 'client/preview/changes.ts', before: '[...written, ...cuttingEdges(piece, names)]', after: 'written', tests: lit },
  { what: 'an allowance for all pieces', file: 'client/preview/cursor.ts', before: "if (link.kind === 'general') for", after: 'if (false) for', tests: lit },

  // What an edit did.
  { what: 'a size that changed', file: 'client/preview/since.ts', before: 'return before === after || (', after: 'return before !== after || (', tests: saved },
  { what: 'the saved outline', file: 'client/preview/since.ts', before: 'outline: isOtherShape ? was.drawing.area.cutting', after: 'outline: isOtherShape ? now.drawing.area.cutting', tests: saved },
  { what: 'a ghost that stays once all is saved', file: 'client/preview/since.ts', before: 'if (isSaved) this.#saved', after: 'if (isSaved && this.#saved.size === 0) this.#saved', tests: board },
  { what: 'a piece that is gone', file: 'client/preview/since.ts', before: 'filter(({ name }) => !away.has(name))', after: 'filter(({ name }) => name === undefined)', tests: board },

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

  { what: 'a trail of an earlier text', file: 'server/src/preview/kept.ts', before: 'if (asking.value(name) !== answer) return false;', after: '', tests: ['test/preview/kept.test.ts'] },
  { what: 'where a run of text stood before', file: 'server/src/preview/kept.ts', before: "for (const [chunk, wasThere] of made.chunks) if", after: "for (const [chunk, wasThere] of [...made.chunks].slice(1e9)) if", tests: ['test/preview/kept.test.ts'] },
  { what: 'a count of an earlier text', file: 'server/src/preview/kept.ts', before: "|| made.from.some((one, at) => one !== from[at])", after: '', tests: ['test/preview/kept.test.ts'] },

  // What is moved.
  { what: 'a formula that a handle overwrites', file: 'server/src/preview/handles/plain.ts', before: "return formula.kind === 'number' ? (formula.unit ?? '') : undefined;", after: "return formula.kind === 'number' ? (formula.unit ?? '') : '';", tests: moved },
  { what: 'a number that is no step', file: 'server/src/preview/handles/plain.ts', before: 'const near = nearestMultiple(millimetres, step);', after: 'const near = millimetres;', tests: moved },
  { what: 'a size of nothing', file: 'server/src/preview/handles/plain.ts', before: 'isSize && near.compare(step) < 0', after: 'isSize && near.compare(step) > 1e9', tests: moved },
  { what: 'what stands on its middle, grown to one side', file: 'server/src/preview/handles/find.ts', before: '? 0.5 : 1;', after: '? 1 : 1;', tests: moved },
  { what: 'what was not moved, rounded', file: 'server/src/preview/handles/move.ts', before: 'if (Math.abs(wish - now) < least / 2)', after: 'if (wish === now)', tests: moved },
  { what: 'a notch counted from the other end', file: 'server/src/preview/handles/move.ts', before: "!== (runs.from === 'end') ?", after: '?', tests: moved },
  { what: 'a dart that grows to one side', file: 'server/src/preview/handles/find-edge.ts', before: 'unit(minus(last, first)), 0.5)', after: 'unit(minus(last, first)), 1)', tests: moved },
  { what: 'an allowance that grows inwards of what is drawn to its stitching line', file: 'server/src/preview/handles/find-edge.ts', before: "'cutting' ? 1 : -1", after: "'cutting' ? 1 : 1", tests: moved },
  { what: 'a radius that spans no arc', file: 'server/src/preview/handles/move.ts', before: 'return wish.compare(least) < 0 ? least : wish;', after: 'return wish;', tests: moved },
  { what: 'a pleat that grows the wrong way', file: 'server/src/preview/handles/find-edge.ts', before: 'straight(unit(minus(fold, middle)))', after: 'straight(unit(minus(middle, fold)))', tests: moved },
  { what: 'keys that are lost from a handle on the board', file: 'client/preview/board-handles.ts', before: 'this.#kept?.focus({ preventScroll: true });', after: 'this.#kept?.blur();', tests: held },
  { what: 'an edit before it is let go', file: 'client/preview/handles.ts', before: 'to: [to.x, to.y], isLetGo });', after: 'to: [to.x, to.y], isLetGo: true });', tests: held },
  { what: 'Escape that writes', file: 'client/preview/handles.ts', before: "event.key === 'Escape' && this.#held !== undefined) {\n      this.#end();", after: "event.key === 'Escape' && this.#held !== undefined) {\n      this.#letGo();", tests: held },
  { what: 'a handle that is lost from the keys by its edit', file: 'client/preview/handles.ts', before: 'if (!isOther && list.some((one) => one.id === id)) continue;', after: '', tests: held },
  { what: 'no reason at what stays', file: 'client/preview/handles.ts', before: '`Stays: ${says}`', after: "''", tests: held },

  // What lies under and on a piece.
  { what: 'a size nested as large as the one shown', file: 'server/src/preview/nested.ts', before: 'outline: isOtherOutline ? other.drawing', after: 'outline: isOtherOutline ? shown.drawing', tests: nested },
  { what: 'nested sizes that look alike', file: 'client/preview/nested.ts', before: 'dashes[index % dashes.length]', after: 'dashes[0]', tests: nested },
  { what: 'a piece of another option, not told', file: 'server/src/preview/nested.ts', before: 'pieces.filter((piece) => !names.has(piece.name))', after: 'pieces.filter((piece) => piece.name === undefined)', tests: nested },
  { what: 'a layer on the side that it is not on', file: 'client/preview/layers.ts', before: "side === seen ? 'layer' : 'layer behind'", after: "side !== seen ? 'layer' : 'layer behind'", tests: layers },
  { what: 'a mark told on the side that it is not on', file: 'server/src/preview/flip.ts', before: "sides.length === 0 ? kind !== 'line'", after: "sides.length === 0 ? kind === 'line'", tests: ['test/preview/flip.test.ts'] },
  { what: 'layers that do not turn with their piece', file: 'client/preview/focus.ts', before: 'isWrong ? layers.map(flippedLayer) : layers', after: 'layers', tests: layers },
  { what: 'an arc that turns the wrong way on the wrong side', file: 'server/src/preview/flip.ts', before: 'at % 7 === 4 ? 1 - value : value', after: 'value', tests: ['test/preview/flip.test.ts'] },

  // What a check measured.
  { what: 'a check drawn against itself', file: 'server/src/preview/links.ts', before: 'both: [measure(is), measure(wanted)]', after: 'both: [measure(is), measure(is)]', tests: lit },
  { what: 'an edge that is too long, not drawn so', file: 'client/preview/failing.ts', before: 'pointsFrom(Math.max(0, long - over))', after: 'pointsFrom(long / 2)', tests: board },
  { what: 'longer told as shorter', file: 'client/preview/failing.ts', before: "off > 0 ? 'longer'", after: "off < 0 ? 'longer'", tests: board },
  { what: 'where a sum was measured, told of a difference', file: 'server/src/model/checks/designer-checks.ts', before: "expression.operator === '+' && left", after: 'left', tests: lit },
  { what: 'bars of one length', file: 'client/preview/compared.ts', before: 'const share = Math.abs(width) / most;', after: 'const share = 1;', tests: board },

  // Beside the text.
  { what: 'no hints', file: 'server/src/language/inlay-hints.ts', before: 'return hints.filter((hint) => hint.at >= range.start', after: 'return hints.filter((hint) => hint.at > range.end && hint.at >= range.start', tests: ['test/language/decorations.test.ts'] },
];
