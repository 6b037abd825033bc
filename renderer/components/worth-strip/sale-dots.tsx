import { Tooltip } from '@mantine/core';
import { useElementSize } from '@mantine/hooks';
import { type KeyboardEvent, type ReactNode, useRef, useState } from 'react';
import type { Minor } from '../../../valuation/types.ts';
import classes from './sale-dots.module.css';
import { place, type WorthScale } from './scale.ts';
import { stackDots } from './stack-dots.ts';

/** One sale record beneath a large strip. */
export interface SaleDot {
  id: number;
  /** Its price brought to the subject, in minor units of the strip's currency. */
  amount: Minor;
  /** Whose sale it was: this variation's (filled), its casting's (ring), or further off (small). */
  level: 'variation' | 'casting' | 'series' | 'everything';
  doubtful?: boolean;
  /** What the dot is called, in one line: "62 on 14 Mar 2024, C7 original, this variation". */
  label: string;
  /** More for the tooltip. */
  detail?: ReactNode;
}

const size = 11;

/** Sale records on the strip's axis; one stop of the Tab key, arrow keys walk from cheapest to dearest. */
export const SaleDots = ({
  dots,
  scale,
  onOpen,
}: {
  dots: readonly SaleDot[];
  scale: WorthScale;
  onOpen?: (id: number) => void;
}) => {
  const { ref, width } = useElementSize<HTMLFieldSetElement>();
  const buttons = useRef(new Map<number, HTMLButtonElement>());
  const [current, setCurrent] = useState(0);
  const placed = stackDots(
    dots.map(dot => ({ ...dot, ...place(scale, dot.amount) })),
    width,
    size,
  );
  const storeys = placed.reduce((most, { storey }) => Math.max(most, storey + 1), 1);
  const walk = (event: KeyboardEvent) => {
    const steps: Record<string, number> = {
      ArrowRight: 1,
      ArrowLeft: -1,
      Home: -placed.length,
      End: placed.length,
    };
    const step = steps[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const next = Math.min(placed.length - 1, Math.max(0, current + step));
    setCurrent(next);
    buttons.current.get(next)?.focus();
  };
  return (
    <fieldset
      ref={ref}
      className={classes.dots}
      style={{ height: storeys * size + 4 }}
      aria-label={`${dots.length} sale ${dots.length === 1 ? 'record' : 'records'}, adjusted to this car`}
    >
      {placed.map(({ dot, left, storey }, index) => (
        <Tooltip
          key={dot.id}
          events={{ hover: true, focus: true, touch: true }}
          label={
            <>
              <div>{dot.label}</div>
              {dot.detail}
            </>
          }
        >
          <button
            type="button"
            ref={element => {
              if (element) buttons.current.set(index, element);
              else buttons.current.delete(index);
            }}
            className={classes.dot}
            style={{ left: left - size / 2, top: storey * size + 2, width: size, height: size }}
            data-level={dot.level}
            data-doubtful={dot.doubtful || undefined}
            aria-label={`${dot.label}${dot.doubtful ? ', doubtful' : ''}`}
            tabIndex={index === Math.min(current, placed.length - 1) ? 0 : -1}
            onFocus={() => setCurrent(index)}
            onKeyDown={walk}
            onClick={() => onOpen?.(dot.id)}
          />
        </Tooltip>
      ))}
    </fieldset>
  );
};

const kinds: {
  says: string;
  level: SaleDot['level'];
  doubtful?: boolean;
  holds: (dot: SaleDot) => boolean;
}[] = [
  { says: 'sales of this variation', level: 'variation', holds: dot => dot.level === 'variation' },
  { says: 'of its casting', level: 'casting', holds: dot => dot.level === 'casting' },
  {
    says: 'less closely related',
    level: 'series',
    holds: dot => dot.level === 'series' || dot.level === 'everything',
  },
  { says: 'doubtful', level: 'variation', doubtful: true, holds: dot => dot.doubtful === true },
];

/** What the dots mean, of those that are there. */
export const DotLegend = ({ dots }: { dots: readonly SaleDot[] }) => (
  <ul className={classes.legend}>
    {kinds
      .filter(kind => dots.some(kind.holds))
      .map(({ says, level, doubtful }) => (
        <li key={says}>
          <span className={classes.sample} data-level={level} data-doubtful={doubtful} aria-hidden="true" />
          {says}
        </li>
      ))}
  </ul>
);
