import type { DecisionSummary, Portfolio, SeasonView } from '../../../../electron/api/views.ts';
import { cashStep } from '../../../../valuation/money.ts';
import type { Currency, Minor } from '../../../../valuation/types.ts';
import { deltaText, worthText } from '../../../components/format.ts';
import { carName } from '../car-words.ts';
import { SeasonColours } from './colours/season-colours.tsx';
import classes from './plan.module.css';
import type { LeftOut, Season, Totals } from './season.ts';
import { SeasonDone } from './season-done.tsx';
import type { ChoiceState } from './use-choose.ts';

const reasons: Record<LeftOut['why'], string> = {
  guarded: 'guarded',
  never: 'excluded',
  'no room': 'no room',
};

const Row = ({
  weighed,
  currency,
  gain = weighed.plan?.expectedGain ?? 0,
  aside,
  onGo,
}: {
  weighed: DecisionSummary;
  currency: Currency;
  /** What it is expected to gain, where that is not what its plan says now. */
  gain?: Minor | undefined;
  aside: string;
  onGo: (id: number) => void;
}) => (
  <li>
    <button type="button" className={classes.row} onClick={() => onGo(weighed.car.id)}>
      <span className={classes.number}>{weighed.car.inventoryNumber}</span>
      <span className={classes.name}>{carName(weighed.car)}</span>
      <span className={classes.gain}>{deltaText(gain, currency)}</span>
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
  season,
  saved,
  totals,
  out,
  choice,
  currency,
  onGo,
}: {
  season: Season;
  saved: SeasonView | null;
  totals: Totals;
  out: readonly LeftOut[];
  choice: ChoiceState;
  currency: Currency;
  onGo: (id: number) => void;
}) => {
  const portfolio = choice.is === 'done' ? choice.portfolio : null;
  const chosen = new Set(portfolio?.chosen);
  const order = [...season.standings.keys()];
  const place = new Map(order.map((id, index) => [id, index]));
  const ordered = totals.cars
    .filter(({ car }) => !season.begun.has(car.id))
    .sort((a, b) => (place.get(a.car.id) ?? 0) - (place.get(b.car.id) ?? 0));
  const onBench = totals.cars.filter(({ car }) =>
    saved?.cars.some(one => one.carId === car.id && one.onBench && one.finishedOn === null),
  );
  const same =
    portfolio && ordered.length === portfolio.chosen.length && ordered.every(({ car }) => chosen.has(car.id));
  const waiting = ordered.reduce((sum, { plan }) => sum + (plan?.expectedGain ?? 0), 0);
  const short = portfolio ? waiting - portfolio.gain : 0;
  return (
    <div className={classes.plan}>
      {choice.is === 'failed' ? (
        <p className={classes.failed} role="alert">
          {choice.sentence}
        </p>
      ) : null}
      {totals.cars.length === 0 ? (
        <p className={classes.note}>
          No car is in yet. Press Space on a car to add it, M to require it, X to exclude it; or set the hours
          and cash available and let Playworn choose the best set.
        </p>
      ) : (
        <>
          {ordered.length > 0 ? <h3>{same ? 'Take them in this order' : 'In the season'}</h3> : null}
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
      {onBench.length > 0 ? (
        <>
          <h3>
            <a href="#/bench">On the bench</a> <span className={classes.soft}>{onBench.length}</span>
          </h3>
          <ul className={classes.rows}>
            {onBench.map(weighed => (
              <Row
                key={weighed.car.id}
                weighed={weighed}
                currency={currency}
                gain={season.begun.get(weighed.car.id)?.gain}
                aside=""
                onGo={onGo}
              />
            ))}
          </ul>
        </>
      ) : null}
      {saved ? <SeasonDone season={saved} currency={currency} /> : null}
      <SeasonColours carIds={ordered.map(({ car }) => car.id)} currency={currency} />
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
