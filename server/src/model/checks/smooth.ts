import { report, type Scope } from '../query/scope.ts';
import { bendAt, seamEnds, type RunEnd } from '../seams/corners.ts';
import type { Seam } from '../seams/seam.ts';

/** Where a seam ends smoothly, the angles of both pieces make a straight line; angles worked out along curves are right to this, in degrees. */
const measuring = 0.01;

export function checkSmooth(scope: Scope, seam: Seam): void {
  const { smooth } = seam;
  if (smooth === undefined) return;
  if (seam.way === 'onto') {
    report(scope, 'smooth-laid', smooth.place, { seam: seam.name });
    return;
  }
  for (const one of seamEnds(seam)) {
    const bend = bendAt(one);
    if (!smooth.ends.includes(one.end) || Math.abs(bend) <= smooth.within + measuring) continue;
    report(scope, 'corner-kinked', smooth.place, {
      seam: seam.name, end: one.end, first: cornerText(one.first), second: cornerText(one.second), together: degrees(180 + bend), isHollow: bend > 0,
    }, {
      related: [one.first, one.second].map(({ stretch, beside }) => ({ place: stretch.piece.edgePlaces.get(beside) ?? stretch.piece.place, message: `Its outline goes on along ${beside}.` })),
    });
  }
}

/** `front.side meets front.hem at 80°`, `front.side runs on (180°)`. */
const cornerText = ({ stretch: { piece, edge }, beside, angle }: RunEnd): string =>
  (beside === edge ? `${piece.name}.${edge} runs on (180°)` : `${piece.name}.${edge} meets ${piece.name}.${beside} at ${degrees(angle)}`);

/** Half a degree is more than anybody sews to; what is nearly right is shown finer, so that it doesn't look right. */
const degrees = (angle: number): string => `${Math.round(angle * 10) / 10}°`;
