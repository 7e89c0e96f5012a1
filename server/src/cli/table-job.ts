import { usualOptions } from '../buying/plan.ts';
import { renderTable, type TableFormat } from '../formats/format.ts';
import { reportOf, type FileReport } from '../formats/problems/problem-list.ts';
import { Analyst, type Pattern } from '../model/pattern.ts';
import type { Grouping } from '../table/sections.ts';
import { tablesWithLists } from '../table/whole-table.ts';
import { chosenCombinations } from './combinations.ts';
import { readerIn, readSpec, toldPath, type SpecPath } from './files.ts';
import { fingerprintNow, fingerprintOf, isFingerprinted, type Fingerprinted } from './fingerprint.ts';
import type { Job } from './kept-results.ts';
import { isFileReport } from './report-shape.ts';
import { isPricedTable, pricedTable, repriced, type PricedTable } from './priced-table.ts';
import { pricesOf, readContentOf, tellsOfList } from './read-content.ts';
import { optional, record } from './shapes.ts';
import { patternFrom, type SpecTexts, type TextReader } from './spec-texts.ts';

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
  readonly table: PricedTable | undefined;
  /** What the fingerprint in the table follows from. */
  readonly printed: Fingerprinted;
}

/** The name of the threads that write tables. */
export const tableRole = 'piecewright table';

/** Checks specs and writes their tables, and reads what several use once. */
export function tableJob(): Job<TableRequest, WrittenTable> {
  const readers = new Map<string, TextReader>();
  const analyst = new Analyst();
  return {
    role: tableRole,
    read: ({ spec, manner }) => {
      const reader = readers.get(spec.folder) ?? readerIn(spec.folder);
      readers.set(spec.folder, reader);
      const texts = readSpec(spec, reader);
      const told = toldPath(spec);
      return {
        content: JSON.stringify([readContentOf(texts, isPricedLate(manner) ? 'without prices' : 'as said'), told(''), manner]),
        renew: (earlier) => renewed(earlier, texts),
        compute: () => {
          const { pattern, isWhole } = patternFrom(texts, analyst);
          const report = reportOf(pattern, told);
          const isRefused = report.problems.some(({ severity }) => severity === 'error') || !isMade(pattern);
          const printed = fingerprintOf(pattern);
          return { result: { report, table: isRefused ? undefined : tableOf(pattern, manner, texts), printed }, isWhole: isWhole && !tellsOfList(report, texts, told) };
        },
      };
    },
    isResult: record<WrittenTable>({ report: isFileReport, table: optional(isPricedTable), printed: isFingerprinted }),
  };
}

/** In Markdown alone prices stand where they can be put in anew. */
const isPricedLate = ({ format }: TableManner): boolean => format === 'markdown';

/** A table with what its texts say now as fingerprint and prices. */
function renewed(earlier: WrittenTable, texts: SpecTexts): WrittenTable | undefined {
  const stamped = withFingerprint(earlier, texts);
  if (stamped?.table === undefined || stamped === earlier) return stamped;
  const table = repriced(stamped.table, pricesOf(texts));
  return table && { ...stamped, table };
}

/**
 * A table with the fingerprint of what its texts say now. The digits stand nowhere else in it, since a text can’t hold a
 * fingerprint of itself; a path could, and is the title where there is no other.
 */
function withFingerprint(earlier: WrittenTable, texts: SpecTexts): WrittenTable | undefined {
  const { printed: before, table } = earlier;
  if (texts.path.includes(before.digest)) return undefined;
  const printed = fingerprintNow(before, texts);
  if (printed === undefined || printed.digest === before.digest) return printed && earlier;
  return { ...earlier, table: table && { ...table, text: table.text.replaceAll(before.digest, printed.digest) }, printed };
}

/** Whether there is anything to cut or to buy: a list that others use has no table. */
export const isMade = (pattern: Pattern): boolean => [...pattern.world.names.values()].some(({ tree }) => tree.kind === 'piece' || tree.kind === 'supply');

function tableOf(pattern: Pattern, manner: TableManner, texts: SpecTexts): PricedTable {
  const { format, by, choose, all, articles, effort } = manner;
  const tables = [...tablesWithLists(pattern, chosenCombinations(pattern, choose, all), articles, { ...usualOptions, effort })];
  return isPricedLate(manner) ? pricedTable(tables, by, pattern.world.facts.currency, pricesOf(texts)) : { text: renderTable(tables.map(({ table }) => table), format, by), parts: [] };
}
