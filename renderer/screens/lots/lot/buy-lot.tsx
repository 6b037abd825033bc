import { Button, Modal, NumberInput } from '@mantine/core';
import { DateInput } from '@mantine/dates';
import { useState } from 'react';
import type { LotPage } from '../../../../electron/api/views.ts';
import { costsAtBid } from '../../../../valuation/lots/costs-at-bid.ts';
import type { Currency, IsoDate, Minor } from '../../../../valuation/types.ts';
import { sentenceCase } from '../../../../valuation/wording/reader.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { Amount } from '../../../components/amounts/amount.tsx';
import { MoneyInput } from '../../../components/inputs/money-input.tsx';
import { readerWords } from '../../../components/words.ts';
import classes from '../lot-fields.module.css';

/** What a lot is to be bought for, as its bid has it; amounts in the reporting currency. */
export interface Buying {
  bid: Minor;
  premiumRate: number;
  taxRate: number;
  carriage: Minor;
}

/** A lot that was seen becomes the lot that was bought: the price, and what comes on top of it as the bid has it. */
export const BuyLot = ({
  lot,
  buying,
  currency,
  today,
  onClose,
}: {
  lot: LotPage;
  buying: Buying;
  /** That of the bid. */
  currency: Currency;
  today: IsoDate;
  onClose: () => void;
}) => {
  const isSame = lot.currency === currency;
  const [boughtOn, setBoughtOn] = useState<IsoDate | null>(lot.boughtOn ?? today);
  const [price, setPrice] = useState<Minor | null>(isSame ? buying.bid : null);
  const [carriage, setCarriage] = useState<Minor | null>(isSame ? buying.carriage : null);
  const [premiumRate, setPremiumRate] = useState(buying.premiumRate);
  const [taxRate, setTaxRate] = useState(buying.taxRate);
  const { premium, tax } = costsAtBid(price ?? 0, { premiumRate, taxRate });
  const buy = useAction(
    (input: { price: Minor; boughtOn: IsoDate }) =>
      api.lots.buy({ id: lot.id, ...input, premiumRate, taxRate, carriage: carriage ?? 0 }),
    { label: `Lot ${lot.name} bought`, onDone: onClose },
  );
  const percent = (label: string, value: number, change: (share: number) => void) => (
    <NumberInput
      label={label}
      suffix=" %"
      min={0}
      max={100}
      allowNegative={false}
      value={Math.round(value * 1e6) / 1e4}
      onChange={next => change(Math.min(100, Number(next) || 0) / 100)}
    />
  );
  return (
    <Modal opened onClose={onClose} title={`${lot.name} is bought`} size={680}>
      <form
        className={classes.fields}
        onSubmit={event => {
          event.preventDefault();
          if (price !== null && boughtOn !== null) buy.mutate({ price, boughtOn });
        }}
      >
        <p className="soft grid-text">
          Its cars and all that is entered of them stay. What it cost is shared out over them.
          {isSame
            ? ''
            : ` The bid was worked out in ${currency}; enter what was paid in ${lot.currency}, the currency of the lot.`}
        </p>
        <div className={classes.pair}>
          <DateInput
            label="Bought on"
            value={boughtOn}
            onChange={setBoughtOn}
            valueFormat="YYYY-MM-DD"
            placeholder="YYYY-MM-DD"
            required
          />
        </div>
        <div className={classes.four}>
          <MoneyInput
            label="Price"
            currency={lot.currency}
            value={price}
            onChange={setPrice}
            asTyped
            required
          />
          {percent('Premium', premiumRate, setPremiumRate)}
          {percent('Tax', taxRate, setTaxRate)}
          <MoneyInput
            label={sentenceCase(readerWords().dialect.carriage)}
            currency={lot.currency}
            value={carriage}
            onChange={setCarriage}
            asTyped
          />
        </div>
        <p className="soft grid-text">
          Premium <Amount minor={premium} currency={lot.currency} />, tax{' '}
          <Amount minor={tax} currency={lot.currency} />.
        </p>
        <p className={classes.total}>
          <span>Total</span>
          <strong>
            <Amount minor={(price ?? 0) + premium + tax + (carriage ?? 0)} currency={lot.currency} />{' '}
            {lot.currency}
          </strong>
        </p>
        <div className={classes.foot}>
          <Button onClick={onClose}>Cancel</Button>
          <Button
            type="submit"
            variant="filled"
            disabled={price === null || boughtOn === null}
            loading={buy.isPending}
          >
            Save it as bought
          </Button>
        </div>
      </form>
    </Modal>
  );
};
