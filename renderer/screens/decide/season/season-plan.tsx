import { Button } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { LeftOut } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { paintsCar } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { deltaText, readerLocale } from '../../../components/format.ts';
import { SeasonColours } from './colours/season-colours.tsx';
import { NextCars } from './next-cars.tsx';
import classes from './plan.module.css';
import { isIn, type Standing } from './season.ts';
import { SeasonDone } from './season-done.tsx';
import { SeasonRow, takesText } from './season-row.tsx';
import type { SeasonWork } from './use-season-work.ts';

const reasons: Record<LeftOut['why'], string> = {
  guarded: 'guarded',
  'under the floors': 'under your floors',
  never: 'excluded',
  'on the bench': 'on the bench already',
  'no room': 'no room',
};

/** Up to the next tenth of a per cent. */
const shareText = (share: number): string =>
  `${(Math.ceil(share * 1000) / 10).toLocaleString(readerLocale())} %`;

/** So many cars of a season are listed at first, and more on each wish. */
const atOnce = 60;

interface Shown {
  work: SeasonWork;
  currency: Currency;
  onGo: (id: number) => void;
}

/** The cars that are not begun, in the order in which to take them, each with what is done with it. */
const Waiting = ({ work, currency, onGo }: Shown) => {
  const [shown, setShown] = useState(atOnce);
  const { season, saved, waiting, choice } = work;
  const swatches = new Map(saved?.cars.map(({ colour, swatch }) => [colour, swatch]));
  const chosen = choice.is === 'done' ? choice.chosen : null;
  const optionOf = new Map(chosen?.taken.map(({ id, option }) => [id, option]));
  const same =
    chosen !== null &&
    waiting.length === chosen.taken.length &&
    waiting.every(({ weighed, offer }) => optionOf.get(weighed.car.id) === offer.option);
  const gain = waiting.reduce((sum, { offer }) => sum + offer.gain, 0);
  const short = chosen ? gain - chosen.gain : 0;
  const against = chosen ? waiting.filter(({ weighed }) => chosen.against.includes(weighed.car.id)) : [];
  return (
    <>
      {chosen?.gapLeft !== undefined ? (
        <p className={classes.note}>
          {chosen.considered ? 'Found' : 'Found within a set amount of work'}; the very best may gain up to{' '}
          {shareText(chosen.gapLeft)} more.
        </p>
      ) : null}
      {chosen?.considered ? (
        <p className={classes.note}>
          Of {chosen.considered.of.toLocaleString(readerLocale())} cars that pay, the{' '}
          {chosen.considered.cars.toLocaleString(readerLocale())} that gain most for what they take were
          compared one by one.
        </p>
      ) : null}
      {waiting.length > 0 ? <h3>{same ? 'Take them in this order' : 'In the season'}</h3> : null}
      {chosen && !same ? (
        <p className={classes.note}>
          Changed since the best set was chosen
          {short < 0 ? `: ${deltaText(short, currency)} against it.` : '.'}
        </p>
      ) : null}
      <ol className={classes.rows}>
        {waiting.slice(0, shown).map(({ weighed, offer }) => {
          const { id } = weighed.car;
          const colour = paintsCar(offer.option) ? season.colours.get(id) : undefined;
          return (
            <SeasonRow
              key={id}
              weighed={weighed}
              option={offer.option}
              gain={offer.gain}
              must={season.standings.get(id) === 'must'}
              colour={
                colour === undefined ? undefined : { name: colour, swatch: swatches.get(colour) ?? null }
              }
              aside={takesText(offer, currency)}
              currency={currency}
              onGo={onGo}
              onOption={option => work.setOption(id, option)}
            />
          );
        })}
      </ol>
      {waiting.length > shown ? (
        <Button variant="subtle" onClick={() => setShown(shown + atOnce)}>
          Show {Math.min(atOnce, waiting.length - shown)} more of{' '}
          {waiting.length.toLocaleString(readerLocale())}
        </Button>
      ) : null}
      {against.length > 0 ? (
        <p className={classes.note}>
          In because you require it, though it is advised against:{' '}
          {against.map(({ weighed }) => weighed.car.inventoryNumber).join(', ')}.
        </p>
      ) : null}
    </>
  );
};

/** The cars of the season that are being worked on. */
const OnBench = ({ work: { season, saved, byId }, currency, onGo }: Shown) => {
  const cars = (saved?.cars ?? []).filter(({ onBench, finishedOn }) => onBench && finishedOn === null);
  if (cars.length === 0) return null;
  return (
    <>
      <h3>
        <a href="#/bench">On the bench</a> <span className={classes.soft}>{cars.length}</span>
      </h3>
      <ul className={classes.rows}>
        {cars.flatMap(({ carId, kind, colour }) => {
          const weighed = byId.get(carId);
          if (!weighed) return [];
          return (
            <SeasonRow
              key={carId}
              weighed={weighed}
              option={kind}
              gain={season.begun.get(carId)?.gain ?? 0}
              aside={colour}
              currency={currency}
              onGo={onGo}
            />
          );
        })}
      </ul>
    </>
  );
};

/** Cars that would gain, and why they are not in. */
const LeftOutCars = ({ work: { season, filter, choice }, currency, onGo }: Shown) => {
  const of = (isAsked: (standing: Standing) => boolean) =>
    [...season.standings].flatMap(([id, standing]) => (isAsked(standing) ? [id] : []));
  const wish = { filter, taken: of(isIn), never: of(standing => standing === 'never') };
  const { data, isPlaceholderData } = useQuery({
    queryKey: ['decide', 'left-out', wish],
    queryFn: () => api.decisions.leftOut(wish),
    placeholderData: keepPreviousData,
  });
  if (!data || data.cars === 0) return null;
  return (
    <section aria-busy={isPlaceholderData || undefined} aria-label="Left out">
      <h3>
        Left out{' '}
        <span className={classes.soft}>{data.cars.toLocaleString(readerLocale())} that would gain</span>
      </h3>
      <ul className={classes.rows}>
        {data.most.map(({ weighed, offer, why }) => (
          <SeasonRow
            key={weighed.car.id}
            weighed={weighed}
            option={offer.option}
            gain={offer.gain}
            aside={choice.is === 'done' || why !== 'no room' ? reasons[why] : ''}
            currency={currency}
            onGo={onGo}
          />
        ))}
      </ul>
    </section>
  );
};

/**
 * The season in full: what is done with which car, in which order, what would come next, and what is left
 * out.
 */
export const SeasonPlan = (shown: Shown) => {
  const { work, currency, onGo } = shown;
  const { season, saved, totals, choice } = work;
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
          and cash available and let Playworn choose the best set: what to restore, what to conserve, what to
          use for parts.
        </p>
      ) : (
        <Waiting {...shown} />
      )}
      {choice.is === 'done' ? (
        <NextCars
          chosen={choice.chosen}
          limited={[season.hours, season.cash, season.mostCars, season.perCasting].some(one => one !== null)}
          byId={work.byId}
          currency={currency}
          onGo={onGo}
        />
      ) : null}
      <OnBench {...shown} />
      {saved ? <SeasonDone season={saved} outlook={work.outlook} currency={currency} /> : null}
      <SeasonColours
        carIds={work.waiting.flatMap(({ weighed, offer }) =>
          paintsCar(offer.option) ? [weighed.car.id] : [],
        )}
        saved={season.colours}
        currency={currency}
        onSave={work.setColours}
      />
      <LeftOutCars {...shown} />
    </div>
  );
};
