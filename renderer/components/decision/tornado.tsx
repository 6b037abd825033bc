import type { Currency, Decision } from '../../../valuation/types.ts';
import { sentenceCase } from '../../../valuation/wording/reader.ts';
import { tornadoInputText } from '../../../valuation/wording/values/reason-text.ts';
import type { Option } from '../../../valuation/words.ts';
import { deltaText } from '../format.ts';
import { useWords } from '../words.ts';
import { tornadoScale } from './decision-parts.ts';
import classes from './tornado.module.css';

/**
 * How far the gain of the planned work moves when one input goes from its low to its high and the others
 * stay, widest first.
 */
export const Tornado = ({
  decision,
  planned,
  currency,
}: {
  decision: Pick<Decision, 'tornado' | 'options'>;
  /** The option that the car's plan stands for; the inputs are those of that plan. */
  planned: Option;
  currency: Currency;
}) => {
  const words = useWords();
  const { tornado, options } = decision;
  const expectedGain = options.find(({ option }) => option === planned)?.expectedGain;
  if (tornado.length === 0 || expectedGain === undefined) return null;
  const at = tornadoScale(tornado, expectedGain);
  const flips = tornado.filter(bar => bar.flips);
  return (
    <div className={classes.tornado}>
      <h3>What the gain of {words.option(planned).doingIt} depends on</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">
              <span className="heard">Input</span>
            </th>
            <th scope="col" className={classes.end}>
              at its low
            </th>
            <th scope="col">
              <span className="heard">Gain</span>
            </th>
            <th scope="col">at its high</th>
          </tr>
        </thead>
        <tbody>
          {tornado.map(bar => {
            const left = at(Math.min(bar.low, bar.high));
            const right = at(Math.max(bar.low, bar.high));
            return (
              <tr key={bar.input} data-flips={bar.flips || undefined}>
                <th scope="row">
                  {tornadoInputText(bar.input)}
                  {bar.flips ? <span className={classes.flips}>flips it</span> : null}
                </th>
                <td className="amount">{deltaText(bar.low, currency)}</td>
                <td className={classes.plot}>
                  <span className={classes.zero} style={{ left: `${at(0)}%` }} />
                  <span
                    className={classes.bar}
                    style={{ left: `${left}%`, width: `max(${right - left}%, 2px)` }}
                  />
                  <span className={classes.now} style={{ left: `${at(expectedGain)}%` }} />
                </td>
                <td className={classes.high}>{deltaText(bar.high, currency)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <p className={classes.key}>
        <span>
          <i className={classes.keyNow} /> gain as expected
        </span>
        <span>
          <i className={classes.keyZero} /> no gain
        </span>
        <span>
          {flips.length === 0
            ? 'No single input changes the recommendation.'
            : `${sentenceCase(flips.map(bar => tornadoInputText(bar.input)).join(' and '))} alone can change the recommendation.`}
        </span>
      </p>
    </div>
  );
};
