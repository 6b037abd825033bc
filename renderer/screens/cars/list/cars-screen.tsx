import { Button } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { useMemo, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { CarRow, CarsFacts } from '../../../../electron/api/views.ts';
import { carFilterIn } from '../../../../valuation/reading/list-address.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { useSummary } from '../../../api/use-summary.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import type { GridHandle } from '../../../components/data-grid/types.ts';
import { readerLocale } from '../../../components/format.ts';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { OfBefore } from '../../../components/layout/of-before.tsx';
import { ColumnsMenu } from '../../../components/saved-views/columns-menu.tsx';
import { ExportMenu } from '../../../components/saved-views/export-menu.tsx';
import { useListLook } from '../../../components/saved-views/use-list-look.ts';
import { LeftOut, useSavedViews, ViewsMenu } from '../../../components/saved-views/views-menu.tsx';
import { scaleBetween } from '../../../components/worth-strip/scale.ts';
import { BulkBar } from './bulk-bar.tsx';
import { CarsHeader, useNewCar } from './cars-header.tsx';
import { carColumns, carRowState } from './columns.tsx';
import { FilterSentence } from './filter-sentence.tsx';
import classes from './list.module.css';
import { NoCars } from './no-cars.tsx';
import { PhotoWall } from './photo-wall.tsx';
import { Ticks } from './ticks.ts';
import { TotalsLine } from './totals-line.tsx';
import { useCarFacts, useCarList } from './use-car-list.ts';
import { useListAddress } from './use-list-address.ts';

const rowId = (car: CarRow) => String(car.id);

/** Said where the filter leaves no car. */
const NoMatch = ({ cars, onShowAll }: { cars: number; onShowAll: () => void }) => (
  <div className={classes.nothing}>
    <EmptyState
      title="No cars match"
      actions={
        <Button variant="filled" onClick={onShowAll}>
          Show all cars
        </Button>
      }
    >
      Of the {cars.toLocaleString(readerLocale())} cars in this collection, none matches the filter above.
    </EmptyState>
  </div>
);

/** The keys of the list, whether it is a grid or a wall. */
const useListKeys = ({
  wall,
  isReady,
  onTick,
  onSearch,
  go,
  onNew,
  onLetGo,
}: {
  wall: boolean;
  isReady: boolean;
  onTick: () => void;
  onSearch: () => void;
  go: ReturnType<typeof useListAddress>['go'];
  onNew: () => void;
  /** Clears the selection; null where nothing is selected. */
  onLetGo: (() => void) | null;
}) => {
  const keys = [
    {
      keys: 'X',
      does: wall ? 'Select cars (in the grid)' : 'Select the cars, or clear them',
      run: onTick,
    },
    {
      keys: 'F',
      does: 'Search among them',
      run: onSearch,
    },
    { keys: 'V', does: wall ? 'Show the grid' : 'Show the photo wall', run: () => go({ wall: !wall }) },
    {
      keys: 'C',
      does: 'Show all cars again',
      run: () => go({ filter: carFilterIn('') }),
    },
    { keys: 'N', does: 'New car', run: onNew },
    ...(onLetGo ? [{ keys: 'Escape', does: 'Clear the selection', run: onLetGo }] : []),
  ];
  useKeys('Cars', isReady ? keys : []);
};

/** The columns for a window of this width, with the scale of their strips: undefined until the values are known. */
const useCarColumns = (ticks: Ticks, currency: Currency, values: CarsFacts['values'] | undefined) => {
  const scale = useMemo(
    () => (values === undefined ? undefined : scaleBetween(values, currency)),
    [values, currency],
  );
  const narrow = useMediaQuery('(max-width: 1320px)', undefined, { getInitialValueInEffect: false });
  const columns = useMemo(
    () => carColumns({ ticks, currency, scale, narrow }),
    [ticks, currency, scale, narrow],
  );
  return { columns, scale };
};

const List = ({ cars, currency }: { cars: number; currency: Currency }) => {
  const [, navigate] = useLocation();
  const { go, ...place } = useListAddress();
  const { filter, wall, order } = place;
  const [ticks] = useState(() => new Ticks());
  const { data: facts, error, refetch, isPlaceholderData: areOld } = useCarFacts(filter);
  const { columns, scale } = useCarColumns(ticks, currency, facts?.values);
  const look = useListLook('cars', columns, null);
  const views = useSavedViews('cars');
  const { windowed, chosen, isChoosing, setRange, tickRange, ticked } = useCarList(
    place,
    look.sortedBy,
    ticks,
  );
  const list = useRef<GridHandle>(null);
  const textField = useRef<HTMLInputElement>(null);
  const newCar = useNewCar();
  const focusList = () => list.current?.focus();
  const letGo = () => {
    ticks.set([]);
    focusList();
  };
  useListKeys({
    wall,
    // Until there are rows, what is pressed waits for them.
    isReady: !windowed.isFirst,
    onTick: () => void tickRange(),
    onSearch: () => textField.current?.focus(),
    go,
    onNew: newCar.add,
    onLetGo: ticked.size > 0 ? letGo : null,
  });
  const failed = windowed.error ?? error;
  if (failed)
    return (
      <ErrorState
        error={failed}
        retry={() => {
          windowed.retry();
          void refetch();
        }}
      />
    );
  if (windowed.isFirst) return <LoadingState label="Looking through the cars" />;
  const totals = <TotalsLine totals={facts?.totals} currency={currency} isOld={areOld} />;
  return (
    <>
      <CarsHeader
        cars={cars}
        unread={facts?.unread ?? 0}
        wall={wall}
        order={order}
        onGo={go}
        newCar={newCar}
        views={
          <>
            {wall ? null : <ColumnsMenu state={look} />}
            <ViewsMenu {...views} />
            {wall ? null : <ExportMenu list="cars" />}
          </>
        }
      />
      <LeftOut chosen={views.chosen} state={look} />
      <FilterSentence
        facts={facts}
        filter={filter}
        onChange={next => go({ filter: next })}
        onFound={focusList}
        textField={textField}
      />
      {facts?.workingOut ? (
        <OfBefore what="Order and sums are by the values" workingOut={facts.workingOut} />
      ) : null}
      {chosen && chosen.ids.length > 0 && !wall ? (
        <BulkBar chosen={chosen} isChoosing={isChoosing} onLetGo={letGo} />
      ) : null}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the space bar ticks in the grid, which has the focus */}
      <div
        className={classes.body}
        onKeyDown={event => {
          if (event.key !== ' ' || !(event.target instanceof HTMLElement) || event.target.role !== 'grid')
            return;
          event.preventDefault();
          void tickRange();
        }}
      >
        {windowed.rows.length === 0 ? (
          <NoMatch cars={cars} onShowAll={() => go({ filter: carFilterIn('') })} />
        ) : wall ? (
          <>
            <PhotoWall handle={list} windowed={windowed} currency={currency} scale={scale} />
            <div className={classes.foot}>{totals}</div>
          </>
        ) : (
          <DataGrid
            label="Cars"
            rows={windowed.rows}
            windowed={windowed}
            columns={look.shown}
            sortedBy={look.sortedBy}
            onSort={look.onSort}
            onMoveColumn={look.onMoveColumn}
            getRowId={rowId}
            rowHeight={42}
            rowState={carRowState}
            autoFocus
            handle={list}
            onOpen={id => navigate(`/${id}`)}
            onRangeChange={setRange}
            footer={totals}
          />
        )}
      </div>
    </>
  );
};

/** All cars, in a grid or as a wall of photographs. */
export const CarsScreen = () => {
  const { data: summary, error, refetch } = useSummary();
  if (error) return <ErrorState error={error} retry={refetch} />;
  if (!summary) return <LoadingState label="Looking through the cars" />;
  const { cars } = summary.counts;
  return (
    <div className="fill">
      {cars === 0 ? <NoCars /> : <List cars={cars} currency={summary.reportingCurrency} />}
    </div>
  );
};
