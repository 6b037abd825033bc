import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { DecideFacts, DecisionSummary } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { readerLocale } from '../../components/format.ts';
import { BesideChart, type Tab } from './beside-chart.tsx';
import classes from './decide.module.css';
import type { Filter } from './filter/filter.ts';
import { crowd } from './scatter/dots.ts';
import { Legend } from './scatter/legend.tsx';
import { Scatter } from './scatter/scatter.tsx';
import type { SeasonWork } from './season/use-season-work.ts';

const countText = (listed: number, all: number): string => {
  const figure = (count: number) => count.toLocaleString(readerLocale());
  return listed === all ? `${figure(all)} cars` : `${figure(listed)} of ${figure(all)} cars`;
};

/** The points of the chart; where not every car has one, those of the season have. */
const usePoints = (filter: Filter, listed: number, { saved }: SeasonWork) => {
  const isCrowded = listed > crowd;
  const also = useMemo(
    () => (isCrowded ? (saved?.cars.map(({ carId }) => carId) ?? []) : []),
    [isCrowded, saved],
  );
  return useQuery({
    queryKey: ['decide', 'points', filter, also],
    queryFn: () => api.decisions.points({ filter, also }),
    placeholderData: keepPreviousData,
  });
};

/** Above the list: the chart, and beside it the car under the cursor or the season in full. */
export const Band = ({
  facts,
  areOld,
  isListOld,
  filter,
  onFilter,
  cursor,
  cursorCar,
  onCursor,
  onOpen,
  tab,
  onTab,
  work,
}: {
  facts: DecideFacts;
  /** They are still those of the filter before. */
  areOld: boolean;
  isListOld: boolean;
  filter: Filter;
  onFilter: (filter: Filter) => void;
  cursor: number | null;
  /** The car under the cursor, when it is here. */
  cursorCar: DecisionSummary | null;
  onCursor: (id: number) => void;
  onOpen: (id: number) => void;
  tab: Tab;
  onTab: (tab: Tab) => void;
  work: SeasonWork;
}) => {
  const { data: points, isPlaceholderData } = usePoints(filter, facts.listed, work);
  return (
    <div className={classes.band}>
      <section className={classes.left} aria-label="Gain against probability">
        <div className={classes.over} aria-busy={areOld || undefined}>
          <Legend
            recommended={facts.recommended}
            chosen={filter.recommendation}
            onChoose={recommendation => onFilter({ ...filter, recommendation })}
          />
          <span className={classes.counted} role="status">
            {countText(facts.listed, facts.cars)}
          </span>
        </div>
        {points ? (
          <Scatter
            points={points}
            isOld={isPlaceholderData}
            isListOld={isListOld}
            floors={facts}
            ringed={work.ringed}
            cursor={cursor}
            cursorCar={cursorCar}
            onCursor={onCursor}
            onOpen={onOpen}
            onToggle={id => void work.toggleOne(id)}
          />
        ) : (
          <div className={classes.chartComing} aria-busy="true" />
        )}
      </section>
      <BesideChart
        tab={tab}
        onTab={onTab}
        cursor={cursorCar}
        currency={facts.currency}
        work={work}
        onCursor={onCursor}
        onOpen={onOpen}
      />
    </div>
  );
};
