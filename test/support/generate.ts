/**
 * A large, valid spec for measuring: choices, values that need values, materials, pieces drawn and derived, supplies
 * and checks. The same line count always gives the same text. All names and sizes are invented.
 */
export function generateSpec(lines: number): string {
  const out: string[] = [
    '# A spec made for measuring.',
    'pattern "Large order"',
    'revision 1',
    'unit in',
    'step 1/8',
    'currency "EUR"',
    'allowance 3/8',
    '',
    'sizes S, M, L',
    'choice closing is tab or zip',
    '',
    ...materials,
    '',
    'length base = 6 in for S, 7 in for M, 8 in for L',
    'count layers = 2',
    '',
  ];
  for (let group = 0; out.length < lines; group++) out.push(...groupOf(group));
  return `${out.join('\n')}\n`;
}

const materials: readonly string[] = [
  'material canvas "Waxed canvas" {', '  role main', '  width 58 in usable 56 in', '  bought in lengths of 1/8 yd', '  shrinks 2%', '  price 18.50 per yd', '}', '',
  'material poplin "Cotton poplin" {', '  role lining', '  width 44 in usable 42 in', '  bought in lengths of 1/8 yd', '}', '',
  'material crisp "Woven fusible" {', '  role fusible', '  weight light', '  width 20 in', '  bought in lengths of 1/4 yd', '}', '',
  'material board "Fusible stabiliser" {', '  role stabiliser', '  width 20 in', '  faces glued', '  bought in sheets of 20 in by 36 in', '}',
];

/** Forty-five lines that lean on the file's own values and on each other. */
function groupOf(index: number): readonly string[] {
  const n = String(index);
  const eighths = (index % 7) + 1;
  return [
    `# ---- group ${n}`,
    `length w${n} = base + ${eighths}/8`,
    `length h${n} = w${n} / 2 + 1${index === 0 ? '' : ` + (w${String(index - 1)} - base)`}`,
    `length row${n} = round(h${n} / 3, 1/8)`,
    '',
    `piece front${n} "Front ${n}" {`,
    `  outline rectangle w${n} by h${n}`,
    '  corner bottom round 1/2',
    '  line core = inset 1/2',
    `  foldline spine = upright at w${n} / 2`,
    `  placement spot = rectangle 1 by 1 at w${n} / 2 - 1/2, h${n} / 2 - 1/2`,
    `  mark snap for snap 14 mm at w${n} / 2, h${n} / 2`,
    '  notch top at 50%',
    '  grain up',
    '  cut 1 canvas',
    '  cut 1 crisp',
    '  cut 1 board along core note "Score along the spine."',
    '}',
    '',
    `piece lining${n} "Lining ${n}" from front${n} {`,
    '  cut layers poplin',
    '  cut layers crisp sized 3 in by 2 in',
    '}',
    '',
    `piece pocket${n} "Pocket ${n}" {`,
    `  outline rectangle w${n} by row${n} * 2`,
    '  on fold top',
    `  foldline row = level at row${n}`,
    '  grain up or across',
    '  cut 1 poplin on fold',
    '}',
    '',
    `piece flap${n} "Flap ${n}" when closing is tab {`,
    '  outline path from 0, 0 {',
    '    line to 3, 0 as lower',
    '    arc to 3, 1 1/4 through 3 5/8, 5/8 as nose',
    '    line to 0, 1 1/4 as upper',
    '    close as root',
    '  }',
    '  cut 2 canvas',
    '}',
    '',
    `supply snap${n} "Snap ${n}" {`,
    '  kind snap',
    '  across 14 mm',
    `  at front${n}.snap`,
    '}',
    `check front${n}.top matches lining${n}.top within 1/16`,
    `check row${n} < h${n} else warning "The pocket is too high"`,
    '',
  ];
}
