type OfKind<S, Kind> = S extends { readonly kind: infer Own } ? (Kind extends Own ? S : never) : never;

/**
 * For each kind of statement, what one of them says, which is put in place of what was said before.
 *
 * @typeParam Where what a reader needs to know of the place where the statement stands
 */
export type FactReaders<S extends { readonly kind: string }, Where, Said> = {
  readonly [Kind in S['kind']]?: (where: Where, statement: OfKind<S, Kind>, said: Said) => Partial<Said>;
};

/** What has been said once a statement is read, too; the same as before where nothing reads its kind. */
export function readFact<S extends { readonly kind: string }, Where, Said>(readers: FactReaders<S, Where, Said>, where: Where, statement: S, said: Said): Said {
  const read = readers[statement.kind as S['kind']] as ((where: Where, statement: S, said: Said) => Partial<Said>) | undefined;
  return read === undefined ? said : { ...said, ...read(where, statement, said) };
}
