import type { Recommendation } from '../../../valuation/words.ts';
import { percentText } from '../format.ts';
import { useWords } from '../words.ts';
import classes from './marks.module.css';

const shapes: Record<Recommendation, React.ReactNode> = {
  leave: <circle cx="6" cy="6" r="4.5" />,
  conserve: (
    <>
      <circle cx="6" cy="6" r="4.25" className={classes.hollow} />
      <path d="M6 1.75 A4.25 4.25 0 0 0 6 10.25 Z" />
    </>
  ),
  restore: <path d="M6 1 L11 10.4 H1 Z" />,
  customise: <path d="M6 0.6 L11.4 6 L6 11.4 L0.6 6 Z" />,
  donor: <rect x="1.5" y="1.5" width="9" height="9" />,
  'not-enough-evidence': (
    <>
      <circle cx="6" cy="6" r="5" className={classes.dashed} />
      <path className={classes.hollow} d="M4.4 4.7 A1.65 1.65 0 1 1 6.4 6.2 Q6 6.4 6 7.1" />
      <circle cx="6" cy="8.8" r="0.75" />
    </>
  ),
};

/** The mark alone, twelve pixels square, for charts and legends that name it elsewhere. */
export const RecommendationGlyph = ({ recommendation }: { recommendation: Recommendation }) => (
  <svg className={classes.glyph} data-recommendation={recommendation} viewBox="0 0 12 12" aria-hidden="true">
    {shapes[recommendation]}
  </svg>
);

/**
 * A recommendation as a word with its mark and the probability that it beats leaving; `why` is
 * one line beneath.
 */
export const RecommendationMark = ({
  recommendation,
  probability,
  why,
}: {
  recommendation: Recommendation;
  probability?: number | null;
  why?: string;
}) => (
  <span className={classes.recommendation}>
    <RecommendationGlyph recommendation={recommendation} />
    <span className={classes.word}>{useWords().recommendation(recommendation)}</span>
    {typeof probability === 'number' && recommendation !== 'not-enough-evidence' ? (
      <span className={classes.probability}>{percentText(probability)}</span>
    ) : null}
    {why ? <span className={classes.why}>{why}</span> : null}
  </span>
);
