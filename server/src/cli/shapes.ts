import type { IsShape } from './result-cache.ts';

/** What shape a value has that was read from somewhere else. */
type Parts<Value> = { readonly [Name in keyof Value]-?: (value: unknown) => boolean };

export const isText = (value: unknown): value is string => typeof value === 'string';
export const isTruth = (value: unknown): value is boolean => typeof value === 'boolean';
export const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
export const isCount = (value: unknown): value is number => Number.isSafeInteger(value) && (value as number) >= 0;
export const oneOf = <Text extends string>(...texts: readonly Text[]): IsShape<Text> => (value): value is Text => texts.some((text) => text === value);
export const optional = (isPart: (value: unknown) => boolean) => (value: unknown): boolean => value === undefined || isPart(value);
export const arrayOf = (isPart: (value: unknown) => boolean) => (value: unknown): boolean => Array.isArray(value) && value.every(isPart);

/** An object that has these parts of its own, and no others. */
export const record = <Value extends object>(parts: Parts<Value>): IsShape<Value> => (value): value is Value => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  const entries = Object.entries<(part: unknown) => boolean>(parts);
  return entries.every(([name, isPart]) => isPart(Object.hasOwn(value, name) ? (value as Record<string, unknown>)[name] : undefined)) && Object.keys(value).every((name) => Object.hasOwn(parts, name));
};
