import { currencyDecimals, isCurrency } from '../money.ts';
import type { Currency, IsoDate, Minor, WorkReason } from '../types.ts';
import {
  closures,
  finishStates,
  isGrade,
  type Originality,
  originalities,
  type PartName,
  type PhotoMoment,
  partNames,
  photoMoments,
} from '../words.ts';
import { readMoney } from './money.ts';

/**
 * What was used on a job, as a line of a cell tells it; `donor` is the number of a car, `shelf` what the part was called
 * on the shelf, '' for none.
 */
export interface UseLine {
  usedOn: IsoDate;
  name: string;
  minor: Minor;
  currency: Currency;
  part: {
    part: PartName | '';
    originality: Originality;
    quantity: number;
    donor: string;
    shelf: string;
  } | null;
}

/** A photograph of a job, as a line of a cell tells it: by the fingerprint of its file. */
export interface PhotoLine {
  moment: PhotoMoment;
  /** SHA-256 of the file, in hexadecimal. */
  sha256: string;
}

/** A time on a step's clock, as a line of a cell tells it. */
export interface TimeLine {
  startedAt: string;
  endedAt: string | null;
  seconds: number | null;
  sharedBy: number;
}

/** A text that would not stand on a line as it is stands in quotation marks. */
const onLine = (text: string): string => (/^"|[\n\r]|^\s|\s$/.test(text) ? JSON.stringify(text) : text);
const offLine = (text: string): string | null => {
  if (!text.startsWith('"')) return text;
  try {
    const read: unknown = JSON.parse(text);
    return typeof read === 'string' ? read : null;
  } catch {
    return null;
  }
};

const linesOf = (cell: string): string[] =>
  cell
    .split('\n')
    .map(line => line.trim())
    .filter(Boolean);

/** Each of what was used on a line of its own, such as `2026-05-06 material 1.40 USD: Stripper`. */
export const usesText = (uses: readonly UseLine[]): string =>
  uses
    .map(({ usedOn, name, minor, currency, part }) => {
      const decimals = currencyDecimals(currency);
      const amount = `${(minor / 10 ** decimals).toFixed(decimals)} ${currency}`;
      const fitted = part
        ? ` (${[part.quantity, part.part || 'other', part.originality].join(', ')}${part.donor ? `, from ${JSON.stringify(part.donor)}` : ''}${part.shelf ? `, off the shelf ${JSON.stringify(part.shelf)}` : ''})`
        : '';
      return `${usedOn} ${part ? 'part' : 'material'} ${amount}${fitted}: ${onLine(name)}`;
    })
    .join('\n');

const useLine =
  /^(\d{4}-\d\d-\d\d) (material|part) ([\d.]+) ([A-Z]{3})(?: \((\d+), ([a-z ]+), ([a-z ]+)(?:, from ("(?:[^"\\]|\\.)*"))?(?:, off the shelf ("(?:[^"\\]|\\.)*"))?\))?: (.+)$/;

const readUse = (line: string): UseLine | null => {
  const [, day = '', is, amount = '', currency = '', quantity, partWord, state, from, off, said = ''] =
    useLine.exec(line) ?? [];
  const name = offLine(said);
  if (is === undefined || name === null || !isDay(day) || !isCurrency(currency)) return null;
  if ((is === 'part') !== (quantity !== undefined)) return null;
  const read = readMoney(amount, currency, { chosen: '.', usual: null });
  if (!read.ok) return null;
  const use = { usedOn: day as IsoDate, name, minor: read.value, currency };
  if (quantity === undefined) return { ...use, part: null };
  const part = partWord === 'other' ? '' : partNames.find(known => known === partWord);
  const originality = originalities.find(known => known === state && known !== 'missing');
  const donor = from === undefined ? '' : offLine(from);
  const shelf = off === undefined ? '' : offLine(off);
  if (part === undefined || originality === undefined || Number(quantity) < 1) return null;
  if (donor === null || shelf === null) return null;
  return { ...use, part: { part, originality, quantity: Number(quantity), donor, shelf } };
};

/** Each photograph on a line of its own, such as `before 9f86d081…`. */
export const photosText = (photos: readonly PhotoLine[]): string =>
  photos.map(({ moment, sha256 }) => `${moment} ${sha256}`).join('\n');

const readPhoto = (line: string): PhotoLine | null => {
  const [, said, sha256 = ''] = /^(\S+) ([0-9a-f]{64})$/.exec(line) ?? [];
  const moment = photoMoments.find(known => known === said);
  return moment === undefined ? null : { moment, sha256 };
};

/** Each time on a line of its own, such as `2026-05-06T10:00:00.000Z to 2026-05-06T10:25:00.000Z: 1500 s`. */
export const timesText = (times: readonly TimeLine[]): string =>
  times
    .map(({ startedAt, endedAt, seconds, sharedBy }) => {
      const counts = endedAt === null ? 'runs' : seconds === null ? 'not counted' : `${seconds} s`;
      const span = endedAt === null ? startedAt : `${startedAt} to ${endedAt}`;
      return `${span}: ${counts}${sharedBy === 1 ? '' : `, shared by ${sharedBy} cars`}`;
    })
    .join('\n');

const timeLine = /^(\S+?)(?: to (\S+?))?: (runs|not counted|(\d+) s)(?:, shared by (\d+) cars)?$/;

const readTime = (line: string): TimeLine | null => {
  const [, startedAt, endedAt = null, counts, seconds, sharedBy = '1'] = timeLine.exec(line) ?? [];
  if (startedAt === undefined || !isInstant(startedAt)) return null;
  if ((endedAt === null) !== (counts === 'runs') || (endedAt !== null && !isInstant(endedAt))) return null;
  if (Number(sharedBy) < 1) return null;
  return {
    startedAt,
    endedAt,
    seconds: seconds === undefined ? null : Number(seconds),
    sharedBy: Number(sharedBy),
  };
};

const isDay = (text: string): boolean =>
  !Number.isNaN(Date.parse(text)) && new Date(text).toISOString().startsWith(text);

/** Whether a text is an ISO instant such as `2026-05-06T10:00:00.000Z`. */
export const isInstant = (text: string): boolean =>
  /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?Z$/.test(text) && isDay(text.slice(0, 10));

/** What the lines of a cell say, each by `read`; or the first line that says nothing. */
const readLines = <Item>(
  cell: string,
  read: (line: string) => Item | null,
): { items: Item[] } | { line: string } => {
  const items: Item[] = [];
  for (const line of linesOf(cell)) {
    const item = read(line);
    if (item === null) return { line };
    items.push(item);
  }
  return { items };
};

/** Reads what `usesText` writes; or gives the line that it cannot read. */
export const readUses = (cell: string) => readLines(cell, readUse);
/** Reads what `photosText` writes; or gives the line that it cannot read. */
export const readPhotos = (cell: string) => readLines(cell, readPhoto);
/** Reads what `timesText` writes; or gives the line that it cannot read. */
export const readTimes = (cell: string) => readLines(cell, readTime);

type Told = Record<string, unknown>;
const among = (words: readonly string[], said: unknown) => typeof said === 'string' && words.includes(said);
const isPart = ({ part }: Told) => among(partNames, part);
const isYesNo = (said: unknown) => typeof said === 'boolean';

/** What each kind of reason says besides; one that does not is none. */
const reasons: Record<WorkReason['kind'], (told: Told) => boolean> = {
  always: () => true,
  owner: () => true,
  'part-grade': told =>
    isPart(told) &&
    isGrade(told.grade) &&
    isYesNo(told.assumed) &&
    (told.after === null || isGrade(told.after)),
  'part-originality': told => isPart(told) && among(originalities, told.originality),
  'lost-in-stripping': isPart,
  'lost-in-step': told => isPart(told) && typeof told.step === 'string',
  'finish-state': told => among(finishStates, told.finishState),
  'body-finish': told => typeof told.finish === 'string' && typeof told.words === 'string',
  closure: told => among(closures, told.closure),
  bearings: told => isYesNo(told.captive),
  specification: told => isPart(told) && typeof told.words === 'string',
};

/** Reads the reason for a step from the JSON that goes out; null where it is none. */
export const readReason = (json: string): WorkReason | null => {
  try {
    const told: unknown = JSON.parse(json);
    if (typeof told !== 'object' || told === null || !('kind' in told)) return null;
    const { kind } = told as Told;
    if (typeof kind !== 'string' || !Object.hasOwn(reasons, kind)) return null;
    return reasons[kind as WorkReason['kind']](told as Told) ? (told as WorkReason) : null;
  } catch {
    return null;
  }
};
