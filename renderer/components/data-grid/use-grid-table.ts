import {
  type ColumnDef,
  columnResizingFeature,
  columnSizingFeature,
  createSortedRowModel,
  rowSortingFeature,
  tableFeatures,
  useTable,
} from '@tanstack/react-table';
import { useEffect, useMemo, useRef } from 'react';
import { compareCells, extendOrder, keepOrder, orderOf } from './keep-order.ts';
import type { DataGridProps, GridColumn, GridSort } from './types.ts';

const features = tableFeatures({
  columnSizingFeature,
  columnResizingFeature,
  rowSortingFeature,
  sortedRowModel: createSortedRowModel(),
});

const edge = 16;

type Sorting = { id: string; desc: boolean }[];
const sortingOf = (sort: GridSort | null | undefined): Sorting =>
  sort ? [{ id: sort.columnId, desc: sort.descending ?? false }] : [];
const sortingKey = (sorting: Sorting): string => sorting.map(({ id, desc }) => `${id} ${desc}`).join();

const definition = <Row extends object>(
  column: GridColumn<Row>,
): ColumnDef<typeof features, Row, unknown> => ({
  id: column.id,
  // Empty texts sort with the unknown, last either way.
  accessorFn: row => {
    const value = column.value(row);
    return value === null || value === '' ? undefined : value;
  },
  size: column.width,
  minSize: column.minWidth ?? 40,
  maxSize: 900,
  enableSorting: column.sortable ?? true,
  sortUndefined: 'last',
  sortFn: (a, b, id) => compareCells(a.getValue(id), b.getValue(id)),
});

/**
 * Widths, resizing and sorting; where cells can be edited, rows stay as they were sorted until the
 * reader sorts again.
 */
export const useGridTable = <Row extends object>({
  rows,
  columns,
  getRowId,
  sortedBy,
  onSort,
  onEdit,
  windowed,
}: Pick<
  DataGridProps<Row>,
  'rows' | 'columns' | 'getRowId' | 'sortedBy' | 'onSort' | 'onEdit' | 'windowed'
>) => {
  const definitions = useMemo(() => columns.map(definition), [columns]);
  const here = windowed?.here ?? rows;
  const data = useMemo(() => [...here], [here]);
  const table = useTable({
    features,
    columns: definitions,
    data,
    getRowId,
    columnResizeMode: 'onChange',
    enableMultiSort: false,
    manualSorting: windowed !== undefined,
    enableSortingRemoval: true,
    initialState: {
      sorting: sortingOf(sortedBy),
    },
  });
  const told = onSort !== undefined;
  const wanted = sortingKey(sortingOf(sortedBy));
  // biome-ignore lint/correctness/useExhaustiveDependencies: by what is wanted, not by the object that says so
  useEffect(() => {
    if (told && sortingKey(table.state.sorting) !== wanted) table.setSorting(sortingOf(sortedBy));
  }, [told, wanted]);
  const { sorting, columnSizing } = table.state;
  const sorted = table.getRowModel().rows;
  const sortKey = sortingKey(sorting);
  const kept = useRef<{ sortKey: string; order: Map<string, number> } | null>(null);
  const holdsOrder = onEdit !== undefined;
  const ordered = useMemo(() => {
    const originals = sorted.map(row => row.original);
    const before = kept.current;
    // A list that is only read is always sorted, and an unsorted one stands as it is given.
    if (!holdsOrder || sortKey === '' || before?.sortKey !== sortKey) {
      kept.current = { sortKey, order: orderOf(originals, getRowId) };
      return originals;
    }
    const order = keepOrder(originals, before.order, getRowId);
    kept.current = { sortKey, order: extendOrder(before.order, order, getRowId) };
    return order;
  }, [sorted, sortKey, getRowId, holdsOrder]);
  // The outer columns reach to the edges of the window, their texts to the margins of the page.
  const air = (index: number) => (index === 0 ? edge : 0) + (index === columns.length - 1 ? edge : 0);
  const widths = columns.map((column, index) => (columnSizing[column.id] ?? column.width) + air(index));
  const template = columns
    .map((column, index) =>
      column.grow && columnSizing[column.id] === undefined
        ? `minmax(${widths[index]}px, ${column.grow}fr)`
        : `${widths[index]}px`,
    )
    .join(' ');
  return {
    rows: windowed ? rows : ordered,
    sorting: sorting[0] ?? null,
    widths,
    template,
    totalWidth: widths.reduce((sum, width) => sum + width, 0),
    headers: table.getHeaderGroups()[0]?.headers ?? [],
    sort: (columnId: string) => {
      const column = table.getColumn(columnId);
      if (!column) return;
      if (!onSort) return column.toggleSorting();
      const next = column.getNextSortingOrder();
      onSort(next === false ? null : { columnId, descending: next === 'desc' });
    },
    resize: (columnId: string, by: number) => {
      const column = columns.find(candidate => candidate.id === columnId);
      if (!column) return;
      table.setColumnSizing(sizes => ({
        ...sizes,
        [columnId]: Math.max(column.minWidth ?? 40, (sizes[columnId] ?? column.width) + by),
      }));
    },
    resetWidth: (columnId: string) => table.getColumn(columnId)?.resetSize(),
  };
};

export type GridTable<Row extends object> = ReturnType<typeof useGridTable<Row>>;
