import { Popover } from '@mantine/core';
import { Meter } from './meter.tsx';
import { PartsLimits } from './parts-limits.tsx';
import classes from './season.module.css';
import type { tightest } from './season.ts';

/** The two parts of which least is left, and behind them the limits of all. */
export const ScarceParts = ({
  tight,
  parts,
  limits,
  onChange,
}: {
  tight: ReturnType<typeof tightest>;
  parts: Record<string, number>;
  limits: ReadonlyMap<string, number | null>;
  onChange: (name: string, limit: number | null) => void;
}) => (
  <Popover position="top-start" withinPortal>
    <Popover.Target>
      <button type="button" className={classes.parts} aria-label="Scarce parts and their limits">
        {tight.length === 0 ? (
          <span className={classes.meter}>
            <span className={classes.label}>Scarce parts ▾</span>
            <span className={classes.figures}>none used</span>
          </span>
        ) : (
          tight.slice(0, 2).map(({ name, used, limit }, place) => (
            <Meter
              key={name}
              label={
                <>
                  <span className={classes.partName} title={name}>
                    {name}
                  </span>
                  {place === 0 ? ' ▾' : null}
                </>
              }
              used={used}
              limit={limit}
              text={used}
            >
              <span className={classes.limit}>{limit ?? 'no limit'}</span>
            </Meter>
          ))
        )}
      </button>
    </Popover.Target>
    <Popover.Dropdown>
      <PartsLimits parts={parts} limits={limits} onChange={onChange} />
    </Popover.Dropdown>
  </Popover>
);
