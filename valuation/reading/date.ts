import { type Cell, notUnderstood, type Reading, understood } from './reading.ts';

export const dateOrders = ['ymd', 'dmy', 'mdy'] as const;
export type DateOrder = (typeof dateOrders)[number];

const simple = (word: string) =>
  word
    .toLowerCase()
    .normalize('NFD')
    .replace(/[^a-z]/g, '');

/** Month names, long and short, in the languages of the markets in which such cars are sold. */
const months = new Map<string, number>();
const locales = ['en', 'de', 'fr', 'es', 'it', 'nl'];
for (const locale of locales)
  for (const style of ['long', 'short'] as const) {
    const format = new Intl.DateTimeFormat(locale, { month: style, timeZone: 'UTC' });
    for (let month = 0; month < 12; month++) {
      const name = simple(format.format(Date.UTC(2000, month, 1)));
      if (!months.has(name)) months.set(name, month + 1);
    }
  }
months.set('sept', 9);

/** True of the name of a month, long or short. */
export const isMonth = (word: string): boolean => months.has(simple(word));

/** Days of the week in those languages, long and short, but for "mar", which is a month as well. */
const weekdays = new Set(
  locales.flatMap(locale =>
    (['long', 'short'] as const).flatMap(style => {
      const format = new Intl.DateTimeFormat(locale, { weekday: style, timeZone: 'UTC' });
      const names = Array.from({ length: 7 }, (_, day) => simple(format.format(Date.UTC(2000, 0, day + 1))));
      return names.filter(name => !months.has(name));
    }),
  ),
);
const clock = /,? (?:at )?\d{1,2}:\d{2}(?::\d{2})?(?: ?[ap]\.?m\.?)?$/i;

/** A date without the day of its week and the time of its day, as in "Mon 14 Mar 2021, 9:26". */
const withoutTime = (text: string): string => {
  if (!/[\p{L}:]/u.test(text)) return text;
  const dated = text.replace(clock, '');
  const first = /^(\p{L}+)\.?,? (?=\S)/u.exec(dated);
  return first && weekdays.has(simple(first[1] ?? '')) ? dated.slice(first[0].length) : dated;
};

const iso = (year: number, month: number, day: number): string | null => {
  if (Number.isNaN(year)) return null;
  const date = new Date(Date.UTC(year, month - 1, day));
  if (date.getUTCFullYear() !== year || date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day)
    return null;
  return date.toISOString().slice(0, 10);
};

/**
 * Two-digit years fall into the hundred years that end with the year of `today`; without one they stay open.
 */
const fullYear = (digits: string, today: string | null): number => {
  const year = Number(digits);
  if (digits.length > 2) return year;
  if (today === null) return Number.NaN;
  const century = Math.floor(Number(today.slice(0, 4)) / 100) * 100;
  return century + year > Number(today.slice(0, 4)) ? century - 100 + year : century + year;
};

const numeric = /^(\d{1,2})[./\- ]+(\d{1,2})[./\- ]+(\d{2}|\d{4})$/;

/**
 * What one date says of the order of its column: `dmy`, `mdy`, or null where it says nothing or can
 * be read both ways.
 */
export const dateOrderOf = (cell: Cell): DateOrder | null => {
  if (typeof cell !== 'string') return null;
  const match = numeric.exec(withoutTime(cell.trim()));
  if (!match) return null;
  const [first, second] = [Number(match[1]), Number(match[2])];
  if (first > 12 && second <= 12) return 'dmy';
  if (second > 12 && first <= 12) return 'mdy';
  return null;
};

/** True for a date such as 03/04/2021, which two conventions read differently. */
export const isAmbiguousDate = (cell: Cell): boolean => {
  if (typeof cell !== 'string') return false;
  const match = numeric.exec(withoutTime(cell.trim()));
  return !!match && Number(match[1]) <= 12 && Number(match[2]) <= 12 && match[1] !== match[2];
};

/**
 * Of 1 January 1970, by ECMA-376 part 1, 18.17.4.1; and of the days from 1955 to 2099 that
 * are taken for such.
 */
const serialOf1970 = 25_569;
const firstSerial = 20_090;
const lastSerial = 73_050;

/**
 * ISO date of a cell: a spreadsheet's date, `2021-03-14`, `14.3.2021`, `3/14/21`, `14 Mar 2021`,
 * `March 14, 2021`. `order` decides the ones that can be read two ways; null refuses those. Nothing lies
 * after `today`; without it any day will do, and a year needs its four digits.
 */
export const readDate = (cell: Cell, order: DateOrder | null, today: string | null): Reading<string> => {
  if (cell instanceof Date)
    return Number.isNaN(cell.getTime())
      ? notUnderstood('this is not a date')
      : checkedDate(cell.toISOString().slice(0, 10), today);
  // A spreadsheet counts days from the end of 1899; a column that shows them as plain figures holds no other
  // numbers like these.
  if (typeof cell === 'number' && Number.isInteger(cell) && cell >= firstSerial && cell <= lastSerial)
    return checkedDate(new Date((cell - serialOf1970) * 86_400_000).toISOString().slice(0, 10), today);
  const written = (typeof cell === 'string' || typeof cell === 'number' ? String(cell) : '')
    .trim()
    .replace(/\s+/g, ' ');
  const text = withoutTime(written).replace(/ ['’](?=\d{2}$)/, ' ');
  const wrong = notUnderstood(`"${written}" is not a date such as 2021-03-14 or 14 Mar 2021`);
  const year = /^(\d{4})[./-](\d{1,2})[./-](\d{1,2})(?:[T ]\d{1,2}:\d{2}.*)?$/.exec(text);
  if (year) return checkedDate(iso(Number(year[1]), Number(year[2]), Number(year[3])), today, text);
  const compact = /^((?:19|20)\d{2})(\d{2})(\d{2})$/.exec(text);
  if (compact) {
    const day = iso(Number(compact[1]), Number(compact[2]), Number(compact[3]));
    return day === null ? wrong : checkedDate(day, today, text);
  }
  const named =
    /^(\d{1,2})(?:st|nd|rd|th|er|\.)?[ -]?([^\d\s.,-]+)[.,]?[ -]?(\d{4}|\d{2})$/i.exec(
      text.replace(/ (?:de|of) /gi, ' '),
    ) ?? /^()([^\d\s.,-]+)\.? (\d{1,2})(?:(?:st|nd|rd|th)?,? |\/)(\d{4}|\d{2})$/i.exec(text);
  if (named) {
    const month = months.get(simple(named[2] ?? ''));
    if (!month) return wrong;
    const [day, yearText] = named[1] === '' ? [named[3], named[4]] : [named[1], named[3]];
    return checkedDate(iso(fullYear(yearText ?? '', today), month, Number(day)), today, text);
  }
  const match = numeric.exec(text);
  if (!match) return wrong;
  const own = dateOrderOf(text) ?? (isAmbiguousDate(text) ? order : 'dmy');
  if (!own || own === 'ymd')
    return notUnderstood(`"${text}" can be read day first or month first; choose the order for this column`);
  const [day, month] = own === 'dmy' ? [match[1], match[2]] : [match[2], match[1]];
  return checkedDate(iso(fullYear(match[3] ?? '', today), Number(month), Number(day)), today, text);
};

const checkedDate = (date: string | null, today: string | null, text = date ?? ''): Reading<string> => {
  if (!date && today === null && /(^|\D)\d{1,2}$/.test(text))
    return notUnderstood(`"${text}": write the year with its four digits`);
  if (!date) return notUnderstood(`"${text}" is a day that the calendar does not have`);
  if (today !== null && date > today) return notUnderstood(`"${text}" is in the future`);
  return understood(date);
};
