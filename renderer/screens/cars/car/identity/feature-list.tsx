import type { CarPage } from '../../../../../electron/api/views.ts';
import { variationFeatures } from '../../../../../valuation/words.ts';
import { readerWords } from '../../../../components/words.ts';
import classes from './identity.module.css';

const written: Record<string, string> = {
  maker: 'maker',
  series: 'series',
  casting: 'casting',
  release_name: 'name',
  release_year: 'year',
};

/**
 * The features that tell its variation apart; of a car that is not settled, what was written and what may be.
 */
export const FeatureList = ({ car }: { car: CarPage }) => {
  const known = variationFeatures.filter(feature => feature !== 'colour' && car.features[feature] !== '');
  const asWritten = Object.entries(car.asWritten).filter(
    ([column, text]) =>
      text !== '' && (column in written || column === 'colour') && car.identified !== 'variation',
  );
  return (
    <div className={classes.features}>
      {car.identified === 'variation' ? null : (
        <p className={classes.open}>
          {car.identified === 'no'
            ? 'Not identified yet.'
            : `Variation of ${car.casting} not settled${
                car.candidateCount > 1 ? `: ${car.candidateCount} may fit.` : '.'
              }`}
        </p>
      )}
      <dl>
        {asWritten.map(([column, text]) => (
          <div key={column}>
            <dt>{written[column] ?? column}, as written</dt>
            <dd>“{text}”</dd>
          </div>
        ))}
        {known.map(feature => (
          <div key={feature}>
            <dt>{readerWords().features[feature].toLowerCase()}</dt>
            <dd>{car.features[feature]}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
};
