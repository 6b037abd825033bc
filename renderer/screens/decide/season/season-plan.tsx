import type { DecisionSummary, Portfolio } from '../../../../electron/api/views.ts';
import { cashStep } from '../../../../valuation/money.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { deltaText, worthText } from '../../../components/format.ts';
import { carName } from '../car-words.ts';
import classes from './plan.module.css';
import type { LeftOut, Totals } from './season.ts';
import type { ChoiceState } from './use-choose.ts';

const reasons: Record<LeftOut['why'], string> = {
  guarded: 'guarded',
  never: 'excluded',
  'no room': 'no room',
};

const Row = ({
  weighed,
  currency,
  aside,
  onGo,
}: {
  weighed: DecisionSummary;
  currency: Currency;
  aside: string;
  onGo: (id: number) => void;
}) => (
  <li>
    <button type="button" className={classes.row} onClick={() => onGo(weighed.car.id)}>
      <span className={classes.number}>{weighed.car.inventoryNumber}</span>
      <span className={classes.name}>{carName(weighed.car)}</span>
      <span className={classes.gain}>{deltaText(weighed.plan?.expectedGain ?? 0, currency)}</span>
      <span className={classes.aside}>{aside}</span>
    </button>
  </li>
);

/** What one more of each limit would add, in words. */
const OneMore = ({ portfolio, currency }: { portfolio: Portfolio; currency: Currency }) => {
  const { hours, cash, parts } = portfolio.worthOfOneMore;
  const step = `${worthText(cashStep(currency), currency)} ${currency}`;
  const named: [string, number | null][] = [
    ['hour', hours],
    [`${step} of cash`, cash],
    ...Object.entries(parts).map(([part, gain]): [string, number] => [part, gain]),
  ];
  const limited = named.filter((one): one is [string, number] => one[1] !== null);
  const telling = limited.filter(([, gain]) => gain > 0).sort((a, b) => b[1] - a[1]);
  if (limited.length === 0)
    return (
      <p className={classes.note}>No limit applies: every car with an expected gain is in the season.</p>
    );
  if (telling.length === 0)
    return <p className={classes.note}>One more hour, part or {step} of cash would add nothing.</p>;
  return (
    <dl className={classes.more}>
      {telling.slice(0, 5).map(([name, gain]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{deltaText(gain, currency)}</dd>
        </div>
      ))}
    </dl>
  );
};

/** The season in full: in which order, what one more of a limit would add, and what is left out. */
export const SeasonPlan = ({
  totals,
  out,
  choice,
  currency,
  onGo,
}: {
  totals: Totals;
  out: readonly LeftOut[];
  choice: ChoiceState;
  currency: Currency;
  onGo: (id: number) => void;
}) => {
  const portfolio = choice.is === 'done' ? choice.portfolio : null;
  const place = new Map(portfolio?.chosen.map((id, index) => [id, index]));
  const last = Number.MAX_SAFE_INTEGER;
  const ordered = [...totals.cars].sort(
    (a, b) =>
      (place.get(a.car.id) ?? last) - (place.get(b.car.id) ?? last) ||
      (b.plan?.expectedGain ?? 0) - (a.plan?.expectedGain ?? 0),
  );
  const same =
    portfolio && ordered.length === portfolio.chosen.length && ordered.every(({ car }) => place.has(car.id));
  const short = portfolio ? totals.gain - portfolio.gain : 0;
  return (
    <div className={classes.plan}>
      {choice.is === 'failed' ? (
        <p className={classes.failed} role="alert">
          {choice.sentence}
        </p>
      ) : null}
      {ordered.length === 0 ? (
        <p className={classes.note}>
          No car is in yet. Press Space on a car to add it, M to require it, X to exclude it; or set the hours
          and cash available and let Playworn choose the best set.
        </p>
      ) : (
        <>
          <h3>{same ? 'Take them in this order' : 'In the season'}</h3>
          {portfolio && !same ? (
            <p className={classes.note}>
              Changed since the best set was chosen
              {short < 0 ? `: ${deltaText(short, currency)} against it.` : '.'}
            </p>
          ) : null}
          <ol className={classes.rows}>
            {ordered.map(weighed => (
              <Row
                key={weighed.car.id}
                weighed={weighed}
                currency={currency}
                aside={`${Math.round(weighed.hours * 10) / 10} h · ${worthText(weighed.cash, currency)}`}
                onGo={onGo}
              />
            ))}
          </ol>
        </>
      )}
      {portfolio ? (
        <>
          <h3>One more would add</h3>
          <OneMore portfolio={portfolio} currency={currency} />
        </>
      ) : null}
      {out.length > 0 ? (
        <>
          <h3>
            Left out <span className={classes.soft}>{out.length} that would gain from their plan</span>
          </h3>
          <ul className={classes.rows}>
            {out.slice(0, 30).map(({ weighed, why }) => (
              <Row
                key={weighed.car.id}
                weighed={weighed}
                currency={currency}
                aside={portfolio || why !== 'no room' ? reasons[why] : ''}
                onGo={onGo}
              />
            ))}
          </ul>
        </>
      ) : null}
    </div>
  );
};
