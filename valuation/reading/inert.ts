const dangerous = /^'*[=+\-@\t\r\n\0]/;
const number = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/**
 * A cell that no spreadsheet takes for a formula: text that begins with = + - @ tab, a line break or NUL gets
 * a leading apostrophe. Numbers ("-5.00") stay as they are. Text that already begins with apostrophes before
 * such a character gets one more, so that `activeCell` gives back exactly what went in.
 */
export const inertCell = (text: string): string =>
  dangerous.test(text) && !number.test(text) ? `'${text}` : text;

/** The reverse of `inertCell`: takes off the apostrophe that it put on, and nothing else. */
export const activeCell = (text: string): string =>
  text.startsWith("'") && dangerous.test(text) ? text.slice(1) : text;
