import { Button, SegmentedControl } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Currency } from '../../../../../valuation/types.ts';
import { evidenceText, helpText } from '../../../../../valuation/wording/values/evidence-text.ts';
import { type WhichWorth, whichWorths, worthNames } from '../../../../../valuation/words.ts';
import { api } from '../../../../api/client.ts';
import { RangeText } from '../../../../components/amounts/amount.tsx';
import { ErrorState } from '../../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../../components/layout/loading-state.tsx';
import { Section } from '../../../../components/layout/section.tsx';
import { usedColumns } from './adjustments.ts';
import classes from './evidence.module.css';
import { PaidFor } from './paid-for.tsx';
import { RecordRow } from './record-row.tsx';

const kinds = whichWorths.map(which => ({ value: which, label: worthNames[which] }));

const fewest = 12;
const step = 50;

/**
 * The sale records behind a worth, line by line: what each was sold for, and how it was brought to this car.
 */
export const Evidence = ({
  car,
  currency,
  which,
  onWhich,
}: {
  car: CarPage;
  currency: Currency;
  which: WhichWorth;
  onWhich: (which: WhichWorth) => void;
}) => {
  const [shown, setShown] = useState<number | null>(null);
  const [open, setOpen] = useState<string | null>(null);
  const explanation = useQuery({
    queryKey: ['explain', car.id, which],
    queryFn: () => api.worth.explain({ carId: car.id, which }),
    placeholderData: keepPreviousData,
  });
  const content = () => {
    if (explanation.error) return <ErrorState error={explanation.error} retry={explanation.refetch} />;
    if (!explanation.data) return <LoadingState part />;
    const { records, evidence, worth, help } = explanation.data;
    const near = records.filter(({ level }) => level === 'variation' || level === 'casting').length;
    const count = shown ?? Math.max(near, Math.min(fewest, records.length));
    const rows = records.slice(0, count);
    const columns = usedColumns(rows);
    return (
      <>
        <p className={classes.sentence}>
          {worth ? (
            <>
              <RangeText range={worth} currency={currency} />{' '}
              <span>
                {worth.own
                  ? 'Your own figure: there is not enough evidence for another.'
                  : `${evidenceText(evidence)}.`}
              </span>
            </>
          ) : (
            <span>
              {help.length > 0
                ? help.map(helpText).join(' ')
                : 'There is not enough evidence for this value.'}
            </span>
          )}
        </p>
        {rows.length === 0 ? (
          <p className="soft">
            No evidence applies to it yet. <Link href="~/sales">Enter or import sale records</Link>, or say{' '}
            <Link href="~/settings?part=beliefs">what you believe such cars bring</Link>
          </p>
        ) : (
          <div className={classes.scroll}>
            <table className={classes.grid}>
              <thead>
                <tr>
                  <th scope="col">Day</th>
                  <th scope="col">Variation</th>
                  <th scope="col">As sold</th>
                  <th scope="col" className={classes.end}>
                    Price
                  </th>
                  {columns.map(({ what, title }) => (
                    <th key={what} scope="col" className={classes.end}>
                      {title}
                    </th>
                  ))}
                  <th scope="col" className={classes.end}>
                    Adjusted to this car
                  </th>
                  <th scope="col">Weight</th>
                  <th scope="col">Counts as</th>
                </tr>
              </thead>
              <tbody>
                {rows.map(record => {
                  const key = `${record.from?.kind ?? 'sale'} ${record.id}`;
                  return (
                    <RecordRow
                      key={key}
                      record={record}
                      currency={currency}
                      columns={columns}
                      open={open === key}
                      onToggle={() => setOpen(open === key ? null : key)}
                    />
                  );
                })}
              </tbody>
            </table>
          </div>
        )}
        {records.length > count ? (
          <Button variant="subtle" onClick={() => setShown(count + step)}>
            Show {Math.min(step, records.length - count)} more of the {records.length - count} less closely
            related
          </Button>
        ) : null}
      </>
    );
  };
  return (
    <Section
      id="evidence"
      title="Evidence"
      aside={
        <SegmentedControl
          aria-label="Which value"
          data={kinds}
          value={which}
          onChange={value => {
            setOpen(null);
            onWhich(value as WhichWorth);
          }}
        />
      }
    >
      {content()}
      {car.purchase ? <PaidFor purchase={car.purchase} carId={car.id} number={car.inventoryNumber} /> : null}
    </Section>
  );
};
