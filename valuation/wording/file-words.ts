import type { DateOrder } from '../reading/date.ts';
import type { Encoding, Separator } from '../reading/file-formats.ts';
import type { DecimalSign } from '../reading/money.ts';

/** What the ways in which a list can be written are called. */
export const encodingNames: Record<Encoding, string> = {
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16, little-endian',
  'utf-16be': 'UTF-16, big-endian',
  'windows-1252': 'Windows-1252',
};

export const separatorNames: Record<Separator, string> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'bar',
};

export const decimalSignNames: Record<DecimalSign, string> = {
  '.': 'decimal point',
  ',': 'decimal comma',
};

export const dateOrderNames: Record<DateOrder, string> = {
  dmy: 'day first',
  mdy: 'month first',
  ymd: 'year first',
};
