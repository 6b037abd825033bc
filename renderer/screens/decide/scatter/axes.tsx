import type { Minor } from '../../../../valuation/types.ts';
import { axisText, deltaText, percentText } from '../../../components/format.ts';
import type { PlotSize, ProbabilityScale } from './dots.ts';
import { type GainScale, gainTicks } from './gain-scale.ts';
import classes from './scatter.module.css';

const signed = (gain: Minor, scale: GainScale) =>
  gain === 0 ? '0' : `${gain < 0 ? '−' : '+'}${axisText(Math.abs(gain), scale.currency)}`;

/**
 * The lines and figures behind the dots, and the owner's floors: beyond both, an option may be recommended.
 */
export const Axes = ({
  scale,
  probabilities,
  size: { width, height },
  leastGain,
  leastProbability,
}: {
  scale: GainScale;
  probabilities: ProbabilityScale;
  size: PlotSize;
  leastGain: Minor;
  leastProbability: number;
}) => {
  const floorX = scale.at(leastGain) * width;
  const floorY = probabilities.at(leastProbability, height);
  return (
    <svg className={classes.axes} width={width} height={height} aria-hidden="true">
      <rect
        className={classes.passing}
        x={floorX}
        y={0}
        width={Math.max(0, width - floorX)}
        height={floorY}
      />
      {probabilities.ticks.map(probability => {
        const y = Math.round(probabilities.at(probability, height)) + 0.5;
        return (
          <g key={probability}>
            <line className={classes.grid} x1={0} x2={width} y1={y} y2={y} />
            <text className={classes.label} x={-8} y={y} dy="0.32em" textAnchor="end">
              {percentText(probability)}
            </text>
          </g>
        );
      })}
      {gainTicks(scale, 46 / Math.max(1, width)).map(gain => {
        const x = Math.round(scale.at(gain) * width) + 0.5;
        return (
          <g key={gain}>
            <line className={gain === 0 ? classes.zero : classes.grid} x1={x} x2={x} y1={0} y2={height} />
            <text className={classes.label} x={x} y={height + 16} textAnchor="middle">
              {signed(gain, scale)}
            </text>
          </g>
        );
      })}
      <line className={classes.floor} x1={floorX} x2={floorX} y1={0} y2={height} />
      <line className={classes.floor} x1={0} x2={width} y1={floorY} y2={floorY} />
      <text className={classes.floorLabel} x={floorX + 5} y={height - 6}>
        least gain {deltaText(leastGain, scale.currency)}
      </text>
      <text className={classes.floorLabel} x={width - 5} y={floorY + 13} textAnchor="end">
        least probability {percentText(leastProbability)}
      </text>
    </svg>
  );
};
