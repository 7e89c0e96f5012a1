/**
 * A catalogue for measuring: specs of several kinds, each in its own sizes, that share lists of materials as a studio shares
 * them. The same number always gives the same texts. All names and sizes are invented.
 */
export function generateCatalogue(specs: number, lists = 20): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (let list = 0; list < lists; list++) files.set(`stock/list${list}.piece`, materialList(list));
  for (let index = 0; index < specs; index++) {
    const kind = kinds[index % kinds.length] ?? pouch;
    files.set(`line${index % 25}/spec${String(index).padStart(4, '0')}.piece`, kind(index, `stock/list${index % lists}.piece`));
  }
  return files;
}

const eighths = (index: number, most: number): string => `${(index * 7) % most}/8`;

function materialList(list: number): string {
  return `# What is kept in store ${list}.
unit in

material canvas "Canvas ${list}" {
  role main
  width ${54 + (list % 3) * 2} in usable 52 in
  faces differ
  direction two ways
  bought in lengths of 1/8 yd
  shrinks 2%
  price ${12 + list}.50 per yd
}

material poplin "Poplin ${list}" {
  role lining
  width 44 in usable 42 in
  faces differ
  bought in lengths of 1/8 yd
  shrinks 4% by 2%
  price ${8 + list} per yd
}

material crisp "Woven fusible ${list}" {
  role fusible
  weight light
  width 20 in
  faces glued
  direction two ways
  bought in lengths of 1/4 yd
  price 4 per yd
}

material fleece "Sew-in foam ${list}" {
  role foam
  width 58 in
  faces alike
  bought in lengths of 1/4 yd
  price 14 per yd
}

thing card "Card" = 85.60 mm by 53.98 mm  # ISO/IEC 7810, ID-1
`;
}

const head = (title: string, index: number, list: string): string => `# Made for measuring.
pattern "${title} ${index}"
revision ${1 + (index % 4)}
unit in
step 1/8
currency "EUR"
allowance 3/8
use "../${list}"
`;

/** A lined pouch with a zip and a slip pocket. */
const pouch = (index: number, list: string): string => `${head('Pouch', index, list)}
sizes S, L
length pouch_w = 7 ${eighths(index, 8)} for S, 9 ${eighths(index, 8)} for L
length pouch_h = pouch_w * 0.7

piece body "Body" {
  outline rectangle pouch_w by pouch_h
  drawn to stitching
  corner bottom round 3/4
  line core = inset 1/4 from stitching
  notch top at 50%
  grain up
  cut 2 canvas
  cut 2 fleece along core
}

piece lining "Lining" from body {
  placement slip_at = rectangle 4 1/2 by 3 at 1, 1/2
  grain up
  cut 2 poplin
}

piece slip "Slip pocket" {
  outline rectangle 4 1/2 by 3
  drawn to stitching
  allowance top 1
  line room = rectangle 4 by 2 1/2 at 1/4, 1/4
  grain up
  cut 1 poplin
}

piece tab "Tab" {
  outline rectangle 2 by 3
  grain up or across
  cut 2 canvas
}

supply zip "Zip" {
  kind zip
  finished pouch_w
  from closed 12
}

check lining.top matches body.top
check slip.room holds card
check body.core clears body.cutting by 1/2
`;

/** A flat bag with a base, straps and a pocket over its whole width. */
const tote = (index: number, list: string): string => `${head('Tote', index, list)}
choice lined is yes or no
length tote_w = 14 ${eighths(index, 8)}
length tote_h = 15 + ${eighths(index, 5)}
length base_w = 4
length strap_l = 26

piece side "Side" {
  outline rectangle tote_w by tote_h
  corner bottom box base_w / 2
  placement strap_left = rectangle 1 1/2 by 1 1/2 at 3, tote_h - 2
  placement strap_right = rectangle 1 1/2 by 1 1/2 at tote_w - 4 1/2, tote_h - 2
  foldline hem = level at tote_h - 1
  grain up
  cut 2 canvas
}

piece lining "Lining" from side when lined is yes {
  grain up
  cut 2 poplin
}

piece pocket "Pocket" {
  outline rectangle tote_w by 8
  allowance top 1
  foldline mouth = level at 7
  grain up
  cut 1 canvas
  cut 1 crisp sized tote_w by 6 1/2
}

piece strap "Strap" {
  outline rectangle 4 by strap_l
  foldline middle = upright at 2
  grain up or across
  cut 2 canvas
  cut 2 crisp sized 1 3/4 by strap_l
}

piece base "Base" {
  outline rectangle tote_w - base_w by base_w
  grain up or across
  cut 1 fleece
}

supply thread "Thread" {
  kind thread
  count 1
}

check pocket.bottom matches side.width
check strap_l > 20
`;

/** A case round a curved front, drawn as half. */
const holder = (index: number, list: string): string => `${head('Case', index, list)}
choice closing is flap or cord
length case_w = 5 ${eighths(index, 8)}
length case_h = 6 1/2

piece front "Front" {
  outline path from 0, 0 {
    line to case_w / 2, 0 as base
    line to case_w / 2, case_h - 1 as side
    arc to 0, case_h through case_w / 4, case_h - 1/4 as top
    close as centre
  }
  on fold centre
  notch side at 2
  mark eye at 1, case_h - 1 1/2
  grain up
  cut 1 canvas on fold
  cut 1 crisp on fold
}

piece back "Back" from front {
  grain up
  cut 1 canvas on fold
  cut 1 poplin on fold
}

piece flap "Flap" when closing is flap {
  outline rectangle case_w by 3 1/2
  corner bottom round 1
  mark catch for snap 11 mm at case_w / 2, 3/4
  grain up
  cut 1 canvas
  cut 1 poplin
}

piece loop "Loop" when closing is cord {
  outline rectangle 1 1/4 by 4
  grain up or across
  cut 1 canvas
}

supply snap "Snap" when closing is flap {
  kind snap
  across 11 mm
  at flap.catch
}

check front.side matches back.side
check case_w > 4
`;

/** A roll of one long strip with stitched pockets, its edges bound. */
const roll = (index: number, list: string): string => `${head('Roll', index, list)}
count pockets = ${4 + (index % 4)}
length pocket_w = 2 ${eighths(index, 6)}
length roll_h = 11
length roll_w = pockets * pocket_w + 1

piece body "Body" {
  outline rectangle roll_w by roll_h
  allowance none
  foldline flap = level at 9
  mark tie at 1/2, 5
  grain up
  cut 1 canvas
  cut 1 poplin
  cut 1 crisp
}

piece strip "Pocket strip" {
  outline rectangle roll_w by 12
  allowance none
  foldline mouth = level at 6
  placement stitch1 = upright at pocket_w + 1/2
  placement stitch2 = upright at 2 * pocket_w + 1/2
  placement stitch3 = upright at 3 * pocket_w + 1/2
  grain up or across
  cut 1 canvas
}

supply edge_binding "Bias binding" {
  kind binding
  across 1/2
  length 2 * (roll_w + roll_h) + 3
  count 1
}

check body.bottom matches strip.bottom
check 2 * pocket_w >= 3 else warning "A handle needs its way round"
`;

const kinds: readonly ((index: number, list: string) => string)[] = [pouch, tote, holder, roll];
