const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** "14 March 2026" of an ISO date; what does not look like one is given back as it is. */
export const longDate = (date: string): string => {
  const match = /^(\d{4})-(\d{2})-(\d{2})/.exec(date);
  const month = match && months[Number(match[2]) - 1];
  return match && month ? `${Number(match[3])} ${month} ${match[1]}` : date;
};

/** "25 November 2026, 15:46 UTC" of an ISO instant, in the offset in which it was given. */
export const longInstant = (instant: string): string => {
  const offset = /(Z|[+-]\d{2}:\d{2})$/.exec(instant)?.[1] ?? 'Z';
  return `${longDate(instant)}, ${instant.slice(11, 16)} ${offset === 'Z' ? 'UTC' : `UTC${offset}`}`;
};

/** Stands for a character that cannot be printed. */
export const unprintable = '\u25a1';

// Archival PDF forbids private-use characters; controls and directional overrides would disturb the
// text around them.
const privateUse = /[\p{Co}\p{Cn}]/gu;
const invisible = /[\p{Cc}\u200b\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/gu;
const unbroken = /\S{40,}/gu;
const zeroWidthSpace = '\u200b';

const breakable = (text: string): string =>
  text.replace(unbroken, run => run.replace(/(.{24})/gsu, `$1${zeroWidthSpace}`));

/**
 * Text of several lines made fit for print: no controls but line ends, no overrides, long
 * unbroken runs may break.
 */
export const printableText = (text: string): string =>
  breakable(
    text
      .toWellFormed()
      .replace(/\r\n?|\u2028|\u2029/g, '\n')
      .split('\n')
      .map(line => line.replace(/\t/g, ' ').replace(invisible, '').replace(privateUse, unprintable).trim())
      .join('\n')
      .replace(/\n{3,}/g, '\n\n')
      .trim(),
  );

/** The same for a name: one line, its white space collapsed. */
export const printableLine = (text: string | null | undefined): string =>
  printableText((text ?? '').replace(/\s+/g, ' '));
