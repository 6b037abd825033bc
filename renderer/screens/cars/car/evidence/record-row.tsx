import { Link } from 'wouter';
import { currencyDecimals } from '../../../../../valuation/money.ts';
import type { Currency } from '../../../../../valuation/types.ts';
import { evidenceKindNames, ownEvidenceText } from '../../../../../valuation/wording/values/evidence-text.ts';
import { adjustmentText } from '../../../../../valuation/wording/values/record-text.ts';
import { conditionLabel } from '../../../../../valuation/words.ts';
import { amountText, dateText, percentText, readerLocale, worthText } from '../../../../components/format.ts';
import { readerWords } from '../../../../components/words.ts';
import { type AdjustmentColumn, type ExplainedRecord, factorOf, factorText, stepsOf } from './adjustments.ts';
import classes from './evidence.module.css';

const levelWords = {
  variation: 'this variation',
  casting: 'its casting',
  series: 'its series',
  everything: 'less closely related',
} as const;

/** Leads to where the evidence is kept. */
const Source = ({ record: { id, from } }: { record: ExplainedRecord }) => {
  if (!from) return <Link href={`~/sales?record=${id}`}>Open this sale record</Link>;
  if (from.kind === 'belief') return <Link href="~/settings?part=beliefs">Open what you believe</Link>;
  return <Link href={`~/lots/${from.lotId}`}>Open the lot</Link>;
};

const Steps = ({ record, currency, span }: { record: ExplainedRecord; currency: Currency; span: number }) => {
  const unit = 10 ** (currencyDecimals(currency) - currencyDecimals(record.currency));
  const steps = stepsOf(record, unit);
  return (
    <tr className={classes.steps}>
      <td colSpan={span}>
        <ol>
          <li>
            <span>
              {record.from ? ownEvidenceText(record, readerLocale()) : `sold ${dateText(record.soldOn)}`}
              {record.source ? `, ${record.source}` : ''}
            </span>
            <span />
            <span className="amount">
              {amountText(record.price, record.currency)} {record.currency}
            </span>
          </li>
          {steps.map((step, place) => (
            <li key={place}>
              <span>{adjustmentText(step.cause, readerLocale())}</span>
              <span className="amount">{factorText(step.factor)}</span>
              <span className="amount">{amountText(step.after, currency)}</span>
            </li>
          ))}
        </ol>
        <Source record={record} />
      </td>
    </tr>
  );
};

/** One sale record of the adjustment grid; opened, it shows each step with its reason. */
export const RecordRow = ({
  record,
  currency,
  columns,
  open,
  onToggle,
}: {
  record: ExplainedRecord;
  currency: Currency;
  columns: readonly { what: AdjustmentColumn }[];
  open: boolean;
  onToggle: () => void;
}) => (
  <>
    <tr data-doubtful={record.doubtful || undefined} data-open={open || undefined}>
      <th scope="row">
        <button type="button" className={classes.toggle} aria-expanded={open} onClick={onToggle}>
          <span className={classes.arrow} aria-hidden="true">
            ›
          </span>
          {dateText(record.soldOn)}
        </button>
      </th>
      <td className={classes.of}>{record.variation || 'casting only'}</td>
      <td>{readerWords().spell(conditionLabel(record.grade, record.finishState))}</td>
      <td className="amount">
        {amountText(record.price, record.currency)}
        {record.currency === currency ? null : <span className={classes.foreign}>{record.currency}</span>}
      </td>
      {columns.map(({ what }) => {
        const factor = factorOf(record, what);
        return (
          <td key={what} className={`amount ${factor === null ? 'soft' : ''}`}>
            {factor === null ? '–' : factorText(factor)}
          </td>
        );
      })}
      <td className={`amount ${classes.adjusted}`}>{worthText(record.adjusted, currency)}</td>
      <td className={classes.weight}>
        <span aria-hidden="true">
          <i style={{ width: `${Math.min(1, record.weight) * 100}%` }} />
        </span>
        {percentText(Math.min(1, record.weight))}
      </td>
      <td className={classes.level}>
        {levelWords[record.level]}
        {record.from ? (
          <strong className={classes.kind}> {evidenceKindNames[record.from.kind]}</strong>
        ) : null}
        {record.doubtful ? <strong className="caution"> doubtful</strong> : null}
      </td>
    </tr>
    {open ? <Steps record={record} currency={currency} span={7 + columns.length} /> : null}
  </>
);
