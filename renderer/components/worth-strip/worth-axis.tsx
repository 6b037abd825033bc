import { worthText } from '../format.ts';
import { type WorthScale, worthTicks } from './scale.ts';
import classes from './worth-strip.module.css';

/** The amounts along a shared scale: for the heading of a column of strips, or beneath a card's. */
export const WorthAxis = ({ scale, wanted = 4 }: { scale: WorthScale; wanted?: number }) => (
  <div className={classes.axis} aria-hidden="true">
    {worthTicks(scale, wanted).map(tick => (
      <span
        key={tick.amount}
        className={classes.axisLabel}
        style={{ left: `${tick.at * 100}%` }}
        data-edge={tick.at < 0.06 ? 'left' : tick.at > 0.94 ? 'right' : undefined}
      >
        {worthText(tick.amount, scale.currency)}
      </span>
    ))}
  </div>
);

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
