import { describe, expect, test } from 'vitest';
import { signature } from '../../server/src/language/signature.ts';
import { marked } from '../support/marked.ts';
import { pouch, materials } from '../support/pouch.ts';

const others = { 'materials.piece': materials };

type Block = 'piece' | 'path' | 'material' | 'supply' | 'file';

const opened: Readonly<Record<Block, string>> = {
  piece: 'piece x "X" {\n  ', path: 'piece x "X" {\n  outline path from 0, 0 {\n    ', material: 'material x "X" {\n  ', supply: 'supply x "X" {\n  ', file: '',
};

/** The form that is shown at the end of a line, with the part that is being written in brackets of its own. */
function shown(block: Block, line: string): string {
  const { snapshot, offset } = marked(`${pouch}${opened[block]}${line}|`, others);
  const found = signature(snapshot, offset);
  const active = found?.parameters[found.active ?? -1];
  if (found === undefined || active === undefined) return found?.label ?? '';
  return `${found.label.slice(0, active.start)}‹${found.label.slice(active.start, active.end)}›${found.label.slice(active.end)}`;
}

const check = (block: Block, line: string, form: string): void => expect(shown(block, line), line).toContain(form);

describe('shapes', () => {
  test('rectangle, circle and ellipse', () => {
    check('piece', 'outline rectangle ', 'rectangle ‹WIDTH› by HEIGHT');
    check('piece', 'outline rectangle 3 by ', 'by ‹HEIGHT›');
    check('piece', 'outline circle across ', 'circle across ‹DIAMETER› [from');
    check('piece', 'outline circle across 5 from 0 to ', '‹[from ANGLE to ANGLE [through middle]]›');
    check('piece', 'placement x = ellipse 3 by 4 centred at ', '‹[at x, y | centred at x, y]›');
  });
  test('polygon, path and points', () => {
    check('piece', 'outline polygon from ', 'polygon from ‹x, y› to x, y [to x, y …]');
    check('piece', 'outline polygon from 0, 0 to ', 'from x, y to ‹x, y›');
    check('piece', 'outline polygon from 0, 0 to 1, 0 to ', '‹[to x, y …]›');
    check('piece', 'outline path from ', 'path from ‹x, y› {');
    check('piece', 'line x = from 1, 1 to ', 'from x, y to ‹x, y› [to x, y …]');
  });
  test('lines right across, and insets', () => {
    check('piece', 'foldline x = level at ', 'level at ‹HEIGHT›');
    check('piece', 'placement x = upright at ', 'upright at ‹DISTANCE›');
    check('piece', 'line x = inset 1/2 except ', 'inset DISTANCE ‹[except EDGE DISTANCE, …]›');
  });
  test('before the shape, the form of the line', () => {
    check('piece', 'placement ', 'placement ‹NAME› ["TITLE"] = rectangle |');
    check('piece', 'foldline x = ', 'foldline NAME ["TITLE"] = ‹rectangle |');
    check('piece', 'line inset = ', 'line NAME ["TITLE"] = ‹rectangle |');
    check('piece', 'outline ', 'outline ‹rectangle |');
  });
});

test('lines of a piece', () => {
  check('piece', 'edge ', 'edge ‹EDGE› as NAME');
  check('piece', 'edge top as ', 'edge EDGE as ‹NAME›');
  check('piece', 'on fold ', 'on fold ‹EDGE›');
  check('piece', 'grain ', 'grain ‹up | across | bias | none | ANGLE› [or across]');
  check('piece', 'grain up ', '‹[or across]›');
  check('piece', 'cut 1 canvas on right side of ', '‹[on right side | on wrong side [of CLOTH]]›');
  check('piece', 'drill x at ', 'drill NAME ["TITLE"] [for snap SIZE] at ‹x, y›');
  check('piece', 'allowance top 1 ', '‹[mitred | bevelled | rounded | turned back]›');
});

test('steps of a path', () => {
  check('path', 'line to ', 'line to ‹x, y› [as NAME]');
  check('path', 'arc to 1, 1 ', 'arc to x, y ‹through x, y | radius SIZE left | right›');
  check('path', 'arc to 1, 1 radius ', 'arc to x, y radius ‹SIZE› left | right [as NAME]');
});

test('facts of a material and of a supply', () => {
  check('material', 'role ', 'role ‹main | accent | lining | fusible | stabiliser | foam | non-fray›');
  check('material', 'direction ', 'direction ‹two ways | one way | any›');
  check('material', 'price ', 'price ‹AMOUNT› per');
  check('material', 'price 9 per ', 'per ‹yd | m | ft | panel | sheet | each');
  check('supply', 'price 9 per ', 'per ‹yd | m | ft | panel | sheet | each');
  check('supply', 'count ', 'count ‹COUNT›');
  check('supply', 'at ', 'at ‹PIECE.MARK›');
  check('supply', 'at front.catch, ', '‹[, PIECE.MARK …]›');
  check('supply', 'from ', 'from ‹closed | tape› SIZE');
  check('supply', 'from tape ', 'from closed | tape ‹SIZE›');
  check('supply', 'from tape 6', 'from closed | tape ‹SIZE›');
});

test('first lines', () => {
  check('file', 'material ', 'material ‹NAME› ["TITLE"] {');
  check('file', 'material x ', 'material NAME ‹["TITLE"]› {');
  check('file', 'supply x "X" when ', '‹[when CONDITION]› {');
  check('file', 'piece x "X" from ', '‹[from PIECE]›');
  check('file', 'piece x from front ', '[from PIECE] ‹[mirrored]› [inset DISTANCE] [above | below');
  check('file', 'piece x from front above core when ', '‹[when CONDITION]› {');
  check('file', 'piece x "Taken from front when wet" ', '["TITLE"] ‹[from PIECE]›');
});

test('sizes, choices, values and the pattern’s allowance', () => {
  check('file', 'sizes ', 'sizes ‹SIZE›');
  check('file', 'sizes S, ', '‹[, SIZE …]›');
  check('file', 'choice ', 'choice ‹NAME› ["TITLE"] is OPTION ["TITLE"] or OPTION …');
  check('file', 'choice x is ', 'is ‹OPTION ["TITLE"]›');
  check('file', 'choice x is a or ', '‹or OPTION …›');
  check('file', 'length ', 'length ‹NAME› = FORMULA');
  check('file', 'length x = ', 'length NAME = ‹FORMULA›');
  check('file', 'length x = 3 for ', '‹[for OPTION]›');
  check('file', 'length x = 3 for S, ', '‹[, FORMULA for OPTION …]›');
  check('file', 'ratio x = 3 for S, 4 otherwise', '‹[, FORMULA otherwise]›');
  check('file', 'allowance ', 'allowance ‹SIZE | none›');
  check('file', 'allowance 3/8 ', '‹[mitred | bevelled | rounded | turned back]›');
});

test('checks', () => {
  check('file', 'check ', 'check ‹LENGTH matches LENGTH | PIECE holds THING');
  check('file', 'check front.hem matches ', 'check LENGTH matches ‹LENGTH›');
  check('file', 'check front.core clears front.cutting by ', 'by ‹SIZE›');
  check('file', 'check front holds card with ease ', '‹[with ease SIZE]›');
  check('file', 'check front mates ', 'check PIECE mates ‹PIECE›');
  check('file', 'check front mates lining else ', '‹[else [error | warning | note] ["MESSAGE"]]›');
});

test('functions, also within brackets that only group', () => {
  check('file', 'length x = round_up(base / 2, ', 'round_up(value, ‹step›)');
  check('file', 'length x = max(1, (2 + ', 'max(a, ‹b›, …)');
});

test('what a text says is no statement', () => {
  expect(shown('piece', 'note "Cut round(')).toBe('note ‹"…"›');
  expect(shown('piece', 'cut 1 canvas note "on fold, round(')).toContain('‹[note "…"]›');
});
