import { useComputedColorScheme } from '@mantine/core';
import { type KeyboardEvent, useEffect, useMemo, useRef, useState } from 'react';
import type { DecideOverview, DecisionSummary } from '../../../../electron/api/views.ts';
import { deltaText, percentText } from '../../../components/format.ts';
import { readerWords } from '../../../components/words.ts';
import { carName } from '../car-words.ts';
import { Axes } from './axes.tsx';
import { DotCard } from './dot-card.tsx';
import { type Direction, type Dot, dotAt, dotsOf, nextDot, probabilityScale } from './dots.ts';
import { drawDots, drawRings, readColours } from './draw-dots.ts';
import { gainScale } from './gain-scale.ts';
import classes from './scatter.module.css';
import { useSize } from './use-size.ts';

const directions: Record<string, Direction> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};

/**
 * Every car by what it is expected to gain and how likely that is; its size is what it costs, its mark what
 * is recommended. The list beside it says the same in words and figures, and both have one cursor.
 */
export const Scatter = ({
  cars,
  floors: { leastGain, leastProbability, currency },
  ringed,
  cursor,
  onCursor,
  onOpen,
  onToggle,
}: {
  cars: readonly DecisionSummary[];
  floors: Pick<DecideOverview, 'leastGain' | 'leastProbability' | 'currency'>;
  /** Ids of the cars of the season. */
  ringed: ReadonlySet<number>;
  cursor: number | null;
  onCursor: (id: number) => void;
  onOpen: (id: number) => void;
  onToggle: (id: number) => void;
}) => {
  const { ref: plot, size } = useSize<HTMLDivElement>();
  const canvas = useRef<HTMLCanvasElement>(null);
  const rings = useRef<HTMLCanvasElement>(null);
  const scheme = useComputedColorScheme('light');
  const [hovered, setHovered] = useState<Dot | null>(null);
  const [focused, setFocused] = useState(false);
  const scale = useMemo(
    () =>
      gainScale(
        cars.flatMap(({ shown }) => (shown ? [shown.expectedGain] : [])),
        currency,
        leastGain,
      ),
    [cars, currency, leastGain],
  );
  const probabilities = useMemo(
    () =>
      probabilityScale(
        cars.flatMap(({ shown }) => (shown ? [shown.probability] : [])),
        leastProbability,
      ),
    [cars, leastProbability],
  );
  const dots = useMemo(() => dotsOf(cars, scale, probabilities, size), [cars, scale, probabilities, size]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the scheme changes the colours that are read from the page
  useEffect(() => {
    if (canvas.current && size.width > 0) drawDots(canvas.current, dots, size, readColours(canvas.current));
  }, [dots, size, scheme]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: as above
  useEffect(() => {
    if (rings.current && size.width > 0)
      drawRings(rings.current, dots, size, { ringed, ring: readColours(rings.current).ring });
  }, [dots, size, ringed, scheme]);
  const at = dots.find(dot => dot.id === cursor) ?? null;
  const told = hovered && dots.includes(hovered) ? hovered : focused ? at : null;

  const press = (event: KeyboardEvent) => {
    setHovered(null);
    const direction = directions[event.key];
    if (direction) {
      event.preventDefault();
      const next = at ? nextDot(dots, at, direction) : dots[0];
      if (next) onCursor(next.id);
    } else if (event.key === ' ' && at) {
      event.preventDefault();
      onToggle(at.id);
    } else if (event.key === 'Enter' && at) {
      event.preventDefault();
      onOpen(at.id);
    }
  };
  const under = (event: React.MouseEvent) => {
    const box = event.currentTarget.getBoundingClientRect();
    return dotAt(dots, event.clientX - box.left, event.clientY - box.top);
  };
  const missing = cars.length - dots.length;
  return (
    <div className={classes.chart}>
      <span className={classes.yTitle} aria-hidden="true">
        beats leaving
      </span>
      <div ref={plot} className={classes.plot}>
        {size.width > 0 ? (
          <Axes
            scale={scale}
            probabilities={probabilities}
            size={size}
            leastGain={leastGain}
            leastProbability={leastProbability}
          />
        ) : null}
        <canvas
          ref={canvas}
          className={classes.canvas}
          role="img"
          aria-label={`${dots.length} cars by expected gain and probability; the list beneath says the same`}
        />
        <canvas ref={rings} className={classes.canvas} />
        {at ? (
          <svg className={classes.axes} width={size.width} height={size.height} aria-hidden="true">
            <line className={classes.hair} x1={at.x} x2={at.x} y1={0} y2={size.height} />
            <line className={classes.hair} x1={0} x2={size.width} y1={at.y} y2={at.y} />
            <circle className={classes.cursor} cx={at.x} cy={at.y} r={at.r + 5} />
          </svg>
        ) : null}
        <button
          type="button"
          className={classes.reach}
          aria-label="Chart: arrow keys go from car to car, Space puts one into the season, Enter opens it"
          onKeyDown={press}
          onFocus={() => setFocused(true)}
          onBlur={() => setFocused(false)}
          onMouseMove={event => setHovered(under(event))}
          onMouseLeave={() => setHovered(null)}
          onClick={event => {
            const dot = event.detail > 0 ? under(event) : null;
            if (dot) onCursor(dot.id);
          }}
          onDoubleClick={event => {
            const dot = under(event);
            if (dot) onOpen(dot.id);
          }}
          data-over={hovered !== null || undefined}
        />
        {told ? <DotCard dot={told} size={size} currency={currency} /> : null}
        <span className="heard" aria-live="polite">
          {focused && at?.weighed.shown
            ? `${carName(at.weighed.car)} ${at.weighed.car.inventoryNumber}, ${readerWords().recommendation(at.recommendation)}, ${deltaText(at.weighed.shown.expectedGain, currency)}, ${percentText(at.weighed.shown.probability)}`
            : ''}
        </span>
      </div>
      <span className={classes.xTitle} aria-hidden="true">
        {missing > 0 ? <span>{missing} not drawn: not enough evidence</span> : <span />}
        <span>
          expected gain<span className={classes.roomy}> over leaving</span>, {currency}
        </span>
      </span>
    </div>
  );
};
