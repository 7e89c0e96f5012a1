import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { usualOptions } from '../buying/plan.ts';
import { tableFormats } from '../formats/format.ts';
import { reportFormats } from '../formats/problems/report.ts';
import { orientations } from '../pages/options.ts';
import { serveInThread } from '../platform/node-workers.ts';
import { codeOf } from '../platform/read-text.ts';
import { check, checkJob, checkRole, type CheckOptions } from './check.ts';
import { compareJob, compareRole } from './compare-job.ts';
import { comparisonFormats, compareSpecs, type CompareOptions } from './compare.ts';
import { errata } from './errata.ts';
import { reasonOf, UsageError } from './files.ts';
import { formatSpecs, type FormatOptions } from './format.ts';
import { issue } from './issue.ts';
import { workOf } from './kept-results.ts';
import { lay, type LayOptions } from './lay.ts';
import { merge, type MergeOptions } from './merge.ts';
import { pages, type PagesOptions } from './pages.ts';
import { tableJob, tableRole } from './table-job.ts';
import { sectionChoices, table, type TableOptions } from './table.ts';
import { tell } from './terminal.ts';
import { textconv } from './textconv.ts';
import { view, type ViewOptions } from './view.ts';
import { viewRole, viewWork } from './view-job.ts';

declare const PIECEWRIGHT_VERSION: string;

const collect = (value: string, previous: readonly string[]): readonly string[] => {
  if (!value.includes('=')) throw new InvalidArgumentError('Write it as in tab=cork.');
  return [...previous, value];
};

const effort = (): Option => new Option('-e, --effort <number>', 'about how many seconds to look for each lay, counted in steps; 0 for a first lay').default(String(usualOptions.effort));

const cacheOption = (): Option => new Option('--cache <folder>', 'keep results for the next run in this folder, in place of the user’s own folder for such things').default(true, 'of many specs only');
const noCacheOption = (): Option => new Option('--no-cache', 'work everything out anew, and keep nothing');

const repeated = (value: string, previous: readonly string[]): readonly string[] => [...previous, value];

type Exit = (code: number) => void;

function addCheck(command: Command, exit: Exit): void {
  command
    .command('check')
    .description('check specs, or all those in folders; ends with 1 where there are errors')
    .argument('[paths...]', 'files and folders (this folder if none is named); - for standard input')
    .option('--name <path>', 'the path that standard input is told as, and that what it uses is looked for from', '-')
    .option('-r, --report <format>', `write the problems as ${reportFormats.join(', ')}, in place of lines to read; or beside them, to a file, as in sarif=problems.sarif; may be repeated`, repeated, [])
    .option('--json', 'the same as --report json', false)
    .addOption(cacheOption())
    .addOption(noCacheOption())
    .action(async (paths: string[], options: CheckOptions) => { exit(await check(paths, options, PIECEWRIGHT_VERSION)); });
}

function addTable(command: Command, exit: Exit): void {
  command
    .command('table')
    .description('write the cutting table of a spec, or of all those in a folder')
    .argument('<path>', 'the spec, or a folder of them')
    .addOption(new Option('-f, --format <format>', 'what to write (default: by the ending of --output, else markdown)').choices(tableFormats))
    .addOption(new Option('-b, --by <grouping>', 'piece by piece, or material by material').choices(['piece', 'material']).default('piece'))
    .option('-c, --choose <choice=option>', 'choose a size or an option, as in size=M; may be repeated; else the first of each is taken', collect, [])
    .option('-a, --all', 'a table for every combination', false)
    .option('-n, --articles <number>', 'how many articles the numbers are for', '1')
    .addOption(effort())
    .addOption(new Option('-s, --section <part>', 'the part that CSV is written of (default: cuts); all writes each into a file of its own, in the folder named by --output').choices(sectionChoices))
    .option('-o, --output <file>', 'write to this file instead of standard output; of a folder, to files below this folder')
    .addOption(cacheOption())
    .addOption(noCacheOption())
    .action(async (file: string, options: TableOptions) => { exit(await table(file, options)); });
}

function addLay(command: Command, exit: Exit): void {
  command
    .command('lay')
    .description('lay the pieces of a spec out and say what to buy; ends with 1 where one fits on none of the widths')
    .argument('<file>', 'the spec')
    .option('-m, --material <name>', 'only this material; may be repeated', repeated, [])
    .option('-c, --choose <choice=option>', 'choose a size or an option, as in size=M; may be repeated; else the first of each is taken', collect, [])
    .option('-a, --all', 'every combination', false)
    .option('-n, --articles <number>', 'how many articles to cut for', '1')
    .option('-w, --width <width>', 'set another width of cloth beside, as in 54in, or 54in=12.50 with its price; may be repeated', repeated, [])
    .addOption(new Option('-l, --lay <manner>', 'how the cloth is spread').choices(['open', 'folded', 'shorter']).default('shorter'))
    .option('-g, --gap <length>', 'least gap between pieces, as in 1/8in', '0')
    .addOption(effort())
    .option('--verify', 'check every lay again, piece against piece', false)
    .option('--svg <folder>', 'draw the lays into this folder')
    .option('--json', 'write plans and lays as JSON', false)
    .action(async (file: string, options: LayOptions) => { exit(await lay(file, options)); });
}

function addPages(command: Command, exit: Exit): void {
  command
    .command('pages')
    .description('write the booklet of a spec: true-scale templates and all its tables; or hand them over to other programs')
    .argument('<file>', 'the spec')
    .option('-o, --output <file>', 'write to this file, as its ending says: .pdf, .dxf, .xlsx or .json; may be repeated', repeated, [])
    .option('--svg <folder>', 'draw every template into this folder, one file each')
    .option('-c, --choose <choice=option>', 'choose a size or an option, as in size=M; may be repeated; all sizes are printed unless one is chosen, and the first option of any other choice', collect, [])
    .option('-p, --paper <name>', 'a4, letter, a3, a0, or a roll by its width, as in roll-36in', 'a4')
    .addOption(new Option('--orientation <way>', 'how sheets stand').choices(orientations).default('auto'))
    .option('--margin <length>', 'left blank on all sides, as in 10mm or 1/2in', '10mm')
    .addOption(new Option('-t, --templates <which>', 'all pieces that are cut along a line, or only those that can’t be cut to measure').choices(['all', 'needed']).default('all'))
    .option('--since <file or revision>', 'say in the booklet what has changed since an earlier file of the spec, or since a revision of its git repository')
    .option('--projector', 'a PDF of one large page with a grid in place of a booklet', false)
    .action(async (file: string, options: PagesOptions) => { exit(await pages(file, options)); });
}

function addView(command: Command, exit: Exit): void {
  command
    .command('view')
    .description('write the preview as one page that stands by itself: the board, all tables and lays, in every size and option; of a folder one page for each spec, and a list of them')
    .argument('<path>', 'the spec, or a folder of them')
    .option('-c, --choose <choice=option>', 'only this size or option, as in size=M; may be repeated', collect, [])
    .addOption(effort())
    .option('-o, --output <file>', 'write to this file instead of standard output; of a folder, to this folder')
    .action(async (file: string, options: ViewOptions) => { exit(await view(file, options)); });
}

function addCompare(command: Command, exit: Exit): void {
  command
    .command('compare')
    .description('say what is different in what two specs, or the specs of two folders, say to cut, buy, print and sew; ends with 0 where there is no change, else with 1')
    .argument('[files...]', 'the earlier spec or folder and the later one; with --git the specs or folders to compare (this folder if none is named)')
    .option('--git <range>', 'compare two revisions of a git repository, as in main..HEAD, or main...HEAD from where they parted')
    .addOption(new Option('-f, --format <format>', 'what to write (default: by the ending of --output, else for the terminal)').choices(comparisonFormats))
    .option('--gate', 'end with 1 only where a change has no higher revision', false)
    .addOption(effort())
    .addOption(cacheOption())
    .addOption(noCacheOption())
    .option('-o, --output <file>', 'write to this file instead of standard output')
    .action(async (files: string[], options: CompareOptions) => { exit(await compareSpecs(files, options)); });
}

function addErrata(command: Command, exit: Exit): void {
  command
    .command('errata')
    .description('write a notice for those who have the earlier of two revisions: what to print, cut and buy otherwise; of the specs of two folders one each')
    .argument('<files...>', 'the earlier spec or folder and the later one; with --git specs or folders')
    .option('--git <range>', 'two revisions of a git repository, as in v1..HEAD')
    .addOption(effort())
    .addOption(cacheOption())
    .addOption(noCacheOption())
    .option('-o, --output <file>', 'write to this file, Markdown where it ends in .md, instead of standard output; of several specs a folder')
    .action(async (files: string[], options: CompareOptions) => { exit(await errata(files, options)); });
}

function addTextconv(command: Command, exit: Exit): void {
  command
    .command('textconv')
    .description('for git: write what it compares in place of a spec’s text, its cutting table; always ends with 0')
    .argument('<file>', 'the spec, or the copy of one that git has laid out')
    .action((file: string) => { exit(textconv(file)); });
}

function addMerge(command: Command, exit: Exit): void {
  command
    .command('merge')
    .description('for git: merge two sides of a spec declaration by declaration, over ours; ends with 1 where there is something to choose')
    .argument('<base>', 'what both sides have come from, %O')
    .argument('<ours>', '%A; what is merged is written there')
    .argument('<theirs>', '%B')
    .option('--marker-size <number>', 'how many signs the marks of a conflict have, %L', '7')
    .option('--path <path>', 'the path of the spec, %P, that what it uses is looked for from')
    .action(async (base: string, ours: string, theirs: string, options: MergeOptions) => { exit(await merge(base, ours, theirs, options)); });
}

function addIssue(command: Command, exit: Exit): void {
  command
    .command('format')
    .description('bring specs, or all those in folders, to their one canonical form')
    .argument('[paths...]', 'files and folders (this folder if none is named); - writes what comes from standard input to standard output')
    .option('--check', 'write nothing; end with 1 where a file would change', false)
    .action(async (paths: string[], options: FormatOptions) => { exit(await formatSpecs(paths, options)); });
  command
    .command('issue')
    .description('note in a spec that its revision has been given out as it is now')
    .argument('<file>', 'the spec')
    .action(async (file: string) => { exit(await issue(file)); });
}

/** In the order that the help tells them in. */
const commands = [addCheck, addTable, addLay, addPages, addView, addCompare, addErrata, addIssue, addTextconv, addMerge];

function program(exit: Exit): Command {
  const command = new Command('piecewright')
    .description('Checks pattern specs of small sewn goods and writes their cutting tables.')
    .version(PIECEWRIGHT_VERSION)
    .showHelpAfterError('(add --help for help)')
    .exitOverride((error) => {
      exit(error.exitCode === 0 ? 0 : 2);
      throw error;
    });
  for (const add of commands) add(command, exit);
  return command;
}

async function main(): Promise<void> {
  let code = 0;
  try {
    await program((exit) => { code = exit; }).parseAsync();
  } catch (error) {
    if (error instanceof UsageError) {
      tell(error.message);
      code = 2;
    } else if (!(error instanceof CommanderError)) {
      // A fault of the program: whoever mends it needs to see where.
      process.stderr.write(`${codeOf(error) !== undefined ? reasonOf(error) : error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
      code = 2;
    }
  }
  process.exitCode = code;
}

/** Whoever reads the output may go away once they have seen enough, as in `piecewright check | head`. */
function allowEarlyEnd(stream: NodeJS.WriteStream): void {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') return;
    if (stream !== process.stderr) process.stderr.write(`The output can’t be written: ${error.message}\n`);
    process.exit(2);
  });
}

const isThread = serveInThread(checkRole, () => workOf(checkJob())) || serveInThread(compareRole, () => workOf(compareJob())) || serveInThread(tableRole, () => workOf(tableJob())) || serveInThread(viewRole, viewWork);
if (!isThread) {
  allowEarlyEnd(process.stdout);
  allowEarlyEnd(process.stderr);
  void main();
}
