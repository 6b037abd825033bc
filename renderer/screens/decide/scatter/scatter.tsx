import { useComputedColorScheme } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { type KeyboardEvent, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { DecideFacts, DecidePoints, DecisionSummary } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { deltaText, percentText, readerLocale } from '../../../components/format.ts';
import { readerWords } from '../../../components/words.ts';
import { carName } from '../car-words.ts';
import { useSettled } from '../inspector/use-settled.ts';
import { Axes } from './axes.tsx';
import { DotCard } from './dot-card.tsx';
import { crowd, type Direction, type Dot, dotAt, dotsOf, nextDot, probabilityScale } from './dots.ts';
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

/** The car of a dot: that under the cursor is here, another is asked for. */
const useCarOf = (id: number | null, at: DecisionSummary | null): DecisionSummary | null => {
  const isHere = at?.car.id === id;
  const { data } = useQuery({
    queryKey: ['decide', 'weighed', [id]],
    queryFn: () => api.decisions.weighed({ ids: id === null ? [] : [id] }),
    enabled: id !== null && !isHere,
    gcTime: 30_000,
  });
  return isHere ? at : (data?.[0] ?? null);
};

/** What the chart does not draw of each car. */
const notDrawn = ({ ids, weighed, lacking }: DecidePoints): string => {
  const figure = (count: number) => count.toLocaleString(readerLocale());
  return [
    ...(ids.length < weighed
      ? [`${figure(ids.length)} marks for ${figure(weighed)} cars: a darker one stands for more of them`]
      : []),
    ...(lacking > 0 ? [`${figure(lacking)} not drawn: not enough evidence`] : []),
  ].join('; ');
};

/**
 * The cars by what they are expected to gain and how likely that is; the size of a mark is what it costs, its
 * shape what is recommended. Of many cars a mark stands for those close about it. The list beside it says the same in words and figures, and both have one cursor.
 */
export const Scatter = ({
  points,
  isOld,
  isListOld,
  floors: { leastGain, leastProbability, currency },
  ringed,
  cursor,
  cursorCar,
  onCursor,
  onOpen,
  onToggle,
}: {
  points: DecidePoints;
  /** They are still those of before. */
  isOld: boolean;
  /** So is the list, with the cursor that stands in it. */
  isListOld: boolean;
  floors: Pick<DecideFacts, 'leastGain' | 'leastProbability' | 'currency'>;
  /** Ids of the cars of the season. */
  ringed: ReadonlySet<number>;
  cursor: number | null;
  /** The car under the cursor, when it is here. */
  cursorCar: DecisionSummary | null;
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
  const scale = useMemo(() => gainScale(points.gains, currency, leastGain), [points, currency, leastGain]);
  const probabilities = useMemo(
    () => probabilityScale(points.probabilities, leastProbability),
    [points, leastProbability],
  );
  const isCrowded = points.weighed > crowd;
  // Where each car is drawn, the cursor draws none more.
  const also = points.ids.length < points.weighed && cursorCar?.car.id === cursor ? cursorCar : null;
  const dots = useMemo(
    () => dotsOf(points, also, scale, probabilities, size),
    [points, also, scale, probabilities, size],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: the scheme changes the colours that are read from the page
  useEffect(() => {
    if (canvas.current && size.width > 0)
      drawDots(canvas.current, dots, size, readColours(canvas.current), isCrowded);
  }, [dots, size, scheme, isCrowded]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: as above
  useEffect(() => {
    if (rings.current && size.width > 0)
      drawRings(rings.current, dots, size, { ringed, ring: readColours(rings.current).ring });
  }, [dots, size, ringed, scheme]);
  const at = dots.find(dot => dot.id === cursor) ?? null;
  const told = hovered && dots.includes(hovered) ? hovered : focused ? at : null;
  const toldCar = useCarOf(useSettled(told?.id ?? null, 60), cursorCar);
  const heard = focused && at && cursorCar?.car.id === at.id ? cursorCar : null;

  // Where marks or cursor are still those of before, or have no places yet, steps wait for what comes.
  const isHere = !isOld && !isListOld && size.width > 0 && (!cursorCar || cursorCar.car.id === cursor);
  const waiting = useRef<Direction[]>([]);
  const step = (...way: Direction[]) => {
    let next = at;
    for (const direction of way) next = (next ? nextDot(dots, next, direction) : dots[0]) ?? next;
    if (next && next !== at) onCursor(next.id);
  };
  useLayoutEffect(() => {
    if (isHere && waiting.current.length > 0) step(...waiting.current.splice(0));
  });
  const press = (event: KeyboardEvent) => {
    setHovered(null);
    const direction = directions[event.key];
    if (direction) {
      event.preventDefault();
      if (isHere) step(direction);
      else waiting.current.push(direction);
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
  return (
    <div className={classes.chart} aria-busy={isOld || undefined}>
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
          aria-label={`${points.weighed.toLocaleString(readerLocale())} cars by expected gain and probability; the list beneath says the same`}
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
        {told && toldCar?.car.id === told.id ? (
          <DotCard dot={told} weighed={toldCar} size={size} currency={currency} />
        ) : null}
        <span className="heard" aria-live="polite">
          {heard?.shown && heard.car.recommendation
            ? `${carName(heard.car)} ${heard.car.inventoryNumber}, ${readerWords().recommendation(heard.car.recommendation)}, ${deltaText(heard.shown.expectedGain, currency)}, ${percentText(heard.shown.probability)}`
            : ''}
        </span>
      </div>
      <span className={classes.xTitle} aria-hidden="true">
        <span>{notDrawn(points)}</span>
        <span>
          expected gain<span className={classes.roomy}> over leaving</span>, {currency}
        </span>
      </span>
    </div>
  );
};
