/** An example of the language reference: a fenced block of the language piece. */
export interface Example {
  /** The heading that it stands under. */
  readonly heading: string;
  /** The line of the reference that it begins on, counted from 1. */
  readonly line: number;
  readonly text: string;
}

/** A place that an example marks: the problem that must be reported there. */
export interface Mark {
  readonly code: string;
  /** The example's line, counted from 0. */
  readonly line: number;
  /** Where the problem must start and end on its line; undefined where the mark only points at the line. */
  readonly columns: readonly [number, number] | undefined;
}

/** What an example says that a line comes to. */
export interface Claim {
  readonly line: number;
  readonly text: string;
}

/** The examples of a reference written in Markdown, in their order. */
export function examplesOf(markdown: string): readonly Example[] {
  const examples: Example[] = [];
  let heading = '';
  let block: { line: number; lines: string[] } | undefined;
  markdown.split('\n').forEach((text, index) => {
    if (block === undefined) {
      const title = /^#{1,6} +(.*)$/.exec(text)?.[1];
      if (title !== undefined) heading = title.trim();
      if (text.trimEnd() === '```piece') block = { line: index + 1, lines: [] };
    } else if (text.trimEnd() === '```') {
      examples.push({ heading, line: block.line, text: `${block.lines.join('\n')}\n` });
      block = undefined;
    } else block.lines.push(text);
  });
  return examples;
}

/**
 * The places that an example marks: `#   ^^^^ code` points at what stands above it, `# <- code` at the line that it ends.
 */
export function marksOf(example: Example): readonly Mark[] {
  return example.text.split('\n').flatMap((text, line): readonly Mark[] => {
    const above = /^ *# *(\^+) +([a-z-]+)$/.exec(text);
    if (above?.[1] !== undefined && above[2] !== undefined) {
      const start = text.indexOf('^');
      return [{ code: above[2], line: line - 1, columns: [start, start + above[1].length] }];
    }
    const code = /# <- ([a-z-]+)$/.exec(text)?.[1];
    return code === undefined ? [] : [{ code, line, columns: undefined }];
  });
}

/** What an example says that its lines come to: `# = 4 3/4 in` after a value or a cut line. */
export function claimsOf(example: Example): readonly Claim[] {
  return example.text.split('\n').flatMap((text, line): readonly Claim[] => {
    const said = /# = (.+)$/.exec(text)?.[1];
    return said === undefined ? [] : [{ line, text: said.trim() }];
  });
}

/** The headings one level below a main heading that begins so, in their order. */
export function sectionsUnder(markdown: string, heading: string): readonly string[] {
  let within = false;
  return headingLines(markdown).flatMap((line) => {
    if (line.startsWith('## ')) within = line.startsWith(`## ${heading}`);
    return within && line.startsWith('### ') ? [line.slice(4).trim()] : [];
  });
}

/** All headings, without their marks. */
export const headingsOf = (markdown: string): readonly string[] => headingLines(markdown).map((line) => line.replace(/^#+ +/, '').trim());

/** A line of an example may look like a heading, so they are left out. */
const headingLines = (markdown: string): readonly string[] =>
  markdown.replace(/^```[^]*?^```/gm, '').split('\n').filter((line) => /^#{1,6} /.test(line));
