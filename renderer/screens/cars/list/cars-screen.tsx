import { Button } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { useQuery } from '@tanstack/react-query';
import { useCallback, useMemo, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { CarRow } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { api } from '../../../api/client.ts';
import { useSummary } from '../../../api/use-summary.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import type { GridHandle } from '../../../components/data-grid/types.ts';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { ColumnsMenu } from '../../../components/saved-views/columns-menu.tsx';
import { useListLook } from '../../../components/saved-views/use-list-look.ts';
import { LeftOut, useSavedViews, ViewsMenu } from '../../../components/saved-views/views-menu.tsx';
import { worthScale } from '../../../components/worth-strip/scale.ts';
import { stripWorths } from '../../../components/worth-strip/strip-worths.ts';
import { BulkBar } from './bulk-bar.tsx';
import { filterCars, filterIn, lacks } from './car-filter.ts';
import { CarsHeader, useNewCar } from './cars-header.tsx';
import { carColumns, carRowState } from './columns.tsx';
import { FilterSentence } from './filter-sentence.tsx';
import classes from './list.module.css';
import { NoCars } from './no-cars.tsx';
import { PhotoWall } from './photo-wall.tsx';
import { Ticks, useTicked } from './ticks.ts';
import { TotalsLine } from './totals-line.tsx';
import { useListAddress } from './use-list-address.ts';
import { orderWall } from './wall-order.ts';

const rowId = (car: CarRow) => String(car.id);

const List = ({ cars, currency }: { cars: CarRow[]; currency: Currency }) => {
  const [, navigate] = useLocation();
  const { filter, wall, order, go } = useListAddress();
  const [ticks] = useState(() => new Ticks());
  const ticked = useTicked(ticks);
  const [ranged, setRanged] = useState<number[]>([]);
  const rangedNow = useRef(ranged);
  rangedNow.current = ranged;
  const shown = useMemo(() => filterCars(cars, filter), [cars, filter]);
  const hung = useMemo(() => (wall ? orderWall(shown, order) : shown), [wall, shown, order]);
  const scale = useMemo(
    () =>
      worthScale(
        shown.filter(car => car.status !== 'sold').map(car => stripWorths(car.worths)),
        currency,
      ),
    [shown, currency],
  );
  const narrow = useMediaQuery('(max-width: 1320px)', undefined, { getInitialValueInEffect: false });
  const unread = useMemo(() => cars.filter(lacks['not-understood'].is).length, [cars]);
  const columns = useMemo(
    () => carColumns({ ticks, currency, scale, narrow }),
    [ticks, currency, scale, narrow],
  );
  const look = useListLook('cars', columns, null);
  const views = useSavedViews('cars');
  const select = useCallback((ids: string[]) => setRanged(ids.map(Number)), []);
  // Ticks count; without any, a range of several rows does.
  const chosenIds = ticked.size > 0 ? ticked : new Set(ranged.length > 1 ? ranged : []);
  // Only what is in sight is changed.
  const chosen = useMemo(() => shown.filter(car => chosenIds.has(car.id)), [shown, chosenIds]);
  const list = useRef<GridHandle>(null);
  const textField = useRef<HTMLInputElement>(null);
  const newCar = useNewCar();
  const focusList = () => list.current?.focus();
  const tickRange = () => ticks.toggle(rangedNow.current);
  const letGo = () => {
    ticks.set([]);
    focusList();
  };
  useKeys('Cars', [
    {
      keys: 'X',
      does: wall ? 'Select cars (in the grid)' : 'Select the cars, or clear them',
      run: tickRange,
    },
    {
      keys: 'F',
      does: 'Search among them',
      run: () => textField.current?.focus(),
    },
    { keys: 'V', does: wall ? 'Show the grid' : 'Show the photo wall', run: () => go({ wall: !wall }) },
    {
      keys: 'C',
      does: 'Show all cars again',
      run: () => go({ filter: filterIn('') }),
    },
    { keys: 'N', does: 'New car', run: newCar.add },
    ...(ticked.size > 0 ? [{ keys: 'Escape', does: 'Clear the selection', run: letGo }] : []),
  ]);
  const nothing = (
    <div className={classes.nothing}>
      <EmptyState
        title="No cars match"
        actions={
          <Button variant="filled" onClick={() => go({ filter: filterIn('') })}>
            Show all cars
          </Button>
        }
      >
        Of the {cars.length} cars in this collection, none matches the filter above.
      </EmptyState>
    </div>
  );
  return (
    <>
      <CarsHeader
        cars={cars.length}
        unread={unread}
        wall={wall}
        order={order}
        onGo={go}
        newCar={newCar}
        views={
          <>
            {wall ? null : <ColumnsMenu state={look} />}
            <ViewsMenu {...views} />
          </>
        }
      />
      <LeftOut chosen={views.chosen} state={look} />
      <FilterSentence
        cars={cars}
        filter={filter}
        onChange={next => go({ filter: next })}
        onFound={focusList}
        textField={textField}
      />
      {chosen.length > 0 && !wall ? <BulkBar cars={chosen} onLetGo={letGo} /> : null}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the space bar ticks in the grid, which has the focus */}
      <div
        className={classes.body}
        onKeyDown={event => {
          if (event.key !== ' ' || !(event.target instanceof HTMLElement) || event.target.role !== 'grid')
            return;
          event.preventDefault();
          tickRange();
        }}
      >
        {shown.length === 0 ? (
          nothing
        ) : wall ? (
          <>
            <PhotoWall handle={list} cars={hung} currency={currency} scale={scale} />
            <div className={classes.foot}>
              <TotalsLine cars={shown} currency={currency} />
            </div>
          </>
        ) : (
          <DataGrid
            label="Cars"
            rows={shown}
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
            onSelectionChange={select}
            footer={<TotalsLine cars={shown} currency={currency} />}
          />
        )}
      </div>
    </>
  );
};

/** All cars, in a grid or as a wall of photographs. */
export const CarsScreen = () => {
  const cars = useQuery({ queryKey: ['cars'], queryFn: () => api.cars.list({}) });
  const summary = useSummary();
  const error = cars.error ?? summary.error;
  if (error) return <ErrorState error={error} retry={cars.refetch} />;
  if (!cars.data || !summary.data) return <LoadingState label="Looking through the cars" />;
  return (
    <div className="fill">
      {cars.data.length === 0 ? (
        <NoCars />
      ) : (
        <List cars={cars.data} currency={summary.data.reportingCurrency} />
      )}
    </div>
  );
};
