import type { DecideFacts } from '../../../../electron/api/views.ts';
import type { Recommendation } from '../../../../valuation/words.ts';
import { recommendations } from '../../../../valuation/words.ts';
import { readerLocale } from '../../../components/format.ts';
import { RecommendationGlyph } from '../../../components/marks/recommendation-mark.tsx';
import { readerWords } from '../../../components/words.ts';
import classes from './scatter.module.css';

/** What the marks mean and how many there are of each; a press shows these alone, another all again. */
export const Legend = ({
  recommended,
  chosen,
  onChoose,
}: {
  /** How many there are of each, whatever of them is shown. */
  recommended: DecideFacts['recommended'];
  chosen: readonly Recommendation[];
  onChoose: (recommendations: Recommendation[]) => void;
}) => {
  const counts = new Map(recommended.map(({ value, cars }) => [value, cars]));
  return (
    <ul className={classes.legend} aria-label="Recommendations">
      {recommendations
        .filter(word => counts.has(word) || chosen.includes(word))
        .map(word => {
          const alone = chosen.length === 1 && chosen[0] === word;
          return (
            <li key={word}>
              <button
                type="button"
                aria-pressed={chosen.includes(word)}
                onClick={() => onChoose(alone ? [] : [word])}
              >
                <RecommendationGlyph recommendation={word} />
                <span className={classes.count}>
                  {(counts.get(word) ?? 0).toLocaleString(readerLocale())}
                </span>{' '}
                {readerWords().recommendation(word)}
              </button>
            </li>
          );
        })}
      <li className={classes.sizes} aria-hidden="true">
        <i /> <i /> <i /> larger: costs more
      </li>
    </ul>
  );
};
