import { functions } from '../model/evaluate.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { contextAt, type TextContext } from './context.ts';

export interface Signature {
  readonly label: string;
  readonly documentation: string;
  /** Each a range of the label. */
  readonly parameters: readonly { readonly start: number; readonly end: number; readonly documentation: string }[];
  /** The parameter that the cursor is at; undefined beyond the last. */
  readonly active: number | undefined;
}

/** The form of the function or statement that is being written at an offset. */
export function signature(snapshot: Snapshot, offset: number): Signature | undefined {
  const context = contextAt(snapshot, offset);
  if (context.within === 'comment') return undefined;
  const written = context.before + context.word;
  return callSignature(written) ?? formSignature(context, written);
}

// ------------------------------------------------------------------------------------------------ functions

function callSignature(written: string): Signature | undefined {
  let depth = 0;
  let commas = 0;
  for (let index = written.length - 1; index >= 0; index--) {
    const letter = written.charAt(index);
    if (letter === ')') depth++;
    else if (letter === ',' && depth === 0) commas++;
    else if (letter === '(' && depth-- === 0) {
      const name = /[\p{L}_][\p{L}\p{M}\p{N}_]*$/u.exec(written.slice(0, index))?.[0];
      const known = name !== undefined && Object.hasOwn(functions, name) ? functions[name] : undefined;
      if (known === undefined) {
        // Brackets that only group: the call may be further out.
        depth = 0;
        commas = 0;
        continue;
      }
      const parameters = [...known.usage.matchAll(/(?<=[(\s])[^,()\s]+(?=[,)])/g)].map((match) => ({ start: match.index, end: match.index + match[0].length, documentation: '' }));
      // What may be repeated stays at its last parameter.
      const active = known.usage.includes('…') ? Math.min(commas, parameters.length - 1) : commas;
      return { label: known.usage, documentation: known.doc, parameters, active: active < parameters.length ? active : undefined };
    }
  }
  return undefined;
}

// ------------------------------------------------------------------------------------------------ statements

interface Form {
  readonly block: TextContext['block'];
  readonly start: RegExp;
  readonly documentation: string;
  /** Parts of the form with what each means; words between parts stand for themselves. */
  readonly parts: readonly (string | { readonly part: string; readonly meaning: string; readonly after: RegExp })[];
}

const value = String.raw`[^",{}]+?`;
const part = (text: string, meaning: string, after: string): Exclude<Form['parts'][number], string> => ({ part: text, meaning, after: new RegExp(after.replaceAll('VALUE', value), 'u') });

const position = 'x, y';
const forms: readonly Form[] = [
  { block: 'piece', start: /^cut\s/, documentation: 'Says how many are cut from a material.', parts: [
    'cut ', part('COUNT', 'how many, a whole number', '^cut\\s+'), ' ', part('MATERIAL', 'what it is cut from', '^cut\\s+\\S+(?:\\s*[+*/-]\\s*\\S+)*\\s+'), ' ',
    part('[along LINE]', 'the line that it is cut along, in place of the cutting line', '^cut\\s+\\S+(?:\\s*[+*/-]\\s*\\S+)*\\s+[^\\s+*/-]+\\s+'), ' ',
    part('[twins | mirrored]', 'in pairs, or all flipped', '\\b(?:twins|mirrored)'), ' ',
    part('[on fold]', 'with the fold edge on a fold of the cloth', '\\bon\\s+fold'), ' ',
    part('[without WINDOW]', 'windows that are left out', '\\bwithout\\s'), ' ',
    part('[sized W by H]', 'a size of its own', '\\bsized\\s'), ' ',
    part('[large by SIZE]', 'how much larger all round', '\\blarge\\s'), ' ',
    part('[when CONDITION]', 'in which sizes and choices', '\\bwhen\\s'), ' ',
    part('[note "…"]', 'shown in the cutting table', '\\bnote\\s'),
  ] },
  { block: 'piece', start: /^notch\s/, documentation: 'Sets a notch on an edge.', parts: [
    'notch ', part('EDGE', 'the edge that it is on', '^notch\\s+'), ' at ', part('PLACE', 'a length along the edge, or a share of it such as 50%', '\\bat\\s'), ' ',
    part('[from start | end]', 'the end that is measured from', '\\bat\\s+VALUE\\s+(?=from|$)'),
  ] },
  { block: 'piece', start: /^corner\s/, documentation: 'Changes corners of a rectangle.', parts: [
    'corner ', part('WHICH', 'all, a side or one corner', '^corner\\s+'), ' ', part('round | chamfer | box', 'how', '^corner\\s+\\S+\\s+'), ' ',
    part('SIZE', 'the radius, or how much is cut off', '^corner\\s+\\S+\\s+\\S+\\s+'), ' ', part('[by SIZE]', 'how much along the other side', '\\bby\\s'),
  ] },
  { block: 'piece', start: /^(?:mark|drill)\s/, documentation: 'Sets a mark.', parts: [
    'mark ', part('NAME', 'its name', '^(?:mark|drill)\\s+'), ' ', part('[for snap SIZE]', 'the diameter of the snap that it is for', '\\bfor\\s'), ' at ', part(position, 'where, from the piece’s lower left', '\\bat\\s'),
  ] },
  { block: 'piece', start: /^allowance\s/, documentation: 'Sets the seam allowance.', parts: [
    'allowance ', part('[EDGE]', 'one edge only', '^allowance\\s+'), ' ', part('SIZE | none', 'how wide', '^allowance\\s+(?:[\\p{L}_]\\S*\\s+|[\\d.])'), ' ', part('[mitred | bevelled | rounded]', 'how its corners are made', '^allowance\\s+.*\\d\\s+|\\b(?:mitred|bevelled|rounded)'),
  ] },
  { block: 'piece', start: /\brectangle\s/, documentation: 'A rectangle.', parts: [
    'rectangle ', part('WIDTH', 'from left to right', '\\brectangle\\s'), ' by ', part('HEIGHT', 'from bottom to top', '\\bby\\s'), ' ', part('[at x, y | centred at x, y]', 'where its lower left corner, or its middle, is', '\\bat\\s'),
  ] },
  { block: 'piece', start: /\bellipse\s/, documentation: 'An ellipse.', parts: [
    'ellipse ', part('WIDTH', 'from left to right', '\\bellipse\\s'), ' by ', part('HEIGHT', 'from bottom to top', '\\bby\\s'), ' ', part('[at x, y | centred at x, y]', 'where its lower left corner, or its middle, is', '\\bat\\s'),
  ] },
  { block: 'piece', start: /\binset\s/, documentation: 'A smaller copy.', parts: [
    'inset ', part('DISTANCE', 'how far in', '\\binset\\s'), ' ', part('[except EDGE DISTANCE]', 'edges with a distance of their own', '\\bexcept\\s'), ' ', part('[from cutting | stitching]', 'the line that is measured from', '\\bfrom\\s'),
  ] },
  { block: 'path', start: /^line\s/, documentation: 'Goes straight to a point.', parts: ['line to ', part(position, 'the point', '\\bto\\s'), ' ', part('[as NAME]', 'the edge’s name', '\\bas\\s')] },
  { block: 'path', start: /^arc\s/, documentation: 'Goes to a point on part of a circle.', parts: [
    'arc to ', part(position, 'the point', '\\bto\\s'), ' ', part('through x, y | radius SIZE left | right', 'a point on the way, or the radius and the side that it turns to', '\\b(?:through|radius)\\s'), ' ', part('[as NAME]', 'the edge’s name', '\\bas\\s'),
  ] },
  { block: 'path', start: /^curve\s/, documentation: 'Goes to a point on a curve.', parts: [
    'curve to ', part(position, 'the point', '\\bto\\s'), ' by ', part(position, 'the first control point', '\\bby\\s'), ' and ', part(position, 'the second control point', '\\band\\s'), ' ', part('[as NAME]', 'the edge’s name', '\\bas\\s'),
  ] },
  { block: 'file', start: /^thing\s/, documentation: 'Something that a piece must hold.', parts: [
    'thing ', part('NAME', 'its name', '^thing\\s+'), ' ', part('["TITLE"]', 'its title', '^thing\\s+\\S+\\s+'), ' = ', part('WIDTH', 'its width', '=\\s*'), ' by ', part('HEIGHT', 'its height', '\\bby\\s'),
  ] },
  { block: 'file', start: /^check\s.*\bmatches\s/, documentation: 'Both lengths must be the same.', parts: [
    'check ', part('LENGTH', 'the one length', '^check\\s'), ' matches ', part('LENGTH', 'the other', '\\bmatches\\s'), ' ', part('[eased by SIZE]', 'how much longer the first is', '\\beased\\s'), ' ',
    part('[within SIZE]', 'the difference that is allowed', '\\bwithin\\s'), ' ', part('[when CONDITION]', 'in which sizes and choices', '\\bwhen\\s'), ' ', part('[else error | warning | note "…"]', 'how a failure is told', '\\belse\\s'),
  ] },
  { block: 'file', start: /^check\s.*\bclears\s/, documentation: 'One line must keep away from another.', parts: [
    'check ', part('PIECE.LINE', 'the inner line', '^check\\s'), ' clears ', part('PIECE.LINE', 'the outer line', '\\bclears\\s'), ' by ', part('SIZE', 'at least so much', '\\bby\\s'),
  ] },
  { block: 'file', start: /^check\s.*\bholds\s/, documentation: 'There must be room for a thing.', parts: [
    'check ', part('PIECE', 'what holds it: a piece, or a line in it', '^check\\s'), ' holds ', part('THING | W by H', 'what it holds', '\\bholds\\s'), ' ', part('[with ease SIZE]', 'room to spare', '\\bwith\\s'),
  ] },
  { block: 'material', start: /^bought\s/, documentation: 'How it is sold.', parts: ['bought in ', part('lengths | panels | sheets', 'the form', '\\bin\\s'), ' of ', part('SIZE', 'the step of length, or the width', '\\bof\\s'), ' ', part('[by HEIGHT]', 'of panels and sheets', '\\bby\\s')] },
  { block: 'material', start: /^width\s/, documentation: 'How wide the cloth is.', parts: ['width ', part('SIZE', 'from selvedge to selvedge', '^width\\s'), ' ', part('[usable SIZE]', 'what can be cut from', '\\busable\\s')] },
  { block: 'material', start: /^shrinks\s/, documentation: 'How much it shrinks in the wash.', parts: ['shrinks ', part('SHARE', 'along the grain', '^shrinks\\s'), ' ', part('[by SHARE]', 'across it', '\\bby\\s')] },
];

function formSignature({ block }: TextContext, written: string): Signature | undefined {
  const form = forms.find((one) => one.block === block && one.start.test(written));
  if (form === undefined) return undefined;
  let label = '';
  let active: number | undefined;
  const parameters: { start: number; end: number; documentation: string }[] = [];
  for (const one of form.parts) {
    if (typeof one === 'string') {
      label += one;
      continue;
    }
    if (one.after.test(written)) active = parameters.length;
    parameters.push({ start: label.length, end: label.length + one.part.length, documentation: one.meaning });
    label += one.part;
  }
  return { label, documentation: form.documentation, parameters, active };
}
