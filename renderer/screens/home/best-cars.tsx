import { useMemo } from 'react';
import { Link } from 'wouter';
import type { CarRow } from '../../../electron/api/views.ts';
import type { BasePaint, Currency } from '../../../valuation/index.ts';
import { colourNow } from '../../../valuation/wording/cars/disclosure-text.ts';
import { RangeText } from '../../components/amounts/amount.tsx';
import { MostHelpful } from '../../components/evidence/helpful-answers.tsx';
import { LacquerChip } from '../../components/lacquer-chip/lacquer-chip.tsx';
import { GradeBadge } from '../../components/marks/grade-badge.tsx';
import { Photo } from '../../components/photo/photo.tsx';
import { readerWords } from '../../components/words.ts';
import { worthScale } from '../../components/worth-strip/scale.ts';
import { stripWorths } from '../../components/worth-strip/strip-worths.ts';
import { WorthStrip } from '../../components/worth-strip/worth-strip.tsx';
import classes from './home.module.css';

/** A wall of cars, each with its picture, what it is, and its worth strip on one common scale. */
export const BestCars = ({ cars, currency }: { cars: CarRow[]; currency: Currency }) => {
  const scale = useMemo(
    () =>
      worthScale(
        cars.map(car => stripWorths(car.worths)),
        currency,
      ),
    [cars, currency],
  );
  if (cars.length === 0)
    return (
      <p className="soft">
        No car has a value yet. <MostHelpful />
      </p>
    );
  return (
    <ul className={classes.wall}>
      {cars.map(car => (
        <li key={car.id} className={classes.card}>
          <Link href={`~/cars/${car.id}`} className={classes.picture} tabIndex={-1} aria-hidden="true">
            <Photo sha256={car.photo} size="screen" alt="" height={124} />
          </Link>
          <div className={classes.cardHead}>
            <Link href={`~/cars/${car.id}`} className={classes.cardTitle}>
              {car.releaseName ?? car.casting ?? 'Unidentified'}
            </Link>
            <GradeBadge grade={car.grade} finishState={car.finishState} />
          </div>
          <div className={classes.cardFacts}>
            <LacquerChip
              name={
                colourNow(car.features.colour, car.wornColour) || `${readerWords().dialect.colour} not known`
              }
              swatch={car.swatch}
              basePaint={car.features.basePaint as BasePaint | ''}
            />
            <span className="soft">{car.inventoryNumber}</span>
          </div>
          <WorthStrip worths={stripWorths(car.worths)} currency={currency} scale={scale} size="card" />
          <div className={classes.cardWorth}>
            <span className="soft">as found</span>
            <RangeText range={car.worths.asFound} currency={currency} />
          </div>
        </li>
      ))}
    </ul>
  );
};
