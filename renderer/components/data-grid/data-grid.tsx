import { useDeferredValue, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { useKeys } from '../keys/use-keys.ts';
import classes from './data-grid.module.css';
import { GridHeader } from './grid-header.tsx';
import { gridKeyList } from './grid-keys.ts';
import { GridRow } from './grid-row.tsx';
import type { DataGridProps } from './types.ts';
import { useGrid } from './use-grid.ts';
import { useGridClipboard } from './use-grid-clipboard.ts';
import { blankKey, type Underway } from './use-grid-writes.ts';
import { overscan, useVirtualRows } from './use-virtual-rows.ts';

const headHeight = (withUnder: boolean) => (withUnder ? 48 : 32);

/** Where pinned columns stand when the grid is scrolled sideways; null for the others. */
const pinsOf = (pinned: readonly boolean[], widths: readonly number[]): (number | null)[] => {
  let left = 0;
  return pinned.map((isPinned, index) => {
    if (!isPinned) return null;
    const place = left;
    left += widths[index] ?? 0;
    return place;
  });
};

const ownUnderway = (underway: Underway, key: string): Underway | null => {
  for (const entry in underway) if (entry.startsWith(`${key}/`)) return underway;
  return null;
};

/** A sheet of rows to read and to work in, by keyboard; it draws only the rows in sight. */
export const DataGrid = <Row extends object>(props: DataGridProps<Row>) => {
  const { label, columns, getRowId, rowState, rowHeight = 36, empty, footer, height, onDropFiles } = props;
  const grid = useGrid(props);
  const { table, rows, writes, selection, box, editing, extent } = grid;
  // Rows of a long list that have just come are drawn between other work, as many at once would hold the page up.
  const drawn = useDeferredValue(rows);
  useGridClipboard(grid, props);
  useKeys(label, gridKeyList(grid.writable, props.onAppend !== undefined, props.onMoveColumn !== undefined));
  const scroller = useRef<HTMLDivElement>(null);
  const head = headHeight(columns.some(column => column.heading));
  const cursorRow = selection.focus.row;
  const { virtual, items, inSight } = useVirtualRows({
    count: extent.rows,
    scroller,
    rowHeight,
    head,
    cursorRow,
  });
  // As it was watched: asking the element would lay the page out in the middle of each scroll.
  const bodyHeight = (virtual.scrollRect?.height ?? 400) - head;
  grid.pageRows.current = Math.max(1, Math.floor(bodyHeight / rowHeight) - 1);

  const current = useRef(grid);
  current.current = grid;
  const drop = useRef(onDropFiles);
  drop.current = onDropFiles;

  const pinned = columns.map(column => column.pinned ?? false).join();
  const widths = table.widths.join();
  // biome-ignore lint/correctness/useExhaustiveDependencies: compared by what they say, so that rows are not drawn again
  const pins = useMemo(
    () =>
      pinsOf(
        columns.map(column => column.pinned ?? false),
        table.widths,
      ),
    [pinned, widths],
  );

  const { focus } = selection;
  const top = inSight ? Math.max(0, inSight.startIndex - overscan) : undefined;
  const bottom = inSight ? Math.min(extent.rows - 1, inSight.endIndex + overscan) : undefined;
  const see = props.windowed?.see;
  useLayoutEffect(() => {
    if (top !== undefined && bottom !== undefined) see?.({ first: top, last: bottom, focus: focus.row });
  }, [see, top, bottom, focus.row]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: only a moved cursor scrolls, not a drawn grid
  useEffect(() => {
    const area = scroller.current;
    if (!area) return;
    if (focus.row >= 0) {
      const top = head + focus.row * rowHeight;
      if (top < area.scrollTop + head) area.scrollTop = top - head;
      else if (top + rowHeight > area.scrollTop + area.clientHeight)
        area.scrollTop = top + rowHeight - area.clientHeight;
    }
    document.getElementById(`${grid.id}-r${focus.row}-c${focus.column}`)?.scrollIntoView({
      block: 'nearest',
      inline: 'nearest',
    });
  }, [focus.row, focus.column, head, rowHeight]);

  if (extent.rows === 0 && empty !== undefined) return <>{empty}</>;
  const focusShown = focus.row < 0 || items.some(item => item.index === focus.row);
  return (
    <div className={classes.frame} style={height === undefined ? undefined : { height, flex: 'none' }}>
      <div ref={scroller} className={classes.scroller}>
        <table
          ref={grid.gridRef}
          // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a table that is worked in is a grid
          role="grid"
          className={classes.grid}
          style={
            {
              minWidth: table.totalWidth,
              '--grid-columns': table.template,
              '--head-height': `${head}px`,
            } as React.CSSProperties
          }
          tabIndex={0}
          aria-label={label}
          aria-rowcount={extent.rows + 1}
          aria-colcount={columns.length}
          aria-multiselectable="true"
          aria-busy={props.windowed?.isComing || undefined}
          aria-readonly={grid.writable ? undefined : true}
          aria-activedescendant={focusShown ? `${grid.id}-r${focus.row}-c${focus.column}` : undefined}
          onKeyDown={grid.onKeyDown}
        >
          <GridHeader
            gridId={grid.id}
            table={table}
            columns={columns}
            pins={pins}
            cursorColumn={focus.row < 0 ? focus.column : null}
            onMoveColumn={props.onMoveColumn}
            onFocusColumn={column => {
              grid.focusGrid();
              grid.goTo({ anchor: { row: -1, column }, focus: { row: -1, column } });
            }}
          />
          <tbody className={classes.body} style={{ height: virtual.getTotalSize() }}>
            {items.map(({ index, start }) => {
              // That under the cursor is drawn at once: it may be edited.
              const isDrawn = !props.windowed || index === focus.row || drawn[index] !== undefined;
              const row = (isDrawn ? rows[index] : undefined) ?? null;
              const rowKey = row === null ? null : getRowId(row);
              const state = row === null ? null : rowState?.(row);
              const inBox = box !== null && index >= box.top && index <= box.bottom;
              return (
                <GridRow
                  // By place, not by id: a blank line that becomes a row must keep the editor
                  // that is open in it.
                  key={index}
                  gridId={grid.id}
                  index={index}
                  top={start}
                  height={rowHeight}
                  row={row}
                  rowKey={rowKey}
                  isComing={row === null && index < rows.length}
                  columns={columns}
                  pins={pins}
                  cursorColumn={focus.row === index ? focus.column : null}
                  selectedFrom={inBox ? box.left : -1}
                  selectedTo={inBox ? box.right : -2}
                  editing={editing?.row === index ? editing : null}
                  underway={ownUnderway(writes.underway, rowKey ?? blankKey(index))}
                  tone={state?.tone ?? null}
                  toneLabel={state?.label ?? null}
                  takesFiles={onDropFiles !== undefined}
                  grid={current}
                  onDropFiles={drop}
                />
              );
            })}
          </tbody>
        </table>
      </div>
      {writes.message ? (
        <div className={classes.message} role="status">
          <span>{writes.message}</span>
          <button type="button" className={classes.dismiss} onClick={() => writes.setMessage(null)}>
            Dismiss
          </button>
        </div>
      ) : null}
      {footer ? <div className={classes.footer}>{footer}</div> : null}
    </div>
  );
};
