import type { Currency, ThreePoint } from '../../../../../../valuation/types.ts';
import { RangeText } from '../../../../../components/amounts/amount.tsx';
import { readerLocale } from '../../../../../components/format.ts';

const hourText = (hours: number): string =>
  hours.toLocaleString(readerLocale(), { maximumFractionDigits: hours < 10 ? 1 : 0 });

/** Hours as low–likely–high: "1.9–3.6–8.2 h". */
export const hoursText = ({ low, likely, high }: ThreePoint): string =>
  high === 0 ? 'none' : `${hourText(low)}–${hourText(likely)}–${hourText(high)} h`;

/** Minutes as low–likely–high; a dash where it takes none. */
export const minutesText = ({ low, likely, high }: ThreePoint): string =>
  high === 0 ? '–' : [low, likely, high].map(Math.round).join('–');

/** A span of waiting in its own unit: "30 min", "4 h", "2 days". */
export const waitingText = ({ likely }: ThreePoint): string => {
  if (likely === 0) return '–';
  if (likely < 90) return `${Math.round(likely)} min`;
  if (likely < 36 * 60) return `${hourText(likely / 60)} h`;
  return `${hourText(likely / 60 / 24)} days`;
};

/** An amount as low–likely–high. */
export const CostText = ({ cost, currency }: { cost: ThreePoint; currency: Currency }) => (
  <RangeText range={{ low: cost.low, mid: cost.likely, high: cost.high }} currency={currency} />
);
