import { readBasePaint, readYear } from '../../../valuation/reading/words.ts';
import { featureColumns } from '../../reference/match.ts';
import type { RowReader } from './judge.ts';
import { remembered } from './remembered.ts';

/** The columns that say what a car is; their text is kept as it was written. */
const identityColumns = [
  'maker',
  'series',
  'casting',
  'release_name',
  'release_year',
  ...Object.values(featureColumns),
];

const basePaintOf = remembered(readBasePaint);
const yearOf = remembered(readYear);

/** What stands in the file of a car's identity; base paint and year in our words where they are readable. */
export const writtenOf = (row: RowReader): Record<string, string> => {
  const written: Record<string, string> = {};
  for (const column of identityColumns) {
    const text = row.takeText(column);
    if (text) written[column] = text;
  }
  const basePaint = row.take('base_paint', basePaintOf);
  if (basePaint) written.base_paint = basePaint;
  const year = row.take('release_year', yearOf);
  if (year) written.release_year = String(year);
  return written;
};
