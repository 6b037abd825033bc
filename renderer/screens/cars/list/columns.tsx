import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { CarRow } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { carColour, carTitle } from '../../../../valuation/wording/cars/car-names.ts';
import { statusText } from '../../../../valuation/wording/cars/status-text.ts';
import { advisesWork, type BasePaint, carGradeLabel } from '../../../../valuation/words.ts';
import { Amount, AmountDelta } from '../../../components/amounts/amount.tsx';
import type { GridColumn, RowState } from '../../../components/data-grid/types.ts';
import { amountText } from '../../../components/format.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { FinishState } from '../../../components/marks/finish-state.tsx';
import { GradeBadge } from '../../../components/marks/grade-badge.tsx';
import { RecommendationMark } from '../../../components/marks/recommendation-mark.tsx';
import { UnreadMark, unreadText } from '../../../components/own-words/unread-mark.tsx';
import { Photo } from '../../../components/photo/photo.tsx';
import { readerWords } from '../../../components/words.ts';
import type { WorthScale } from '../../../components/worth-strip/scale.ts';
import { stripWorths } from '../../../components/worth-strip/strip-worths.ts';
import { WorthAxis } from '../../../components/worth-strip/worth-axis.tsx';
import { WorthStrip } from '../../../components/worth-strip/worth-strip.tsx';
import classes from './list.module.css';
import { type Ticks, useIsTicked } from './ticks.ts';

const Tick = ({ ticks, car }: { ticks: Ticks; car: CarRow }) => (
  <input
    type="checkbox"
    className={classes.tick}
    aria-label={`Select ${car.inventoryNumber}`}
    tabIndex={-1}
    checked={useIsTicked(ticks, car.id)}
    onChange={() => ticks.toggle([car.id])}
  />
);

const Name = ({ car }: { car: CarRow }) => {
  const title = carTitle(car);
  return (
    <Link href={`/${car.id}`} className={classes.name} tabIndex={-1} data-sure={car.identified !== 'no'}>
      <span>{title}</span>
      {car.unread.length > 0 ? (
        <UnreadMark unread={car.unread} />
      ) : car.casting && car.casting !== title ? (
        <span className={classes.second}>{car.casting}</span>
      ) : null}
    </Link>
  );
};

/** What is not understood of a field, until it is: a finish that waits stands as original meanwhile. */
const UnreadInstead = ({
  car,
  field,
  unless = false,
  children,
}: {
  car: CarRow;
  field: string;
  unless?: boolean;
  children: ReactNode;
}) =>
  !unless && car.unread.some(one => one.field === field) ? (
    <UnreadMark unread={car.unread} field={field} />
  ) : (
    children
  );

/** What the mark at a row's edge says. */
export const carRowState = (car: CarRow): RowState | null => {
  if (car.status === 'sold') return { tone: 'muted', label: 'Sold' };
  if (car.isSeen) return { tone: 'muted', label: 'Seen, not bought' };
  if (car.identified === 'no') return { tone: 'caution', label: 'Not identified' };
  if (car.identified === 'casting') return { tone: 'caution', label: 'Variation not settled' };
  if (car.unread.length > 0) return { tone: 'caution', label: `Not understood: ${unreadText(car.unread)}` };
  return null;
};

/** Which car a row is of. */
const identityColumns = (ticks: Ticks): GridColumn<CarRow>[] => [
  {
    id: 'tick',
    title: '✓',
    width: 26,
    minWidth: 26,
    pinned: true,
    sortable: false,
    value: () => null,
    render: car => <Tick ticks={ticks} car={car} />,
  },
  {
    id: 'number',
    title: 'No',
    width: 58,
    pinned: true,
    value: car => car.inventoryNumber,
    render: car => (
      <Link href={`/${car.id}`} className={classes.number} tabIndex={-1}>
        {car.inventoryNumber}
      </Link>
    ),
  },
  {
    id: 'photo',
    title: 'Photo',
    width: 66,
    value: car => car.photoCount,
    text: () => '',
    render: car => (
      <Link href={`/${car.id}`} tabIndex={-1} aria-hidden="true" className={classes.thumb}>
        <Photo sha256={car.photo} alt="" width={52} height={35} />
      </Link>
    ),
  },
  {
    id: 'name',
    title: 'Name, casting',
    width: 128,
    grow: 2,
    value: carTitle,
    render: car => <Name car={car} />,
  },
  {
    id: 'colour',
    title: readerWords().features.colour,
    width: 116,
    grow: 1,
    value: carColour,
    render: car => (
      <LacquerChip
        name={carColour(car)}
        swatch={car.swatch}
        basePaint={car.variationId === null ? '' : (car.features.basePaint as BasePaint | '')}
      />
    ),
  },
];

/** The state that it is in. */
const conditionColumns = (): GridColumn<CarRow>[] => [
  {
    id: 'grade',
    title: 'Grade',
    width: 112,
    value: car => car.grade,
    text: car => (car.grade === null ? '' : readerWords().spell(carGradeLabel(car.grade, car.finishState))),
    render: car => (
      <UnreadInstead car={car} field="grade" unless={car.grade !== null}>
        <GradeBadge grade={car.grade} finishState={car.finishState} />
      </UnreadInstead>
    ),
  },
  {
    id: 'finish',
    title: 'Finish',
    width: 90,
    value: car => car.finishState,
    render: car => (
      <UnreadInstead car={car} field="finish_state">
        <FinishState state={car.finishState} />
      </UnreadInstead>
    ),
  },
];

/** How it came, whether it is still there, and what it cost. */
const ownershipColumns = (currency: Currency): GridColumn<CarRow>[] => [
  {
    id: 'lot',
    title: 'Lot',
    width: 104,
    grow: 2,
    value: car => car.lot,
    render: car => (
      <span className={classes.cut} title={car.lot ?? undefined}>
        {car.lot}
      </span>
    ),
  },
  {
    id: 'status',
    title: 'Status',
    width: 88,
    value: car => statusText(car.isSeen ? 'seen' : car.status),
    // As short as its column.
    render: car => (car.isSeen ? 'seen only' : statusText(car.status)),
  },
  {
    id: 'cost',
    title: 'Cost',
    heading: currency,
    width: 74,
    align: 'end',
    value: car => car.cost,
    text: car => (car.cost === null || !car.costCurrency ? '' : amountText(car.cost, car.costCurrency)),
    render: car =>
      car.cost !== null && car.costCurrency !== null && car.costCurrency !== currency ? (
        <span title={`In ${car.costCurrency}`}>
          <span className={classes.foreign}>{car.costCurrency}</span>{' '}
          <Amount minor={car.cost} currency={car.costCurrency} />
        </span>
      ) : (
        <Amount minor={car.cost} currency={currency} />
      ),
  },
];

/** What it is worth. */
const valueColumns = (currency: Currency, scale: WorthScale | null | undefined): GridColumn<CarRow>[] => [
  {
    id: 'worth',
    title: 'Value',
    heading: scale ? <WorthAxis scale={scale} /> : undefined,
    width: 150,
    grow: 3,
    value: car => car.worths.asFound?.mid ?? null,
    text: car => (car.worths.asFound ? amountText(car.worths.asFound.mid, currency) : ''),
    render: car =>
      car.status === 'sold' ? (
        <span className="soft">sold</span>
      ) : scale === undefined ? null : (
        <WorthStrip worths={stripWorths(car.worths)} currency={currency} scale={scale} />
      ),
  },
  {
    id: 'found',
    title: 'As found',
    heading: currency,
    width: 72,
    align: 'end',
    value: car => (car.status === 'sold' ? null : (car.worths.asFound?.mid ?? null)),
    text: car => (car.worths.asFound ? amountText(car.worths.asFound.mid, currency) : ''),
    render: car => (
      <Amount
        minor={car.status === 'sold' ? null : (car.worths.asFound?.mid ?? null)}
        currency={currency}
        estimate
      />
    ),
  },
];

/** A gain is shown where some work is recommended. */
const isOwned = (car: CarRow): boolean => car.status !== 'sold' && !car.isSeen;
const gains = (car: CarRow): boolean => isOwned(car) && advisesWork(car.recommendation);

/** What to do with it, and what that brings. */
const adviceColumns = (currency: Currency): GridColumn<CarRow>[] => [
  {
    id: 'recommendation',
    title: 'Recommended',
    width: 124,
    value: car =>
      !isOwned(car) || !car.recommendation ? null : readerWords().recommendation(car.recommendation),
    render: car =>
      car.recommendation === null || !isOwned(car) ? null : car.recommendation === 'not-enough-evidence' ? (
        <RecommendationMark recommendation={car.recommendation} />
      ) : (
        <RecommendationMark
          recommendation={car.recommendation}
          probability={car.recommendation === 'leave' ? null : car.probability}
        />
      ),
  },
  {
    id: 'gain',
    title: 'Gain',
    heading: currency,
    width: 66,
    align: 'end',
    value: car => (gains(car) ? car.expectedGain : null),
    text: car => (gains(car) && car.expectedGain !== null ? amountText(car.expectedGain, currency) : ''),
    render: car => <AmountDelta minor={gains(car) ? car.expectedGain : null} currency={currency} />,
  },
];

/** What can wait beyond the edge of a narrow window, so that worth and what to do stay in sight. */
const later = ['lot', 'status', 'cost'];
const narrower: Record<string, number> = {
  photo: 62,
  name: 106,
  colour: 106,
  finish: 88,
  recommendation: 118,
};

/**
 * The columns of the list of cars; the strips share one scale, which stands in their heading. What each sorts by
 * is the service's (`car-order.ts`).
 */
export const carColumns = ({
  ticks,
  currency,
  scale,
  narrow,
}: {
  ticks: Ticks;
  currency: Currency;
  /** Undefined until it is known. */
  scale: WorthScale | null | undefined;
  narrow: boolean;
}): GridColumn<CarRow>[] => {
  const columns = [
    ...identityColumns(ticks),
    ...conditionColumns(),
    ...ownershipColumns(currency),
    ...valueColumns(currency, scale),
    ...adviceColumns(currency),
  ];
  if (!narrow) return columns;
  return [
    ...columns.filter(({ id }) => !later.includes(id)),
    ...columns.filter(({ id }) => later.includes(id)),
  ].map(column => ({ ...column, width: narrower[column.id] ?? column.width }));
};
