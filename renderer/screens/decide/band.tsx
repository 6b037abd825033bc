import type { DecideOverview, DecisionSummary } from '../../../electron/api/views.ts';
import { readerLocale } from '../../components/format.ts';
import { BesideChart, type Tab } from './beside-chart.tsx';
import classes from './decide.module.css';
import type { Filter } from './filter/filter.ts';
import { Legend } from './scatter/legend.tsx';
import { Scatter } from './scatter/scatter.tsx';
import type { SeasonWork } from './season/use-season-work.ts';

const countText = (listed: number, all: number): string => {
  const figure = (count: number) => count.toLocaleString(readerLocale());
  return listed === all ? `${figure(all)} cars` : `${figure(listed)} of ${figure(all)} cars`;
};

/** Above the list: the chart, and beside it the car under the cursor or the season in full. */
export const Band = ({
  overview,
  listed,
  ofSentence,
  filter,
  onFilter,
  cursor,
  onCursor,
  onOpen,
  tab,
  onTab,
  work,
  byId,
}: {
  overview: DecideOverview;
  listed: readonly DecisionSummary[];
  ofSentence: readonly DecisionSummary[];
  filter: Filter;
  onFilter: (filter: Filter) => void;
  cursor: DecisionSummary | null;
  onCursor: (id: number) => void;
  onOpen: (id: number) => void;
  tab: Tab;
  onTab: (tab: Tab) => void;
  work: SeasonWork;
  byId: ReadonlyMap<number, DecisionSummary>;
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
        ringed={work.ringed}
        cursor={cursor?.car.id ?? null}
        onCursor={onCursor}
        onOpen={onOpen}
        onToggle={work.toggleOne}
      />
    </section>
    <BesideChart
      tab={tab}
      onTab={onTab}
      cursor={cursor}
      currency={overview.currency}
      work={work}
      byId={byId}
      onCursor={onCursor}
      onOpen={onOpen}
    />
  </div>
);
