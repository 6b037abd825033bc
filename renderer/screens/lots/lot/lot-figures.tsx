import type { ReactNode } from 'react';
import type { LotPage } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { AmountDelta, ChangingAmount } from '../../../components/amounts/amount.tsx';
import { worthText } from '../../../components/format.ts';
import classes from './lot.module.css';

const Figure = ({ word, children, under }: { word: string; children: ReactNode; under?: ReactNode }) => (
  <div className={classes.figure}>
    <dt>{word}</dt>
    <dd>
      {children}
      {under ? <span className={classes.figureUnder}>{under}</span> : null}
    </dd>
  </div>
);

/**
 * How the purchase stands: spent, realised, still here, and what that comes to. Amounts in
 * the reporting currency.
 */
export const LotFigures = ({ lot, currency }: { lot: LotPage; currency: Currency }) => {
  const { result } = lot;
  const sold = lot.rows.filter(row => row.status === 'sold').length;
  const here = lot.rows.length - sold;
  // What was bought for nothing that anyone wrote down has gained nothing that could be told.
  const costKnown = lot.costs.length > 0;
  const missing = result.withoutRate.length
    ? `without ${result.withoutRate.join(', ')}, which has no rate yet`
    : null;
  return (
    <dl className={classes.figures}>
      <Figure
        word={`Cost, ${currency}`}
        under={
          missing ??
          (result.improvements > 0 ? `and ${worthText(result.improvements, currency)} spent on them` : null)
        }
      >
        <ChangingAmount minor={costKnown ? result.cost : null} currency={currency} />
      </Figure>
      <Figure
        word="Value of the cars not sold"
        under={
          here === 0
            ? 'nothing is left'
            : result.unvalued > 0
              ? `${(here - result.unvalued).toLocaleString()} of ${here.toLocaleString()} valued`
              : `all ${here.toLocaleString()} valued`
        }
      >
        <ChangingAmount
          minor={here > 0 && result.unvalued === here ? null : result.remainingWorth}
          currency={currency}
          estimate
        />
      </Figure>
      <Figure
        word="Sold for"
        under={sold === 0 ? 'none sold yet' : `${sold} sold, fees of ${worthText(result.fees, currency)} off`}
      >
        <ChangingAmount minor={sold === 0 ? null : result.proceeds - result.fees} currency={currency} />
      </Figure>
      <Figure
        word="Total gain"
        under={
          !costKnown
            ? 'once the cost is entered'
            : result.unvalued > 0
              ? 'the cars without a value count as zero'
              : 'if the rest sold at its value'
        }
      >
        <AmountDelta minor={costKnown ? result.gain : null} currency={currency} />
      </Figure>
    </dl>
  );
};
