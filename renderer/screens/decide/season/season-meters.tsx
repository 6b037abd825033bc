import type { ReactNode } from 'react';
import { currencyDecimals } from '../../../../valuation/money.ts';
import type { Currency, Minor } from '../../../../valuation/types.ts';
import { ChangingAmount } from '../../../components/amounts/amount.tsx';
import { worthText } from '../../../components/format.ts';
import { LimitField } from './limit-field.tsx';
import { Meter } from './meter.tsx';
import { mostCash } from './read-limit.ts';
import { ScarceParts } from './scarce-parts.tsx';
import classes from './season.module.css';
import type { Season, Totals, tightest } from './season.ts';
import type { SeasonOutlook } from './season-outlook.ts';

const hoursText = (hours: number) => String(Math.round(hours * 10) / 10);

/**
 * What the chosen cars take of hours, cash, parts and castings, against the limits that are set here, and
 * what they gain.
 */
export const SeasonMeters = ({
  season,
  totals,
  limits,
  tight,
  currency,
  outlook,
  menu,
  onSeason,
}: {
  season: Season;
  totals: Totals;
  limits: ReadonlyMap<string, number | null>;
  tight: ReturnType<typeof tightest>;
  currency: Currency;
  /** What it has brought and what is ahead of it. */
  outlook: SeasonOutlook;
  /** Which season it is, and how to change to another. */
  menu: ReactNode;
  onSeason: (change: (season: Season) => Season) => void;
}) => {
  const unit = 10 ** currencyDecimals(currency);
  const major = (minor: Minor | null) => (minor === null ? null : minor / unit);
  const count = totals.cars.length;
  const {
    reached,
    together: { gain, range },
  } = outlook;
  const isFull = season.mostCars !== null && count > season.mostCars;
  return (
    <div className={classes.meters}>
      <div className={classes.meter} data-over={isFull || undefined}>
        <span className={classes.label}>
          {menu}
          {isFull ? <span className={classes.over}> over</span> : null}
        </span>
        <span className={classes.figures}>
          <span className={classes.used}>{count}</span>
          <span>{count === 1 ? 'car' : 'cars'}</span>
          <span className={classes.slash}>/</span>
          <LimitField
            label="Most cars in the season"
            value={season.mostCars}
            whole
            none="any"
            onChange={most => onSeason(before => ({ ...before, mostCars: most || null }))}
          />
        </span>
      </div>
      <Meter label="Hours" used={totals.hours} limit={season.hours} text={hoursText(totals.hours)}>
        <LimitField
          label="Hours available"
          value={season.hours}
          onChange={hours => onSeason(before => ({ ...before, hours }))}
        />
      </Meter>
      <Meter
        label={`Cash, ${currency}`}
        used={totals.cash}
        limit={season.cash}
        text={worthText(totals.cash, currency)}
      >
        <LimitField
          label={`Cash available, ${currency}`}
          value={major(season.cash)}
          ceiling={mostCash(unit)}
          onChange={cash =>
            onSeason(before => ({ ...before, cash: cash === null ? null : Math.round(cash * unit) }))
          }
        />
      </Meter>
      <ScarceParts
        tight={tight}
        parts={totals.parts}
        limits={limits}
        onChange={(name, limit) =>
          onSeason(before => ({ ...before, parts: { ...before.parts, [name]: limit } }))
        }
      />
      <div className={classes.meter} data-over={totals.crowded.length > 0 || undefined}>
        <span className={classes.label}>
          Of one casting
          {totals.crowded.length > 0 ? (
            <span className={classes.over} title={totals.crowded.join(', ')}>
              {' '}
              over
            </span>
          ) : null}
        </span>
        <span className={classes.figures}>
          at most{' '}
          <LimitField
            label="Most cars of one casting"
            value={season.perCasting}
            whole
            none="any"
            onChange={most => onSeason(before => ({ ...before, perCasting: most || null }))}
          />
        </span>
      </div>
      <div className={classes.meter}>
        <span className={classes.label}>
          {reached.cars > 0 ? 'Gain, reached and ahead' : 'Gain expected'}
          {range && range.low < range.high ? (
            <span className={classes.range} title="In 8 cases of 10 it is between these">
              {worthText(range.low, currency)} – {worthText(range.high, currency)}
            </span>
          ) : null}
        </span>
        <span className={`${classes.figures} ${classes.gain}`}>
          <ChangingAmount minor={gain} currency={currency} estimate />
        </span>
      </div>
    </div>
  );
};
