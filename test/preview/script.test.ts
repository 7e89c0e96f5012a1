import { expect, it } from 'vitest';
import { bundles } from './page.ts';

it('is a page of at most 150 kB of script, which draws and works nothing out', async () => {
  const { script } = await bundles();
  expect(Buffer.byteLength(script)).toBeLessThan(150_000);
});
