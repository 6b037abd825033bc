import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import type { CarPage, CarRow, VariationRow } from '../../../../electron/api/views.ts';
import type { BasePaint, VariationFeature } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { TypeAhead } from '../../../components/inputs/type-ahead.tsx';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { readerWords } from '../../../components/words.ts';
import { suggestCastings } from '../lot/car-choices.tsx';
import type { LotWrites } from '../lot/use-lot-writes.ts';
import classes from './inspector.module.css';

type Chosen = Partial<Record<VariationFeature, string>>;

const Written = ({ row }: { row: CarRow }) => {
  const written = Object.entries(row.asWritten).filter(([, text]) => text);
  if (written.length === 0) return null;
  return (
    <p className={classes.asWritten}>
      As written: {written.map(([column, text]) => `${column.replaceAll('_', ' ')} “${text}”`).join(', ')}
    </p>
  );
};

const PickVariation = ({
  variations,
  onPick,
}: {
  variations: readonly VariationRow[];
  onPick: (variationId: number) => void;
}) => (
  <ul className={classes.remaining}>
    {variations.map(variation => (
      <li key={variation.id}>
        <button type="button" className={classes.take} onClick={() => onPick(variation.id)}>
          <LacquerChip
            name={variation.label}
            swatch={variation.swatch}
            basePaint={variation.features.basePaint as BasePaint | ''}
          />
          <span className="soft">{variation.releaseYear ?? ''}</span>
        </button>
      </li>
    ))}
  </ul>
);

const ByFeatures = ({ castingId, row, writes }: { castingId: number; row: CarRow; writes: LotWrites }) => {
  const [chosen, setChosen] = useState<Chosen>({});
  // biome-ignore lint/correctness/useExhaustiveDependencies: another car or casting is identified from the beginning
  useEffect(() => setChosen({}), [row.id, castingId]);
  const { data, isPending } = useQuery({
    queryKey: ['identify', castingId, chosen],
    queryFn: () => api.reference.identify({ castingId, features: chosen }),
    placeholderData: keepPreviousData,
  });
  if (!data) return isPending ? <LoadingState part /> : null;
  const { remaining, open } = data;
  const [next] = open;
  return (
    <>
      {Object.keys(chosen).length > 0 ? (
        <p className={classes.chosen}>
          {(Object.entries(chosen) as [VariationFeature, string][]).map(([feature, value]) => (
            <button
              key={feature}
              type="button"
              className={classes.tag}
              aria-label={`${readerWords().features[feature]}: ${value || 'none'}, take back`}
              onClick={() => {
                const { [feature]: _, ...rest } = chosen;
                setChosen(rest);
              }}
            >
              {value || `no ${readerWords().features[feature].toLowerCase()}`} ×
            </button>
          ))}
        </p>
      ) : null}
      {next && remaining.length > 1 ? (
        <fieldset className={classes.question}>
          <legend>{readerWords().features[next.feature]}?</legend>
          {next.values.map(({ value, variations }) => (
            <button
              key={value}
              type="button"
              className={classes.answer}
              disabled={value === ''}
              onClick={() => setChosen({ ...chosen, [next.feature]: value })}
            >
              {value || 'not recorded'} <span className="soft">{variations}</span>
            </button>
          ))}
        </fieldset>
      ) : null}
      <p className={classes.left}>
        {remaining.length > 1 ? (
          `${remaining.length} variations are left:`
        ) : remaining.length === 1 ? (
          'This one is left:'
        ) : Object.keys(chosen).length > 0 ? (
          'No variation has all of these. Take one back.'
        ) : (
          <>
            The reference has no variation of this casting yet.{' '}
            <Link href={`~/reference/castings/${castingId}`}>Add one</Link>, or settle the{' '}
            <Link href="~/reference/seen">variations seen</Link>.
          </>
        )}
      </p>
      <PickVariation
        variations={remaining.slice(0, 12)}
        onPick={variationId => void writes.update(row.id, { variationId })}
      />
      {remaining.length > 12 ? <p className="soft grid-text">and {remaining.length - 12} more</p> : null}
    </>
  );
};

/**
 * Leads from what can be seen on a car to its variation: one telling feature at a time, the rest
 * shrinking with each.
 */
export const Identify = ({ row, car, writes }: { row: CarRow; car: CarPage | null; writes: LotWrites }) => (
  <section className={classes.part} aria-label="Identify">
    <h3>Identify by features</h3>
    <Written row={row} />
    {row.castingId === null ? (
      <TypeAhead
        label="Casting"
        value={row.asWritten.casting ?? ''}
        choices={suggestCastings}
        onPick={choice => {
          const [kind, id] = choice.value.split(':');
          void writes.update(
            row.id,
            kind === 'variation' ? { variationId: Number(id) } : { castingId: Number(id) },
          );
        }}
      />
    ) : (
      <>
        {car && car.candidates.length > 0 ? (
          <>
            <p className={classes.left}>From what you wrote, it may be:</p>
            <PickVariation
              variations={car.candidates.slice(0, 8)}
              onPick={variationId => void writes.update(row.id, { variationId })}
            />
          </>
        ) : null}
        <ByFeatures castingId={row.castingId} row={row} writes={writes} />
      </>
    )}
  </section>
);
