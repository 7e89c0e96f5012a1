import { expect, it } from 'vitest';
import { AskedEarly } from '../../client/src/preview/asked-early.ts';

const board = { uri: 'wallet.piece' };

it('an answer that was asked for early serves the same question', async () => {
  expect(await new AskedEarly(board, Promise.resolve('drawn')).take({ uri: 'wallet.piece' })).toBe('drawn');
});

it('it serves once: later the text may be another', async () => {
  const early = new AskedEarly(board, Promise.resolve('drawn'));
  await early.take(board);
  expect(await early.take(board)).toBeUndefined();
});

it('it serves no other question, nor the same after another', async () => {
  const early = new AskedEarly<object, string>(board, Promise.resolve('drawn'));
  expect(await early.take({ ...board, combination: [['size', 'L']] })).toBeUndefined();
  expect(await early.take(board)).toBeUndefined();
});

it('one that comes to nothing leaves it to whoever asks', async () => {
  expect(await new AskedEarly(board, Promise.reject(new Error('The server has stopped.'))).take(board)).toBeUndefined();
});
