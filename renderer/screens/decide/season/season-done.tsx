import type { SeasonView } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { deltaText, readerLocale } from '../../../components/format.ts';
import { useWords } from '../../../components/words.ts';
import classes from './plan.module.css';
import type { SeasonOutlook } from './season-outlook.ts';

const hoursText = (hours: number | null): string =>
  hours === null ? 'hours not known' : `${(Math.round(hours * 10) / 10).toLocaleString(readerLocale())} h`;

const carsText = (count: number): string => (count === 1 ? '1 car' : `${count} cars`);

/** What was reached, what is ahead and both together, each with its range, beside what was expected at first. */
const Outlook = ({
  season,
  outlook: { reached, ahead, together },
  currency,
}: {
  season: SeasonView;
  outlook: SeasonOutlook;
  currency: Currency;
}) => {
  const between = (range: { low: number; high: number } | null) =>
    range === null
      ? 'not known'
      : range.low === range.high
        ? '–'
        : `${deltaText(range.low, currency)} to ${deltaText(range.high, currency)}`;
  const first = { low: season.expectedLow, high: season.expectedHigh };
  const rows: { what: string; of: string; gain: number | null; range: string }[] = [
    {
      what: 'Reached',
      of:
        reached.known === reached.cars
          ? carsText(reached.cars)
          : `known of ${reached.known} of ${reached.cars}`,
      gain: reached.known > 0 ? reached.brought : null,
      range: '–',
    },
    { what: 'Ahead', of: carsText(ahead.cars), gain: ahead.gain, range: between(ahead.range) },
    {
      what: 'Together',
      of: carsText(reached.cars + ahead.cars),
      gain: together.gain,
      range: between(together.range),
    },
    {
      what: 'Expected at first',
      of: carsText(season.cars.length),
      gain: season.expected,
      range: between(first.low === null || first.high === null ? null : { low: first.low, high: first.high }),
    },
  ];
  return (
    <table className={classes.done} aria-label="Reached, ahead and expected">
      <thead>
        <tr>
          <th scope="col">Gain</th>
          <th scope="col">Of</th>
          <th scope="col">Sum</th>
          <th scope="col">In 8 cases of 10</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ what, of, gain, range }) => (
          <tr key={what}>
            <th scope="row">{what}</th>
            <td>{of}</td>
            <td>{gain === null ? 'not known' : deltaText(gain, currency)}</td>
            <td>{range}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};

/** What was finished of a season: what it brought beside what was expected, car by car and in all. */
export const SeasonDone = ({
  season,
  outlook,
  currency,
}: {
  season: SeasonView;
  outlook: SeasonOutlook;
  currency: Currency;
}) => {
  const words = useWords();
  const done = season.cars.filter(({ finishedOn }) => finishedOn !== null);
  if (done.length === 0) return null;
  const known = done.filter(({ brought, expected }) => brought !== null && expected !== null);
  const sum = (of: (car: SeasonView['cars'][number]) => number | null) =>
    known.reduce((all, car) => all + (of(car) ?? 0), 0);
  return (
    <>
      <h3>
        Finished <span className={classes.soft}>{done.length}</span>
      </h3>
      <table className={classes.done}>
        <thead>
          <tr>
            <th scope="col">Car</th>
            <th scope="col">Done</th>
            <th scope="col">Hours</th>
            <th scope="col">Expected</th>
            <th
              scope="col"
              title="Value as it is now, or what it was sold for, less its value as found and what was spent"
            >
              Brought
            </th>
          </tr>
        </thead>
        <tbody>
          {done.map(car => (
            <tr key={car.carId}>
              <th scope="row">
                <a href={`#/cars/${car.carId}`}>{car.inventoryNumber}</a>
              </th>
              <td>{words.option(car.kind).name}</td>
              <td>
                {hoursText(car.hoursTaken)}
                {car.hours === null ? '' : ` of ${hoursText(car.hours)}`}
              </td>
              <td>{car.expected === null ? '–' : deltaText(car.expected, currency)}</td>
              <td>{car.brought === null ? 'not known' : deltaText(car.brought, currency)}</td>
            </tr>
          ))}
        </tbody>
        {known.length > 1 ? (
          <tfoot>
            <tr>
              <th scope="row" colSpan={3}>
                {known.length === done.length ? 'Together' : `Together, of ${known.length}`}
              </th>
              <td>
                {deltaText(
                  sum(({ expected }) => expected),
                  currency,
                )}
              </td>
              <td>
                {deltaText(
                  sum(({ brought }) => brought),
                  currency,
                )}
              </td>
            </tr>
          </tfoot>
        ) : null}
      </table>
      <Outlook season={season} outlook={outlook} currency={currency} />
    </>
  );
};
