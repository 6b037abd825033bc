import { Button, Checkbox } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { Link } from 'wouter';
import { currencyDecimals } from '../../../../../valuation/money.ts';
import type { Currency, Minor } from '../../../../../valuation/types.ts';
import { api } from '../../../../api/client.ts';
import { deltaText, percentText, worthText } from '../../../../components/format.ts';
import { LacquerChip } from '../../../../components/lacquer-chip/lacquer-chip.tsx';
import { useWords } from '../../../../components/words.ts';
import { colourStandingText, proposedColoursText } from './colours-text.ts';
import classes from './season-colours.module.css';
import { ShelfStrips } from './shelf-strips.tsx';

/** What two cars of one colour can count against the shelf, in whole units of a currency with decimals. */
const steps = [0, 0.5, 1, 2, 3, 5, 8, 12, 20, 35, 60];
const atFirst = 3;

type ColouredCar = Awaited<ReturnType<typeof api.work.colours>>['cars'][number];

/** Colours that each casting was made in, or any. */
type Reach = 'factory' | 'any';

/** How much variety counts against fidelity and value, and from which colours it may come. */
const VarietyWish = ({
  weight,
  pairCost,
  currency,
  reach,
  onWeight,
  onReach,
}: {
  /** Its place among the steps. */
  weight: number;
  pairCost: Minor;
  currency: Currency;
  reach: Reach;
  onWeight: (weight: number) => void;
  onReach: (reach: Reach) => void;
}) => {
  const words = useWords();
  const id = useId();
  return (
    <div className={classes.wish}>
      <label htmlFor={`${id}v`}>
        {words.spell('Two cars of one colour count')} <strong>{deltaText(-pairCost, currency)}</strong>
      </label>
      <input
        id={`${id}v`}
        type="range"
        min={0}
        max={steps.length - 1}
        value={weight}
        aria-valuetext={`${worthText(pairCost, currency)} ${currency}`}
        onChange={event => onWeight(Number(event.currentTarget.value))}
      />
      <Checkbox
        label={words.spell('also colours that their castings never had')}
        checked={reach === 'any'}
        onChange={event => onReach(event.currentTarget.checked ? 'any' : 'factory')}
      />
    </div>
  );
};

/** The cars that a colour is proposed for, other than the one that they are known to be made in, with what that takes from each. */
const ProposedColours = ({ changed, currency }: { changed: readonly ColouredCar[]; currency: Currency }) => {
  const words = useWords();
  return (
    <table className={classes.table}>
      <thead>
        <tr>
          <th scope="col">Car</th>
          <th scope="col">Made in</th>
          <th scope="col">Proposed</th>
          <th scope="col">Fidelity</th>
          <th scope="col">Takes, {currency}</th>
        </tr>
      </thead>
      <tbody>
        {changed.map(car => (
          <tr key={car.carId}>
            <th scope="row">
              <Link href={`~/cars/${car.carId}`}>{car.inventoryNumber}</Link>
            </th>
            <td>{car.own || 'not known'}</td>
            <td>
              <LacquerChip name={car.colour} swatch={car.swatch} />{' '}
              <span className="soft">{colourStandingText(car, words.locale)}</span>
            </td>
            <td>
              {percentText(car.fidelity.own)} → {percentText(car.fidelity.painted)}
            </td>
            <td className="amount">{worthText(car.cost, currency)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};

/**
 * Colours for the cars of a season that will be painted anyway, so that the shelf has variety; what each
 * costs in fidelity and value.
 */
export const SeasonColours = ({
  carIds,
  saved,
  currency,
  onSave,
}: {
  carIds: readonly number[];
  /** The colours that the season has for its cars. */
  saved: ReadonlyMap<number, string>;
  currency: Currency;
  onSave: (colours: ReadonlyMap<number, string>) => void;
}) => {
  const words = useWords();
  const [weight, setWeight] = useState(atFirst);
  const [reach, setReach] = useState<Reach>('factory');
  const [isOpen, setOpen] = useState(false);
  const unit = 10 ** Math.max(2, currencyDecimals(currency));
  const pairCost = Math.round((steps[weight] ?? 0) * unit);
  const { data, isPlaceholderData, error } = useQuery({
    queryKey: ['season-colours', carIds, pairCost, reach],
    queryFn: () => api.work.colours({ carIds: [...carIds], pairCost, others: reach === 'any' }),
    enabled: isOpen && carIds.length > 0,
    placeholderData: keepPreviousData,
  });
  const changed = data?.cars.filter(({ own, colour }) => own !== colour) ?? [];
  const total = data?.cars.reduce((sum, { cost }) => sum + cost, 0) ?? 0;
  const proposed = new Map(changed.map(({ carId, colour }) => [carId, colour]));
  const kept = carIds.filter(id => saved.has(id));
  const isSaved = kept.length === proposed.size && kept.every(id => saved.get(id) === proposed.get(id));
  if (carIds.length === 0) return null;
  return (
    <details
      className={classes.colours}
      open={isOpen}
      onToggle={event => setOpen(event.currentTarget.open)}
      aria-busy={isPlaceholderData || undefined}
    >
      <summary>
        {words.spell('Colours for the season')}
        {kept.length > 0 ? (
          <span className="soft">
            {' '}
            {words.spell(
              kept.length === 1 ? '1 car in another colour' : `${kept.length} cars in another colour`,
            )}
          </span>
        ) : null}
      </summary>
      <VarietyWish
        weight={weight}
        pairCost={pairCost}
        currency={currency}
        reach={reach}
        onWeight={setWeight}
        onReach={setReach}
      />
      {error ? <p className="harm">{words.spell('The colours could not be worked out.')}</p> : null}
      {data ? (
        <>
          <ShelfStrips before={data.before} after={data.after} />
          <p className="soft">
            {words.spell('Pairs in one colour')}: {data.pairs.before}, then {data.pairs.after}.{' '}
            {proposedColoursText(data.cars, words.locale)}
            {changed.length === 0
              ? '.'
              : `. That takes ${worthText(total, currency)} ${currency} from what they would bring.`}
          </p>
          {data.kept.length > 0 ? (
            <p className="soft">
              {words.spell(
                `${data.kept.join(', ')}: factory finish is left on them, so they are never given another colour for variety.`,
              )}
            </p>
          ) : null}
          {changed.length > 0 ? <ProposedColours changed={changed} currency={currency} /> : null}
          <div className={classes.save}>
            {changed.length > 0 ? (
              <Button
                disabled={isSaved || isPlaceholderData}
                onClick={() =>
                  onSave(new Map([...saved].filter(([id]) => !carIds.includes(id)).concat([...proposed])))
                }
              >
                {isSaved ? 'Saved with the season' : words.spell('Save these colours with the season')}
              </Button>
            ) : null}
            {kept.length > 0 ? (
              <Button
                variant="subtle"
                onClick={() => onSave(new Map([...saved].filter(([id]) => !carIds.includes(id))))}
              >
                {words.spell('Let each car keep its own colour')}
              </Button>
            ) : null}
            <span className="soft">
              {words.spell(
                'Saved colours go into the plans when the cars go to the bench: as a departure where a car was not made in them.',
              )}
            </span>
          </div>
        </>
      ) : null}
    </details>
  );
};
