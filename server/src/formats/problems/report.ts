import { toGithub } from './github.ts';
import { toGitlab } from './gitlab.ts';
import { toJson } from './json.ts';
import { toJunit } from './junit.ts';
import type { ProblemList } from './problem-list.ts';
import { toSarif } from './sarif.ts';

export const reportFormats = ['json', 'sarif', 'junit', 'github', 'gitlab'] as const;
export type ReportFormat = (typeof reportFormats)[number];

const writers: Readonly<Record<ReportFormat, (list: ProblemList) => string>> = { json: toJson, sarif: toSarif, junit: toJunit, github: toGithub, gitlab: toGitlab };

/** Writes problems in one format. */
export const renderReport = (list: ProblemList, format: ReportFormat): string => writers[format](list);
