import { basename, extname, join } from 'node:path';
import { fileName } from '../formats/file-name.ts';
import { fileFormats, handOver, type PageFormat } from '../formats/pages.ts';
import { KeptLays } from '../buying/lay-out.ts';
import { leastMargin, mostMargin, type Orientation, type PageOptions } from '../pages/options.ts';
import { paperNamed } from '../pages/paper.ts';
import type { TemplateChoice } from '../table/templates.ts';
import { parseNumber } from '../units/number-text.ts';
import { millimetresIn } from '../units/length.ts';
import { chosenCombinations } from './combinations.ts';
import { UsageError } from './files.ts';
import { isRefused, openSpec, tellWarnings } from './open.ts';
import { writeOutput } from './output.ts';
import { changesSince } from './since.ts';
import { tell } from './terminal.ts';

export interface PagesOptions {
  readonly output: readonly string[];
  readonly svg?: string;
  readonly choose: readonly string[];
  readonly paper: string;
  readonly orientation: Orientation;
  readonly margin: string;
  readonly templates: TemplateChoice;
  readonly projector: boolean;
  readonly since?: string;
}

/** `piecewright pages`: writes a spec’s booklet and hand-over files, or 1 and its errors where it has any. */
export async function pages(named: string, options: PagesOptions): Promise<number> {
  const opened = await openSpec(named);
  const { pattern, spec } = opened;
  const name = basename(spec.path, '.piece');
  const outputs = (options.output.length === 0 && options.svg === undefined ? [`${name}.pdf`] : options.output).map((file) => ({ file, format: formatOf(file, options.projector) }));
  const laidOut = pageOptions(options, pattern.choices.has('size'));
  const [combination = new Map<string, string>()] = chosenCombinations(pattern, options.choose, false);
  if (isRefused(opened, 'Nothing is written while the spec has errors: a wrong template would cost cloth.')) return 1;
  if (![...pattern.world.names.values()].some(({ tree }) => tree.kind === 'piece')) {
    tell(`“${named}” has no piece, so there is nothing to print.`);
    return 1;
  }
  tellWarnings(opened);
  const changed = options.since === undefined ? undefined : await changesSince(options.since, opened);
  if (typeof changed === 'string') {
    tell(`Nothing is written. ${changed}`);
    return 1;
  }
  const order = { pattern, combination, options: changed === undefined ? laidOut : { ...laidOut, changed } };
  const notes = new Set<string>();
  // Lays are planned once for all files.
  const lays = new KeptLays();
  const wanted = [...outputs, ...(options.svg === undefined ? [] : [{ file: options.svg, format: 'svg' as const }])];
  for (const { file: target, format } of wanted) {
    const made = handOver(order, format, lays);
    for (const { name: part, content } of made.files) {
      const file = part === '' ? target : join(target, `${fileName(name)}-${part}`);
      await writeOutput(content, file);
      tell(`Wrote ${file}.`);
    }
    for (const note of made.notes) notes.add(note);
  }
  for (const note of notes) tell(note);
  return 0;
}

function formatOf(file: string, projector: boolean): PageFormat {
  const ending = extname(file).slice(1).toLowerCase();
  const format = fileFormats.find((one) => one === ending);
  if (format === undefined) throw new UsageError(`Nothing can be written as “.${ending}”: use ${fileFormats.map((one) => `.${one}`).join(', ')}.`);
  return format === 'pdf' && projector ? 'projector' : format;
}

function pageOptions({ paper: paperName, orientation, margin: marginText, templates, choose }: PagesOptions, hasSizes: boolean): PageOptions {
  const paper = paperNamed(paperName);
  if (paper === undefined) throw new UsageError(`There is no paper “${paperName}”: use a4, letter, a3, a0, or a roll by its width, as in roll-36in.`);
  const [, digits = '', unit = ''] = /^(\d[\d./ ]*?)\s*(mm|cm|in)$/.exec(marginText.trim()) ?? [];
  const margin = digits === '' ? undefined : parseNumber(digits)?.mul(millimetresIn[unit as 'mm' | 'cm' | 'in']).valueOf();
  if (margin === undefined || margin < leastMargin || margin > mostMargin) throw new UsageError(`“${marginText}” isn’t a margin: write it as in 10mm or 1/2in, from ${leastMargin} mm to ${mostMargin} mm.`);
  const size = hasSizes ? choose.map((text) => text.split('=')).find(([choice]) => choice === 'size')?.[1] : undefined;
  return { paper, orientation, margin, templates, ...(size === undefined ? {} : { sizes: [size] }) };
}
