import { type Ref, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { CarChoices, CarsFacts } from '../../../../electron/api/views.ts';
import { type CarFilter, carFilterIn } from '../../../../valuation/reading/list-address.ts';
import { statusText } from '../../../../valuation/wording/cars/status-text.ts';
import {
  finishStates,
  type ListedStatus,
  listedStatuses,
  rarities,
  recommendations,
} from '../../../../valuation/words.ts';
import { RecommendationGlyph } from '../../../components/marks/recommendation-mark.tsx';
import { readerWords } from '../../../components/words.ts';
import { type FilterPart, gradeBands, isInBand, isOpen, lackLabels } from './car-filter.ts';
import classes from './filter.module.css';
import { FilterPartWord, type PartChoice } from './filter-part.tsx';

const none = carFilterIn('');

const useChoices = (choices: CarChoices | undefined): Record<FilterPart, PartChoice[]> =>
  useMemo(() => {
    const words = (
      part: Exclude<FilterPart, 'grade' | 'lots'>,
      values: readonly string[],
      more: (value: string) => Partial<PartChoice> = () => ({}),
    ): PartChoice[] => {
      const counts = new Map(choices?.[part].map(({ value, cars }) => [value, cars]));
      return values.map(value => ({ value, label: value, cars: counts.get(value) ?? 0, ...more(value) }));
    };
    const series = (choices?.series ?? []).map(({ value }) => value).sort((a, b) => a.localeCompare(b));
    return {
      lots: (choices?.lots ?? []).map(({ value, ...lot }) => ({ ...lot, value: String(value) })),
      series: words('series', series),
      finish: words('finish', finishStates, value => ({ label: readerWords().spell(value) })),
      grade: gradeBands.map(band => ({
        value: band.value,
        label: band.label,
        cars: (choices?.grade ?? []).reduce(
          (sum, { value, cars }) => sum + (isInBand(value, band) ? cars : 0),
          0,
        ),
      })),
      status: words('status', listedStatuses, value => ({ label: statusText(value as ListedStatus) })),
      recommendation: words('recommendation', recommendations, value => {
        const word = recommendations.find(known => known === value) ?? 'leave';
        return {
          label: readerWords().recommendation(word),
          mark: <RecommendationGlyph recommendation={word} />,
        };
      }),
      rarity: words('rarity', rarities),
    };
  }, [choices]);

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
  // What was passed on comes back as the value, perhaps later than the next letters: those stay.
  const passed = useRef(value);
  useEffect(() => {
    if (value !== passed.current) setText(value);
    passed.current = value;
  }, [value]);
  const pass = useCallback(() => {
    passed.current = text;
    onChange(text);
  }, [text, onChange]);
  useEffect(() => {
    if (text === value) return;
    const pause = setTimeout(pass, 160);
    return () => clearTimeout(pause);
  }, [text, value, pass]);
  return (
    <input
      className={classes.text}
      type="search"
      aria-label="Containing these words"
      aria-busy={text !== value || undefined}
      placeholder="any words"
      ref={field}
      value={text}
      onChange={event => setText(event.currentTarget.value)}
      onKeyDown={event => {
        if (event.key === 'Enter') {
          if (text !== value) pass();
          onEnter();
        }
        if (event.key === 'Escape' && text) setText('');
      }}
    />
  );
};

/** Which cars are shown, said as one sentence whose words can be changed. */
export const FilterSentence = ({
  facts,
  filter,
  onChange,
  onFound,
  textField,
}: {
  /** How many cars each choice would show, once that is known. */
  facts: CarsFacts | undefined;
  filter: CarFilter;
  onChange: (filter: CarFilter) => void;
  /** Goes on to the cars that are shown. */
  onFound: () => void;
  textField: Ref<HTMLInputElement>;
}) => {
  const choices = useChoices(facts?.choices);
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
  const fixed: { says: string; without: Partial<CarFilter> }[] = [
    ...(filter.casting === null
      ? []
      : [{ says: `casting ${facts?.casting ?? 'that is not known'}`, without: { casting: null } }]),
    ...(filter.variation === null
      ? []
      : [{ says: facts?.variation ?? 'a variation that is not known', without: { variation: null } }]),
    ...(filter.show === null ? [] : [{ says: lackLabels[filter.show], without: { show: null } }]),
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
