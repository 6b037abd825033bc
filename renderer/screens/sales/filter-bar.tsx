import { CloseButton, SegmentedControl, Select } from '@mantine/core';
import type { SaleFilter } from '../../../valuation/reading/list-address.ts';
import { finishStates, type SaleShow } from '../../../valuation/words.ts';
import { pickedCasting, suggestCastings } from '../../components/inputs/casting-choices.tsx';
import { TypeAhead } from '../../components/inputs/type-ahead.tsx';
import { readerWords } from '../../components/words.ts';
import { isFiltered } from './sale-filter.ts';
import classes from './sales.module.css';

const showWords: Record<SaleShow, string> = {
  all: 'All',
  doubtful: 'Doubtful',
  'left-out': 'Left out',
  own: 'Your own',
  'not-understood': 'Not understood',
};

/** Narrows the list by what was sold, how it was seen, and how far it counts. */
export const FilterBar = ({
  filter,
  counts,
  sources,
  castingName,
  onChange,
}: {
  filter: SaleFilter;
  counts: Record<SaleShow, number>;
  sources: readonly string[];
  /** Of the casting or variation that is filtered for. */
  castingName: string;
  onChange: (change: Partial<SaleFilter>) => void;
}) => (
  <search className={classes.filters}>
    <div className={classes.filterCasting}>
      <TypeAhead
        label="Casting"
        value={castingName}
        choices={suggestCastings}
        placeholder="Any casting"
        onPick={choice => {
          const picked = pickedCasting(choice);
          if (picked) onChange({ casting: picked.castingId, variation: picked.variationId });
        }}
        onClear={() => onChange({ casting: null, variation: null })}
      />
    </div>
    <Select
      label="Source"
      className={classes.filterSelect}
      value={filter.source || null}
      data={[...sources]}
      placeholder="Any source"
      clearable
      searchable={sources.length > 10}
      clearButtonProps={{ 'aria-label': 'Any source' }}
      onChange={source => onChange({ source: source ?? '' })}
    />
    <Select
      label="Finish"
      className={classes.filterSelect}
      value={filter.finish || null}
      data={finishStates.map(state => ({ value: state, label: readerWords().spell(state) }))}
      placeholder="Any finish"
      clearable
      clearButtonProps={{ 'aria-label': 'Any finish' }}
      onChange={finish => onChange({ finish: finish ?? '' })}
    />
    <SegmentedControl
      aria-label="Status"
      className={classes.filterShow}
      value={filter.show}
      data={Object.entries(showWords)
        .filter(([value]) => value !== 'not-understood' || counts[value] > 0 || filter.show === value)
        .map(([value, label]) => ({
          value,
          label: (
            <>
              {label} <span className={classes.tally}>{counts[value as SaleShow].toLocaleString()}</span>
            </>
          ),
        }))}
      onChange={show => onChange({ show: show as SaleShow })}
    />
    {isFiltered(filter) ? (
      <CloseButton
        aria-label="Show all records"
        title="Show all records"
        onClick={() => onChange({ casting: null, variation: null, source: '', finish: '', show: 'all' })}
      />
    ) : null}
  </search>
);
