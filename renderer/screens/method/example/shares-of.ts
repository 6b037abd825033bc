import type { Evidence } from '../../../../valuation/types.ts';

export interface Share {
  level: keyof Evidence['shares'];
  share: number;
  words: string;
}

const sales = (count: number): string => (count === 1 ? '1 sale' : `${count} sales`);

/** The parts of an estimate that are not nothing, nearest first, with what each rests on. */
export const sharesOf = (evidence: Evidence): Share[] => {
  const { shares } = evidence;
  const all: Share[] = [
    { level: 'variation', share: shares.variation, words: `this variation’s ${sales(evidence.sales)}` },
    { level: 'casting', share: shares.casting, words: `its casting’s ${sales(evidence.castingSales)}` },
    { level: 'series', share: shares.series, words: `its series’ ${sales(evidence.seriesSales)}` },
    { level: 'everything', share: shares.everything, words: 'all sales together' },
  ];
  return all.filter(({ share }) => share >= 0.005);
};
