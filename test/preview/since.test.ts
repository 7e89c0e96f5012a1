import { expect, it } from 'vitest';
import { ghostsOf } from '../../client/preview/since.ts';
import { Draft, wallet } from './specs.ts';

const draft = new Draft();
const saved = draft.data(wallet).pieces;

it('shows nothing of pieces that are as they were saved', () => {
  expect(ghostsOf(saved, draft.data(wallet.replace('# Bias strips', '# One more line.\n# Bias strips')).pieces).size).toBe(0);
});

it('names the sizes that are otherwise, with the outline as it was', () => {
  const ghosts = ghostsOf(saved, draft.data(wallet.replace('length pocket_w = 3 3/4', 'length pocket_w = 4')).pieces);
  expect([...ghosts.keys()]).toEqual(['inside', 'packet_pocket', 'marker_pocket']);
  expect(ghosts.get('inside')).toEqual({ outline: '', words: ['lines or marks changed'] });
  const ghost = ghosts.get('packet_pocket');
  expect(ghost?.words).toEqual(['Cut width 4 1/2 in, was 4 1/4 in', 'Finished width 4 in, was 3 3/4 in']);
  expect(ghost?.outline).toBe(saved.find(({ name }) => name === 'packet_pocket')?.drawing.area.cutting);
});

it('tells of lines that moved within the same outline, of cuts, and of a new piece', () => {
  const lines = ghostsOf(saved, draft.data(wallet.replace('mark strap_left at panel_w', 'mark strap_left at 1/8 + panel_w')).pieces);
  expect([...lines]).toEqual([['wrap', { outline: '', words: ['lines or marks changed'] }]]);
  const cuts = ghostsOf(saved, draft.data(wallet.replace('cut 1 canvas', 'cut 3 canvas')).pieces);
  expect([...cuts.values()][0]?.words[0]).toMatch(/^3 × Cotton canvas.*, was 1 × Cotton canvas/);
  const added = ghostsOf(saved, draft.data(`${wallet}\npiece extra "Extra" {\n  outline rectangle 2 by 2\n  cut 1 canvas\n}\n`).pieces);
  expect([...added]).toEqual([['extra', { outline: '', words: ['new'] }]]);
});
