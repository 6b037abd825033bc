import type { Currency, Decision } from '../../../valuation/types.ts';
import { deltaText, percentText } from '../format.ts';
import { RecommendationGlyph } from '../marks/recommendation-mark.tsx';
import { readerWords } from '../words.ts';
import classes from './decision.module.css';

type Headed = Pick<Decision, 'recommendation' | 'probability' | 'expectedGain' | 'best'>;

const Lead = ({ decision, currency }: { decision: Headed; currency: Currency }) => {
  const { recommendation, probability, expectedGain, best } = decision;
  if (recommendation === 'not-enough-evidence') return 'No option can be weighed yet.';
  if (recommendation === 'leave')
    return best === 'leave' || probability === 0
      ? 'Nothing beats leaving it as it is.'
      : `The nearest to it, ${readerWords().option(best).doing}, beats leaving in ${percentText(probability)} of cases.`;
  return (
    <>
      <strong>{deltaText(expectedGain, currency)}</strong> expected over leaving, and better than leaving with{' '}
      <strong>{percentText(probability)}</strong> probability
    </>
  );
};

/** The recommendation as a large word with its mark, and what it rests on in one line. */
export const Headline = ({ decision, currency }: { decision: Headed; currency: Currency }) => (
  <p className={classes.headline}>
    <span className={classes.mark}>
      <RecommendationGlyph recommendation={decision.recommendation} />
      {readerWords().recommendation(decision.recommendation)}
    </span>
    <span className={classes.lead}>
      <Lead decision={decision} currency={currency} />
    </span>
  </p>
);
