import { useQuery } from '@tanstack/react-query';
import type { Currency } from '../../../../valuation/types.ts';
import { verdictText } from '../../../../valuation/wording/verdict-text.ts';
import { api } from '../../../api/client.ts';
import { percentText } from '../../../components/format.ts';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import classes from '../settings.module.css';
import { signedPercent } from './pair-scale.ts';
import { PastPairs } from './past-pairs.tsx';

const Figure = ({ name, value, note }: { name: string; value: string; note: string }) => (
  <div>
    <dt>{name}</dt>
    <dd className={classes.figure}>{value}</dd>
    <dd className={classes.figureNote}>{note}</dd>
  </div>
);

/** Past worths against what the cars brought: how far off, how often outside the range, and what that says. */
export const HeldUp = ({ currency }: { currency: Currency }) => {
  const past = useQuery({ queryKey: ['diagnostics'], queryFn: () => api.worth.diagnostics() });
  if (past.error) return <ErrorState error={past.error} retry={() => void past.refetch()} />;
  if (!past.data) return null;
  const { pairs, bias, biasRange, coverage, coverageRange, typicalError, verdict } = past.data;
  return (
    <>
      <p className={classes.verdict}>{verdictText(verdict)}</p>
      {bias === null || coverage === null || typicalError === null ? (
        <p className={classes.lead}>
          When a car whose worth was kept is sold, what it brought is set against the estimate here. Keep the
          worths from time to time, and enter your sales on the cars’ pages.
        </p>
      ) : (
        <>
          <dl className={classes.figures}>
            <Figure
              name="Brought against mid"
              value={signedPercent(bias)}
              note={
                biasRange
                  ? `between ${signedPercent(biasRange.low)} and ${signedPercent(biasRange.high)}, 19 times in 20`
                  : 'one sale tells no range'
              }
            />
            <Figure
              name="Inside the range"
              value={percentText(coverage)}
              note={
                coverageRange
                  ? `80 % wanted; these sales speak for ${percentText(coverageRange.low)} to ${percentText(coverageRange.high)}`
                  : '80 % wanted'
              }
            />
            <Figure
              name="Typical distance"
              value={percentText(typicalError)}
              note="half of the sales came closer to the mid"
            />
          </dl>
          <PastPairs pairs={pairs} currency={currency} />
        </>
      )}
    </>
  );
};
