import { Link } from 'wouter';
import type { HomeView } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { deltaText } from '../../components/format.ts';
import { RecommendationMark } from '../../components/marks/recommendation-mark.tsx';
import classes from './home.module.css';

/** How many cars stand under each recommendation, and what following it is expected to bring. */
export const Recommended = ({
  rows,
  currency,
}: {
  rows: HomeView['byRecommendation'];
  currency: Currency;
}) => (
  <ul className={classes.recommended}>
    {rows.map(row => (
      <li key={row.recommendation}>
        <Link href={`~/decide?recommendation=${row.recommendation}`}>
          <RecommendationMark recommendation={row.recommendation} />
          <span className={classes.figure}>{row.cars}</span>
          <span className={classes.under}>
            {row.gain > 0
              ? `${deltaText(row.gain, currency)} expected over leaving`
              : row.cars === 1
                ? 'car'
                : 'cars'}
          </span>
        </Link>
      </li>
    ))}
  </ul>
);
