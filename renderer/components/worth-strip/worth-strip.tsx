import { useId } from 'react';
import type { Currency } from '../../../valuation/types.ts';
import { ownRestText } from '../../../valuation/wording/values/evidence-text.ts';
import { describeWorths } from './describe.ts';
import { GridLines, Lanes, type StripMeasures, stripHeight } from './lanes.tsx';
import { place, type WorthScale, worthScale } from './scale.ts';
import { isUnknown, type StripWorths } from './strip-worths.ts';
import classes from './worth-strip.module.css';

const measures = {
  cell: { bar: 4, gap: 2, edge: 1, hatch: 3.2 },
  card: { bar: 8, gap: 4, edge: 2, hatch: 4 },
} satisfies Record<string, StripMeasures>;

/**
 * The three worths of a car on a log axis: as found (solid), restored net of cost (hatched, with the gross
 * end as a whisker), original finish (outlined; dashed when it can no longer be had). Give all strips of a
 * column one `scale`.
 */
export const WorthStrip = ({
  worths,
  currency,
  scale,
  size = 'cell',
}: {
  worths: StripWorths;
  currency: Currency;
  /** From `worthScale`; without it the strip takes its own, and cannot be compared with others. */
  scale?: WorthScale | null;
  size?: 'cell' | 'card';
}) => {
  const hatchId = useId();
  const axis = scale ?? worthScale([worths], currency);
  if (isUnknown(worths) || !axis)
    return <span className={`${classes.nothing} ${classes[size]}`}>not enough evidence</span>;
  const strip = (
    <svg
      className={`${classes.strip} ${classes[size]}`}
      height={stripHeight(measures[size])}
      role="img"
      aria-label={describeWorths(worths, currency)}
    >
      <GridLines scale={axis} wanted={size === 'cell' ? 6 : 8} />
      <Lanes worths={worths} scale={axis} measures={measures[size]} hatchId={hatchId} />
    </svg>
  );
  if (!worths.restsOn) return strip;
  const { asFound } = worths;
  const isRight = asFound !== null && place(axis, asFound.mid).at > 0.5;
  return (
    <span className={classes.labelled} title={`It ${ownRestText[worths.restsOn].full}`}>
      {strip}
      <span className={classes.rests} data-side={isRight ? 'left' : 'right'} aria-hidden="true">
        {ownRestText[worths.restsOn].word}
      </span>
    </span>
  );
};
