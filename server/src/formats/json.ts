import type { CuttingTable } from '../table/table.ts';

/** A table as data, places in the spec left out, since they mean nothing elsewhere. */
export function toJson(tables: readonly CuttingTable[]): string {
  return `${JSON.stringify({ format: 'piecewright cutting table', version: 1, tables }, (key, value: unknown) => (key === 'place' ? undefined : value), 2)}\n`;
}
