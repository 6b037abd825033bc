import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { Ref } from 'react';
import { Link } from 'wouter';
import type { CarRow, LotPage } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { colourNow } from '../../../../valuation/wording/cars/disclosure-text.ts';
import type { BasePaint } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { useSummary } from '../../../api/use-summary.ts';
import { ConditionEditor } from '../../../components/condition/condition-editor.tsx';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import type { LotWrites } from '../lot/use-lot-writes.ts';
import { CarFields } from './car-fields.tsx';
import { CarPhotos } from './car-photos.tsx';
import { CarWorth } from './car-worth.tsx';
import { Identify } from './identify.tsx';
import classes from './inspector.module.css';

const IdentityHead = ({ row }: { row: CarRow }) => (
  <div className={classes.identity}>
    <h2 className={classes.name}>
      {row.releaseName ?? row.casting ?? row.asWritten.casting ?? 'Not identified'}
      {row.releaseYear ? <span className="soft"> {row.releaseYear}</span> : null}
    </h2>
    <p className={classes.facts}>
      {[row.casting && row.casting !== row.releaseName ? row.casting : null, row.series, row.rarity]
        .filter(Boolean)
        .join(' · ')}
    </p>
    {row.variationId !== null ? (
      <p className={classes.variation}>
        <LacquerChip
          name={colourNow(row.features.colour, row.wornColour)}
          swatch={row.swatch}
          basePaint={row.features.basePaint as BasePaint | ''}
          size="card"
        />
        <span className="soft">
          {[
            row.features.bodyFinish,
            row.features.rearEnd,
            row.features.roof && `${row.features.roof} roof`,
            row.features.interior && `${row.features.interior} interior`,
            row.features.wheels && `${row.features.wheels} wheels`,
          ]
            .filter(Boolean)
            .join(' · ')}
        </span>
      </p>
    ) : null}
  </div>
);

const Body = ({
  row,
  lot,
  version,
  currency,
  writes,
}: {
  row: CarRow;
  lot: LotPage;
  version: number;
  currency: Currency;
  writes: LotWrites;
}) => {
  const { data: summary } = useSummary();
  const { data } = useQuery({
    // Asked again with the lot and after it, so that a car which an undo has taken away is not asked for.
    queryKey: ['inspected car', row.id, version],
    meta: { immutable: true },
    gcTime: 10_000,
    queryFn: () => api.cars.get({ id: row.id }),
    placeholderData: keepPreviousData,
  });
  const car = data?.id === row.id ? data : null;
  return (
    <>
      <CarPhotos
        row={row}
        photos={car?.photos ?? null}
        onAdd={files => writes.addPhotos(String(row.id), files)}
      />
      <IdentityHead row={row} />
      {row.variationId === null ? <Identify row={row} car={car} writes={writes} /> : null}
      <CarWorth row={row} car={car} version={version} currency={currency} />
      <section className={classes.part} aria-label="Condition">
        <h3>Condition</h3>
        {car && summary ? (
          <ConditionEditor
            carId={row.id}
            grade={row.grade}
            checks={car.checks}
            castingParts={car.castingParts}
            today={summary.today}
          />
        ) : (
          <div className={classes.waiting} aria-busy="true" />
        )}
      </section>
      <CarFields row={row} lot={lot} writes={writes} />
      <p className={classes.link}>
        <Link href={`~/cars/${row.id}`}>All details of {row.inventoryNumber}</Link>
      </p>
    </>
  );
};

/**
 * The car under the grid's cursor: its pictures, what it is, what it is worth, and its
 * condition part by part.
 */
export const Inspector = (props: {
  panel: Ref<HTMLElement>;
  row: CarRow | null;
  lot: LotPage;
  /** Of the lot: what is shown of the car is as old as it. */
  version: number;
  currency: Currency;
  writes: LotWrites;
}) => (
  <aside ref={props.panel} className={classes.inspector} aria-label="The selected car" tabIndex={-1}>
    {props.row ? (
      <Body {...props} row={props.row} />
    ) : (
      <div className={classes.none}>
        <h2>{props.lot.rows.length === 0 ? 'The first car' : 'A new car'}</h2>
        <p>
          Type a casting in the bottom line of the grid: “lark em” finds every variation with a word that
          starts with <em>lark</em> and one with <em>em</em>. Tab goes on to the next column, Enter to the
          next car.
        </p>
        <p>Text that the reference does not know is saved as you wrote it and can be identified later.</p>
      </div>
    )}
  </aside>
);
