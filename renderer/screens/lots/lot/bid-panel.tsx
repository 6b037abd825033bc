import { NumberInput } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { LotPage } from '../../../../electron/api/views.ts';
import type { Currency, Minor } from '../../../../valuation/types.ts';
import { bidText } from '../../../../valuation/wording/bid-text.ts';
import { sentenceCase } from '../../../../valuation/wording/reader.ts';
import { api } from '../../../api/client.ts';
import { errorSentence } from '../../../api/error-sentence.ts';
import { Amount, RangeText } from '../../../components/amounts/amount.tsx';
import { MoneyInput } from '../../../components/inputs/money-input.tsx';
import { readerWords } from '../../../components/words.ts';
import classes from './lot.module.css';

const fields = [
  ['margin', 'Margin you want'],
  ['probability', 'Confidence'],
  ['premiumRate', 'Premium'],
  ['taxRate', 'Tax'],
] as const;
type Field = (typeof fields)[number][0];

/** The most to bid for the cars of a lot, all costs and the wanted margin taken into account. */
export const BidPanel = ({ lot, currency }: { lot: LotPage; currency: Currency }) => {
  const [percent, setPercent] = useState<Record<Field, number>>({
    margin: 20,
    probability: 80,
    premiumRate: 0,
    taxRate: 0,
  });
  const [carriage, setCarriage] = useState<Minor | null>(null);
  const wish = {
    lotId: lot.id,
    margin: percent.margin / 100,
    probability: percent.probability / 100,
    premiumRate: percent.premiumRate / 100,
    taxRate: percent.taxRate / 100,
    carriage: carriage ?? 0,
  };
  const bid = useQuery({
    queryKey: ['bid', wish],
    queryFn: () => api.lots.bid(wish),
    placeholderData: keepPreviousData,
    retry: false,
  });
  return (
    <div className={classes.bid}>
      <h2>Highest bid</h2>
      <p className="soft grid-text">
        For these {lot.carCount} cars as entered here, so that the margin remains after premium, tax,{' '}
        {readerWords().dialect.carriage} and selling costs.
      </p>
      <div className={classes.bidFields}>
        {fields.map(([field, label]) => (
          <NumberInput
            key={field}
            label={label}
            suffix=" %"
            min={0}
            max={field === 'probability' ? 99 : 100}
            allowNegative={false}
            value={percent[field]}
            onChange={value => setPercent({ ...percent, [field]: Math.min(100, Number(value) || 0) })}
          />
        ))}
        <MoneyInput
          label={sentenceCase(readerWords().dialect.carriage)}
          currency={currency}
          value={carriage}
          onChange={setCarriage}
        />
      </div>
      <div className={classes.bidAnswer} aria-live="polite" aria-busy={bid.isFetching}>
        {bid.error ? (
          <p className="soft">{errorSentence(bid.error)}</p>
        ) : bid.data ? (
          <>
            <p className={classes.bidAmount}>
              <Amount minor={bid.data.bid} currency={currency} /> <span className="soft">{currency}</span>
            </p>
            <p className="grid-text">{bidText(bid.data, readerWords().reader(currency))}</p>
            <p className="soft grid-text">
              Together the cars are worth <RangeText range={bid.data.expectedWorth} currency={currency} />.
            </p>
          </>
        ) : null}
      </div>
    </div>
  );
};
