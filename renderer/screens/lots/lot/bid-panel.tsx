import { Button, NumberInput } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { LotPage } from '../../../../electron/api/views.ts';
import type { Currency, Minor } from '../../../../valuation/types.ts';
import { sentenceCase } from '../../../../valuation/wording/reader.ts';
import { bidText } from '../../../../valuation/wording/values/bid-text.ts';
import { api } from '../../../api/client.ts';
import { errorSentence } from '../../../api/error-sentence.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { Amount, RangeText } from '../../../components/amounts/amount.tsx';
import { MoneyInput } from '../../../components/inputs/money-input.tsx';
import { readerWords } from '../../../components/words.ts';
import type { Buying } from './buy-lot.tsx';
import classes from './lot.module.css';

const fields = [
  ['margin', 'Margin you want'],
  ['probability', 'Confidence'],
  ['premiumRate', 'Premium'],
  ['taxRate', 'Tax'],
] as const;
type Field = (typeof fields)[number][0];

const startingPercent: Record<Field, number> = { margin: 20, probability: 80, premiumRate: 0, taxRate: 0 };

/** The saved share of a bid in percent, without what floating point adds. */
const percentOf = (share: number) => Math.round(share * 1e6) / 1e4;

const percentsOf = ({ bid }: LotPage): Record<Field, number> =>
  bid === null
    ? startingPercent
    : {
        margin: percentOf(bid.margin),
        probability: percentOf(bid.probability),
        premiumRate: percentOf(bid.premiumRate),
        taxRate: percentOf(bid.taxRate),
      };

/**
 * The most to bid for the cars of a lot, all costs and the wanted margin taken into account. It is saved with the
 * lot, and from there its sheet is printed and the lot is bought.
 */
export const BidPanel = ({
  lot,
  currency,
  onBought,
}: {
  lot: LotPage;
  currency: Currency;
  /** Told that the lot is bought, with the bid. */
  onBought: (buying: Buying) => void;
}) => {
  const [percent, setPercent] = useState(() => percentsOf(lot));
  const [carriage, setCarriage] = useState<Minor | null>(lot.bid?.carriage ?? null);
  const terms = {
    margin: percent.margin / 100,
    probability: percent.probability / 100,
    premiumRate: percent.premiumRate / 100,
    taxRate: percent.taxRate / 100,
    carriage: carriage ?? 0,
  };
  const wish = { lotId: lot.id, ...terms };
  const save = useAction(() => api.lots.saveBid({ id: lot.id, ...terms }), {
    label: `Bid for ${lot.name} saved`,
  });
  const isSaved = (Object.keys(terms) as (keyof typeof terms)[]).every(
    name => lot.bid?.[name] === terms[name],
  );
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
      {lot.boughtOn === null && lot.costs.length === 0 && !lot.isSeen ? (
        <p className="soft grid-text">
          Saving a bid marks the lot as seen, not bought: its cars then do not count among yours.
        </p>
      ) : null}
      <div className={classes.bidFoot}>
        <Button disabled={isSaved} loading={save.isPending} onClick={() => save.mutate()}>
          {isSaved ? 'Bid saved' : 'Save this bid'}
        </Button>
        {lot.costs.length === 0 ? (
          <Button
            variant="filled"
            disabled={lot.carCount === 0}
            onClick={() => onBought({ ...terms, bid: bid.data?.bid ?? 0 })}
          >
            Bought…
          </Button>
        ) : null}
      </div>
    </div>
  );
};
