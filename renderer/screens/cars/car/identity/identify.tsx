import { Button } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CarPage, VariationRow } from '../../../../../electron/api/views.ts';
import type { BasePaint, VariationFeature } from '../../../../../valuation/words.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { suggestCastings } from '../../../../components/inputs/casting-choices.tsx';
import type { Choice } from '../../../../components/inputs/choices.ts';
import { TypeAhead } from '../../../../components/inputs/type-ahead.tsx';
import { LacquerChip } from '../../../../components/lacquer-chip/lacquer-chip.tsx';
import { readerWords } from '../../../../components/words.ts';
import classes from './identify.module.css';

type Chosen = Partial<Record<VariationFeature, string>>;
type Patch = { variationId: number } | { castingId: number; candidates: number[] };

const Remaining = ({ row, current, onTake }: { row: VariationRow; current: boolean; onTake: () => void }) => (
  <li>
    <button type="button" className={classes.take} aria-current={current || undefined} onClick={onTake}>
      <LacquerChip
        name={row.features.colour}
        swatch={row.swatch}
        basePaint={row.features.basePaint as BasePaint | ''}
      />
      <span className={classes.rest}>
        {row.beyondColour}
        <span className="soft">
          {' '}
          {[row.releaseName, row.releaseYear, row.rarity].filter(Boolean).join(' · ')}
        </span>
      </span>
      <span className={classes.this}>{current ? 'as it is' : 'this one'}</span>
    </button>
  </li>
);

/**
 * Finds the variation: first the casting by its name, then feature by feature, the most telling asked first.
 */
export const Identify = ({
  car,
  asked,
  onDone,
}: {
  car: CarPage;
  /** True where its owner has asked for it, and is about to type. */
  asked: boolean;
  onDone: () => void;
}) => {
  const [casting, setCasting] = useState(
    car.castingId === null ? null : { id: car.castingId, name: car.casting ?? '' },
  );
  const [chosen, setChosen] = useState<Chosen>({});
  const [wide, setWide] = useState(false);
  const found = useQuery({
    queryKey: ['identify', casting?.id, chosen],
    queryFn: () => api.reference.identify({ castingId: casting?.id ?? 0, features: chosen }),
    enabled: casting !== null,
    placeholderData: keepPreviousData,
  });
  const settle = useAction((patch: Patch) => api.cars.update({ changes: [{ id: car.id, patch }] }), {
    label: patch => ('variationId' in patch ? `${car.inventoryNumber} identified` : 'Candidates saved'),
    onDone,
  });
  const pick = (choice: Choice) => {
    const [castingId, variationId] = choice.value.split(':');
    if (variationId) return settle.mutate({ variationId: Number(variationId) });
    setCasting({ id: Number(castingId), name: choice.label });
    setChosen({});
  };
  const picked = Object.entries(chosen) as [VariationFeature, string][];
  // What was written has narrowed it already; any answer here, or another casting, begins with all of them.
  const fitting = !wide && picked.length === 0 && casting?.id === car.castingId && car.candidates.length > 0;
  const remaining = fitting ? car.candidates : (found.data?.remaining ?? []);
  const set = (feature: VariationFeature, value: string | undefined) => {
    const { [feature]: _, ...others } = chosen;
    setChosen(value === undefined ? others : { ...others, [feature]: value });
  };
  return (
    <section className={classes.identify} aria-label="Identify it">
      <TypeAhead
        label={`Casting, or casting and ${readerWords().dialect.colour}`}
        value={casting?.name ?? ''}
        choices={suggestCastings}
        placeholder="start typing its name"
        autoFocus={asked && casting === null}
        onPick={pick}
      />
      {casting && found.data ? (
        <>
          <div className={classes.questions}>
            {picked.map(([feature, value]) => (
              <div key={feature} className={classes.question}>
                <span>{readerWords().features[feature]}</span>
                <button
                  type="button"
                  className={classes.value}
                  aria-pressed="true"
                  title="Clear this answer"
                  onClick={() => set(feature, undefined)}
                >
                  {value} ×
                </button>
              </div>
            ))}
            {found.data.open.map(({ feature, values }) => (
              <div key={feature} className={classes.question}>
                <span>{readerWords().features[feature]}</span>
                <span className={classes.values}>
                  {values
                    .filter(entry => entry.value !== '')
                    .map(({ value, variations }) => (
                      <button
                        key={value}
                        type="button"
                        className={classes.value}
                        aria-pressed="false"
                        onClick={() => set(feature, value)}
                      >
                        {value} <span className="soft">{variations}</span>
                      </button>
                    ))}
                </span>
              </div>
            ))}
          </div>
          <div className={classes.left}>
            <span>
              {fitting
                ? 'From what you wrote, it may be:'
                : remaining.length === 0
                  ? 'No variation of this casting has all of these.'
                  : remaining.length === 1
                    ? 'One variation is left:'
                    : `${remaining.length} variations are left:`}
            </span>
            {fitting ? (
              <Button onClick={() => setWide(true)}>All of its casting</Button>
            ) : remaining.length > 1 ? (
              <Button
                onClick={() =>
                  settle.mutate({ castingId: casting.id, candidates: remaining.map(row => row.id) })
                }
              >
                Leave it open among these
              </Button>
            ) : null}
          </div>
          <ul className={classes.list}>
            {remaining.map(row => (
              <Remaining
                key={row.id}
                row={row}
                current={row.id === car.variationId}
                onTake={() => settle.mutate({ variationId: row.id })}
              />
            ))}
          </ul>
        </>
      ) : null}
    </section>
  );
};
