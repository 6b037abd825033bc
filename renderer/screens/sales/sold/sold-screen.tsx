import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useMemo, useRef } from 'react';
import { Link, useLocation } from 'wouter';
import type { SoldCarRow, SoldCars } from '../../../../electron/api/views.ts';
import type { Currency, Minor } from '../../../../valuation/types.ts';
import { counted } from '../../../../valuation/wording/reader.ts';
import { api } from '../../../api/client.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import type { GridHandle } from '../../../components/data-grid/types.ts';
import { amountText } from '../../../components/format.ts';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { ExportMenu } from '../../../components/saved-views/export-menu.tsx';
import classes from './sold.module.css';
import { soldColumns } from './sold-columns.tsx';

const title = 'Cars you sold';
const back = { label: 'Sale records', to: '/sales' };

/** What the sales brought after fees, one sum for each currency, none converted. */
const broughtText = (rows: readonly SoldCarRow[]): string => {
  const sums = new Map<Currency, Minor>();
  for (const { proceeds, fees, currency } of rows)
    sums.set(currency, (sums.get(currency) ?? 0) + proceeds - fees);
  return [...sums].map(([currency, minor]) => `${amountText(minor, currency)} ${currency}`).join(', ');
};

/** Says of cars that are marked as sold what is missing. */
const Unrecorded = ({ numbers }: { numbers: SoldCars['unrecorded'] }) =>
  numbers.length === 0 ? null : (
    <p className={`soft ${classes.unrecorded}`}>
      {numbers.length === 1
        ? `${numbers[0]} is marked as sold, but no sale is recorded.`
        : `${counted(numbers.length, 'car')} are marked as sold without a recorded sale: ${numbers.slice(0, 5).join(', ')}${numbers.length > 5 ? ' and more' : ''}.`}{' '}
      On the page of a car you can undo that and enter its sale.
    </p>
  );

/** Every car that left the collection by a sale: when, to whom, what it brought and what was gained. */
export const SoldScreen = () => {
  const { data, error, refetch } = useQuery({ queryKey: ['cars', 'sold'], queryFn: () => api.cars.sold() });
  const [, navigate] = useLocation();
  const grid = useRef<GridHandle>(null);
  const columns = useMemo(() => soldColumns(), []);
  if (error) return <ErrorState error={error} retry={() => void refetch()} />;
  if (!data) return <LoadingState />;
  const { rows, unrecorded } = data;
  const byId = new Map(rows.map(row => [String(row.id), row.carId]));
  if (rows.length === 0)
    return (
      <>
        <PageHeader title={title} facts="None yet" back={back} />
        <Unrecorded numbers={unrecorded} />
        <EmptyState
          title="No car has been sold yet"
          actions={
            <>
              <Button component={Link} href="~/cars">
                Go to the cars
              </Button>
              <Button component={Link} href="~/lots/import?as=disposals">
                Import a spreadsheet
              </Button>
            </>
          }
        >
          When you sell a car, enter the sale on its page. It is then listed here with its buyer, what it
          brought and what you gained, and the car leaves the collection’s sums.
        </EmptyState>
      </>
    );
  return (
    <div className="fill">
      <PageHeader
        title={title}
        back={back}
        facts={`${counted(rows.length, 'car')} · ${broughtText(rows)} after fees`}
        actions={
          <ExportMenu list="disposals" rows={() => ({ ids: (grid.current?.rowIds() ?? []).map(Number) })} />
        }
      />
      <Unrecorded numbers={unrecorded} />
      <div className={classes.list}>
        <DataGrid
          label={title}
          handle={grid}
          rows={rows}
          columns={columns}
          getRowId={row => String(row.id)}
          rowHeight={40}
          startColumn="number"
          sortedBy={{ columnId: 'soldOn', descending: true }}
          onOpen={id => navigate(`~/cars/${byId.get(id)}`)}
          autoFocus
        />
      </div>
    </div>
  );
};
