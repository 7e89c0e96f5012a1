import type { OpeningRow } from './openings.ts';

/** `24 in round`, `13 cm from end to end`. By itself, since the preview's page says it too and has no need of how openings are found. */
export const roundText = ({ length, isClosed }: Pick<OpeningRow, 'length' | 'isClosed'>): string => `${length.text} ${isClosed ? 'round' : 'from end to end'}`;
