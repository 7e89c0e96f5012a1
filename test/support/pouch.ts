/** A small pattern that has one of everything, for tests of the editor’s features. Names and sizes are invented. */
export const materials = `unit in
material canvas "Canvas" {
  role main
  width 58 in usable 56 in
  bought in lengths of 1/8 yd
}
material crisp "Crisp" {
  role fusible
  width 20 in
}
thing card "Card" = 3 1/2 by 2
`;

export const pouch = `pattern "Pouch"
revision 1
use "materials.piece"
sizes S, L
choice closing is flap or cord
length base = 6 in for S, 8 in for L
length high = base / 2 + 1
count rows = 2
allowance 3/8

piece front "Front" {
  outline rectangle base by high
  edge top as hem
  line core = inset 1/2
  window view = rectangle 2 by 1 at 1, 1
  mark catch for snap 11 mm at 1, 2
  notch hem at 50%
  grain up
  cut 1 canvas
  cut 1 crisp along core without view
}

piece lining "Lining" from front {
  allowance hem 1/4
  cut rows canvas when closing is cord
}

supply catch_set "Catch" {
  kind snap
  across 11 mm
  at front.catch
}

check front.hem matches lining.hem
check front holds card
`;
