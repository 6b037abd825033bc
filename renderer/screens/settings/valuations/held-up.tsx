import { useQuery } from '@tanstack/react-query';
import type { Currency } from '../../../../valuation/types.ts';
import { sentenceCase } from '../../../../valuation/wording/reader.ts';
import { beliefAbout, beliefHeldText } from '../../../../valuation/wording/values/belief-text.ts';
import { verdictText } from '../../../../valuation/wording/values/verdict-text.ts';
import { api } from '../../../api/client.ts';
import { percentText } from '../../../components/format.ts';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
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

/** What the owner believed against what such cars brought since; nothing as long as none was sold. */
const HeldBeliefs = () => {
  const beliefs = useQuery({ queryKey: ['beliefs'], queryFn: () => api.beliefs.list() });
  const tried = (beliefs.data ?? []).flatMap(belief =>
    belief.against && belief.against.count > 0 ? [{ belief, against: belief.against }] : [],
  );
  if (tried.length === 0) return null;
  return (
    <>
      <h3>What you believed</h3>
      <ul>
        {tried.map(({ belief, against }) => (
          <li key={belief.id}>
            {sentenceCase(beliefAbout(belief))}: {beliefHeldText(against)}.
          </li>
        ))}
      </ul>
    </>
  );
};

/**
 * Past worths against what the cars brought: how far off, how often outside the range, and what that says.
 */
export const HeldUp = ({ currency }: { currency: Currency }) => {
  const past = useQuery({ queryKey: ['diagnostics'], queryFn: () => api.worth.diagnostics() });
  if (past.error) return <ErrorState error={past.error} retry={() => void past.refetch()} />;
  if (!past.data) return <LoadingState part />;
  const { pairs, bias, biasRange, coverage, coverageRange, typicalError, verdict } = past.data;
  return (
    <>
      <p className={classes.verdict}>{verdictText(verdict)}</p>
      {bias === null || coverage === null || typicalError === null ? (
        <p className={classes.lead}>
          When you sell a car that was in a saved valuation, its sale price is compared with the estimate
          here. Save a valuation from time to time, and enter your sales on the cars’ pages.
        </p>
      ) : (
        <>
          <dl className={classes.figures}>
            <Figure
              name="Sale price compared with estimate"
              value={signedPercent(bias)}
              note={
                biasRange
                  ? `between ${signedPercent(biasRange.low)} and ${signedPercent(biasRange.high)}, 19 times in 20`
                  : 'too few sales for a range'
              }
            />
            <Figure
              name="Inside the range"
              value={percentText(coverage)}
              note={
                coverageRange
                  ? `80 % expected; likely between ${percentText(coverageRange.low)} and ${percentText(coverageRange.high)}`
                  : '80 % expected'
              }
            />
            <Figure
              name="Typical distance"
              value={percentText(typicalError)}
              note="half of the sales were closer to the estimate"
            />
          </dl>
          <PastPairs pairs={pairs} currency={currency} />
        </>
      )}
      <HeldBeliefs />
    </>
  );
};
