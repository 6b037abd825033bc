import { Button, Loader, Popover } from '@mantine/core';
import type { ReactNode } from 'react';
import { currencyDecimals } from '../../../../valuation/money.ts';
import type { Currency, Minor } from '../../../../valuation/types.ts';
import { ChangingAmount } from '../../../components/amounts/amount.tsx';
import { worthText } from '../../../components/format.ts';
import { LimitField } from './limit-field.tsx';
import { Meter } from './meter.tsx';
import { PartsLimits } from './parts-limits.tsx';
import { mostCash } from './read-limit.ts';
import classes from './season.module.css';
import { type Season, type Totals, tightest } from './season.ts';

const hoursText = (hours: number) => String(Math.round(hours * 10) / 10);

/**
 * The season at the foot: what the chosen cars take of hours, cash and parts, what they gain, and what
 * to do with them.
 */
export const SeasonBar = ({
  season,
  totals,
  limits,
  currency,
  running,
  saving,
  canChoose,
  menu,
  toRecord,
  toBench,
  onSeason,
  onChoose,
  onCancel,
  onRecord,
  onBench,
}: {
  season: Season;
  totals: Totals;
  limits: ReadonlyMap<string, number | null>;
  currency: Currency;
  running: boolean;
  /** A change is on its way into the collection. */
  saving: boolean;
  canChoose: boolean;
  /** Which season it is, and how to change to another. */
  menu: ReactNode;
  /** How many of its cars can be decided, and put on the bench. */
  toRecord: number;
  toBench: number;
  onSeason: (change: (season: Season) => Season) => void;
  onChoose: () => void;
  onCancel: () => void;
  onRecord: () => void;
  onBench: () => void;
}) => {
  const unit = 10 ** currencyDecimals(currency);
  const major = (minor: Minor | null) => (minor === null ? null : minor / unit);
  const tight = tightest(totals.parts, limits);
  const count = totals.cars.length;
  const overParts = tight.filter(({ used, limit }) => limit !== null && used > limit);
  return (
    <section className={classes.bar} aria-label="Season" aria-busy={saving || undefined}>
      <div className={classes.meters}>
        <div className={classes.meter}>
          <span className={classes.label}>{menu}</span>
          <span className={classes.figures}>
            <span className={classes.used}>{count}</span>
            <span>{count === 1 ? 'car' : 'cars'}</span>
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
        <Popover position="top-start" withinPortal>
          <Popover.Target>
            <button type="button" className={classes.parts} aria-label="Scarce parts and their limits">
              {tight.length === 0 ? (
                <span className={classes.meter}>
                  <span className={classes.label}>Scarce parts ▾</span>
                  <span className={classes.figures}>none used</span>
                </span>
              ) : (
                tight.slice(0, 2).map(({ name, used, limit }, place) => (
                  <Meter
                    key={name}
                    label={
                      <>
                        <span className={classes.partName} title={name}>
                          {name}
                        </span>
                        {place === 0 ? ' ▾' : null}
                      </>
                    }
                    used={used}
                    limit={limit}
                    text={used}
                  >
                    <span className={classes.limit}>{limit ?? 'no limit'}</span>
                  </Meter>
                ))
              )}
            </button>
          </Popover.Target>
          <Popover.Dropdown>
            <PartsLimits
              parts={totals.parts}
              limits={limits}
              onChange={(name, limit) =>
                onSeason(before => ({ ...before, parts: { ...before.parts, [name]: limit } }))
              }
            />
          </Popover.Dropdown>
        </Popover>
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
          <span className={classes.label}>Gain expected</span>
          <span className={`${classes.figures} ${classes.gain}`}>
            <ChangingAmount minor={totals.gain} currency={currency} estimate />
          </span>
        </div>
      </div>
      <div className={classes.actions}>
        {running ? (
          <>
            <span className={classes.running} role="status">
              <Loader size={14} /> Choosing
            </span>
            <Button onClick={onCancel}>Stop</Button>
          </>
        ) : (
          <Button onClick={onChoose} disabled={!canChoose}>
            Choose the best set
          </Button>
        )}
        <Button onClick={onRecord} disabled={toRecord === 0}>
          {toRecord === 0
            ? 'Record decisions'
            : `Record ${toRecord} ${toRecord === 1 ? 'decision' : 'decisions'}`}
        </Button>
        <Button variant="filled" onClick={onBench} disabled={toBench === 0 || saving}>
          {toBench === 0 ? 'Put on the bench' : `Put ${toBench} on the bench`}
        </Button>
      </div>
      <span className={classes.heard} role="status">
        {overParts.length > 0 ? `More than you have: ${overParts.map(({ name }) => name).join(', ')}` : ''}
      </span>
    </section>
  );
};
