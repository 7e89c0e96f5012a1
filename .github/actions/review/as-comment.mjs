/** The first line of a comment, by which it is found again. */
export const mark = '<!-- piecewright review -->';

/** GitHub takes no longer comment than 65,536 characters; room is left for what closes a shortened one. */
const longest = 60_000;

/**
 * A comparison as a comment of a pull request. Nobody is called by it, whatever a title says.
 *
 * @param told what was said beside it: specs that only one of both revisions has
 */
export function asComment(markdown, told) {
  const beside = told.split('\n').filter((line) => line !== '').map((line) => `_${line.replace(/[\\`*_{}[\]<>#|~&]/g, '\\$&')}_`).join('\n\n');
  const whole = [markdown.trim(), beside].filter((part) => part !== '').join('\n\n') || 'No spec was changed.';
  // A word joiner after the sign, which no reader sees.
  const quiet = whole.replaceAll('@', '@\u2060');
  return `${mark}\n${quiet.length <= longest ? quiet : shortened(quiet)}\n`;
}

/** At a line's end, with what is folded away closed. */
function shortened(text) {
  const kept = text.slice(0, text.lastIndexOf('\n', longest));
  const open = kept.split('<details>').length - kept.split('</details>').length;
  return `${kept}\n${'\n</details>\n'.repeat(Math.max(0, open))}\n**This is cut short:** the page among the files of this run has all of it.`;
}
