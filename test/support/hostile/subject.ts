import { renderTable, tableFormats } from '../../../server/src/formats/format.ts';
import { completion } from '../../../server/src/language/completion.ts';
import { diagnose } from '../../../server/src/language/diagnostics.ts';
import { fixAll } from '../../../server/src/language/fix-all.ts';
import { folding } from '../../../server/src/language/folding.ts';
import { format } from '../../../server/src/language/format.ts';
import { hover } from '../../../server/src/language/hover.ts';
import { inlayHints } from '../../../server/src/language/inlay-hints.ts';
import { semanticTokens } from '../../../server/src/language/semantic-tokens.ts';
import { symbols } from '../../../server/src/language/symbols.ts';
import { previewData } from '../../../server/src/preview/drawing.ts';
import { cuttingTable } from '../../../server/src/table/table.ts';
import type { Snapshot } from '../../../server/src/workspace/snapshot.ts';
import { Workspace } from '../../../server/src/workspace/workspace.ts';
import { mainPath, type HostileInput } from './inputs.ts';

/** One thing that was asked of the program. */
export interface Step {
  readonly name: string;
  readonly run: () => void;
}

/** What is asked of every input, one thing after the other: each text's diagnostics, then what an editor asks of the last text. */
export function* stepsOf(input: HostileInput): Generator<Step> {
  const workspace = new Workspace();
  for (const [path, text] of input.others) workspace.setDisk(path, text);
  let last: Snapshot | undefined;
  let said = '';
  for (const [index, text] of input.texts.entries()) {
    yield {
      name: `diagnostics of text ${index + 1}`,
      run: () => {
        workspace.open(mainPath, text);
        last = workspace.snapshot(mainPath);
        said = saidOf(last);
        if (said.includes('"internal-fault"')) throw new Error(`A fault in the program: ${/[^"]*internal-fault[^\]]*/.exec(said)?.[0] ?? ''}`);
      },
    };
  }
  if (last === undefined) return;
  const snapshot = last;
  const { text } = snapshot.file;
  if (input.texts.length > 1) {
    yield {
      name: 'the same as after a clean start',
      run: () => {
        const fresh = new Workspace();
        for (const [path, other] of input.others) fresh.setDisk(path, other);
        fresh.open(mainPath, text);
        if (saidOf(fresh.snapshot(mainPath)) !== said) throw new Error('Not the same as after a clean start');
      },
    };
  }
  const features: Readonly<Record<string, () => unknown>> = {
    symbols: () => symbols(snapshot.file), tokens: () => semanticTokens(snapshot), folding: () => folding(snapshot), format: () => format(snapshot), fixes: () => fixAll(snapshot),
    hints: () => inlayHints(snapshot, { start: 0, end: Math.min(text.length, 5000) }, { sizes: true, totals: true }),
    preview: () => JSON.stringify(previewData(snapshot, new Map())),
  };
  for (const [name, run] of Object.entries(features)) yield { name, run };
  for (const share of [0.1, 0.5, 0.9]) {
    const offset = Math.floor(text.length * share);
    yield { name: `hover at ${offset}`, run: () => void hover(snapshot, offset) };
    yield { name: `completion at ${offset}`, run: () => void completion(snapshot, offset, []) };
  }
  if (snapshot.pattern.problems.some(({ severity }) => severity === 'error')) return;
  yield {
    name: 'table',
    run: () => {
      const table = cuttingTable(snapshot.pattern, new Map());
      for (const one of tableFormats) renderTable([table], one, 'piece');
    },
  };
}

const saidOf = (snapshot: Snapshot | undefined): string =>
  JSON.stringify(snapshot === undefined ? [] : diagnose(snapshot).map(({ found, message, start, end }) => [found.code, message, start, end]));
