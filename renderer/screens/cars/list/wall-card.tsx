import { memo } from 'react';
import { Link } from 'wouter';
import type { CarRow } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { carColour, carTitle } from '../../../../valuation/wording/cars/car-names.ts';
import { statusText } from '../../../../valuation/wording/cars/status-text.ts';
import type { BasePaint } from '../../../../valuation/words.ts';
import { worthText } from '../../../components/format.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { FinishState } from '../../../components/marks/finish-state.tsx';
import { GradeBadge } from '../../../components/marks/grade-badge.tsx';
import { RecommendationMark } from '../../../components/marks/recommendation-mark.tsx';
import { Photo } from '../../../components/photo/photo.tsx';
import type { WorthScale } from '../../../components/worth-strip/scale.ts';
import { stripWorths } from '../../../components/worth-strip/strip-worths.ts';
import { WorthStrip } from '../../../components/worth-strip/worth-strip.tsx';
import classes from './wall.module.css';

/** One car on the wall: its picture, what it is, and its worth on the wall's common scale. */
export const WallCard = memo(
  ({
    car,
    place,
    pictureHeight,
    currency,
    scale,
  }: {
    car: CarRow;
    place: number;
    pictureHeight: number;
    currency: Currency;
    /** Undefined until it is known. */
    scale: WorthScale | null | undefined;
  }) => (
    <li className={classes.card} data-sold={car.status === 'sold' || undefined}>
      <Link href={`/${car.id}`} className={classes.link} data-place={place}>
        <span className={classes.picture}>
          <Photo sha256={car.photo} size="screen" alt="" height={pictureHeight} />
          {car.finishState === 'original' ? null : (
            <span className={classes.state}>
              <FinishState state={car.finishState} />
            </span>
          )}
        </span>
        <span className={classes.head}>
          <span className={classes.title}>{carTitle(car)}</span>
          <GradeBadge grade={car.grade} finishState={car.finishState} />
        </span>
        <span className={classes.facts}>
          <LacquerChip
            name={carColour(car)}
            swatch={car.swatch}
            basePaint={car.variationId === null ? '' : (car.features.basePaint as BasePaint | '')}
          />
          <span className="soft">{car.inventoryNumber}</span>
        </span>
      </Link>
      {car.status === 'sold' ? (
        <span className={classes.sold}>sold</span>
      ) : (
        <>
          {scale === undefined ? null : (
            <WorthStrip worths={stripWorths(car.worths)} currency={currency} scale={scale} size="card" />
          )}
          <span className={classes.facts}>
            {car.isSeen ? (
              <span className="soft">{statusText('seen')}</span>
            ) : car.recommendation ? (
              <RecommendationMark recommendation={car.recommendation} />
            ) : (
              <span />
            )}
            {car.worths.asFound ? (
              <span className="tabular">{worthText(car.worths.asFound.mid, currency)}</span>
            ) : null}
          </span>
        </>
      )}
    </li>
  ),
);
