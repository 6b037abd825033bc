import { InvalidArgumentError } from 'commander';
import { isCurrency, unknownCurrency } from '../../valuation/money.ts';
import { type Grade, isGrade, isWorkKind, type WorkKind, workKinds } from '../../valuation/words.ts';

/** What the options of a command may be; anything else is wrong use, and says how it is meant. */

/** `Their heading=our_column`, collected; nothing after the last `=` leaves the column out. */
export const columnMapping = (
  text: string,
  before: Record<string, string | null>,
): Record<string, string | null> => {
  const at = text.lastIndexOf('=');
  if (at < 1) throw new InvalidArgumentError('It is written "Their heading=our_column".');
  return { ...before, [text.slice(0, at).trim()]: text.slice(at + 1).trim() || null };
};

export const isoDate = (text: string): string => {
  const day = new Date(`${text}T00:00:00Z`);
  const isDay =
    /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
  if (!isDay) throw new InvalidArgumentError('A date is a day of the calendar, written YYYY-MM-DD.');
  return text;
};

/** An amount without its currency; how many decimals it may have depends on that. */
export const amount = (text: string): string => {
  if (!/^\d+(\.\d+)?$/.test(text)) throw new InvalidArgumentError('An amount is written like 412.50.');
  return text;
};

export const hours = (text: string): number => {
  if (!/^\d+(\.\d+)?$/.test(text)) throw new InvalidArgumentError('Hours are written like 14.5.');
  return Number(text);
};

export const currency = (text: string): string => {
  if (!isCurrency(text)) throw new InvalidArgumentError(`${unknownCurrency(text)}.`);
  return text;
};

export const reportPath = (text: string): string => {
  if (!/\.(pdf|csv|xlsx|jsonl)$/i.test(text))
    throw new InvalidArgumentError('A report is written as FILE.pdf, FILE.csv or FILE.xlsx.');
  return text;
};

export const listPath = (text: string): string => {
  if (!/\.(csv|xlsx|jsonl)$/i.test(text))
    throw new InvalidArgumentError('A list is written as FILE.csv, FILE.xlsx or FILE.jsonl.');
  return text;
};

export const zipPath = (text: string): string => {
  if (!/\.zip$/i.test(text)) throw new InvalidArgumentError('It is written as FILE.zip.');
  return text;
};

export const pdfPath = (text: string): string => {
  if (!/\.pdf$/i.test(text)) throw new InvalidArgumentError('It is written as FILE.pdf.');
  return text;
};

/** A file of another kind, by its ending; a folder is not called so. */
const otherFile = /\.(?:7z|bz2|csv|gz|html?|jsonl?|pdf|rar|sqlite|tar|tgz|txt|xlsx?|xz)$/i;

/** A ZIP file, or a folder under any name that does not promise another kind of file. */
export const folderOrZip = (text: string): string => {
  if (otherFile.test(text)) throw new InvalidArgumentError('It is written as FILE.zip, or as a folder.');
  return text;
};

/** A share as a percentage, as a part of one. */
export const percent = (text: string): number => {
  if (!/^\d{1,2}(\.\d+)?$/.test(text)) throw new InvalidArgumentError('It is a percentage, such as 20.');
  return Number(text) / 100;
};

export const labelStart = (text: string): number => {
  if (!/^[1-9]\d{0,3}$/.test(text))
    throw new InvalidArgumentError('A label is counted from 1 along the rows.');
  return Number(text);
};

export const lineNumber = (text: string): number => {
  if (!/^\d{1,6}$/.test(text)) throw new InvalidArgumentError('A line is counted from 1; 0 is none.');
  return Number(text);
};

export const wantedGrade = (text: string): Grade => {
  const grade = Number(text.replace(/^c/i, ''));
  if (text === '' || !isGrade(grade))
    throw new InvalidArgumentError('A grade is 1 to 10, in half points, such as 7.5.');
  return grade;
};

/** A limit that `none` lifts. */
export const orNone =
  <T>(read: (text: string) => T) =>
  (text: string): T | 'none' =>
    text === 'none' ? text : read(text);

export const count = (text: string): number => {
  if (!/^[1-9]\d{0,5}$/.test(text)) throw new InvalidArgumentError('It is a whole number, at least 1.');
  return Number(text);
};

/** Every use of an option that may be repeated. */
export const repeated =
  <T>(read: (text: string) => T) =>
  (text: string, before: T[] | undefined): T[] => [...(before ?? []), read(text)];

/** A car by its inventory number, and what is to be done with it; null where that is not said. */
export interface CarWish {
  number: string;
  option: WorkKind | null;
}

/** `NUMBER` or `NUMBER=conserve`. */
export const carWish = (text: string): CarWish => {
  const at = text.lastIndexOf('=');
  if (at < 0) return { number: text, option: null };
  const option = text.slice(at + 1).trim();
  if (at === 0 || !isWorkKind(option))
    throw new InvalidArgumentError(
      `It is written NUMBER or NUMBER=WHAT, where WHAT is ${workKinds.join(', ')}.`,
    );
  return { number: text.slice(0, at).trim(), option };
};

/** `Name of the part=4`, collected; `none` lifts its limit. */
export const partLimit = (
  text: string,
  before: Record<string, number | null> | undefined,
): Record<string, number | null> => {
  const at = text.lastIndexOf('=');
  const most = text.slice(at + 1).trim();
  if (at < 1 || !/^(none|\d{1,5})$/.test(most))
    throw new InvalidArgumentError('It is written "Name of the part=4", or =none for no limit.');
  return { ...before, [text.slice(0, at).trim()]: most === 'none' ? null : Number(most) };
};
