import type { SeasonView } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { deltaText, readerLocale } from '../../../components/format.ts';
import { useWords } from '../../../components/words.ts';
import classes from './plan.module.css';

const hoursText = (hours: number | null): string =>
  hours === null ? 'hours not known' : `${(Math.round(hours * 10) / 10).toLocaleString(readerLocale())} h`;

/** What was finished of a season: what it brought beside what was expected, car by car and in all. */
export const SeasonDone = ({ season, currency }: { season: SeasonView; currency: Currency }) => {
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
      {season.expected !== null && season.expectedLow !== null && season.expectedHigh !== null ? (
        <p className={classes.note}>
          The whole season was expected to gain {deltaText(season.expected, currency)}, in 8 cases of 10
          between {deltaText(season.expectedLow, currency)} and {deltaText(season.expectedHigh, currency)}.
        </p>
      ) : null}
    </>
  );
};
