/** Characters that steer a terminal, end a line, or turn the text around them. */
const steering = /[\p{Cc}\p{Zl}\p{Zp}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu;

const short: Record<string, string> = { '\n': '\\n', '\r': '\\r', '\t': '\\t' };
const escaped = (character: string): string =>
  short[character] ?? `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;

/**
 * A line for a terminal: whatever in it is no plain text, such as a cell's escape sequence, is
 * shown and not obeyed.
 */
export const printable = (line: string): string => line.replace(steering, escaped);

/** The same for text whose own line breaks are meant; JSON stays JSON of the same value. */
export const printableLines = (text: string): string => text.split('\n').map(printable).join('\n');
