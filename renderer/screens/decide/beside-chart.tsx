import { Button } from '@mantine/core';
import type { DecisionSummary } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { KeyHint } from '../../components/keys/key-hint.tsx';
import classes from './decide.module.css';
import { CarPanel } from './inspector/car-panel.tsx';
import { SeasonPlan } from './season/season-plan.tsx';
import type { SeasonWork } from './season/use-season-work.ts';

const tabs = [
  { id: 'car', label: 'Car' },
  { id: 'season', label: 'Season' },
] as const;

export type Tab = (typeof tabs)[number]['id'];

const Tabs = ({ tab, onTab, inSeason }: { tab: Tab; onTab: (tab: Tab) => void; inSeason: number }) => (
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
        {id === 'season' && inSeason > 0 ? ` · ${inSeason}` : ''}
      </button>
    ))}
  </div>
);

/** Beside the chart: the car under the cursor, or the season in full. */
export const BesideChart = ({
  tab,
  onTab,
  cursor,
  currency,
  work,
  onCursor,
  onOpen,
}: {
  tab: Tab;
  onTab: (tab: Tab) => void;
  cursor: DecisionSummary | null;
  currency: Currency;
  work: SeasonWork;
  onCursor: (id: number) => void;
  onOpen: (id: number) => void;
}) => (
  <div className={classes.right}>
    <div className={classes.tabs}>
      <Tabs tab={tab} onTab={onTab} inSeason={work.totals.cars.length} />
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
        <CarPanel weighed={cursor} currency={currency} />
      ) : (
        <SeasonPlan work={work} currency={currency} onGo={onCursor} />
      )}
    </div>
  </div>
);
