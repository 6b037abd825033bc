import { SegmentedControl } from '@mantine/core';
import type { ReadSaleLines } from '../../../../electron/api/views.ts';
import { CurrencyField } from '../../../components/inputs/currency-field.tsx';
import classes from './paste.module.css';
import type { PasteDraft } from './paste-draft.ts';

const orders = [
  { value: 'dmy', label: 'Day first' },
  { value: 'mdy', label: 'Month first' },
];

/** The order that all the signs of the text's dates have; null where they differ or none shows. */
const shownOrder = ({ dateOrders, openDates }: ReadSaleLines): string | null => {
  const shown = new Set(Object.values(dateOrders));
  const [only] = shown;
  return shown.size === 1 && openDates.lines === 0 ? (only ?? null) : null;
};

const dateSentence = ({ openDates, dateOrders }: ReadSaleLines, answered: boolean): string => {
  if (openDates.lines > 0) {
    const others = openDates.lines - 1;
    const more = others === 0 ? '' : others === 1 ? ' and one other date' : ` and ${others} other dates`;
    return `${openDates.example ?? 'A date'}${more} can be read two ways. Which comes first?`;
  }
  if (answered) return 'Dates are read as you said.';
  return new Set(Object.values(dateOrders)).size > 1
    ? 'Dates are read by their own signs, as other lines show.'
    : 'Dates are read as other lines show.';
};

/**
 * What the lines leave open for all of them: the order of dates, and the currency of bare amounts.
 * Each is asked once.
 */
export const Questions = ({
  read,
  draft,
  onChange,
}: {
  read: ReadSaleLines;
  draft: PasteDraft;
  onChange: (change: Partial<PasteDraft>) => void;
}) => {
  const asksDates =
    read.openDates.lines > 0 || draft.dates !== null || Object.keys(read.dateOrders).length > 0;
  const { lines, currency } = read.unnamedCurrency;
  if (!asksDates && lines === 0) return null;
  return (
    <div className={classes.questions}>
      {asksDates ? (
        <div className={classes.question} data-open={read.openDates.lines > 0 || undefined}>
          <p id="date-question">{dateSentence(read, draft.dates !== null)}</p>
          <SegmentedControl
            aria-labelledby="date-question"
            data={orders}
            value={draft.dates ?? shownOrder(read) ?? ''}
            onChange={dates => onChange({ dates: dates === 'mdy' ? 'mdy' : 'dmy' })}
          />
        </div>
      ) : null}
      {lines > 0 ? (
        <div className={classes.question}>
          <p>
            {lines === 1 ? 'One price names' : `${lines.toLocaleString()} prices name`} no currency; read in
          </p>
          <div className={classes.currency}>
            <CurrencyField
              label="Currency of prices that name none"
              value={currency}
              onChange={next => onChange({ currency: next })}
            />
          </div>
        </div>
      ) : null}
    </div>
  );
};
