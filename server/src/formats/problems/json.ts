import type { ProblemList } from './problem-list.ts';

/** Rises where a reader of an earlier one would be misled. */
const version = 1;

/** Problems for other programs, with their places in lines and columns from 1; columns count UTF-16 code units. */
export const toJson = ({ files, problems }: ProblemList): string => `${JSON.stringify({ format: 'piecewright check', version, files, problems }, null, 2)}\n`;
