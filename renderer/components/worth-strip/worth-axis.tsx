import { axisText } from '../format.ts';
import { type WorthScale, worthTicks } from './scale.ts';
import classes from './worth-strip.module.css';

/** The amounts along a shared scale: for the heading of a column of strips, or beneath a card's. */
export const WorthAxis = ({ scale, wanted = 4 }: { scale: WorthScale; wanted?: number }) => {
  // A label near the end leans inwards; on a narrow axis the end is near sooner.
  const edge = 0.25 / wanted;
  return (
    <div className={classes.axis} aria-hidden="true">
      {worthTicks(scale, wanted).map(tick => (
        <span
          key={tick.amount}
          className={classes.axisLabel}
          style={{ left: `${tick.at * 100}%` }}
          data-edge={tick.at < edge ? 'left' : tick.at > 1 - edge ? 'right' : undefined}
        >
          {axisText(tick.amount, scale.currency)}
        </span>
      ))}
    </div>
  );
};

/** What the three fills mean, in their order, for the first time that strips are met on a screen. */
export const WorthLegend = () => (
  <ul className={classes.legend}>
    <li>
      <span className={`${classes.swatch} ${classes.swatchFound}`} aria-hidden="true" /> as found
    </li>
    <li>
      <span className={`${classes.swatch} ${classes.swatchRestored}`} aria-hidden="true" /> restored, net of
      cost
    </li>
    <li>
      <span className={`${classes.swatch} ${classes.swatchOriginal}`} aria-hidden="true" /> original finish
    </li>
  </ul>
);
