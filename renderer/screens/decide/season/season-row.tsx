import type { DecisionSummary } from '../../../../electron/api/views.ts';
import type { Currency, Minor } from '../../../../valuation/types.ts';
import { isWorkKind, type WorkKind } from '../../../../valuation/words.ts';
import { deltaText, readerLocale, worthText } from '../../../components/format.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { RecommendationGlyph } from '../../../components/marks/recommendation-mark.tsx';
import { useWords } from '../../../components/words.ts';
import { carName } from '../car-words.ts';
import classes from './plan.module.css';

/** Hours to a tenth, as the reader writes them. */
export const hoursText = (hours: number): string =>
  (Math.round(hours * 10) / 10).toLocaleString(readerLocale());

/** What is done with the car, to be chosen again where it can be. */
const Doing = ({
  weighed,
  option,
  onOption,
}: {
  weighed: DecisionSummary;
  option: WorkKind;
  onOption?: ((option: WorkKind) => void) | undefined;
}) => {
  const words = useWords();
  if (!onOption || weighed.offers.length < 2)
    return (
      <span className={classes.doing}>
        <RecommendationGlyph recommendation={option} /> {words.option(option).name}
      </span>
    );
  return (
    <span className={classes.doing}>
      <RecommendationGlyph recommendation={option} />
      <select
        aria-label={`What to do with ${weighed.car.inventoryNumber}`}
        value={option}
        onChange={event => {
          const next = event.currentTarget.value;
          if (isWorkKind(next)) onOption(next);
        }}
      >
        {weighed.offers.map(offer => (
          <option key={offer.option} value={offer.option}>
            {words.option(offer.option).name}
          </option>
        ))}
      </select>
    </span>
  );
};

/** A car of the season, or one that could be: what is done with it, what that gains and takes. */
export const SeasonRow = ({
  weighed,
  option,
  gain,
  aside,
  must = false,
  colour,
  currency,
  onGo,
  onOption,
}: {
  weighed: DecisionSummary;
  option: WorkKind;
  gain: Minor;
  aside: string;
  must?: boolean;
  /** The colour that it is to wear, and its swatch. */
  colour?: { name: string; swatch: string | null } | undefined;
  currency: Currency;
  onGo: (id: number) => void;
  onOption?: ((option: WorkKind) => void) | undefined;
}) => (
  <li className={classes.row}>
    <button type="button" className={classes.go} onClick={() => onGo(weighed.car.id)}>
      <span className={classes.number}>{weighed.car.inventoryNumber}</span>
      <span className={classes.name}>{carName(weighed.car)}</span>
    </button>
    <Doing weighed={weighed} option={option} onOption={onOption} />
    <span className={classes.gain}>{deltaText(gain, currency)}</span>
    <span className={classes.aside}>
      {must ? <b className={classes.must}>must </b> : null}
      {aside}
      {colour ? (
        <>
          {' · '}
          <LacquerChip name={colour.name} swatch={colour.swatch} />
        </>
      ) : null}
    </span>
  </li>
);

/** What something takes of the owner: "1.5 h · 3.20". */
export const takesText = ({ hours, cash }: { hours: number; cash: Minor }, currency: Currency): string =>
  `${hoursText(hours)} h · ${worthText(cash, currency)}`;
