import type { DecisionSummary, SeasonChoice } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { deltaText, worthText } from '../../../components/format.ts';
import { RecommendationGlyph } from '../../../components/marks/recommendation-mark.tsx';
import { useWords } from '../../../components/words.ts';
import { carName } from '../car-words.ts';
import classes from './plan.module.css';
import { hoursText } from './season-row.tsx';

type Next = SeasonChoice['next'][number];

/** What there would have to be more of: "1.5 h, 3.20 USD and 2 × Hub". */
const needsText = ({ needs }: Next, currency: Currency): string => {
  const { hours, cash, parts, place, ofCasting } = needs;
  const more = [
    // Up to the next tenth: with less it would not fit.
    ...(hours > 0 ? [`${hoursText(Math.ceil(hours * 10) / 10)} h more`] : []),
    ...(cash > 0 ? [`${worthText(cash, currency)} ${currency} more`] : []),
    ...Object.entries(parts).map(([name, count]) => `${count} more ${name}`),
    ...(place ? ['room for one more car'] : []),
    ...(ofCasting ? ['room for one more of its casting'] : []),
  ];
  if (more.length < 2) return more.join('');
  return `${more.slice(0, -1).join(', ')} and ${more.at(-1)}`;
};

/** The cars that would come next: what each adds, and what there would have to be more of. */
export const NextCars = ({
  chosen: { next },
  limited,
  byId,
  currency,
  onGo,
}: {
  chosen: SeasonChoice;
  /** Whether there is any limit. */
  limited: boolean;
  byId: ReadonlyMap<number, DecisionSummary>;
  currency: Currency;
  onGo: (id: number) => void;
}) => {
  const words = useWords();
  return (
    <>
      <h3>{next.length > 1 ? 'The next cars, and what they need' : 'The next car, and what it needs'}</h3>
      {next.length === 0 ? (
        <p className={classes.note}>
          {limited
            ? 'None: all that passes your floors fits within the limits.'
            : 'None: without a limit, all that passes your floors is in the season.'}
        </p>
      ) : (
        <ol className={classes.next}>
          {next.map(one => {
            const weighed = byId.get(one.id);
            return (
              <li key={one.id} className={classes.nextRow}>
                <button type="button" className={classes.go} onClick={() => onGo(one.id)}>
                  <span className={classes.number}>{weighed?.car.inventoryNumber ?? ''}</span>
                  <span className={classes.name}>{weighed ? carName(weighed.car) : ''}</span>
                </button>
                <span className={classes.doing}>
                  <RecommendationGlyph recommendation={one.option} /> {words.option(one.option).name}
                  {one.instead ? (
                    <span className={classes.soft}> instead of {words.option(one.instead).doing}</span>
                  ) : null}
                </span>
                <span className={classes.gain}>{deltaText(one.adds, currency)}</span>
                <span className={classes.needs}>needs {needsText(one, currency)}</span>
              </li>
            );
          })}
        </ol>
      )}
    </>
  );
};
