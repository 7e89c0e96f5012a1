import type { Mutant } from './mutant.ts';

/* Faults of what a maker is told: to buy, to lay out, to cut, to mark, to beware of. */

const verifier = ['test/lay/verify/verify.test.ts'];
const buying = ['test/buying/lays.test.ts', 'test/buying/fit.test.ts', 'test/buying/leftovers.test.ts', 'test/buying/panels.test.ts', 'test/buying/claims.test.ts', 'test/buying/purchase.test.ts'];
const folds = ['test/buying/other-folds.test.ts'];
const told = ['test/table/told.test.ts', 'test/table/layers.test.ts', 'test/table/cutter.test.ts', 'test/table/materials.test.ts'];
const refits = ['test/model/refit.test.ts'];
const laid = ['test/geometry/lies-along.test.ts', 'test/model/seams/laid.test.ts'];
const counted = ['test/model/counts.test.ts'];
const checks = ['test/model/cuts.test.ts', 'test/model/tolerance.test.ts', 'test/model/allowances.test.ts', 'test/model/thresholds.test.ts'];

export const coreFaults: readonly Mutant[] = [
  // What the verifier lets pass.
  { what: 'half a turn on one-way cloth', file: 'server/src/lay/verify/verify.ts', before: '(turn - placement.turn) % 360 === 0', after: '(turn - placement.turn) % 180 === 0', tests: verifier },
  { what: 'an overlap by area alone', file: 'server/src/lay/verify/verify.ts', before: 'overlap.thickest > tolerance || overlap.area > tolerance * shorter', after: 'overlap.thickest > tolerance', tests: verifier },
  { what: 'a thick overlap', file: 'server/src/lay/verify/verify.ts', before: 'overlap.thickest > tolerance || overlap.area > tolerance * shorter', after: 'overlap.area > tolerance * shorter', tests: verifier },
  { what: 'a gap half as wide as asked for', file: 'server/src/lay/verify/verify.ts', before: 'const by = gap - borderDistance(', after: 'const by = gap / 2 - borderDistance(', tests: verifier },
  { what: 'a gap that is not looked at across the cloth', file: 'server/src/lay/verify/verify.ts', before: 'if (b[1] >= a[3] + gap || a[1] >= b[3] + gap) continue;', after: 'if (b[1] >= a[3] || a[1] >= b[3]) continue;', tests: verifier },
  { what: 'a piece on the upper selvedge', file: 'server/src/lay/verify/verify.ts', before: "['upper edge', high - problem.width],", after: "['upper edge', high - problem.width - 1],", tests: verifier },
  { what: 'a piece on the lower selvedge', file: 'server/src/lay/verify/verify.ts', before: "['lower edge', -low],", after: "['lower edge', -low - 1],", tests: verifier },
  { what: 'the wrong hand', file: 'server/src/lay/verify/verify.ts', before: 'if (flipped < mirrored || flipped > mirrored + either)', after: 'if (flipped < mirrored)', tests: verifier },
  { what: 'too few in all', file: 'server/src/lay/verify/verify.ts', before: 'if (mine.length !== asDrawn + mirrored + either)', after: 'if (mine.length > asDrawn + mirrored + either)', tests: verifier },
  { what: 'a half off the fold', file: 'server/src/lay/verify/verify.ts', before: "return by <= tolerance ? [] : [{ kind: 'not on the fold', placement: index, by }];", after: "return by <= 1e9 ? [] : [{ kind: 'not on the fold', placement: index, by }];", tests: verifier },

  // What to buy, and how sure that is.
  { what: 'folded cloth not looked at where a gap is kept', file: 'server/src/buying/plan.ts', before: ' || gap > 0 ? []', after: ' ? []', tests: ['test/buying/folded.test.ts'] },
  { what: 'a first lay by boxes that is taken though it may be bettered', file: 'server/src/buying/lay-out.ts', before: 'bound * (1 + 1e-8)', after: 'bound * 1.15', tests: ['test/buying/claims.test.ts'] },
  { what: '“certain” with pieces left out of the length', file: 'server/src/buying/plan.ts', before: 'one.spread.unplaced.length === 0 && buyOf(lengthOf(one), cloth)', after: 'buyOf(lengthOf(one), cloth)', tests: buying },
  { what: '“certain” with pieces left out of panels', file: 'server/src/buying/plan.ts', before: 'certain: leftOut.length === 0 && count <= least,', after: 'certain: count <= least,', tests: buying },
  { what: 'a price with pieces left out', file: 'server/src/buying/plan.ts', before: 'cost: leftOut.length === 0 ? costOfCount(cloth.price, count) : undefined,', after: 'cost: costOfCount(cloth.price, count),', tests: buying },
  { what: 'no gap between repeated lays', file: 'server/src/buying/plan.ts', before: ' + Math.max(0, lays - 1) * spread.gap;', after: ';', tests: buying },
  { what: 'leftovers of every lay of a batch', file: 'server/src/buying/plan.ts', before: 'const isLast = index === spread.parts.length - 1 && times === 1;', after: 'const isLast = true;', tests: buying },
  { what: 'leftovers of a repeated last lay', file: 'server/src/buying/plan.ts', before: 'const isLast = index === spread.parts.length - 1 && times === 1;', after: 'const isLast = index === spread.parts.length - 1;', tests: buying },
  { what: 'no spare in what is bought', file: 'server/src/buying/plan.ts', before: 'shrinkage).add(spare));', after: 'shrinkage));', tests: buying },
  { what: 'a step too few', file: 'server/src/buying/purchase.ts', before: 'zero : multipleAtLeast(length, step));', after: 'zero : multipleAtLeast(length, step).sub(step));', tests: buying },
  { what: 'one to spare of twins that come out even', file: 'server/src/buying/folded.ts', before: 'Math.max(asDrawn, mirrored, Math.ceil((asDrawn + mirrored + either) / 2));', after: 'Math.max(asDrawn, mirrored) + either;', tests: buying },
  { what: 'a leftover on the fold told as two', file: 'server/src/buying/leftovers.ts', before: 'twice: isFolded && !isAtFold', after: 'twice: isFolded', tests: buying },

  // Folds.
  { what: 'cloth that is folded end to end costs as much as is laid', file: 'server/src/buying/lays.ts', before: "(manner === 'crosswise' ? 2 : 1)", after: "(manner === 'crosswise' ? 1 : 1)", tests: folds },
  { what: 'more is proved of a fold in part than is true', file: 'server/src/buying/plan.ts', before: 'noneUnder: opened };', after: 'noneUnder: opened * 1.1 };', tests: folds },
  { what: 'more is proved of a fold across than is true', file: 'server/src/lay/bounds/bound.ts', before: "problem.fold === 'across' ? [] : pieces.filter", after: 'pieces.filter', tests: folds },
  { what: 'no gap between what lies double and what lies single', file: 'server/src/buying/lay-out.ts', before: 'from: band.from + gap,', after: 'from: band.from,', tests: folds },
  { what: 'a piece in the wrong layers', file: 'server/src/lay/verify/verify.ts', before: "return by > tolerance ? [{ kind: 'in the wrong layers'", after: "return by > 1e9 ? [{ kind: 'in the wrong layers'", tests: verifier },
  { what: 'one-way cloth folded end to end', file: 'server/src/model/stock/cloth-fold.ts', before: "direction === 'one way'", after: "direction === 'any'", tests: ['test/model/supplies.test.ts'] },
  { what: 'a piece with a way up laid upside down', file: 'server/src/buying/folded.ts', before: 'turns.filter((turn) => turns.includes((540 - turn) % 360))', after: 'turns', tests: ['test/table/buying.test.ts'] },
  { what: 'what lies single, told as if it were not', file: 'server/src/table/as-laid.ts', before: '...(single > 0 ? [', after: '...(single < 0 ? [', tests: ['test/table/buying.test.ts'] },

  // What to cut.
  { what: 'how many there are on the fold, told as if all were', file: 'server/src/table/as-laid.ts', before: '...(onFold > 0 ? [', after: '...(onFold < 0 ? [', tests: ['test/table/buying.test.ts'] },
  { what: 'joins of unequal allowances about the narrower one', file: 'server/src/geometry/offset-join.ts', before: 'distance(corner, meeting) <= limit * widest + 1e-9', after: 'distance(corner, meeting) <= limit * Math.min(Math.abs(before.distance), Math.abs(after.distance)) + 1e-9', tests: ['test/geometry/offset-unequal.test.ts'] },
  { what: 'rounded joins that stand out past the narrower side', file: 'server/src/geometry/offset-join.ts', before: 'const [from, until] = [short(before), turn - short(after)];', after: 'const [from, until] = [0, turn];', tests: [...told, 'test/geometry/offset-unequal.test.ts'] },
  { what: 'the narrower allowance decides the corner', file: 'server/src/model/piece/allowances.ts', before: 'after.size.compare(before.size) > 0)', after: 'after.size.compare(before.size) < 0)', tests: ['test/model/allowances.test.ts', ...told] },
  { what: 'mirrored pieces are never flipped', file: 'server/src/pages/templates.ts', before: "if (line.hand === 'mirrored') return `${base}: flip the template`;", after: '', tests: told },
  { what: 'mirrored pieces are flipped though nothing tells it', file: 'server/src/pages/templates.ts', before: "if (line.hand !== 'as drawn' && flipsOnToItself(line)) return base;", after: '', tests: told },
  { what: 'nothing of the one end that is up', file: 'server/src/table/cut-rows.ts', before: 'if (liesOneWay(line)) notes.push(', after: 'if (!liesOneWay(line)) notes.push(', tests: told },
  { what: 'glue on the other side', file: 'server/src/model/piece/cuts.ts', before: "? 'glue up' : 'glue down';", after: "? 'glue down' : 'glue up';", tests: ['test/model/hands.test.ts'] },
  { what: 'a window from the wrong corner', file: 'server/src/table/window-notes.ts', before: 'figure(box.minY - layer.minY, display)', after: 'figure(layer.maxY - box.maxY, display)', tests: ['test/table/windows.test.ts'] },

  // What goes on what.
  { what: 'as many layers as are cut, though there is less cloth', file: 'server/src/table/layers.ts', before: 'Math.min(Number(line.count.n), Number(shell.count.n)) * articles', after: 'Number(line.count.n) * articles', tests: told },
  { what: 'layers of one article alone', file: 'server/src/table/layers.ts', before: 'Number(shell.count.n)) * articles', after: 'Number(shell.count.n))', tests: told },
  { what: 'the hottest iron that any layer takes', file: 'server/src/table/layers.ts', before: 'const coolest = irons.find(', after: 'const coolest = [...irons].reverse().find(', tests: told },
  { what: 'no caution with a zip', file: 'server/src/table/cautions.ts', before: "['snap', 'ring', 'buckle', 'zip']", after: "['snap', 'ring', 'buckle']", tests: told },
  { what: 'no caution with an iron', file: 'server/src/table/cautions.ts', before: "line.material.faces === 'glued'", after: "line.material.faces === 'alike'", tests: told },
  { what: 'a caution with straps that are not there', file: 'server/src/table/cautions.ts', before: 'supply.count.n > 0n', after: 'supply.count.n >= 0n', tests: told },

  // Signs that steer a terminal or break a page.
  { what: 'control signs', file: 'server/src/formats/escape.ts', before: '\\u000E-\\u001F', after: '', tests: [...told, 'test/hostile/texts.test.ts'] },
  { what: 'the least control signs', file: 'server/src/formats/escape.ts', before: '[\\u0000-\\u0008', after: '[', tests: [...told, 'test/hostile/texts.test.ts'] },
  { what: 'signs that turn the direction of writing', file: 'server/src/formats/escape.ts', before: '\\u202A-\\u202E', after: '', tests: [...told, 'test/hostile/texts.test.ts', 'test/formats/formats.test.ts'] },

  // Limits of what is warned of.
  { what: 'a piece as wide as the cloth is too wide', file: 'server/src/model/checks/widths.ts', before: 'if (needs.sub(usable).compare(slack) <= 0) {', after: 'if (needs.compare(usable) < 0) {', tests: checks },
  { what: 'a piece half a millimetre too wide fits', file: 'server/src/model/checks/widths.ts', before: 'const slack = 0.01;', after: 'const slack = 0.5;', tests: checks },
  { what: 'steps between unequal allowances pass', file: 'server/src/model/checks/steps.ts', before: 'sizeOf(first).equals(sizeOf(second))) continue;', after: '!sizeOf(first).equals(sizeOf(second))) continue;', tests: checks },
  { what: 'a layer that pokes out by half a millimetre passes', file: 'server/src/model/checks/layers.ts', before: 'if (by > 0.02)', after: 'if (by > 0.5)', tests: checks },
  { what: 'a layer edge to edge pokes out', file: 'server/src/model/checks/layers.ts', before: 'if (by > 0.02)', after: 'if (by >= 0)', tests: checks },
  { what: 'foam in the seam passes', file: 'server/src/model/checks/layers.ts', before: 'if (!isStiff(line.material) || line.statement', after: 'if (isStiff(line.material) || line.statement', tests: checks },
  { what: 'a fusible over foam passes', file: 'server/src/model/checks/layers.ts', before: 'other.layer?.side === line.layer?.side && isStiff(other.material)', after: 'other.layer?.side !== line.layer?.side && isStiff(other.material)', tests: checks },
  { what: 'a layer that barely covers a window passes', file: 'server/src/model/checks/covered.ts', before: '>= leastReach - slack)', after: '>= leastReach / 2 - slack)', tests: ['test/model/covered.test.ts'] },
  { what: 'a layer is to cover a window as far as into the seam', file: 'server/src/model/checks/covered.ts', before: 'const reaches = (points: Polygon, other: Polygon): boolean => points.filter(inner)', after: 'const reaches = (points: Polygon, other: Polygon): boolean => points', tests: ['test/model/covered.test.ts'] },
  { what: 'a layer that is smaller than its window passes', file: 'server/src/model/checks/covered.ts', before: 'if (!contains(layer, part, slack)) return false;', after: 'if (!contains(layer, part, slack)) return true;', tests: ['test/model/covered.test.ts'] },

  // What stands on the sheets.
  { what: 'words of a turned template on their heads', file: 'server/src/pages/labels.ts', before: 'turn: 90 } : item', after: 'turn: -90 } : item', tests: ['test/pages/sheets.test.ts'] },
  { what: 'names that are parted by a join of tiles', file: 'server/src/pages/labels.ts', before: 'clear((place) => isOnSheet(place) && room.isOffJoins(place.box)) ?? clear(isOnSheet)', after: 'clear(isOnSheet)', tests: ['test/pages/joins.test.ts'] },
  { what: 'a notch of one size that doesn’t say so', file: 'server/src/pages/stroke-names.ts', before: '      return sizes;', after: "      return '';", tests: ['test/pages/stroke-names.test.ts'] },
  { what: 'a template in tiles that is told in full on each', file: 'server/src/pages/tiles.ts', before: '(main === tile ? one : withFigure', after: '(main !== undefined ? one : withFigure', tests: ['test/formats/pdf.test.ts'] },
  { what: 'a title of a PDF with signs that turn what follows', file: 'server/src/formats/pdf/pdf.ts', before: 'info: { Title: visibleText(pages.title),', after: 'info: { Title: pages.title,', tests: ['test/formats/hand-over.test.ts'] },

  // What a copy takes over, and what is laid on another piece.
  { what: 'a level line as long as on the first piece', file: 'server/src/model/piece/refit.ts', before: 'line.across === undefined ? line.points : across(line, line.across, ground.cuttingPolygon)', after: 'line.points', tests: refits },
  { what: 'a dart that begins on the first piece’s seam', file: 'server/src/model/piece/refit.ts', before: '? dartMoved(line, edge, polygon)', after: '? line.points', tests: refits },
  { what: 'a line beyond what is cut of a copy', file: 'server/src/model/piece/refit.ts', before: '(takesFromEdge(line) || fitsIn(ground.cuttingPolygon, fitted))', after: 'true', tests: refits },
  { what: 'a pocket whose side bulges beyond its line', file: 'server/src/geometry/lies-along.ts', before: 'return moved.every((point, index) => isNear(point, moved[index - 1] ?? point, ring, allowed)) &&', after: 'return', tests: laid },
  { what: 'a corner of the line that the pocket cuts off', file: 'server/src/geometry/lies-along.ts', before: ' && between.every((point) => distancePointToPolyline(point, moved) <= allowed)', after: '', tests: laid },
  { what: 'two linings for one outside', file: 'server/src/model/seams/times.ts', before: 'a === undefined || b === undefined || a === b ||', after: 'true ||', tests: counted },
  { what: 'more of a layer than there is cloth for', file: 'server/src/model/checks/layers.ts', before: 'count.valueOf() > shells', after: 'count.valueOf() > 2 * shells', tests: counted },
  { what: 'a step of which nothing is there', file: 'server/src/model/work/read-step.ts', before: "read.every((one) => one === 'not wanted')", after: "read.every((one) => one === 'not there')", tests: ['test/model/work/idle.test.ts'] },

  // What a comparison tells.
  { what: 'a stale page of a plain rectangle', file: 'server/src/compare/template-changes.ts', before: "alikeByLine(cuts, 'all')", after: "alikeByLine(cuts, 'needed')", tests: ['test/compare/cut-otherwise.test.ts'] },
  { what: 'a check that a value makes weaker', file: 'server/src/compare/check-changes.ts', before: 'return values.length === 0 ||', after: 'return values.length >= 0 ||', tests: ['test/compare/rules.test.ts'] },
  { what: 'another piece taken for one that was renamed', file: 'server/src/compare/renamed-pieces.ts', before: "was.join('\\n') === now.join('\\n')", after: 'was.length === now.length', tests: ['test/compare/renamed-pieces.test.ts'] },
];
