import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import type { CarPage, WorthExplanation } from '../../../../../electron/api/views.ts';
import type { Currency, IsoDate } from '../../../../../valuation/types.ts';
import { evidenceText, helpText } from '../../../../../valuation/wording/values/evidence-text.ts';
import type { WhichWorth } from '../../../../../valuation/words.ts';
import { conditionLabel } from '../../../../../valuation/words.ts';
import { api } from '../../../../api/client.ts';
import { amountText, dateText, worthText } from '../../../../components/format.ts';
import { readerWords } from '../../../../components/words.ts';
import { LargeWorthStrip } from '../../../../components/worth-strip/large-worth-strip.tsx';
import type { SaleDot } from '../../../../components/worth-strip/sale-dots.tsx';
import { stripWorths } from '../../../../components/worth-strip/strip-worths.ts';
import { OwnWorth } from './own-worth.tsx';
import classes from './worth.module.css';

const levels = {
  variation: 'this variation',
  casting: 'its casting',
  series: 'its series',
  everything: 'another series',
} as const;

/**
 * The sales that tell most, as dots: this variation's and its casting's; from further off only where there
 * are none of those.
 */
const dotsOf = (explanation: WorthExplanation, currency: Currency): SaleDot[] => {
  const near = explanation.records.filter(({ level }) => level === 'variation' || level === 'casting');
  const shown = near.length > 0 ? near : explanation.records.slice(0, 40);
  return shown.map(record => ({
    id: record.id,
    amount: record.adjusted,
    level: record.level,
    doubtful: record.doubtful,
    label: `${worthText(record.adjusted, currency)} adjusted to this car, ${levels[record.level]}`,
    detail: (
      <div>
        sold {dateText(record.soldOn)} for {amountText(record.price, record.currency)} {record.currency},{' '}
        {readerWords().spell(conditionLabel(record.grade, record.finishState))}
        {record.source ? `, ${record.source}` : ''}
      </div>
    ),
  }));
};

/** The three worths across the page, the sales behind the first beneath them, and what they rest on. */
export const WorthBlock = ({
  car,
  currency,
  today,
  onExplain,
  onOpenRecord,
}: {
  car: CarPage;
  currency: Currency;
  today: IsoDate;
  onExplain: (which: WhichWorth) => void;
  onOpenRecord: (id: number) => void;
}) => {
  const found = useQuery({
    queryKey: ['explain', car.id, 'asFound'],
    queryFn: () => api.worth.explain({ carId: car.id, which: 'asFound' }),
  });
  const dots = found.data ? dotsOf(found.data, currency) : [];
  const lacking = !car.worths.asFound;
  return (
    <>
      <LargeWorthStrip
        worths={stripWorths(car.worths)}
        currency={currency}
        dots={dots}
        onExplain={onExplain}
        onOpenRecord={onOpenRecord}
      />
      <div className={classes.under} aria-busy={found.isPending}>
        <p className={classes.basis}>
          {lacking ? (
            car.help.length > 0 ? (
              car.help.map(helpText).join(' ')
            ) : (
              'There is not enough evidence for a value.'
            )
          ) : (
            <>
              {car.worths.asFound?.own
                ? 'Your own figure: there is not enough evidence for another.'
                : `Rests on ${evidenceText(car.evidence)}.`}{' '}
              As of {dateText(today)}, before selling costs.{' '}
              <Link href="~/how-values-are-estimated">How values are estimated</Link>
            </>
          )}
          {lacking && car.castingId !== null ? (
            <>
              {' '}
              <Link href="~/sales">Enter sale records</Link>
            </>
          ) : null}
        </p>
        <OwnWorth car={car} currency={currency} />
      </div>
    </>
  );
};
