/** Results that more than one language feature gives. Positions are UTF-16 offsets in the snapshot's own file. */
export interface TextRange {
  readonly start: number;
  readonly end: number;
}

export interface TextEdit extends TextRange {
  readonly newText: string;
}

/** An edit of any file of the pattern. */
export interface FileEdit extends TextEdit {
  readonly file: string;
}

/** Something that can be done to the text, offered where the cursor is. */
export interface Action {
  readonly title: string;
  readonly kind: 'fix' | 'extract' | 'rewrite';
  readonly edits: readonly FileEdit[];
}

/** A text with edits made that don't overlap; of two at one place, the first goes first. */
export function edited(text: string, edits: readonly TextEdit[]): string {
  let result = '';
  let at = 0;
  for (const edit of [...edits].sort((a, b) => a.start - b.start || a.end - b.end)) {
    result += text.slice(at, edit.start) + edit.newText;
    at = edit.end;
  }
  return result + text.slice(at);
}
