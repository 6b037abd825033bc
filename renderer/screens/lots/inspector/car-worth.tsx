import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { CarPage, CarRow } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { evidenceText, helpText } from '../../../../valuation/wording/values/evidence-text.ts';
import { reasonText } from '../../../../valuation/wording/values/reason-text.ts';
import { api } from '../../../api/client.ts';
import { RangeText } from '../../../components/amounts/amount.tsx';
import { RecommendationMark } from '../../../components/marks/recommendation-mark.tsx';
import { readerWords } from '../../../components/words.ts';
import { worthScale } from '../../../components/worth-strip/scale.ts';
import { stripWorths } from '../../../components/worth-strip/strip-worths.ts';
import { WorthAxis } from '../../../components/worth-strip/worth-axis.tsx';
import { WorthStrip } from '../../../components/worth-strip/worth-strip.tsx';
import classes from './inspector.module.css';

/**
 * The worth strip of a car with its three ranges in figures, what they rest on, and what follows from them.
 */
export const CarWorth = ({
  row,
  car,
  version,
  currency,
}: {
  row: CarRow;
  car: CarPage | null;
  version: number;
  currency: Currency;
}) => {
  const worths = useMemo(() => stripWorths(row.worths), [row.worths]);
  const scale = useMemo(() => worthScale([worths], currency), [worths, currency]);
  const { data: explained } = useQuery({
    queryKey: ['inspected value', row.id, version],
    meta: { immutable: true },
    gcTime: 10_000,
    placeholderData: (before, query) => (query?.queryKey[1] === row.id ? before : undefined),
    queryFn: () => api.worth.explain({ carId: row.id, which: 'asFound' }),
    enabled: row.worths.asFound !== null,
  });
  const { originalFinish } = row.worths;
  const help = car?.help[0];
  const reason = car?.decision.reasons[0];
  return (
    <section className={classes.part} aria-label="Value">
      <h3>
        Value <span className={classes.unit}>{currency}</span>
      </h3>
      {scale ? (
        <>
          <WorthStrip worths={worths} currency={currency} scale={scale} size="card" />
          <WorthAxis scale={scale} wanted={6} />
          <dl className={classes.worths}>
            <dt>as found</dt>
            <dd>
              <RangeText range={worths.asFound} currency={currency} />
            </dd>
            <dt>restored, net</dt>
            <dd>
              <RangeText range={worths.restored} currency={currency} />
            </dd>
            <dt>{originalFinish?.attainable === false ? 'original finish, lost' : 'original finish'}</dt>
            <dd>
              <RangeText range={originalFinish} currency={currency} />
            </dd>
          </dl>
        </>
      ) : (
        <p className={classes.sentence}>Not enough evidence.</p>
      )}
      {explained?.worth ? (
        <p className={classes.sentence}>
          <a href={`#/cars/${row.id}`}>
            {explained.worth.own
              ? 'Your own figure: there is not enough evidence for another.'
              : evidenceText(explained.evidence)}
          </a>
        </p>
      ) : null}
      {!row.worths.asFound && help ? <p className={classes.sentence}>{helpText(help)}</p> : null}
      {row.recommendation ? (
        <div className={classes.recommended}>
          <RecommendationMark
            recommendation={row.recommendation}
            {...(row.probability !== null && { probability: row.probability })}
          />
          {reason ? (
            <p className={classes.sentence}>{reasonText(reason, readerWords().reader(currency))}</p>
          ) : null}
        </div>
      ) : null}
    </section>
  );
};
