/** What so large a share of some milliseconds is no more than, for a table. */
export const atShare = (values: readonly number[], share: number): string => ([...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? NaN).toFixed(1).padStart(7);
