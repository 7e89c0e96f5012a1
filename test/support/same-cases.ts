import fc from 'fast-check';

/**
 * The same state of the code gives the same answer: properties are tried with the same cases each time. Others are tried with
 * `PIECEWRIGHT_SEED=…`, a whole number, or `any`; what fails then names its seed.
 */
const asked = process.env['PIECEWRIGHT_SEED'];
if (asked !== 'any') fc.configureGlobal({ seed: asked === undefined ? 2026 : Number(asked) });
