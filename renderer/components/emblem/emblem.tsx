import { useId } from 'react';
import classes from './emblem.module.css';
import { LacquerCar } from './lacquer-car.tsx';

/** The three worths as bars on one axis, without amounts: what the whole app is about, in one glyph. */
const Bars = () => {
  const id = useId();
  return (
    <svg className={classes.bars} viewBox="0 0 640 74" aria-hidden="true">
      <defs>
        <pattern id={id} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="3.4" height="7" fill="var(--worth-restored)" />
        </pattern>
      </defs>
      {[80, 200, 320, 440, 560].map(x => (
        <path key={x} d={`M${x} 0 V74`} stroke="var(--hairline)" />
      ))}
      <rect x="96" y="6" width="180" height="14" rx="2" fill="var(--worth-found)" />
      <path d="M178 3 V23" stroke="var(--page)" strokeWidth="3" />
      <rect x="216" y="29" width="214" height="14" rx="2" fill={`url(#${id})`} />
      <rect
        x="216.75"
        y="29.75"
        width="212.5"
        height="12.5"
        rx="2"
        fill="none"
        stroke="var(--worth-restored)"
        strokeWidth="1.5"
      />
      <path d="M430 36 H482 M482 31 V41 M330 26 V46" stroke="var(--worth-restored)" strokeWidth="2.5" />
      <rect
        x="301"
        y="53"
        width="222"
        height="12"
        rx="2"
        fill="none"
        stroke="var(--worth-original)"
        strokeWidth="2"
      />
      <path d="M410 49 V69" stroke="var(--worth-original)" strokeWidth="3" />
      <g className={classes.words}>
        <text x="286" y="18">
          as found
        </text>
        <text x="492" y="41">
          restored
        </text>
        <text x="533" y="64">
          original finish
        </text>
      </g>
    </svg>
  );
};

/** A played-with car standing on its worth. */
export const Emblem = () => (
  <div className={classes.emblem}>
    <LacquerCar />
    <Bars />
  </div>
);
