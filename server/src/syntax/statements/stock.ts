import { by, title, when } from './common.ts';
import { block, declares, either, formula, head, length, list, oneOf, optional, reference, self, statement, way, word, wordAmong, words, type StatementForm } from './elements.ts';
import { directions, facings, holds, irons, permitted, roles, supplyKinds, weights } from './vocabulary.ts';

/** Materials and supplies. */

export const material = statement('material', ['file'], [
  words('material', 'Declares a material that pieces are cut from.', 'material canvas "Canvas" {', 'material ${1:name} "${2:Title}" {\n\trole ${3|main,accent,lining,fusible,stabiliser,foam,non-fray|}\n\twidth ${4:44 in} usable ${5:42 in}\n\t$0\n}'),
  declares('name', 'declared', 'NAME', 'its name'), head(title), block('body', 'material'),
]);

export const supply = statement('supply', ['file'], [
  words('supply', 'Declares something to buy that is not cut from cloth.', 'supply zip "Coil zip" {', 'supply ${1:name} "${2:Title}" {\n\tkind ${3|zip,snap,ring,buckle,webbing,binding,thread,elastic,other|}\n\t$0\n}'),
  declares('name', 'declared', 'NAME', 'its name'), head(title, when), block('body', 'supply'),
]);

const once = { once: true };

export const materialLines: readonly StatementForm[] = [
  statement('role', ['material'], [
    words('role', 'Says what the material is for.', 'role lining', 'role ${1|main,accent,lining,fusible,stabiliser,foam,non-fray|}'),
    wordAmong('word', roles, 'cloth, or a layer that goes on cloth'),
  ], once),
  statement('width', ['material'], [
    words('width', 'Gives the width of the cloth, and how much of it is usable.', 'width 44 in usable 42 in', 'width ${1:44 in} usable ${2:42 in}'),
    length('nominal', 'SIZE', 'from selvedge to selvedge'),
    optional(words('usable', 'Gives the width that can be cut from, between the selvedges.', 'width 44 in usable 42 in'), length('usable', 'SIZE', 'what can be cut from')),
  ], once),
  statement('direction', ['material'], [
    words('direction', 'Says how pieces may lie on it.', 'direction one way', 'direction ${1|two ways,one way,any|}'),
    wordAmong('word', directions, 'along the grain either end up, one end up only, or in any turn'),
  ], once),
  statement('faces', ['material'], [
    words('faces', 'Says whether its two sides differ, are alike, or one has glue.', 'faces glued', 'faces ${1|differ,alike,glued|}'),
    wordAmong('word', facings, 'a right and a wrong side, none, or one with glue'),
  ], once),
  statement('weight', ['material'], [
    words('weight', 'Says how heavy it is.', 'weight light', 'weight ${1|light,medium,heavy|}'),
    wordAmong('word', weights, 'how heavy'),
  ], once),
  statement('shrinks', ['material'], [
    words('shrinks', 'Gives its shrinkage along the grain, and across it.', 'shrinks 4% by 2%', 'shrinks ${1:4%} by ${2:2%}'),
    formula('along', 'ratio', 'SHARE', 'along the grain'), optional(by, formula('across', 'ratio', 'SHARE', 'across it')),
  ], once),
  statement('spare', ['material'], [
    words('spare', 'Says how much of a length bought goes into squaring its ends and fraying.', 'spare 2', 'spare ${1:1}'),
    either('how much', way({ size: true }, length('size', 'SIZE', 'how much of each length bought')), way({ size: false }, words('none'))),
  ], once),
  statement('cloth fold', ['material'], [
    words('fold', 'Says how the cloth is folded before it is cut.', 'fold partial 14', 'fold ${1|lengthwise,crosswise,partial 14|}'),
    either(
      'which way',
      way({ way: 'partial' }, words('partial', 'Folds one selvedge in, so that the cloth lies double so far and single beyond.', 'fold partial 14'), length('depth', 'SIZE', 'how wide it lies double, from the fold to the selvedge that is folded in')),
      way({}, oneOf('way', {
        lengthwise: word('lengthwise', 'Folds it in half along its length, selvedge to selvedge.', 'fold lengthwise'),
        crosswise: word('crosswise', 'Folds it in half across its length, end to end.', 'fold crosswise'),
      })),
    ),
  ], once),
  statement('wash', ['material'], [
    words('wash', 'Says whether it may be washed.', 'wash no', 'wash ${1|yes,no|}'), wordAmong('word', permitted, 'whether it may be washed'),
  ], once),
  statement('iron', ['material'], [
    words('iron', 'Says how hot an iron it takes at most: low is one dot, 110 °C; medium two, 150 °C; high three, 200 °C.', 'iron low', 'iron ${1|none,low,medium,high|}'),
    wordAmong('word', irons, 'the hottest iron that it takes'),
  ], once),
  statement('steam', ['material'], [
    words('steam', 'Says whether it may be steamed.', 'steam no', 'steam ${1|yes,no|}'), wordAmong('word', permitted, 'whether it may be steamed'),
  ], once),
  statement('fuse', ['material'], [
    words('fuse', 'Says whether a layer may be fused to it.', 'fuse no', 'fuse ${1|yes,no|}'), wordAmong('word', permitted, 'whether a layer may be fused to it'),
  ], once),
  statement('hold', ['material'], [
    words('hold', 'Says what holds it while it is sewn.', 'hold clips', 'hold ${1|pins,clips|}'), wordAmong('word', holds, 'pins, or clips where pins would leave holes'),
  ], once),
];

export const supplyLines: readonly StatementForm[] = [
  statement('supply kind', ['supply'], [
    words('kind', 'Says what kind of supply it is.', 'kind zip', 'kind ${1|zip,snap,ring,buckle,webbing,binding,thread,elastic,other|}'),
    wordAmong('word', supplyKinds, 'its kind'),
  ], once),
  statement('count', ['supply'], [
    words('count', 'Says how many are needed.', 'count 2', 'count ${1:1}'),
    formula('value', 'count', 'COUNT', 'how many, a whole number', { arms: true }),
  ], once),
  statement('at', ['supply'], [
    words('at', 'Says at which marks it is set.', 'at front.clasp, tab.cap', 'at ${1:piece.mark}'),
    list('marks', [reference(self, 'mark', 'PIECE.MARK', 'a mark of a piece')], ',', { label: '[, PIECE.MARK …]', meaning: 'more marks' }),
  ]),
  statement('length', ['supply'], [
    words('length', 'Gives the length of one.', 'length 24 in', 'length ${1:24 in}'), length('value', 'SIZE', 'how long', { arms: true }),
  ], once),
  statement('across', ['supply'], [
    words('across', 'Gives a snap’s diameter, the inner width of a ring or buckle, or the width of a band.', 'across 14 mm', 'across ${1:14 mm}'),
    length('value', 'SIZE', 'diameter of a snap, inner width of a ring or buckle, width of a band', { arms: true }),
  ], once),
  statement('finished', ['supply'], [
    words('finished', 'Gives the length of a zip once made up, from stop to stop.', 'finished 4', 'finished ${1:4}'), length('value', 'SIZE', 'from stop to stop', { arms: true }),
  ], once),
  statement('from', ['supply'], [
    words('from', 'Says what a zip is made up from: a closed one at least so long, or so much tape.', 'from tape 6', 'from ${1|closed,tape|} ${2:6}'),
    oneOf('source', ['closed', 'tape'], 'a closed zip, or a length of tape'), length('length', 'SIZE', 'how long that must be'),
  ], once),
  statement('packs', ['supply'], [
    words('bought in packs of', 'Says how many are sold together.', 'bought in packs of 10', 'bought in packs of ${1:10}'),
    formula('count', 'count', 'COUNT', 'how many there are in a pack'),
  ], once),
  statement('serves', ['supply'], [
    words('serves', 'Says for how many articles one is enough.', 'serves 6', 'serves ${1:6}'), formula('articles', 'count', 'COUNT', 'how many articles'),
  ], once),
  statement('fits', ['supply'], [
    words('fits', 'Says which strap runs through it.', 'fits strap', 'fits ${1:strap}'), reference('strap', 'strap', 'STRAP', 'a strap'),
  ], once),
];
