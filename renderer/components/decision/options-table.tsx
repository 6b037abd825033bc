import { Button } from '@mantine/core';
import type { Currency, Decision } from '../../../valuation/types.ts';
import type { Option } from '../../../valuation/words.ts';
import { RangeText } from '../amounts/amount.tsx';
import { deltaText, percentText, worthText } from '../format.ts';
import { RecommendationGlyph } from '../marks/recommendation-mark.tsx';
import { useWords } from '../words.ts';
import classes from './options-table.module.css';

/**
 * What can be done with the car: each option's cost, worth then, gain over leaving and the chance that
 * it beats leaving.
 */
export const OptionsTable = ({
  decision,
  currency,
  chosen,
  onChoose,
}: {
  decision: Pick<Decision, 'options' | 'recommendation'>;
  currency: Currency;
  /** What the owner decided, where that is recorded. */
  chosen: Option | null;
  /** Left out where nothing is to be chosen any more, as of a car that was sold. */
  onChoose?: ((option: Option) => void) | undefined;
}) => {
  const words = useWords();
  const { options, recommendation } = decision;
  if (options.length === 0) return null;
  return (
    <div className="sideways">
      <table className={classes.options}>
        <caption className="heard">The options, compared with leaving it</caption>
        <thead>
          <tr>
            <th scope="col">Option</th>
            <th scope="col" className={classes.end}>
              Cost
            </th>
            <th scope="col" className={classes.end}>
              Value after
            </th>
            <th scope="col" className={classes.end}>
              Gain expected
            </th>
            <th scope="col" className={classes.end}>
              Gain, 80 % range
            </th>
            <th scope="col">Beats leaving</th>
            <th scope="col">
              <span className="heard">Choose</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {options.map(({ option, cost, worth, expectedGain, gain, probability, guards }) => {
            const leaving = option === 'leave';
            const guarded = guards.some(guard => !guard.overruled);
            return (
              <tr key={option} data-recommended={option === recommendation || undefined}>
                <th scope="row">
                  <RecommendationGlyph recommendation={option} /> {words.option(option).name}
                  {option === recommendation ? <span className={classes.tag}>recommended</span> : null}
                  {guarded ? <span className={classes.guarded}>guarded</span> : null}
                </th>
                <td className="amount">{leaving ? '–' : <RangeText range={cost} currency={currency} />}</td>
                <td className="amount">
                  <RangeText range={worth} currency={currency} />
                </td>
                <td className={`amount ${classes.gain}`}>
                  {leaving ? '–' : deltaText(expectedGain, currency)}
                </td>
                <td className="amount soft">
                  {leaving ? '–' : `${worthText(gain.low, currency)} to ${worthText(gain.high, currency)}`}
                </td>
                <td className={classes.chance}>
                  {leaving ? (
                    '–'
                  ) : (
                    <>
                      <span className={classes.bar} aria-hidden="true">
                        <span style={{ width: `${probability * 100}%` }} />
                      </span>
                      {percentText(probability)}
                    </>
                  )}
                </td>
                <td className={classes.choose}>
                  {chosen === option ? (
                    <span className={classes.chosen}>✓ chosen</span>
                  ) : onChoose === undefined ? null : (
                    <Button
                      variant="subtle"
                      onClick={() => onChoose(option)}
                      aria-label={`Choose ${words.option(option).name}`}
                    >
                      Choose
                    </Button>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
};
