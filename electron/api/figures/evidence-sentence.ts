import type { Evidence } from '../../../valuation/index.ts';

const percent = (share: number) => `${Math.round(share * 100)} %`;
const sales = (count: number) => (count === 1 ? '1 sale' : `${count} sales`);

/** What a worth rests on, in one line: "62 % this variation's 4 sales, 38 % its casting's 31". */
export const evidenceSentence = (evidence: Evidence, own: boolean): string => {
  if (own) return 'The owner’s own figure; there is not enough evidence for another.';
  const { shares } = evidence;
  const parts: [number, string][] = [
    [shares.variation, `this variation’s ${sales(evidence.sales)}`],
    [shares.casting, `its casting’s ${evidence.castingSales}`],
    [shares.series, `its series’ ${evidence.seriesSales}`],
    [shares.everything, 'all records together'],
  ];
  const said = parts.filter(([share]) => Math.round(share * 100) > 0);
  return said.map(([share, what]) => `${percent(share)} ${what}`).join(', ');
};
