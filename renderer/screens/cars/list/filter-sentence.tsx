import { type Ref, useEffect, useMemo, useState } from 'react';
import type { CarRow } from '../../../../electron/api/views.ts';
import { statusText } from '../../../../valuation/wording/status-text.ts';
import {
  type CarStatus,
  carStatuses,
  finishStates,
  rarities,
  recommendations,
} from '../../../../valuation/words.ts';
import { RecommendationGlyph } from '../../../components/marks/recommendation-mark.tsx';
import { readerWords } from '../../../components/words.ts';
import {
  type CarFilter,
  type FilterPart,
  filterCars,
  filterIn,
  gradeBands,
  isOpen,
  lacks,
} from './car-filter.ts';
import classes from './filter.module.css';
import { FilterPartWord, type PartChoice } from './filter-part.tsx';

const none = filterIn('');

const inGrade = (band: string) => (car: CarRow) => filterCars([car], { ...none, grade: [band] }).length === 1;

/** Counts the cars under each choice of one part, the rest of the filter holding. */
const countBy = (
  cars: readonly CarRow[],
  filter: CarFilter,
  part: FilterPart,
  keyOf: (car: CarRow) => string | null,
): Map<string, number> => {
  const counts = new Map<string, number>();
  for (const car of filterCars(cars, filter, part)) {
    const key = keyOf(car);
    if (key !== null) counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return counts;
};

const useChoices = (cars: readonly CarRow[], filter: CarFilter): Record<FilterPart, PartChoice[]> =>
  useMemo(() => {
    const words = (
      part: FilterPart,
      values: readonly string[],
      keyOf: (car: CarRow) => string | null,
      more: (value: string) => Partial<PartChoice> = () => ({}),
    ): PartChoice[] => {
      const counts = countBy(cars, filter, part, keyOf);
      return values.map(value => ({ value, label: value, cars: counts.get(value) ?? 0, ...more(value) }));
    };
    const lots = new Map(
      cars.flatMap(car => (car.lotId === null ? [] : [[String(car.lotId), car.lot ?? '']])),
    );
    const series = [...new Set(cars.flatMap(car => car.series ?? []))].sort((a, b) => a.localeCompare(b));
    const graded = filterCars(cars, filter, 'grade');
    return {
      lots: words(
        'lots',
        [...lots.keys()],
        car => String(car.lotId),
        id => ({ label: lots.get(id) ?? id }),
      ),
      series: words('series', series, car => car.series),
      finish: words(
        'finish',
        finishStates,
        car => car.finishState,
        value => ({ label: readerWords().spell(value) }),
      ),
      grade: gradeBands.map(({ value, label }) => ({
        value,
        label,
        cars: graded.filter(inGrade(value)).length,
      })),
      status: words(
        'status',
        carStatuses,
        car => car.status,
        value => ({ label: statusText(value as CarStatus) }),
      ),
      recommendation: words(
        'recommendation',
        recommendations,
        car => (car.status === 'sold' ? null : car.recommendation),
        value => {
          const word = recommendations.find(known => known === value) ?? 'leave';
          return {
            label: readerWords().recommendation(word),
            mark: <RecommendationGlyph recommendation={word} />,
          };
        },
      ),
      rarity: words('rarity', rarities, car => car.rarity),
    };
  }, [cars, filter]);

/** A text that is passed on once its writer pauses, or with Enter, which goes on to what it has found. */
const Text = ({
  value,
  onChange,
  onEnter,
  field,
}: {
  value: string;
  onChange: (text: string) => void;
  onEnter: () => void;
  field: Ref<HTMLInputElement>;
}) => {
  const [text, setText] = useState(value);
  useEffect(() => setText(value), [value]);
  useEffect(() => {
    if (text === value) return;
    const pause = setTimeout(() => onChange(text), 160);
    return () => clearTimeout(pause);
  }, [text, value, onChange]);
  return (
    <input
      className={classes.text}
      type="search"
      aria-label="Containing these words"
      placeholder="any words"
      ref={field}
      value={text}
      onChange={event => setText(event.currentTarget.value)}
      onKeyDown={event => {
        if (event.key === 'Enter') {
          if (text !== value) onChange(text);
          onEnter();
        }
        if (event.key === 'Escape' && text) setText('');
      }}
    />
  );
};

/** Which cars are shown, said as one sentence whose words can be changed. */
export const FilterSentence = ({
  cars,
  filter,
  onChange,
  onFound,
  textField,
}: {
  cars: readonly CarRow[];
  filter: CarFilter;
  onChange: (filter: CarFilter) => void;
  /** Goes on to the cars that are shown. */
  onFound: () => void;
  textField: Ref<HTMLInputElement>;
}) => {
  const choices = useChoices(cars, filter);
  const part = (name: FilterPart, label: string, any: string) => (
    <FilterPartWord
      label={label}
      any={any}
      choices={choices[name]}
      chosen={(filter[name] as (string | number)[]).map(String)}
      onChoose={values =>
        onChange({ ...filter, [name]: name === 'lots' ? values.map(Number) : values } as CarFilter)
      }
    />
  );
  const casting =
    filter.casting === null ? null : cars.find(car => car.castingId === filter.casting)?.casting;
  const variation =
    filter.variation === null ? null : cars.find(car => car.variationId === filter.variation)?.variation;
  const fixed: { says: string; without: Partial<CarFilter> }[] = [
    ...(filter.casting === null
      ? []
      : [{ says: `casting ${casting ?? 'without cars'}`, without: { casting: null } }]),
    ...(filter.variation === null
      ? []
      : [{ says: variation ?? 'a variation without cars', without: { variation: null } }]),
    ...(filter.show === null ? [] : [{ says: lacks[filter.show].label, without: { show: null } }]),
  ];
  return (
    <fieldset className={classes.sentence}>
      <legend className="heard">Which cars are shown</legend>
      Cars of {part('lots', 'Lot', 'every lot')} and {part('series', 'Series', 'any series')}, in{' '}
      {part('finish', 'Finish state', 'any finish')}, {part('grade', 'Grade', 'any grade')},{' '}
      {part('rarity', 'Rarity', 'common or rare')}, {part('status', 'Status', 'in the collection or sold')},
      recommended to {part('recommendation', 'Recommendation', 'anything')}, containing{' '}
      <Text
        value={filter.text}
        onChange={text => onChange({ ...filter, text })}
        onEnter={onFound}
        field={textField}
      />
      {fixed.map(({ says, without }) => (
        <button
          key={says}
          type="button"
          className={classes.fixed}
          title="Remove this filter"
          onClick={() => onChange({ ...filter, ...without })}
        >
          {says} <span aria-hidden="true">×</span>
        </button>
      ))}
      {isOpen(filter) ? null : (
        <button type="button" className={classes.clear} onClick={() => onChange(none)}>
          show all
        </button>
      )}
    </fieldset>
  );
};
