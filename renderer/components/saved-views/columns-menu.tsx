import { Button, Checkbox, Popover } from '@mantine/core';
import { IconArrowDown, IconArrowUp, IconColumns } from '@tabler/icons-react';
import classes from './saved-views.module.css';
import type { ListLookState } from './use-list-look.ts';

/** Which columns a list shows, and in what order. */
export const ColumnsMenu = <Row,>({ state }: { state: ListLookState<Row> }) => {
  const { shown, columns, look, show, onMoveColumn, showUsual } = state;
  const free = shown.filter(({ pinned }) => !pinned);
  const hidden = columns.filter(column => !column.pinned && !shown.includes(column));
  const first = shown.length - free.length;
  const move = (id: string, to: number) => {
    if (to < first || to >= shown.length) return;
    onMoveColumn(id, to);
  };
  return (
    <Popover position="bottom-end" trapFocus withinPortal>
      <Popover.Target>
        <Button leftSection={<IconColumns size={14} aria-hidden="true" />}>Columns</Button>
      </Popover.Target>
      <Popover.Dropdown aria-label="Columns">
        <p className={classes.hint}>Alt with ↑ or ↓ moves a column. In the list, drag a heading.</p>
        <ul className={classes.columns}>
          {[...free, ...hidden].map(({ id, title }) => {
            const place = shown.findIndex(column => column.id === id);
            return (
              <li key={id}>
                <Checkbox
                  size="xs"
                  label={title}
                  checked={place >= 0}
                  disabled={place >= 0 && free.length === 1}
                  onChange={event => show(id, event.currentTarget.checked)}
                  onKeyDown={event => {
                    if (!event.altKey || place < 0) return;
                    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
                    event.preventDefault();
                    event.stopPropagation();
                    move(id, place + (event.key === 'ArrowUp' ? -1 : 1));
                  }}
                />
                {place < 0 ? null : (
                  <span className={classes.moves}>
                    <button
                      type="button"
                      aria-label={`Move ${title} up`}
                      disabled={place <= first}
                      onClick={() => move(id, place - 1)}
                    >
                      <IconArrowUp size={14} aria-hidden="true" />
                    </button>
                    <button
                      type="button"
                      aria-label={`Move ${title} down`}
                      disabled={place === shown.length - 1}
                      onClick={() => move(id, place + 1)}
                    >
                      <IconArrowDown size={14} aria-hidden="true" />
                    </button>
                  </span>
                )}
              </li>
            );
          })}
        </ul>
        {look.columns === null ? null : (
          <Button size="xs" variant="subtle" onClick={showUsual}>
            All columns in the usual order
          </Button>
        )}
      </Popover.Dropdown>
    </Popover>
  );
};
