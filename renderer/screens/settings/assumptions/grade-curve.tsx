import type { AssumptionSet } from '../../../../valuation/types.ts';
import { type FinishState, finishStates } from '../../../../valuation/words.ts';
import { readerWords } from '../../../components/words.ts';
import classes from './assumptions.module.css';

const width = 420;
const height = 250;
const margin = { left: 34, right: 76, top: 10, bottom: 24 };

const x = (grade: number) => margin.left + ((grade - 1) / 9) * (width - margin.left - margin.right);

/** Places a price on a log axis from the lowest one to the price of an original C10. */
const scaleFrom = (lowest: number, highest: number) => (price: number) =>
  margin.top +
  (1 - Math.log(price / lowest) / Math.log(highest / lowest)) * (height - margin.top - margin.bottom);

/** Where the names stand at the ends of the curves, kept apart from one another. */
const labelPlaces = (ends: readonly { state: FinishState; at: number }[]): Map<FinishState, number> => {
  const places = new Map<FinishState, number>();
  let last = Number.NEGATIVE_INFINITY;
  for (const { state, at } of ends.toSorted((a, b) => a.at - b.at)) {
    last = Math.max(at, last + 13);
    places.set(state, last);
  }
  return places;
};

/** What each grade brings in each finish state, as a share of a car as made in its original finish. */
export const GradeCurve = ({ assumptions }: { assumptions: AssumptionSet }) => {
  const { gradeMultipliers, finishFactors } = assumptions;
  const price = (state: FinishState, index: number) =>
    (gradeMultipliers[state][index] ?? 0) * finishFactors[state];
  const prices = finishStates.flatMap(state => gradeMultipliers[state].map((_, i) => price(state, i)));
  const lowest = 0.9 * Math.min(0.05, ...prices);
  const highest = Math.max(1, ...prices);
  const y = scaleFrom(lowest, highest);
  const labels = labelPlaces(finishStates.map(state => ({ state, at: y(price(state, 9)) })));
  return (
    <svg
      className={classes.curve}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label="Price by grade in each finish state, against a C10 in original finish; the figures are in the table."
    >
      {[0.001, 0.003, 0.01, 0.03, 0.05, 0.1, 0.2, 0.5, 1]
        .filter(mark => mark >= lowest)
        .map(mark => (
          <g key={mark}>
            <line
              x1={margin.left}
              x2={width - margin.right}
              y1={y(mark)}
              y2={y(mark)}
              className={classes.rule}
            />
            <text x={margin.left - 6} y={y(mark) + 4} textAnchor="end">
              {mark * 100} %
            </text>
          </g>
        ))}
      {[1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map(grade => (
        <text key={grade} x={x(grade)} y={height - 6} textAnchor="middle">
          C{grade}
        </text>
      ))}
      {finishStates.map(state => (
        <g key={state} data-state={state} className={classes.line}>
          <polyline
            points={gradeMultipliers[state].map((_, i) => `${x(i + 1)},${y(price(state, i))}`).join(' ')}
          />
          <text x={x(10) + 8} y={(labels.get(state) ?? 0) + 4}>
            {readerWords().spell(state)}
          </text>
        </g>
      ))}
    </svg>
  );
};
