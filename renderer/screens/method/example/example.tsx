import { Select } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { Currency } from '../../../../valuation/types.ts';
import { type BasePaint, conditionLabel } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { worthText } from '../../../components/format.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { Section } from '../../../components/layout/section.tsx';
import { Photo } from '../../../components/photo/photo.tsx';
import { readerWords } from '../../../components/words.ts';
import { LargeWorthStrip } from '../../../components/worth-strip/large-worth-strip.tsx';
import { stripWorths } from '../../../components/worth-strip/strip-worths.ts';
import classes from '../method.module.css';
import { AdjustmentGrid } from './adjustment-grid.tsx';
import { Ledger } from './ledger.tsx';
import { Shares } from './shares.tsx';
import { mostAdjusted, mostTelling, type WorkedCar, workedCar } from './worked.ts';

/**
 * The dearest cars that have a worth, each with the records behind it; an invented one where there is none.
 */
const findExamples = async (currency: Currency): Promise<WorkedCar[]> => {
  const { best } = await api.collection.home();
  const worked = await Promise.all(
    best.map(async car =>
      workedCar(car, await api.worth.explain({ carId: car.id, which: 'asFound' }), currency),
    ),
  );
  const own = worked.filter(car => car !== null);
  if (own.length > 0) return own;
  const { inventedCar } = await import('./invented.ts');
  const invented = inventedCar(currency);
  return invented ? [invented] : [];
};

const Head = ({ car }: { car: WorkedCar }) => (
  <div className={classes.exampleHead}>
    {car.photo ? (
      <span className={classes.examplePhoto}>
        <Photo sha256={car.photo} size="screen" alt="" width={168} height={104} />
      </span>
    ) : null}
    <div>
      <p className={classes.exampleName}>
        {car.id === null ? (
          car.casting
        ) : (
          <Link href={`~/cars/${car.id}`}>{`${car.number} ${car.casting}`}</Link>
        )}
      </p>
      <p className={classes.exampleFacts}>
        {car.id === null ? (
          <span>{car.variation}</span>
        ) : (
          <LacquerChip name={car.variation} swatch={car.swatch} basePaint={car.basePaint as BasePaint | ''} />
        )}
        <span>{readerWords().spell(conditionLabel(car.grade, car.finishState))}</span>
      </p>
      <p className="soft">
        {car.id === null
          ? 'None of your cars has a value yet, so this one is invented, with fourteen invented sales. The figures are worked out by the same rules.'
          : 'From your collection, with your records and your settings.'}
      </p>
    </div>
  </div>
);

const Worked = ({ car }: { car: WorkedCar }) => {
  const [, navigate] = useLocation();
  const { worth, currency } = car;
  const telling = mostAdjusted(car.records.slice(0, 8));
  const text = (minor: number) => worthText(minor, currency);
  return (
    <>
      <Head car={car} />
      <h3 className={classes.exampleStep}>Its sales, adjusted to it</h3>
      <AdjustmentGrid car={car} />
      {telling ? (
        <>
          <h3 className={classes.exampleStep}>One of them, line by line</h3>
          <Ledger record={telling} currency={currency} />
        </>
      ) : null}
      <h3 className={classes.exampleStep}>Pooled</h3>
      <Shares evidence={car.evidence} />
      <h3 className={classes.exampleStep}>The range</h3>
      <p className={classes.exampleText}>
        The middle comes to <strong>{text(worth.mid)}</strong> {currency}. Single sales of such a car vary,
        and the estimate itself may be off: together that gives <strong>{text(worth.low)}</strong> to{' '}
        <strong>{text(worth.high)}</strong>. The same is done for the car restored and with its original
        finish; each dot is a sale, adjusted to the car as found.
      </p>
      <LargeWorthStrip
        worths={stripWorths(car.worths)}
        currency={currency}
        dots={car.records.slice(0, 40).map(record => ({
          id: record.id,
          amount: record.adjusted,
          level: record.level,
          doubtful: record.doubtful,
          label: `${text(record.adjusted)}, ${Math.round(record.weight * 100)} % of the estimate`,
        }))}
        {...(car.id !== null && { onOpenRecord: (id: number) => navigate(`~/sales?record=${id}`) })}
      />
    </>
  );
};

/** One car from the first sale record to its range; one of the owner's own where any has a worth. */
export const Example = ({ currency }: { currency: Currency }) => {
  const examples = useQuery({
    queryKey: ['worked examples', currency],
    queryFn: () => findExamples(currency),
  });
  const [chosen, setChosen] = useState<string | null>(null);
  const cars = examples.data ?? [];
  const car = cars.find(({ id }) => String(id) === chosen) ?? mostTelling(cars);
  return (
    <Section
      id="example"
      title="One car, worked through"
      aside={
        cars.length > 1 && car ? (
          <Select
            aria-label="The car that is worked through"
            value={String(car.id)}
            data={cars.map(({ id, number, casting }) => ({
              value: String(id),
              label: `${number} ${casting}`,
            }))}
            allowDeselect={false}
            onChange={setChosen}
          />
        ) : null
      }
    >
      {examples.error ? (
        <ErrorState error={examples.error} retry={() => void examples.refetch()} />
      ) : car ? (
        <Worked key={car.id} car={car} />
      ) : (
        <LoadingState part label="Working one through" />
      )}
    </Section>
  );
};
