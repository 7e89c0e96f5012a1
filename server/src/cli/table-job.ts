import { usualOptions } from '../buying/plan.ts';
import { renderTable, type TableFormat } from '../formats/format.ts';
import { reportOf, type FileReport } from '../formats/problems/problem-list.ts';
import type { Pattern } from '../model/pattern.ts';
import type { Grouping } from '../table/sections.ts';
import { wholeTables } from '../table/whole-table.ts';
import { chosenCombinations } from './combinations.ts';
import { readerIn, readSpec, toldPath, type SpecPath } from './files.ts';
import type { Job } from './kept-results.ts';
import { isFileReport } from './report-shape.ts';
import { isText, optional, record } from './shapes.ts';
import { contentOf, patternFrom, type TextReader } from './spec-texts.ts';

/** How the tables of a catalogue are written. */
export interface TableManner {
  readonly format: TableFormat;
  readonly by: Grouping;
  readonly choose: readonly string[];
  readonly all: boolean;
  readonly articles: number;
  readonly effort: number;
}

export interface TableRequest {
  readonly spec: SpecPath;
  readonly manner: TableManner;
}

/** What becomes of one spec. */
export interface WrittenTable {
  readonly report: FileReport;
  /** Undefined where it has errors, or where there is nothing to cut and to buy. */
  readonly table: string | undefined;
}

/** The name of the threads that write tables. */
export const tableRole = 'piecewright table';

/** Checks specs and writes their tables, and reads what several use once. */
export function tableJob(): Job<TableRequest, WrittenTable> {
  const readers = new Map<string, TextReader>();
  return {
    role: tableRole,
    read: ({ spec, manner }) => {
      const reader = readers.get(spec.folder) ?? readerIn(spec.folder);
      readers.set(spec.folder, reader);
      const texts = readSpec(spec, reader);
      const told = toldPath(spec);
      return {
        content: JSON.stringify([contentOf(texts), told(''), manner]),
        compute: () => {
          const { pattern, isWhole } = patternFrom(texts);
          const report = reportOf(pattern, told);
          const isRefused = report.problems.some(({ severity }) => severity === 'error') || !isMade(pattern);
          return { result: { report, table: isRefused ? undefined : textOf(pattern, manner) }, isWhole };
        },
      };
    },
    isResult: record<WrittenTable>({ report: isFileReport, table: optional(isText) }),
  };
}

/** Whether there is anything to cut or to buy: a list that others use has no table. */
export const isMade = (pattern: Pattern): boolean => [...pattern.world.names.values()].some(({ tree }) => tree.kind === 'piece' || tree.kind === 'supply');

function textOf(pattern: Pattern, { format, by, choose, all, articles, effort }: TableManner): string {
  return renderTable([...wholeTables(pattern, chosenCombinations(pattern, choose, all), articles, { ...usualOptions, effort })], format, by);
}
