import { serveInThread } from '../../server/src/platform/node-workers.ts';

/** A program whose threads say back what they are asked, and come to grief over some of it. */
const held: number[][] = [];

serveInThread<string, string>('echo', () => function* (request) {
  if (request === 'end') process.exit(3);
  if (request === 'eat') for (;;) held.push(Array.from({ length: 100_000 }, (_, index) => index + held.length));
  if (request === 'throw') throw new Error('It was thrown.');
  yield request.toUpperCase();
});
