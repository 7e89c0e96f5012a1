/**
 * Every problem that a spec can have: how grave it is, what it means, and its words. The language reference
 * (grammar/reference.md) shows each with an example.
 */

import { figure, limits } from './limits.ts';
import { unreadWords, type Unread } from './unread.ts';

interface Entry<Data> {
  readonly severity: 'error' | 'warning' | 'note';
  readonly words: (data: Data) => string;
  /** Set where the marked text has no effect. */
  readonly unused?: true;
}

const entry = <Data>(severity: Entry<Data>['severity'], words: (data: Data) => string): Entry<Data> => ({ severity, words });
const unusedEntry = <Data>(words: (data: Data) => string): Entry<Data> & { readonly unused: true } => ({ severity: 'warning', words, unused: true });

const andList = (words: readonly string[]): string => (words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1) ?? ''}`);
const orList = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1] ?? ''}`;
/** What is to be typed as it is stands in quotes; `a number` and the like say what kind of thing fits. */
const asWritten = (expected: string): string => (expected.includes(' ') ? expected : `“${expected}”`);
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const nearMiss = (near: string | undefined): string => (near === undefined ? '' : ` Did you mean “${near}”?`);

/** What a merge calls a version, where it says so. */
const versionName = (which: string, label: string): string => (label === '' ? which : `${which} (${label})`);

const tooMuch = {
  length: `This takes more than ${figure(limits.declarationLength)} characters, texts and comments not counted, so it isn’t read. Part it into several.`,
  depth: `There are more than ${limits.nesting} brackets within brackets here, so this isn’t read. Give a part of the formula a name of its own.`,
  operators: `There are more than ${limits.operators} signs in a row here, so this isn’t read. Give a part of the formula a name of its own.`,
  files: `This pattern uses more than ${limits.files} files, so this one isn’t read.`,
  problems: `Only the first ${limits.problems} problems of this file are told.`,
} as const;

interface Parts {
  readonly count: number;
  /** The size of the part that is used, and of those that are not, with the place of their lower left corners. */
  readonly used: string;
  readonly lost: readonly string[];
}
const fallsApart = ({ count, used, lost }: Parts): string =>
  `falls into ${count} parts: one of ${used} is used, and ${lost.slice(0, 3).join(' and ')}${lost.length > 3 ? ` and ${lost.length - 3} more` : ''} would be lost.`;

const timesText = (count: number): string => (count === 1 ? 'once' : count === 2 ? 'twice' : `${String(count)} times`);

export const catalogue = {
  // The text
  'unreadable-line': entry<{ found: string; expected: readonly string[]; hint?: string | undefined; near?: string | undefined }>('error', ({ found, expected, hint, near }) => {
    const start = found === '' ? 'This line stops too early' : `“${found}” doesn’t fit here`;
    // A long list of all that could stand here helps nobody.
    const rest = hint !== undefined ? `: ${hint}.` : near !== undefined ? `.${nearMiss(near)}` : expected.length === 0 || expected.length > 10 ? '.' : `: expected ${orList(expected.map(asWritten))}.`;
    return `${start}${rest} The line is left out; everything else still counts.`;
  }),
  'unopened-block': entry<{ what: string; below: boolean; bracket: string; closes: boolean }>('error', ({ what, below, bracket, closes }) =>
    `${bracket !== '' ? `Write “{” for this “${bracket}”, and “}” for the one that closes it. ${capital(what)}` : below ? `This “{” belongs at the end of the line above. ${capital(what)}` : `${capital(what)} needs “{” at the end of its first line${closes ? '' : ', and “}” below its last step'}. It`} is left out; everything else still counts.`),
  'unclosed-block': entry<{ what: string }>('error', ({ what }) => `This block${what === '' ? '' : ` of ${what}`} has no closing “}”.`),
  'unclosed-text': entry<{ brace: boolean }>('error', ({ brace }) => `This text has no closing quote on its line${brace ? ', and its “{” no “}”. A brace that is meant as such is written \\{' : ''}.`),

  'merge-conflict': entry<{ first: string; second: string }>('error', ({ first, second }) =>
    `A merge has left two versions here, ${versionName('the first', first)} and ${versionName('the second', second)}. Everything is worked out with the first: choose one.`),

  'unreadable-file': entry<{ why: Unread }>('error', ({ why }) => `This file can’t be read. ${unreadWords[why]}.`),
  'file-too-long': entry<{ most: string }>('error', ({ most }) => `This file is longer than ${most}, so it isn’t read.`),
  'too-much': entry<{ of: keyof typeof tooMuch }>('error', ({ of }) => tooMuch[of]),
  'internal-fault': entry<object>('error', () => 'This can’t be worked out, which is a fault of Piecewright and not of your text. Everything else still counts. Please tell us the line.'),

  // Names
  'unknown-name': entry<{ what: string; name: string; near?: string | undefined }>('error', ({ what, name, near }) => `There is no ${what} called “${name}”.${near === undefined && what === 'material' ? ` Declare it with a line such as material ${name} {` : nearMiss(near)}`),
  'unknown-part': entry<{ owner: string; name: string; near?: string | undefined; known: readonly string[] }>('error', ({ owner, name, near, known }) =>
    `“${owner}” has no part called “${name}”.${near === undefined && known.length > 0 ? ` It has ${orList(known)}.` : nearMiss(near)}`),
  'unknown-option': entry<{ option: string; choice?: string | undefined; near?: string | undefined; known?: readonly string[] }>('error', ({ option, choice, near, known = [] }) =>
    `“${option}” is not ${choice === undefined ? 'a size or an option of any choice' : `an option of “${choice}”`}.${near === undefined && known.length > 0 && known.length <= 8 ? ` There ${known.length === 1 ? 'is' : 'are'} ${orList(known).replace(/ or ([^ ]*)$/, ' and $1')}.` : nearMiss(near)}`),
  'ambiguous-option': entry<{ option: string; choices: readonly string[] }>('error', ({ option, choices }) =>
    `“${option}” is an option of ${choices.join(' and ')}: name the choice too, as in “for ${choices[0] ?? ''} ${option}”.`),
  'choice-compared': entry<{ choice: string; example: string }>('error', ({ choice, example }) => `“${choice}” is a choice and no size: ask for its option with “is”, as in ${example}.`),
  'missing-option': entry<{ missing: readonly string[] }>('error', ({ missing }) => `No value is given for ${missing.join(', ')}. Add one for each, or one “otherwise”.`),
  'too-many-ways': entry<{ looked: number; ways: number }>('warning', ({ looked, ways }) =>
    `This hangs on so many choices that only the first ${looked} of its ${ways > 1e9 ? 'more than a thousand million' : ways} combinations are checked.`),
  'duplicate-name': entry<{ name: string }>('error', ({ name }) => `The name “${name}” is already taken. This second one is left out.`),
  'unused-name': unusedEntry<{ what: string; name: string }>(({ what, name }) => `The ${what} “${name}” is never used.`),
  'wrong-thing': entry<{ name: string; is: string; wanted: string }>('error', ({ name, is, wanted }) => `“${name}” is ${is}, but ${wanted} is needed here.`),
  cycle: entry<{ names: readonly string[]; count: number; isPiece?: boolean }>('error', ({ names, count, isPiece }) => count === 1 && isPiece === true
    ? `“${names[0] ?? ''}” asks for a measure of its own, but what it measures hangs on this line. Give that size a name outside of the piece, as in length ${names[0] ?? 'panel'}_w = 9, and use the name in both places.`
    : count > names.length
    ? `This goes round in a circle: it is one of ${figure(count)} names that need one another, as do ${names.slice(1).map((name) => `“${name}”`).join(', ')}.`
    : `This goes round in a circle: ${[...names, names[0] ?? ''].map((name) => `“${name}”`).join(' needs ')}.`),

  // Values
  'wrong-kind': entry<{ got: string; wanted: string; hint?: string }>('error', ({ got, wanted, hint }) => `This is ${got}, but ${wanted} is needed here.${hint === undefined ? '' : ` ${hint}`}`),
  'mixed-kinds': entry<{ operator: string; left: string; right: string }>('error', ({ operator, left, right }) =>
    operator === '*' ? `${left} times ${right} is nothing that can be sewn.`
    : operator === '/' ? `${left} can’t be divided by ${right}.`
    : `${left} and ${right} can’t be ${operator === '+' ? 'added' : operator === '-' ? 'subtracted' : 'compared'}.`),
  'minus-fraction': entry<{ whole: string; fraction: string; value: string }>('warning', ({ whole, fraction, value }) =>
    `“${whole}-${fraction}” is ${whole} minus ${fraction}, which is ${value}. For ${whole} and ${fraction} write ${whole} ${fraction}.`),
  'point-fraction': entry<{ whole: string; fraction: string; dividend: string; divisor: string; value: string }>('warning', ({ whole, fraction, dividend, divisor, value }) =>
    `“${whole}.${fraction}” is ${dividend} divided by ${divisor}, which is ${value}. For ${whole} and ${fraction} write ${whole} ${fraction}.`),
  'division-by-zero': entry<object>('error', () => 'This divides by zero.'),
  'not-whole': entry<{ what: string; value: string }>('error', ({ what, value }) => `${what} must be a whole number, but this is ${value}.`),
  'too-small': entry<{ what: string; value: string; least: string }>('error', ({ what, value, least }) => `${what} must be ${least}, but this is ${value}.`),
  'wrong-arguments': entry<{ name: string; usage: string }>('error', ({ name, usage }) => `“${name}” is used as ${usage}.`),
  'rounded-size': entry<{ what: string; exact: string; shown: string }>('note', ({ what, exact, shown }) => `${what} is ${exact}, shown as ${shown}.`),

  // The file's own facts
  'repeated-fact': entry<{ what: string }>('error', ({ what }) => `This gives ${what.charAt(0).toLowerCase()}${what.slice(1)} a second time. The first holds, and this one is left out.`),
  'missing-title': entry<object>('warning', () => 'The pattern has no title: add a line such as pattern "Small pouch".'),
  'missing-revision': entry<object>('warning', () => 'The pattern has no revision: add a line such as revision 1, so that a printed copy can be told from a later one.'),
  'revision-not-raised': entry<{ revision: string }>('warning', ({ revision }) => `The pattern has changed since revision ${revision} was given out, but its revision is still ${revision}.`),
  'revision-lowered': entry<{ revision: string; issued: string }>('warning', ({ revision, issued }) => `Revision ${issued} has been given out, so revision ${revision} would go back. Use ${Number(issued) + 1} or later.`),
  'unknown-word': entry<{ word: string; known: readonly string[]; near?: string | undefined }>('error', ({ word, known, near }) => `“${word}” isn’t known here${near === undefined ? `: use ${orList(known)}.` : `.${nearMiss(near)}`}`),
  'bad-step': entry<{ allowed: string }>('error', ({ allowed }) => `Sizes can’t be shown in this step: use ${allowed}.`),
  'bad-digest': entry<object>('error', () => 'This isn’t the digest of an issued revision: let “piecewright issue” write this line.'),

  // Other files
  'missing-file': entry<{ path: string }>('error', ({ path }) => `There is no file “${path}”.`),
  'file-outside': entry<{ path: string }>('error', ({ path }) => `“${path}” lies outside the working folder. Only files inside it can be used.`),
  'file-cycle': entry<{ files: readonly string[] }>('error', ({ files }) => files.length === 1 ? 'This file uses itself.' : `These files use each other in a circle: ${files.length > 12 ? [...files.slice(0, 6), '…', ...files.slice(-5)].join(' → ') : files.join(' → ')}.`),
  'pieces-not-shared': entry<{ path: string }>('note', ({ path }) => `“${path}” also declares pieces, supplies or checks. They stay in their own pattern; only materials, things, values, sizes and choices are shared.`),
  'faults-in-file': entry<{ path: string; count: number }>('error', ({ path, count }) => `“${path}” has ${count === 1 ? 'an error' : `${count} errors`} of its own.`),

  // Outlines
  'missing-outline': entry<{ piece: string }>('error', ({ piece }) => `The piece “${piece}” has no outline.`),
  'empty-outline': entry<object>('error', () => 'This outline encloses nothing.'),
  'self-crossing': entry<{ at: string }>('error', ({ at }) => `This outline crosses itself at ${at}.`),
  'open-shape': entry<object>('error', () => 'This needs a closed shape, and a row of points is open. Write polygon before “from”.'),
  'inset-outline': entry<object>('error', () => 'An outline can’t be an inset or a line across: those need a piece to lie in. Use “piece … from … inset” for a smaller copy.'),
  'bad-arc': entry<{ why: string }>('error', ({ why }) => `This arc can’t be drawn: ${why}.`),
  'unknown-corner': entry<{ name: string }>('error', ({ name }) => `A rectangle has no corner called “${name}”: use all, a side (top, bottom, left, right) or a corner such as top_left.`),
  'corner-needs-rectangle': entry<object>('error', () => 'Only the corners of a rectangle can be rounded, chamfered or boxed out.'),
  'corner-too-large': entry<{ side: string; over: string }>('error', ({ side, over }) => `The corners take ${over} more than the ${side} side has.`),
  'fold-not-straight': entry<{ edge: string }>('error', ({ edge }) => `The edge “${edge}” can’t lie on a fold: it must be one straight line with the whole piece on one side of it.`),
  'allowance-vanishes': entry<object>('error', () => 'With these allowances nothing is left inside the stitching line.'),
  'allowance-parts': entry<Parts>('error', (parts) => `With these allowances the stitching line ${fallsApart(parts)} Make the piece wider where it is narrowest, or its allowances narrower there.`),
  'missing-allowance': entry<object>('warning', () => 'Nothing says how wide the seam allowance is, so none is added. Add a line such as allowance 1/4 in, or allowance none.'),
  'fold-allowance': entry<{ edge: string }>('warning', ({ edge }) => `The edge “${edge}” lies on a fold and gets no allowance; this line has no effect.`),

  // Lines inside a piece
  'no-room-to-stitch': entry<{ distance: string; from: readonly string[]; isQuilt: boolean; isClose: boolean }>('error', ({ distance, from, isQuilt, isClose }) => isClose
    ? `Rows ${distance} apart are nearer to one another than anybody sews, or more than 500. Say how far it is from one row to the next, as in 1 1/2 in.`
    : isQuilt ? `Rows ${distance} apart leave the piece only one. Quilt more closely, or topstitch beside “${from[0] ?? ''}”.`
    : `There is no room ${distance} from ${andList(from.map((name) => `“${name}”`))} to stitch along on this piece. Stitch nearer to the edge.`),
  'inset-not-positive': entry<{ value: string }>('error', ({ value }) => `An inset must be more than nothing, but this is ${value}.`),
  'inset-vanishes': entry<{ value: string }>('error', ({ value }) => `Nothing is left ${value} inside the edge.`),
  'inset-parts': entry<Parts>('error', (parts) => `This inset ${fallsApart(parts)} Make it smaller, or draw each part as a line of its own.`),
  'outside-piece': entry<{ what: string; by: string }>('error', ({ what, by }) => `The ${what} reaches ${by} outside its piece.`),
  'no-room-on-copy': entry<{ what: string; name: string }>('error', ({ what, name }) => `The ${what} “${name}”, which this copy takes over, has no room on it any more. Draw another of that name, or leave it out: without ${name}.`),
  'window-open': entry<object>('error', () => 'A window must be a closed shape, such as a rectangle.'),
  'off-edge': entry<{ what: string; edge: string; length: string; name?: string; reach?: string }>('error', ({ what, edge, length, name, reach }) => name === undefined
    ? `This ${what} lies beyond the edge “${edge}”, which is ${length} long.`
    : `The ${what} “${name}” runs off the edge “${edge}”, which is ${length} long: it takes ${reach ?? ''} of that on either side of this place.`),

  'notch-without-allowance': entry<{ edge: string }>('note', ({ edge }) => `The edge “${edge}” has no allowance to cut this notch into, so the table leaves it out. Use a mark, or give the edge an allowance.`),
  'darts-overlap': entry<{ dart: string; other: string; edge: string }>('error', ({ dart, other, edge }) => `“${dart}” and “${other}” overlap on “${edge}”.`),
  'fold-misses': entry<{ line: string; piece: string }>('error', ({ line, piece }) => `“${line}” doesn’t run through “${piece}” as it lies by then, so nothing is folded along it.`),
  'line-misses-edge': entry<{ line: string; edge: string }>('error', ({ line, edge }) => `The line “${line}” doesn’t meet the edge “${edge}”, even carried straight on.`),

  // Pieces from pieces
  'nothing-left-out': entry<{ name: string; near?: string | undefined; known: readonly string[] }>('error', ({ name, near, known }) => `The other piece hands on no line or mark “${name}”, so there is nothing to leave out.${near === undefined ? (known.length === 0 ? '' : ` It has ${orList(known)}.`) : nearMiss(near)}`),
  'split-misses': entry<{ line: string; why: string }>('error', ({ line, why }) => `The line “${line}” doesn’t part this piece: ${why}.`),

  // Cut lines
  'never-cut': entry<{ piece: string }>('warning', ({ piece }) => `The piece “${piece}” is never cut.`),
  'not-closed': entry<{ line: string }>('error', ({ line }) => `The line “${line}” is open; nothing can be cut along it.`),
  'stepped-allowance': entry<{ line: 'cutting' | 'stitching'; first: string; second: string; sizes: readonly string[] }>('note', ({ line, first, second, sizes }) => `The ${line} line jumps where “${first}” runs into “${second}”, since their allowances are ${sizes.join(' and ')} and there is no corner to meet at. Give both the same.`),
  'uncut-here': entry<{ piece: string }>('warning', ({ piece }) => `“${piece}” is cut from nothing here, though it is with other choices. Give it a cut line for these, or the piece a “when”.`),
  'too-large': entry<{ form: 'panel' | 'sheet'; needs: string; material: string; there: string }>('error', ({ form, needs, material, there }) => `This fits on no ${form} of “${material}” in a permitted turn: it takes ${needs}, and a ${form} has ${there}, across the grain first. Part it, or allow another way, as in grain up or across.`),
  'too-wide': entry<{ needs: string; material: string; usable: string; shrunk: boolean }>('error', ({ needs, material, usable, shrunk }) => `Too wide for “${material}”: ${needs}, only ${usable} usable${shrunk ? ' after washing' : ''}. Split it, or turn it with grain up or across.`),
  'no-room-folded': entry<{ material: string; needs: string; room: string }>('warning', ({ material, needs, room }) => `This takes ${needs} of the width of “${material}”, and folded as asked that lies ${room} wide, so all that is cut from it is laid open. Fold it otherwise, or leave its fold out.`),
  'layers-to-spare': entry<{ material: string; count: number; shells: number }>('note', ({ material, count, shells }) => `${String(count)} of ${material} are cut, and there ${shells === 1 ? 'is one piece' : `are ${String(shells)} pieces`} for it to go on: ${count % shells === 0 ? `${String(count / shells)} lie on ${shells === 1 ? 'it' : 'each'}` : 'some have more of it than others'}.`),
  'pokes-out': entry<{ material: string; by: string; shell: string }>('error', ({ material, by, shell }) => `This layer of “${material}” reaches ${by} beyond the “${shell}” that it goes on.`),
  'stiff-in-seam': entry<{ material: string; seam: string; edges: readonly string[] }>('warning', ({ material, seam, edges }) => `This stiff layer of “${material}” reaches into “${seam}” at ${edges.join(', ')}. Cut it along the stitching line or an inner line to keep the seam flat, or say that it is to go into the seam.`),
  'fused-into-seam': entry<{ material: string }>('note', ({ material }) => `This stiff layer of “${material}” runs right to the cutting line and will be sewn into the seam. Cut it along an inner line to keep seams flat.`),
  'thin-strip': entry<{ material: string; strip: string }>('warning', ({ material, strip }) => `The window leaves a strip of only ${strip} of “${material}”, which tears easily. Move the window, or let it run out over the edge.`),
  'window-uncovered': entry<{ material: string; shell: string }>('warning', ({ material, shell }) => `“${material}” doesn’t reach 1/8 in (3.2 mm) over the edge of the window in “${shell}” all round, so there is nothing to sew it down by. Make it larger, or the window smaller.`),
  'symmetric-twins': entry<{ material: string }>('note', ({ material }) => `This outline is the same when flipped, so the twins of “${material}” are alike: “cut” without “twins” says the same.`),
  'along-and-sized': entry<object>('error', () => 'This layer is cut along a line or at a size of its own, not both: leave out “along” or “sized”.'),
  'odd-twins': entry<{ count: string }>('error', ({ count }) => `Twins come in pairs, but this cuts ${count}.`),
  'hands-differ': entry<{ material: string; shell: string; shellHands: string; hands: string }>('error', ({ material, shell, shellHands, hands }) =>
    `The shells of “${shell}” are cut ${shellHands}, but this layer of “${material}” ${hands}: they won’t match.`),
  'mates-same-hand': entry<{ material: string; shell: string }>('warning', ({ material, shell }) =>
    `This piece is uneven, and “${shell}” and “${material}” are cut the same way round: placed right sides together they won’t match.`),
  'missing-grain': entry<{ material: string }>('warning', ({ material }) => `“${material}” runs one way, but this piece doesn’t say how its grain lies. Add a line such as grain up.`),
  'lies-sideways': entry<{ material: string; piece: string }>('error', ({ material, piece }) => `“${piece}” has its way up, but “grain up or across” lets it lie sideways on “${material}”, which runs one way. Write grain up, or leave out this way up.`),
  'no-folded-template': entry<{ why: string }>('warning', ({ why }) => `This can’t be cut from a folded template, so it gets one of its own: ${why}.`),
  'no-fold-edge': entry<object>('error', () => 'This piece has no edge on a fold. Add a line such as “on fold left”.'),
  'layer-without-shell': entry<{ material: string }>('warning', ({ material }) => `There is nothing above this line for “${material}” to go on. Write the cloth’s own cut line first.`),
  'takes-no-heat': entry<{ material: string; under: string }>('warning', ({ material, under }) => `“${material}” is fused on here, but “${under}” takes no heat. Fuse before it goes on, or use a layer that is sewn in.`),
  'stack-order': entry<{ material: string; before: string }>('warning', ({ material, before }) => `The fusible “${material}” should go on before “${before}”: write it above.`),

  // Materials and supplies
  'missing-width': entry<{ material: string }>('error', ({ material }) => `The material “${material}” has no width, nor panels or sheets that it is bought in.`),
  'fold-turns-nap': entry<{ material: string; piece?: string }>('error', ({ material, piece }) => `A crosswise fold turns one layer end for end, ${piece === undefined ? `and “${material}” runs one way: what is cut through both layers would run both` : `so that half of what is cut of “${piece}” from “${material}” would lie with its way up below`}. Fold it lengthwise, or in part.`),
  'fold-too-deep': entry<{ depth: string; most: string; usable: string }>('error', ({ depth, most, usable }) => `The cloth can’t lie double for ${depth}: it is ${usable} wide, so ${most} is the most.`),
  'fold-of-panels': entry<{ material: string; form: 'panels' | 'sheets' }>('warning', ({ material, form }) => `“${material}” is bought in ${form}, which are laid in a single layer, so this fold has no effect. Leave it out.`),
  'usable-too-wide': entry<object>('error', () => 'The usable width is more than the whole width.'),
  'shrinks-too-much': entry<{ written: string; percent: boolean }>('error', ({ written, percent }) =>
    percent ? 'Shrinkage must be at least 0 % and less than 100 %.' : `Shrinkage is a share: for ${written} in a hundred, write ${written}%.`),
  'mark-mismatch': entry<{ marks: readonly string[]; markSize: string; supply: string; supplySize: string }>('error', ({ marks, markSize, supply, supplySize }) =>
    `The ${marks.length === 1 ? `mark “${marks[0] ?? ''}” is` : `marks ${marks.slice(0, -1).map((mark) => `“${mark}”`).join(', ')} and “${marks.at(-1) ?? ''}” are`} for a snap of ${markSize}, but “${supply}” measures ${supplySize}.`),
  'mark-without-supply': entry<{ mark: string; size: string }>('warning', ({ mark, size }) => `No snap of ${size} is given for the mark “${mark}”.`),
  'zip-too-short': entry<{ finished: string; from: string }>('error', ({ finished, from }) => `A zip of ${finished} can’t be made from ${from}.`),
  'count-differs': entry<{ supply: string; given: string; needed: string; where: readonly { piece: string; mark: string; pieces: number; onEach: number }[] }>('warning', ({ supply, given, needed, where }) =>
    `“${supply}” counts ${given}, but ${where.length === 0 ? 'nothing that it is set at is cut' : `its places take ${needed}: ${where.map(({ piece, mark, pieces, onEach }) => `${mark} on ${piece}${onEach === 1 ? '' : ', on both halves'}${pieces === 1 ? '' : `, cut ${pieces} times`}`).join('; ')}`}.`),
  'ring-misfit': entry<{ ring: string; strap: string; by: string }>('warning', ({ ring, strap, by }) => `“${ring}” and “${strap}” differ in width by ${by}; within 2 mm is usual.`),
  'missing-fact': entry<{ what: string; fact: string }>('error', ({ what, fact }) => `This ${what} needs a line “${fact}”.`),

  // Seams
  'empty-stretch': entry<{ edge: string }>('error', ({ edge }) => `This takes nothing of “${edge}”: both ends are the same place.`),
  'off-seam': entry<{ edge: string; length: string }>('error', ({ edge, length }) => `This lies beyond the edge “${edge}”, which is ${length} long on its stitching line.`),
  'run-broken': entry<{ piece: string; edge: string; before: string; copies: string | undefined }>('error', ({ piece, edge, before, copies }) => copies !== undefined
    ? `“${edge}” doesn’t go on from where “${before}” ends on one “${piece}”. If the run goes from one of the ${copies} that are cut to the next, a run can’t tell them apart: make them two pieces, as in piece ${piece}_2 from ${piece}, with a cut line each. Else name the edges in the order in which they are sewn.`
    : `“${edge}” doesn’t go on from where “${before}” ends, so they are no one run. Name the edges of “${piece}” in the order in which they are sewn.`),
  'open-too-long': entry<{ open: string; seam: string }>('error', ({ open, seam }) => `An opening of ${open} leaves nothing to sew of a seam of ${seam}.`),
  'open-elsewhere': entry<{ edge: string; known: readonly string[] }>('error', ({ edge, known }) => `“${edge}” isn’t sewn by this seam, so nothing of that is left open. It sews ${orList(known).replace(/ or /g, ' and ')}.`),
  'open-beyond': entry<{ open: string; seam: string }>('error', ({ open, seam }) => `An opening of ${open} with its middle here reaches beyond the seam, which is ${seam} long. Move it towards the middle.`),
  'seam-lengths': entry<{ first: string; firstLength: string; second: string; secondLength: string; ease: string | undefined; off: string; isLong: boolean; folded: string | undefined }>('error', ({ first, firstLength, second, secondLength, ease, off, isLong, folded }) =>
    `${first} ${first.includes(' and ') ? 'are' : 'is'} ${firstLength} and ${second} ${second.includes(' and ') ? 'are' : 'is'} ${secondLength} along the stitching line${ease === undefined ? '' : `, with ${ease} to ease in`}: ${off} too ${isLong ? 'long' : 'short'}.${folded === undefined ? '' : ` As it is folded it fits: write “${folded} folded”.`}`),
  'nothing-to-gather': entry<{ first: string; firstLength: string; second: string; secondLength: string }>('error', ({ first, firstLength, second, secondLength }) =>
    `${first} is gathered, but with ${firstLength} it is no longer than ${second}, ${secondLength}. The one that is gathered stands first.`),

  'seam-counts': entry<{ first: string; firstTimes: number; second: string; secondTimes: number }>('warning', ({ first, firstTimes, second, secondTimes }) =>
    `As they are cut, ${first} ${first.includes(' and ') ? 'are' : 'is'} there ${timesText(firstTimes)} and ${second} ${timesText(secondTimes)}, so ${String(Math.abs(firstTimes - secondTimes))} of ${firstTimes > secondTimes ? first : second} ${Math.abs(firstTimes - secondTimes) === 1 ? 'is' : 'are'} sewn to nothing. Cut as many of both, or write another seam.`),
  'seam-with-itself': entry<{ piece: string; edge: string }>('warning', ({ piece, edge }) =>
    `Both sides of this seam are the same edge, “${edge}”, and only one “${piece}” is cut, so there is no second to sew it to. Cut 2 of it, or name another edge.`),
  'patch-misses-line': entry<{ first: string; second: string; piece: string; size: string; lineSize: string }>('error', ({ first, second, piece, size, lineSize }) =>
    `${first} can’t lie on ${second} as that is drawn: between its seams “${piece}” is ${size}${size === lineSize ? ', as the line is, and has another shape' : `, and the line is ${lineSize}`}. Draw the line as what is laid on it, or say “eased by”, “gathered” or “within”.`),
  'seam-allowances': entry<{ first: string; firstSize: string; second: string; secondSize: string }>('error', ({ first, firstSize, second, secondSize }) =>
    `${first} has an allowance of ${firstSize} and ${second} one of ${secondSize}: laid edge to edge, their stitching lines don’t meet. Give both the same.`),
  'notches-apart': entry<{ first: string; second: string; by: string }>('error', ({ first, second, by }) => `Sewn together, a notch of ${first} and one of ${second} miss each other by ${by}.`),
  'notch-alone': entry<{ notched: string; other: string; at: string }>('note', ({ notched, other, at }) => `A notch of ${notched} meets nothing: on ${other} it would be at ${at} along the stitching line.`),
  'corner-kinked': entry<{ seam: string; end: 'start' | 'end'; first: string; second: string; together: string; isHollow: boolean }>('error', ({ seam, end, first, second, together, isHollow }) =>
    `At the ${end} of “${seam}” the outline doesn’t run on smoothly: ${first} and ${second}, together ${together} instead of 180°, so that it ${isHollow ? 'has a notch' : 'comes to a point'} there.`),
  'smooth-laid': entry<{ seam: string }>('error', ({ seam }) => `“${seam}” lays edges on a piece, where no outline runs on from one to the other. Leave “smooth” out.`),
  'seam-twisted': entry<{ first: string; second: string }>('error', ({ first, second }) =>
    `Sewn in this order, ${first} and ${second} are twisted: another seam of these pieces, or their being one piece, asks for the ends the other way round. Name the edges of one run in the opposite order.`),
  'wrong-hand': entry<{ piece: string; seam: string; needs: 'as drawn' | 'mirrored' | 'twins' }>('error', ({ piece, seam, needs }) => needs === 'twins'
    ? `“${seam}” joins two of “${piece}”, one of each hand, but they are all cut the same way round. Cut them as twins.`
    : needs === 'mirrored' ? `To be sewn as “${seam}” says, “${piece}” must be cut mirrored here.`
      : `To be sewn as “${seam}” says, “${piece}” must be cut as it is drawn here, not mirrored.`),
  'edges-left': entry<{ piece: string; edges: readonly string[]; parts: readonly string[]; example: string }>('note', ({ piece, edges, parts, example }) =>
    `Nothing is said of what becomes of ${[...edges, ...parts.map((edge) => `part of ${edge}`)].join(', ')} of “${piece}”: name ${edges.length + parts.length === 1 ? 'it' : 'them'} in a seam, or say so here, as in edge ${example} raw.`),
  'finish-sewn': entry<{ edge: string; finish: string; seam: string }>('warning', ({ edge, finish, seam }) => `“${edge}” is sewn from end to end by the seam “${seam}”, so it can’t be ${finish} too. Leave this line out, or end the seam before.`),
  'hem-too-wide': entry<{ edge: string; hem: string; allowance: string }>('error', ({ edge, hem, allowance }) => `A hem of ${hem} is turned into the allowance, but “${edge}” has ${allowance}.`),
  'hem-turned-once': entry<{ edge: string; hem: string; material: string }>('note', ({ edge, hem, material }) => `This hem takes all of the allowance of “${edge}”, ${hem}, so nothing is left to turn under, and the cut edge of “${material}” lies open inside. Give it a wider allowance, unless that edge is overcast.`),
  'caught-nowhere': entry<{ edge: string; hem: string; why: 'not hemmed' | 'no allowance' | 'lengths'; length: string; hemLength: string }>('error', ({ edge, hem, why, length, hemLength }) => why === 'not hemmed'
    ? `“${hem}” isn’t hemmed, so nothing can be caught in its hem. Say how wide it is, as in hemmed 3/4.`
    : why === 'no allowance' ? `“${edge}” has no allowance, so nothing of it reaches into the hem of “${hem}”. Give it one as wide as is folded in.`
    : `“${edge}” is ${length} long and “${hem}”, in whose hem it is caught, ${hemLength}: both are folded together, so they must be as long.`),
  'stitched-raw': entry<{ edge: string; allowance: string }>('warning', ({ edge, allowance }) => `Topstitching is measured from the stitching line, but “${edge}” is left as it is cut, ${allowance} outside of that. Say “allowance ${edge} none”, or finish the edge.`),
  'zip-misfit': entry<{ zip: string; finished: string; window: string; length: string }>('error', ({ zip, finished, window, length }) => `“${zip}” is ${finished} from stop to stop, but the window “${window}” that takes it is ${length} long.`),
  'zip-too-long': entry<{ zip: string; finished: string; edges: readonly string[]; side: string }>('error', ({ zip, finished, edges, side }) => `“${zip}” is ${finished} from stop to stop, but the opening that takes it, ${edges.join(', ')}, is ${side} along each side.`),
  'casing-too-narrow': entry<{ edge: string; hem: string; supply: string; across: string }>('error', ({ edge, hem, supply, across }) => `The hem of “${edge}” is ${hem} wide, and “${supply}”, which runs through it, ${across}: it must be wider.`),
  'elastic-too-long': entry<{ elastic: string; length: string; along: string; edges: readonly string[] }>('error', ({ elastic, length, along, edges }) => `“${elastic}” is ${length} long, no shorter than what it runs through, ${edges.join(', ')}, which is ${along} long: it gathers nothing.`),
  'binding-too-short': entry<{ binding: string; length: string; needed: string; edges: readonly string[] }>('error', ({ binding, length, needed, edges }) => `“${binding}” is ${length} long, but what is bound with it, ${edges.join(', ')}, is ${needed} long on all that is cut.`),
  'rims-differ': entry<{ supply: string; outside: readonly string[]; outsideLength: string; lining: readonly string[]; liningLength: string }>('warning', ({ supply, outside, outsideLength, lining, liningLength }) =>
    `“${supply}” goes round the outside and the lining, but the outside’s opening, ${outside.join(', ')}, is ${outsideLength} round and the lining’s, ${lining.join(', ')}, is ${liningLength}.`),

  // The order of work
  'nothing-to-do': entry<{ name: string; what: 'edge' | 'layers' | 'folds' }>('error', ({ name, what }) => what === 'layers'
    ? `“${name}” has no layers to put on.`
    : what === 'folds' ? `Nothing says how “${name}” is folded. Say so in the piece, as in folded middle.`
    : `Nothing becomes of “${name}” by itself. If a seam sews it, name that seam here.`),
  'done-twice': entry<{ name: string }>('error', ({ name }) => `“${name}” is done already.`),
  'not-yet-joined': entry<{ seam: string; one: string; other: string }>('error', ({ seam, one, other }) =>
    `“${seam}” runs on from “${one}” to “${other}”, but no step before has joined them. Do that first.`),
  'not-yet-finished': entry<{ row: string; needs: string; how: 'sewn' | 'finished' | 'folded' | 'layers' | 'casing' }>('error', ({ row, needs, how }) => {
    const before = { sewn: `“${needs}” sews the edge that “${row}” runs beside`, finished: `“${row}” runs beside “${needs}”, which is finished`, folded: `“${row}” runs beside a fold that “${needs}” makes`, layers: `“${row}” is sewn through “${needs}”, which go on`, casing: `“${row}” runs through the hem of “${needs}”, which is stitched` }[how];
    return `${before} only in a later step. Do that first.`;
  }),
  'dart-open': entry<{ seam: string; dart: string; isPleat: boolean }>('error', ({ seam, dart, isPleat }) => `“${seam}” runs over the ${isPleat ? 'pleat' : 'dart'} “${dart}”, which no step before has ${isPleat ? 'laid' : 'closed'}. Do that first.`),
  'too-late': entry<{ name: string; sewn: string; by: 'round' | 'down' | 'ends' | 'edge' | 'seam'; closing: readonly string[] }>('error', ({ name, sewn, by, closing }) => {
    const seams = andList(closing.map((seam) => `“${seam}”`));
    if (by === 'edge') return `By then “${sewn}” is sewn by ${seams}, so “${name}” can’t be caught in that any more. Do it in an earlier step, or sew ${seams} later.`;
    if (by === 'seam') return `By then “${sewn}” is sewn by ${seams}, and quilting runs over all of “${sewn}” from edge to edge, so “${name}” can’t be done any more. Do it in an earlier step, before any seam of “${sewn}”.`;
    return `By then “${sewn}” is sewn ${by === 'down' ? 'down' : 'to other pieces all round'}, so “${name}” can’t be done any more. Do it in an earlier step${closing.length === 0 ? '' : `, or sew ${seams} later, such as where a lining is dropped in`}.`;
  }),
  'supply-too-late': entry<{ supply: string; piece: string; isByEnds: boolean }>('warning', ({ supply, piece, isByEnds }) => isByEnds
    ? `By then the ends of “${piece}” are sewn, so “${supply}” may not go on any more. Set it in an earlier step, or in the one that sews them.`
    : `By then “${piece}” is sewn to other pieces all round, so “${supply}” may be out of reach. Set it in an earlier step, or in the one that closes it.`),
  'step-idle': entry<{ names: readonly string[] }>('warning', ({ names }) => `${names.length === 1 ? `“${names[0] ?? ''}”, which this step does, isn’t there` : `Nothing that this step does is there: neither ${names.map((name) => `“${name}”`).join(' nor ')}`}, and the step is told all the same. Say “when” it is done.`),
  'left-out': entry<{ names: readonly string[] }>('error', ({ names }) => `No step does ${andList(names.map((name) => `“${name}”`))}. Name ${names.length === 1 ? 'it' : 'them'} after “does” in the step that does, as in step "…" does ${names.join(', ')}.`),

  // The designer's own checks
  'check-failed': entry<{ message: string }>('error', ({ message }) => message),
  'folded-room': entry<{ holder: string; piece: string; line: string }>('warning', ({ holder, piece, line }) =>
    `Whether “${holder}” has this room isn’t known, since the fold line “${line}” runs through it and what is measured is ${piece === holder ? 'the piece' : 'the line'} opened out. Say that it is folded (folded ${line}), or draw the room that is left once it is folded as a line, and check that: “${piece}.room holds …”.`),
  'needless-check': entry<object>('note', () => 'Both sides of this check are the same, so it can’t fail.'),
} as const;

export type Catalogue = typeof catalogue;
export type Code = keyof Catalogue;
