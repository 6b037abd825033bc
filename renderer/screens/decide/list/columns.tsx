import { Link } from 'wouter';
import type { DecisionSummary } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { colourNow } from '../../../../valuation/wording/cars/disclosure-text.ts';
import { turningText } from '../../../../valuation/wording/values/reason-text.ts';
import { type BasePaint, optionRank, standingRank } from '../../../../valuation/words.ts';
import { AmountDelta } from '../../../components/amounts/amount.tsx';
import type { GridColumn } from '../../../components/data-grid/types.ts';
import { deltaText, percentText, worthText } from '../../../components/format.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { FinishState } from '../../../components/marks/finish-state.tsx';
import { GradeBadge } from '../../../components/marks/grade-badge.tsx';
import { RecommendationGlyph, RecommendationMark } from '../../../components/marks/recommendation-mark.tsx';
import { Photo } from '../../../components/photo/photo.tsx';
import { readerWords } from '../../../components/words.ts';
import type { WorthScale } from '../../../components/worth-strip/scale.ts';
import { stripWorths } from '../../../components/worth-strip/strip-worths.ts';
import { WorthAxis } from '../../../components/worth-strip/worth-axis.tsx';
import { WorthStrip } from '../../../components/worth-strip/worth-strip.tsx';
import { carName } from '../car-words.ts';
import type { Standing } from '../season/season.ts';
import classes from './list.module.css';
import { StandingMark } from './standing-mark.tsx';

/** A row of the list: the car, and how it stands to the season. */
export interface ListRow {
  weighed: DecisionSummary;
  standing: Standing | null;
}

/** Cost as low – mid – high in three places of their own, so that each stands under its like. */
const Cost = ({ row, currency }: { row: ListRow; currency: Currency }) => {
  const cost = row.weighed.shown?.cost;
  if (!cost) return <span className="soft">–</span>;
  return (
    <span className={classes.cost}>
      <span>{worthText(cost.low, currency)}</span>
      <b>{worthText(cost.mid, currency)}</b>
      <span>{worthText(cost.high, currency)}</span>
    </span>
  );
};

/** The gain of what is recommended; of a car to leave, softly, that of the option nearest to paying. */
const Gain = ({ row: { weighed }, currency }: { row: ListRow; currency: Currency }) => {
  const { shown, car } = weighed;
  if (!shown) return <span className="soft">–</span>;
  if (car.recommendation !== 'leave') return <AmountDelta minor={shown.expectedGain} currency={currency} />;
  return (
    <span className={classes.nearest} title={`by ${readerWords().option(shown.option).doing}`}>
      <RecommendationGlyph recommendation={shown.option} /> {deltaText(shown.expectedGain, currency)}
    </span>
  );
};

/** Which car a row is of, and how it stands to the season. */
const identityColumns = (onToggle: (carId: number) => void): GridColumn<ListRow>[] => [
  {
    id: 'number',
    title: 'No',
    width: 72,
    pinned: true,
    value: ({ weighed }) => weighed.car.inventoryNumber,
    render: ({ weighed }) => (
      <Link className={classes.number} href={`~/cars/${weighed.car.id}`} tabIndex={-1}>
        {weighed.car.inventoryNumber}
      </Link>
    ),
  },
  {
    id: 'season',
    title: 'Season',
    width: 56,
    align: 'center',
    value: ({ standing }) => standingRank(standing),
    text: ({ standing }) => standing ?? '',
    render: ({ weighed, standing }) => (
      <StandingMark
        standing={standing}
        possible={weighed.offers.length > 0}
        onBench={weighed.onBench}
        car={weighed.car.inventoryNumber}
        onToggle={() => onToggle(weighed.car.id)}
      />
    ),
  },
  {
    id: 'photo',
    title: 'Photo',
    width: 60,
    sortable: false,
    value: () => null,
    text: () => '',
    render: ({ weighed }) => <Photo sha256={weighed.car.photo} alt="" width={46} height={29} />,
  },
  {
    id: 'car',
    title: 'Car',
    width: 148,
    grow: 3,
    value: ({ weighed }) => carName(weighed.car),
    text: ({ weighed: { car } }) =>
      [carName(car), colourNow(car.features.colour, car.wornColour)].filter(Boolean).join(', '),
    render: ({ weighed: { car } }) => (
      <span className={classes.car} title={car.variation ?? undefined}>
        <span className={classes.text}>{carName(car)}</span>
        {car.features.colour || car.wornColour ? (
          <LacquerChip
            name={colourNow(car.features.colour, car.wornColour)}
            swatch={car.swatch}
            basePaint={car.features.basePaint as BasePaint | ''}
          />
        ) : null}
      </span>
    ),
  },
];

/** The state that it is in. */
const conditionColumns = (): GridColumn<ListRow>[] => [
  {
    id: 'grade',
    title: 'Grade',
    width: 112,
    value: ({ weighed }) => weighed.car.grade,
    text: ({ weighed }) => (weighed.car.grade === null ? '' : `C${weighed.car.grade}`),
    render: ({ weighed }) => <GradeBadge grade={weighed.car.grade} finishState={weighed.car.finishState} />,
  },
  {
    id: 'finish',
    title: 'Finish',
    width: 92,
    value: ({ weighed }) => weighed.car.finishState,
    render: ({ weighed }) => <FinishState state={weighed.car.finishState} />,
  },
];

/** What the work at hand would cost and bring, beside what the car is worth. */
const figureColumns = (currency: Currency, scale: WorthScale | null): GridColumn<ListRow>[] => [
  {
    id: 'worth',
    title: 'Value',
    heading: scale ? <WorthAxis scale={scale} wanted={4} /> : undefined,
    width: 140,
    grow: 3,
    value: ({ weighed }) => weighed.car.worths.asFound?.mid ?? null,
    render: ({ weighed }) => (
      <WorthStrip worths={stripWorths(weighed.car.worths)} currency={currency} scale={scale} />
    ),
  },
  {
    id: 'cost',
    title: 'Cost',
    heading: `low – mid – high, ${currency}`,
    width: 120,
    align: 'end',
    value: ({ weighed }) => weighed.shown?.cost.mid ?? null,
    text: ({ weighed }) => (weighed.shown ? worthText(weighed.shown.cost.mid, currency) : ''),
    render: row => <Cost row={row} currency={currency} />,
  },
  {
    id: 'gain',
    title: 'Gain',
    heading: 'over leaving',
    width: 80,
    align: 'end',
    value: ({ weighed }) => weighed.shown?.expectedGain ?? null,
    text: ({ weighed }) => (weighed.shown ? deltaText(weighed.shown.expectedGain, currency) : ''),
    render: row => <Gain row={row} currency={currency} />,
  },
  {
    id: 'probability',
    title: 'Probability',
    heading: 'beats leaving',
    width: 84,
    align: 'end',
    value: ({ weighed }) => weighed.shown?.probability ?? null,
    text: ({ weighed }) => (weighed.shown ? percentText(weighed.shown.probability) : ''),
    render: ({ weighed }) => (weighed.shown ? percentText(weighed.shown.probability) : '–'),
  },
];

/** What to do with it, and what its owner decided. */
const decisionColumns = (currency: Currency): GridColumn<ListRow>[] => [
  {
    id: 'recommendation',
    title: 'Recommended, and why',
    width: 228,
    grow: 6,
    value: ({ weighed }) => optionRank(weighed.car.recommendation),
    text: ({ weighed }) =>
      weighed.car.recommendation ? readerWords().recommendation(weighed.car.recommendation) : '',
    render: ({ weighed: { car, turnsOn } }) => {
      const why = turningText(turnsOn, readerWords().reader(currency));
      return (
        <span className={classes.recommended}>
          {car.recommendation ? <RecommendationMark recommendation={car.recommendation} /> : null}
          <span className={classes.why} title={why}>
            {why}
          </span>
        </span>
      );
    },
  },
  {
    id: 'decided',
    title: 'Decided',
    width: 80,
    value: ({ weighed }) => optionRank(weighed.car.decided),
    text: ({ weighed }) => weighed.car.decided ?? '',
    render: ({ weighed: { car } }) =>
      car.decided ? (
        <span className={classes.decided} data-otherwise={car.decided !== car.recommendation || undefined}>
          ✓ {car.decided}
        </span>
      ) : (
        <span className="soft">–</span>
      ),
  },
];

/** The columns of the list. `scale` is shared by its worth strips. */
export const decideColumns = ({
  currency,
  scale,
  onToggle,
}: {
  currency: Currency;
  scale: WorthScale | null;
  onToggle: (carId: number) => void;
}): GridColumn<ListRow>[] => [
  ...identityColumns(onToggle),
  ...conditionColumns(),
  ...figureColumns(currency, scale),
  ...decisionColumns(currency),
];
