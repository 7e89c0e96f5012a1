import type { Resolved } from '../model/pattern.ts';
import { notchesAlong, walkedRuns } from '../model/seams/notches.ts';
import { stretchLength, type Run, type Seam } from '../model/seams/seam.ts';
import { sewingRows } from '../table/sewing.ts';
import { figure } from '../table/figures.ts';
import { showFinely, type Display } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import type { PreviewRun, PreviewWalk } from './drawing-data.ts';
import type { PlaceWriter } from './places.ts';

/** Each seam whose two runs can be laid along each other. */
export function previewWalks(resolved: Resolved, display: Display, { ref }: PlaceWriter): readonly PreviewWalk[] {
  const rows = sewingRows(resolved, display);
  return resolved.seams.flatMap((seam, index): readonly PreviewWalk[] => {
    const [row, runs] = [rows[index], walkedRuns(seam)];
    if (row === undefined || runs === undefined) return [];
    const { declaration } = seam;
    return [{
      title: seam.title,
      span: ref({ chunk: declaration, start: declaration.tree.start, end: declaration.tree.end }),
      runs: [previewRun(runs.first, row.first, display), previewRun(runs.second, row.second, display)],
      ease: row.ease !== '' ? row.ease : unevenWords(seam, display),
    }];
  });
}

function previewRun(run: Run, says: string, display: Display): PreviewRun {
  let behind = 0;
  const corners = run.stretches.slice(0, -1).map((stretch) => (behind += stretchLength(stretch)));
  return { says, text: figure(measured(run.length), display), length: run.length, corners, notches: notchesAlong(run).map(({ at }) => at) };
}

function unevenWords({ first, second, within }: Seam, display: Display): string {
  const off = first.length - second.length;
  return Math.abs(off) <= within ? '' : `${showFinely(measured(Math.abs(off)), display)} too ${off > 0 ? 'long' : 'short'}`;
}
