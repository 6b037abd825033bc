import type { ReactNode } from 'react';
import { type Place, place, type WorthScale, worthTicks } from './scale.ts';
import type { StripWorths } from './strip-worths.ts';
import classes from './worth-strip.module.css';

/**
 * The measures of a strip in pixels: height of a bar, air between bars and at both edges,
 * distance of hatch lines.
 */
export interface StripMeasures {
  bar: number;
  gap: number;
  edge: number;
  hatch: number;
}

export const stripHeight = ({ bar, gap, edge }: StripMeasures): number => 3 * bar + 2 * gap + 2 * edge;

const percent = (share: number): string => `${(share * 100).toFixed(3)}%`;

/** Draws in pixels at a share of the width, whatever that width is. */
const At = ({ at, y, children }: { at: number; y: number; children: ReactNode }) => (
  <svg x={percent(at)} y={y} overflow="visible" aria-hidden="true">
    {children}
  </svg>
);

const Tick = ({ spot, y, height }: { spot: Place; y: number; height: number }) =>
  spot.beyond === null ? (
    <At at={spot.at} y={y}>
      <rect className={classes.tickHalo} x={-2.25} y={-1} width={4.5} height={height + 2} />
      <rect className={classes.tick} x={-1} y={-1} width={2} height={height + 2} />
    </At>
  ) : null;

/** An arrowhead beside the axis where a bar runs off it. */
const OffAxis = ({ side, y, height }: { side: 'left' | 'right'; y: number; height: number }) => {
  const half = Math.min(height, 8) / 2;
  const middle = height / 2;
  const out = side === 'left' ? -1 : 1;
  return (
    <At at={side === 'left' ? 0 : 1} y={y}>
      <path
        className={classes.offAxis}
        d={`M${out * 1.5} ${middle - half} L${out * 6} ${middle} L${out * 1.5} ${middle + half} Z`}
      />
    </At>
  );
};

interface LaneProps {
  scale: WorthScale;
  y: number;
  height: number;
}

const Unknown = ({ y, height }: Omit<LaneProps, 'scale'>) => (
  <line className={classes.unknown} x1="0" x2="100%" y1={y + height / 2} y2={y + height / 2} />
);

const Bar = ({
  scale,
  y,
  height,
  range,
  className,
  fill,
}: LaneProps & {
  range: { low: number; mid: number; high: number };
  className: string | undefined;
  fill?: string;
}) => {
  const low = place(scale, range.low);
  const high = place(scale, range.high);
  const wholly = low.beyond !== null && low.beyond === high.beyond;
  return (
    <>
      {wholly ? null : (
        <rect
          className={className}
          x={percent(low.at)}
          y={y}
          height={height}
          rx={1}
          style={{ width: `max(${percent(high.at - low.at)}, 2px)`, fill }}
        />
      )}
      {low.beyond === 'left' ? <OffAxis side="left" y={y} height={height} /> : null}
      {high.beyond === 'right' ? <OffAxis side="right" y={y} height={height} /> : null}
      <Tick spot={place(scale, range.mid)} y={y} height={height} />
    </>
  );
};

const Whisker = ({ scale, y, height, from, to }: LaneProps & { from: number; to: number }) => {
  const start = place(scale, from);
  const end = place(scale, to);
  if (end.at <= start.at) return null;
  const middle = y + height / 2;
  const cap = Math.min(height, 8) / 2;
  return (
    <>
      <line className={classes.whisker} x1={percent(start.at)} x2={percent(end.at)} y1={middle} y2={middle} />
      <At at={end.at} y={middle}>
        <line className={classes.whisker} x1={0} x2={0} y1={-cap} y2={cap} />
      </At>
    </>
  );
};

/** The faint upright lines at round amounts, which let the eye run down a column. */
export const GridLines = ({ scale, wanted = 8 }: { scale: WorthScale; wanted?: number }) =>
  worthTicks(scale, wanted).map(tick => (
    <line
      key={tick.amount}
      className={tick.strong ? classes.gridStrong : classes.grid}
      x1={percent(tick.at)}
      x2={percent(tick.at)}
      y1="0"
      y2="100%"
    />
  ));

/** Three dotted lanes, where nothing can be told. */
export const EmptyLanes = ({ measures: { bar, gap, edge } }: { measures: StripMeasures }) =>
  [0, 1, 2].map(index => <Unknown key={index} y={edge + index * (bar + gap)} height={bar} />);

/**
 * The three bars, always in this order: as found solid, restored hatched with its whisker,
 * original finish outlined.
 */
export const Lanes = ({
  worths,
  scale,
  measures,
  hatchId,
}: {
  worths: StripWorths;
  scale: WorthScale;
  measures: StripMeasures;
  hatchId: string;
}) => {
  const { bar: height, gap, edge, hatch } = measures;
  const lane = (index: number) => ({ scale, height, y: edge + index * (height + gap) });
  const { asFound, restored, originalFinish } = worths;
  // The outline is drawn inside its lane, so that all three bars are of one height.
  const outlined = lane(2);
  return (
    <>
      <defs>
        <pattern
          id={hatchId}
          width={hatch}
          height={hatch}
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <rect className={classes.hatchGround} width={hatch} height={hatch} />
          <rect className={classes.hatchLine} width={hatch * 0.46} height={hatch} />
        </pattern>
      </defs>
      {asFound ? <Bar {...lane(0)} range={asFound} className={classes.found} /> : <Unknown {...lane(0)} />}
      {restored ? (
        <>
          <Whisker {...lane(1)} from={Math.max(restored.high, scale.min)} to={restored.gross} />
          <Bar {...lane(1)} range={restored} className={classes.restored} fill={`url(#${hatchId})`} />
        </>
      ) : (
        <Unknown {...lane(1)} />
      )}
      {originalFinish ? (
        <Bar
          {...outlined}
          y={outlined.y + 0.625}
          height={height - 1.25}
          range={originalFinish}
          className={originalFinish.attainable ? classes.original : classes.unattainable}
        />
      ) : (
        <Unknown {...outlined} />
      )}
    </>
  );
};
