import { groups, type Cause, type Change } from '../compare/change.ts';
import type { Affected, Comparison, Identity } from '../compare/comparison.ts';
import type { Outline, OutlineChange } from '../compare/outlines.ts';
import type { Renaming } from '../compare/renamings.ts';
import type { Discipline } from '../compare/revision.ts';
import type { Point } from '../geometry/shape.ts';
import { arrayOf, isCount, isNumber, isText, isTruth, oneOf, optional, record } from './shapes.ts';

const isGroup = oneOf(...groups);
const isKind = oneOf('added', 'removed', 'changed');
const isCause = record<Cause>({ side: oneOf('old', 'new'), file: isText, line: isCount, text: isText, before: optional(isText) });
const isAmounts = record({ was: isText, now: isText });
const isChange = record<Change>({ group: isGroup, kind: isKind, subject: isText, what: isText, was: isText, now: isText, causes: arrayOf(isCause), pieces: optional(isText), serves: optional(isTruth), amounts: optional(isAmounts), when: optional(isText) });
const isAffected = record<Affected>({ group: isGroup, kind: isKind, subject: isText, what: isText, when: optional(isText) });
const isIdentity = record<Identity>({ file: isText, title: isText, revision: optional(isText), digest: isText, errors: isCount });
const isOutline = record<Outline>({ rings: arrayOf(arrayOf(record<Point>({ x: isNumber, y: isNumber }))), size: isText });

/** Whether something that an earlier run has left is a comparison. */
export const isComparison = record<Comparison>({
  old: isIdentity, new: isIdentity, same: isTruth, changes: arrayOf(isChange), affected: arrayOf(isAffected),
  renamed: arrayOf(record<Renaming>({ kind: oneOf('piece', 'edge', 'material', 'supply'), of: oneOf('title', 'name'), was: isText, now: isText })),
  discipline: optional(record<Discipline>({ severity: oneOf('error', 'note'), code: oneOf('revision-not-raised', 'revision-lowered', 'revision-missing', 'revision-raised-without-change'), message: isText })),
  outlines: arrayOf(record<OutlineChange>({ subject: isText, when: optional(isText), material: isText, was: isOutline, now: isOutline })),
  cautions: arrayOf(isText),
});
