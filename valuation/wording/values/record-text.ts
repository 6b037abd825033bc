import type { AdjustmentCause, AsideCause } from '../../types.ts';
import { gradeLabel } from '../../words.ts';
import { spell } from '../dialect.ts';
import { dayText, numberText } from '../reader.ts';

/** What an adjustment brought a sale record from and to, as a line of the grid, without a full stop. */
export const adjustmentText = (cause: AdjustmentCause, locale: string): string => {
  switch (cause.kind) {
    case 'exchange-rate':
      return `${cause.from} to ${cause.to} at the rate of ${dayText(cause.on, locale)}`;
    case 'index':
      return `${cause.series === 'cpi-u' ? 'CPI-U' : 'The owner’s series'} from ${cause.from} to ${cause.to}`;
    case 'trend':
      return `Fitted trend over ${numberText(cause.years, 1, locale)} years`;
    case 'steps':
      return `Fitted changes of the last ${numberText(cause.years, 1, locale)} years`;
    case 'source':
      return `Source “${cause.source}”: how its prices compare in your records`;
    case 'rarity':
      return 'From the rarity of its variation to that of this one';
    case 'grade': {
      const from = cause.ungraded ? `ungraded, taken as ${gradeLabel(cause.from)},` : gradeLabel(cause.from);
      return `From ${from} to ${gradeLabel(cause.to)}, ${spell(cause.finishState, locale)} finish`;
    }
    case 'finish-state':
      return spell(`From ${cause.from} to ${cause.to} at ${gradeLabel(cause.grade)}`, locale);
    case 'made-complete':
      return `Made complete: ${[
        ...cause.missing.map(part => `${part} missing`),
        ...cause.reproductions.map(part => `reproduction ${part}`),
      ].join(', ')}`;
    case 'own-parts':
      return 'This car’s own missing and replaced parts';
    case 'workmanship':
      return `Work does not always end in ${gradeLabel(cause.aim)}`;
    case 'departures':
      return 'Departures of the restoration from the factory specification';
  }
};

/** Why a sale record is not used, without a full stop. */
export const asideText = (cause: AsideCause, locale: string): string => {
  switch (cause.kind) {
    case 'unknown-casting':
      return 'Its casting is not in the reference';
    case 'unknown-variation':
      return 'Its variation is not in the reference';
    case 'other-casting':
      return 'Its variation belongs to another casting';
    case 'no-price':
      return 'Its price is zero';
    case 'no-reliability':
      return 'Its source has a weight of zero';
    case 'after-effective-date':
      return `It was sold on ${dayText(cause.soldOn, locale)}, after the effective date`;
    case 'no-rate':
      return `No exchange rate for ${cause.currency} on ${dayText(cause.on, locale)}`;
  }
};

/**
 * How far a doubtful record's price lies from what the other records say, in standard deviations,
 * without a full stop.
 */
export const departureText = (departure: number, locale: string): string =>
  `${numberText(Math.abs(departure), 1, locale)} standard deviations ${departure > 0 ? 'above' : 'below'} what the other records say; it counts little`;

/**
 * That a doubtful record's price suits another variation of its casting better; `chance` (0…1) is that of its
 * being one of those. Without a full stop.
 */
export const otherVariationText = (chance: number, locale: string): string =>
  `its price suits another variation of its casting better (${numberText(100 * chance, 0, locale)} % likely); check which one it was. It counts little`;
