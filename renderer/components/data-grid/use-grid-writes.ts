import { useCallback, useRef, useState } from 'react';
import { inTurn } from '../actions/in-order.ts';
import { type CellOutcome, isEditable } from './parse-cell.ts';
import type { ChangePlan } from './plan-changes.ts';
import type { DataGridProps } from './types.ts';

/** What was typed but is not yet in the rows, by "row id / column id"; shown in the meantime. */
export type Underway = Readonly<Record<string, string>>;

export const cellKey = (rowKey: string, columnId: string): string => `${rowKey}/${columnId}`;
/** A row of the blank lines at the foot, by its place. */
export const blankKey = (row: number): string => `#${row}`;

const pause = (milliseconds: number) => new Promise(resolve => setTimeout(resolve, milliseconds));

/**
 * Writes changes one after another, so that a cell typed into a row that is only being made finds that row.
 * What is under way is shown at once; what is refused or fails is said.
 */
export const useGridWrites = <Row extends object>(
  rows: readonly Row[],
  {
    columns,
    getRowId,
    onEdit,
    onAppend,
  }: Pick<DataGridProps<Row>, 'columns' | 'getRowId' | 'onEdit' | 'onAppend'>,
) => {
  const latest = useRef(rows);
  latest.current = rows;
  const [underway, setUnderway] = useState<Underway>({});
  // How many rows there will be once what is under way is written; one entry for each write that makes a row.
  const [awaited, setAwaited] = useState<readonly number[]>([]);
  const [message, setMessage] = useState<string | null>(null);

  const enqueue = useCallback((work: () => Promise<void>) => {
    inTurn(work).catch(() => undefined);
  }, []);

  const show = useCallback((shown: Record<string, string>) => {
    setUnderway(before => ({ ...before, ...shown }));
    return () =>
      setUnderway(before => Object.fromEntries(Object.entries(before).filter(([key]) => !(key in shown))));
  }, []);

  const awaitRows = useCallback((count: number) => {
    setAwaited(before => [...before, count]);
    return () => setAwaited(before => before.toSpliced(before.indexOf(count), 1));
  }, []);

  const append = useCallback(
    async (added: ChangePlan['added']) => {
      const expected = latest.current.length + added.length;
      await onAppend?.(added);
      for (let tries = 0; latest.current.length < expected && tries < 50; tries += 1) await pause(10);
    },
    [onAppend],
  );

  /** Shows a plan as under way, and gives what is to be done for it in its turn. */
  const begin = useCallback(
    ({ changes, added, problems }: ChangePlan) => {
      setMessage(
        problems.length === 0
          ? null
          : problems.length === 1
            ? (problems[0] ?? null)
            : `${problems.length} cells were not pasted. ${problems.slice(0, 3).join('. ')}${problems.length > 3 ? ' …' : ''}`,
      );
      if (changes.length === 0 && added.length === 0) return async () => undefined;
      const hide = show(
        Object.fromEntries(
          changes.map(change => [
            cellKey(change.rowId, change.columnId),
            change.choice?.label ?? String(change.value ?? ''),
          ]),
        ),
      );
      const arrived = awaitRows(latest.current.length + added.length);
      return async () => {
        try {
          if (changes.length > 0) await onEdit?.(changes);
          if (added.length > 0) await append(added);
        } finally {
          arrived();
          hide();
        }
      };
    },
    [append, awaitRows, onEdit, show],
  );
  const apply = (plan: ChangePlan) => enqueue(begin(plan));
  /** Makes a plan when what was asked for before is done. */
  const applyInTurn = (plan: () => Promise<ChangePlan>) =>
    enqueue(async () => {
      const made = await plan().catch(() => {
        setMessage('Those rows could not be read, so nothing was changed. Try once more.');
        return null;
      });
      if (made) await begin(made)();
    });

  /** Writes one cell; `outcome` may still be searched for. */
  const commit = useCallback(
    (place: { row: number; column: number }, text: string, outcome: CellOutcome | Promise<CellOutcome>) => {
      const column = columns[place.column];
      const target = latest.current[place.row];
      if (!column || !isEditable(column, target ?? null)) return;
      const rowKey = target === undefined ? blankKey(place.row) : getRowId(target);
      const hide = show({ [cellKey(rowKey, column.id)]: text });
      setMessage(null);
      const arrived = awaitRows(target === undefined ? place.row + 1 : 0);
      enqueue(async () => {
        try {
          const settled = await outcome;
          if ('problem' in settled) {
            setMessage(settled.problem);
            return;
          }
          // One that was only being made is there by now.
          const row = target ?? latest.current[place.row];
          if (row !== undefined) await onEdit?.([{ rowId: getRowId(row), columnId: column.id, ...settled }]);
          else if (settled.value !== null) await append([[{ columnId: column.id, ...settled }]]);
        } finally {
          arrived();
          hide();
        }
      });
    },
    [append, awaitRows, columns, enqueue, getRowId, onEdit, show],
  );

  /** Blank lines at the foot: one to write in, and one for each row that is being made. */
  const blanks = onAppend ? Math.max(0, Math.max(0, ...awaited) - rows.length) + 1 : 0;
  const isIdle = awaited.length === 0;
  return { apply, applyInTurn, enqueue, commit, isIdle, underway, blanks, message, setMessage };
};

export type GridWrites = ReturnType<typeof useGridWrites>;
