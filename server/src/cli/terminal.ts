import { styleText } from 'node:util';

/** Line ends and tabs, which would break a line in two. */
const breaks = /[\t\n\v\f\r\u0085\u2028\u2029]+/g;
/** Signs that steer a terminal, turn the direction of what follows, or are none by themselves. */
const steering = /[\p{Cc}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069\uFEFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/gu;

/** A text of unknown origin as it may be shown on one line of a terminal: what would steer it is written out, as in `\u{1b}`. */
export const plain = (text: string): string => text.replace(breaks, ' ').replace(steering, (sign) => `\\u{${(sign.codePointAt(0) ?? 0).toString(16)}}`);

/** Tells something on standard error, on a line of its own. */
export const tell = (text: string): void => void process.stderr.write(`${plain(text)}\n`);

/** Says something on standard output, on a line of its own. */
export const say = (text: string): void => void process.stdout.write(`${plain(text)}\n`);

/** A style, where the stream is a terminal that shows styles and nobody has said NO_COLOR. */
export const styled = (style: Parameters<typeof styleText>[0], text: string, stream: NodeJS.WriteStream): string => styleText(style, text, { stream });
