import { Button } from '@mantine/core';
import type { DecideOverview, DecisionSummary, SeasonView } from '../../../electron/api/views.ts';
import { readerLocale } from '../../components/format.ts';
import { KeyHint } from '../../components/keys/key-hint.tsx';
import classes from './decide.module.css';
import type { Filter } from './filter/filter.ts';
import { CarPanel } from './inspector/car-panel.tsx';
import { Legend } from './scatter/legend.tsx';
import { Scatter } from './scatter/scatter.tsx';
import type { LeftOut, Season, Totals } from './season/season.ts';
import { SeasonPlan } from './season/season-plan.tsx';
import type { ChoiceState } from './season/use-choose.ts';

const tabs = [
  { id: 'car', label: 'Car' },
  { id: 'season', label: 'Season' },
] as const;

const countText = (listed: number, all: number): string => {
  const figure = (count: number) => count.toLocaleString(readerLocale());
  return listed === all ? `${figure(all)} cars` : `${figure(listed)} of ${figure(all)} cars`;
};

export type Tab = (typeof tabs)[number]['id'];

/** Above the list: the chart, and beside it the car under the cursor or the season in full. */
export const Band = ({
  overview,
  listed,
  ofSentence,
  filter,
  onFilter,
  ringed,
  cursor,
  onCursor,
  onOpen,
  onToggle,
  tab,
  onTab,
  season,
  saved,
  totals,
  out,
  choice,
}: {
  overview: DecideOverview;
  listed: readonly DecisionSummary[];
  ofSentence: readonly DecisionSummary[];
  filter: Filter;
  onFilter: (filter: Filter) => void;
  ringed: ReadonlySet<number>;
  cursor: DecisionSummary | null;
  onCursor: (id: number) => void;
  onOpen: (id: number) => void;
  onToggle: (id: number) => void;
  tab: Tab;
  onTab: (tab: Tab) => void;
  season: Season;
  saved: SeasonView | null;
  totals: Totals;
  out: readonly LeftOut[];
  choice: ChoiceState;
}) => (
  <div className={classes.band}>
    <section className={classes.left} aria-label="Gain against probability">
      <div className={classes.over}>
        <Legend
          cars={ofSentence}
          chosen={filter.recommendation}
          onChoose={recommendation => onFilter({ ...filter, recommendation })}
        />
        <span className={classes.counted} role="status">
          {countText(listed.length, overview.cars.length)}
        </span>
      </div>
      <Scatter
        cars={listed}
        floors={overview}
        ringed={ringed}
        cursor={cursor?.car.id ?? null}
        onCursor={onCursor}
        onOpen={onOpen}
        onToggle={onToggle}
      />
    </section>
    <div className={classes.right}>
      <div className={classes.tabs}>
        <div role="tablist" aria-label="Beside the chart">
          {tabs.map(({ id, label }) => (
            <button
              key={id}
              type="button"
              role="tab"
              id={`decide-tab-${id}`}
              aria-selected={tab === id}
              aria-controls="decide-beside"
              tabIndex={tab === id ? 0 : -1}
              onClick={() => onTab(id)}
              onKeyDown={event => {
                if (event.key !== 'ArrowLeft' && event.key !== 'ArrowRight') return;
                const other = id === 'car' ? 'season' : 'car';
                onTab(other);
                document.getElementById(`decide-tab-${other}`)?.focus();
              }}
            >
              {label}
              {id === 'season' && totals.cars.length > 0 ? ` · ${totals.cars.length}` : ''}
            </button>
          ))}
        </div>
        {cursor && tab === 'car' ? (
          <Button onClick={() => onOpen(cursor.car.id)} rightSection={<KeyHint keys="Enter" />}>
            All options
          </Button>
        ) : null}
      </div>
      <div
        id="decide-beside"
        className={classes.scroll}
        role="tabpanel"
        aria-labelledby={`decide-tab-${tab}`}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so that the keyboard must reach it
        tabIndex={0}
      >
        {tab === 'car' ? (
          <CarPanel weighed={cursor} currency={overview.currency} />
        ) : (
          <SeasonPlan
            season={season}
            saved={saved}
            totals={totals}
            out={out}
            choice={choice}
            currency={overview.currency}
            onGo={onCursor}
          />
        )}
      </div>
    </div>
  </div>
);
