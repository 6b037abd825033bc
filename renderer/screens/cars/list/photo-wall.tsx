import { useElementSize } from '@mantine/hooks';
import { useVirtualizer } from '@tanstack/react-virtual';
import { type KeyboardEvent, type Ref, useEffect, useImperativeHandle, useLayoutEffect, useRef } from 'react';
import type { CarRow } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import type { GridHandle, WindowedRows } from '../../../components/data-grid/types.ts';
import type { WorthScale } from '../../../components/worth-strip/scale.ts';
import classes from './wall.module.css';
import { WallCard } from './wall-card.tsx';

const gap = 20;
const narrowest = 212;
const textHeight = 122;

/** The places of a row of the wall. */
const placesOf = (row: number, columns: number, all: number): number[] =>
  Array.from({ length: Math.max(0, Math.min(columns, all - row * columns)) }, (_, i) => row * columns + i);

/** Photographs edge to edge, drawn only where they are in sight. Arrows walk, Enter opens. */
export const PhotoWall = ({
  handle,
  windowed,
  currency,
  scale,
}: {
  handle: Ref<GridHandle>;
  windowed: WindowedRows<CarRow>;
  currency: Currency;
  /** Undefined until it is known. */
  scale: WorthScale | null | undefined;
}) => {
  const { rows: cars, see } = windowed;
  const { ref: measured, width } = useElementSize<HTMLDivElement>();
  const scroller = useRef<HTMLDivElement | null>(null);
  const inner = Math.max(0, width);
  const columns = Math.max(1, Math.floor((inner + gap) / (narrowest + gap)));
  const cardWidth = (inner - gap * (columns - 1)) / columns;
  const pictureHeight = Math.round((cardWidth * 2) / 3);
  const rows = Math.ceil(cars.length / columns);
  const virtual = useVirtualizer({
    count: inner > 0 ? rows : 0,
    getScrollElement: () => scroller.current,
    estimateSize: () => pictureHeight + textHeight + gap,
    overscan: 2,
  });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the height of a row follows the width of the window
  useEffect(() => virtual.measure(), [virtual, pictureHeight]);
  const lines = virtual.getVirtualItems();
  const [first, last] = [lines[0]?.index, lines.at(-1)?.index];
  useLayoutEffect(() => {
    if (first !== undefined && last !== undefined)
      see({ first: first * columns, last: (last + 1) * columns - 1, focus: -1 });
  }, [see, first, last, columns]);
  // The picture that the keys lead to, until it is here.
  const wanted = useRef<number | null>(null);
  useEffect(() => {
    const picture = scroller.current?.querySelector<HTMLElement>(`[data-place="${wanted.current}"]`);
    if (!picture) return;
    wanted.current = null;
    picture.focus({ preventScroll: true });
  });
  // The place that has the focus: where its picture goes with the rows of before, the one that comes there takes it.
  const held = useRef<number | null>(null);
  useLayoutEffect(() => {
    if (held.current === null || cars.length === 0 || document.activeElement !== document.body) return;
    wanted.current ??= Math.min(held.current, cars.length - 1);
  }, [cars]);
  useImperativeHandle(handle, () => ({
    focus: () => scroller.current?.querySelector<HTMLElement>('[data-place]')?.focus({ preventScroll: true }),
    toTop: () => scroller.current?.scrollTo({ top: 0 }),
    rowIds: () => cars.flatMap(car => (car ? [String(car.id)] : [])),
  }));
  const walk = (event: KeyboardEvent) => {
    const link =
      event.target instanceof HTMLElement ? event.target.closest<HTMLElement>('[data-place]') : null;
    if (!link) return;
    const from = Number(link.dataset.place);
    const steps: Record<string, number> = {
      ArrowRight: 1,
      ArrowLeft: -1,
      ArrowDown: columns,
      ArrowUp: -columns,
      PageDown: columns * 3,
      PageUp: -columns * 3,
      Home: -from,
      End: cars.length - 1 - from,
    };
    const step = steps[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const to = Math.max(0, Math.min(cars.length - 1, from + step));
    virtual.scrollToIndex(Math.floor(to / columns));
    const there = scroller.current?.querySelector<HTMLElement>(`[data-place="${to}"]`);
    wanted.current = there ? null : to;
    there?.focus({ preventScroll: true });
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys walk between the links inside
    <div
      ref={scroller}
      className={classes.scroller}
      aria-busy={windowed.isComing}
      onKeyDown={walk}
      onFocus={event => {
        held.current = Number(event.target.closest<HTMLElement>('[data-place]')?.dataset.place ?? 0);
      }}
      onBlur={() => {
        held.current = null;
      }}
    >
      <div ref={measured} className={classes.wall} style={{ height: virtual.getTotalSize() }}>
        {lines.map(row => (
          <ul
            key={row.key}
            className={classes.row}
            style={{
              transform: `translateY(${row.start}px)`,
              gridTemplateColumns: `repeat(${columns}, minmax(0, 1fr))`,
            }}
          >
            {placesOf(row.index, columns, cars.length).map(place => {
              const car = cars[place];
              return car ? (
                <WallCard
                  key={car.id}
                  car={car}
                  place={place}
                  pictureHeight={pictureHeight}
                  currency={currency}
                  scale={scale}
                />
              ) : (
                <li key={`coming ${place}`} aria-busy="true" />
              );
            })}
          </ul>
        ))}
      </div>
    </div>
  );
};
