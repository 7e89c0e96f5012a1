import { expect, test, vi } from 'vitest';
import { parseDeclaration, parseFile } from '../../server/src/syntax/parse.ts';
import { tokensOf } from '../../server/src/syntax/tokens.ts';
import { sample } from '../support/samples.ts';

// Every word of two samples, and machines that do other work beside.
vi.setConfig({ testTimeout: 60_000 });

/** Each declaration of the samples with one word or sign left out, said twice, or in capitals. */
function* damaged(): Generator<string> {
  for (const path of ['orchard-wallet.piece', 'tidal-crossbody.piece']) {
    for (const { declaration } of parseFile(path, sample(path)).declarations) {
      for (const { start, end, text: own } of tokensOf(declaration.text)) {
        for (const instead of ['', `${own} ${own}`, own.toUpperCase()]) yield declaration.text.slice(0, start) + instead + declaration.text.slice(end);
      }
    }
  }
}

test('what is offered for a line that can’t be read never makes more lines unreadable', () => {
  let offered = 0;
  const worse: string[] = [];
  for (const text of damaged()) {
    const { problems } = parseDeclaration('a.piece', text);
    for (const { start, end, mend } of problems) {
      expect(start >= 0 && end <= text.length && start <= end, text).toBe(true);
      if (mend === undefined) continue;
      offered++;
      const mended = text.slice(0, mend.start) + mend.newText + text.slice(mend.end);
      if (parseDeclaration('a.piece', mended).problems.length > problems.length) worse.push(`${mend.title}:\n${text}`);
    }
  }
  expect(worse).toEqual([]);
  expect(offered).toBeGreaterThan(100);
});
