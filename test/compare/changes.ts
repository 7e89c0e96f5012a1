/** Invented materials that the case below is cut from, shared as a studio shares them. */
export const materials = `material canvas "Canvas" {
  role main
  width 44 in usable 42 in
  price 12 per yd
}
material lining "Lining" {
  role lining
  width 44 in usable 42 in
  price 8 per yd
}
material foam "Foam" {
  role foam
  width 58 in
}
`;

/** An invented case for spectacles, in two sizes, with one choice. */
export const spec = `# A case for spectacles.
pattern "Glasses case"
revision 1
unit in
step 1/8
currency "EUR"
allowance 3/8
use "stock.piece"

sizes S, L
choice lid is flap or zip

length case_w = 3 1/2 for S, 4 for L
length case_h = 7
length pad = 1/2

piece body "Body" {
  outline rectangle case_w by case_h
  corner top round 3/4
  drawn to stitching
  line padding = inset pad
  notch left at 50%
  grain up
  cut 2 canvas
  cut 2 foam along padding
}

piece inside "Inside" {
  outline rectangle case_w by case_h
  drawn to stitching
  grain up
  cut 2 lining
}

piece flap "Flap" {
  outline rectangle case_w by 3
  drawn to stitching
  grain up
  cut 2 canvas when lid is flap
}

supply zip "Zip" {
  kind zip
  finished case_w
  from closed 6
  count 1 for zip, 0 for flap
}

check body.padding clears body.cutting by 1/2
check inside.top matches body.bottom
`;

/** What is changed, and how the texts say so. */
export interface Branch {
  readonly name: string;
  readonly spec?: (text: string) => string;
  readonly materials?: (text: string) => string;
}

const replaced = (from: string, to: string) => (text: string): string => {
  if (!text.includes(from)) throw new Error(`There is no ${from} to change.`);
  return text.replaceAll(from, to);
};
const raised = (change: (text: string) => string) => (text: string): string => replaced('revision 1', 'revision 2')(change(text));

/** The pieces in another order, and what they need below them. */
const reordered = (text: string): string => {
  const [head = '', ...parts] = text.split(/\n(?=piece |supply |check |length )/);
  return [head, ...parts.reverse()].join('\n');
};

export const branches: readonly Branch[] = [
  { name: 'piece-added', spec: raised((text) => `${text}\npiece strap "Strap" {\n  outline rectangle 2 by 12\n  grain up\n  cut 1 canvas\n}\n`) },
  { name: 'piece-removed', spec: raised((text) => text.replace(/piece inside[^}]*}\n\n/, '').replace('check inside.top matches body.bottom\n', '')) },
  { name: 'piece-renamed', spec: (text) => replaced('piece inside "Inside"', 'piece inner "Pocket"')(text).replace('inside.top', 'inner.top') },
  { name: 'value-renamed', spec: replaced('case_h', 'tall') },
  { name: 'resized', spec: raised(replaced('3 1/2 for S', '3 3/4 for S')) },
  { name: 'allowance', spec: raised(replaced('allowance 3/8', 'allowance 1/2')) },
  { name: 'material', spec: raised(replaced('cut 2 lining', 'cut 2 canvas')) },
  { name: 'count', spec: raised(replaced('cut 2 foam', 'cut 4 foam')) },
  { name: 'supply', spec: raised(replaced('from closed 6', 'from closed 7')) },
  { name: 'choice-added', spec: raised((text) => replaced('cut 2 canvas\n  cut 2 foam', 'cut 2 canvas\n  cut 2 foam along padding when padded is yes\n  cut 0 foam')(replaced('sizes S, L', 'sizes S, L\nchoice padded is yes or no')(text)).replace('cut 0 foam along padding\n', '')) },
  { name: 'size-added', spec: raised((text) => replaced('4 for L', '4 for L, 5 for XL')(replaced('sizes S, L', 'sizes S, L, XL')(text))) },
  { name: 'shared-list', materials: replaced('usable 42 in\n  price 12', 'usable 40 in\n  price 14') },
  { name: 'notch-moved', spec: raised(replaced('notch left at 50%', 'notch left at 40%')) },
  { name: 'formatting', spec: (text) => text.replace(/^ {2}/gm, '\t ').replaceAll(' by ', '   by  ').replaceAll('\n', '\r\n') },
  { name: 'reordering', spec: reordered, materials: (text) => text.split(/\n(?=material )/).map((part) => part.trimEnd()).reverse().join('\n') },
  { name: 'comment', spec: (text) => replaced('length pad = 1/2', 'length pad = 1/2  # out of the seam')(text) },
  { name: 'raised-only', spec: replaced('revision 1', 'revision 2') },
  { name: 'not-raised', spec: replaced('length case_h = 7', 'length case_h = 7 1/4') },
  { name: 'lowered', spec: (text) => replaced('revision 1', 'revision 0')(text) },
  { name: 'check-broken', spec: raised(replaced('length pad = 1/2', 'length pad = 1/4')) },
  { name: 'problem', spec: (text) => `${text}\nlength spare = 3\n` },
  { name: 'error', spec: (text) => replaced('length pad = 1/2', 'length pad = 1/2 in + 3 deg')(text) },
  { name: 'titles-moved', spec: (text) => text.replace('"Inside"', '"X"').replace('"Flap"', '"Inside"').replace('"X"', '"Flap"') },
];
