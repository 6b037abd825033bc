import { useId } from 'react';
import type { Currency, Range } from '../../../valuation/types.ts';
import { type WhichWorth, worthNames } from '../../../valuation/words.ts';
import { worthText } from '../format.ts';
import { describeWorths } from './describe.ts';
import { EmptyLanes, GridLines, Lanes, type StripMeasures, stripHeight } from './lanes.tsx';
import classes from './large-worth-strip.module.css';
import { DotLegend, type SaleDot, SaleDots } from './sale-dots.tsx';
import { type WorthScale, worthScale } from './scale.ts';
import type { StripWorths } from './strip-worths.ts';
import { WorthAxis } from './worth-axis.tsx';

const measures: StripMeasures = { bar: 16, gap: 14, edge: 7, hatch: 5.6 };

const Figures = ({ range, currency }: { range: Range | null; currency: Currency }) =>
  range ? (
    <span className={classes.figures}>
      <span>{worthText(range.low, currency)}</span>
      <strong>{worthText(range.mid, currency)}</strong>
      <span>{worthText(range.high, currency)}</span>
    </span>
  ) : (
    <span className={classes.lacking}>not enough evidence</span>
  );

/**
 * The worth strip across a page: named bars, their amounts, the axis, and the sale records behind them as
 * dots beneath. `onExplain` makes the names open the records behind a worth.
 */
export const LargeWorthStrip = ({
  worths,
  currency,
  scale,
  dots = [],
  onExplain,
  onOpenRecord,
}: {
  worths: StripWorths;
  currency: Currency;
  scale?: WorthScale | null;
  dots?: readonly SaleDot[];
  onExplain?: (which: WhichWorth) => void;
  onOpenRecord?: (id: number) => void;
}) => {
  const hatchId = useId();
  const axis =
    scale ??
    worthScale(
      [worths],
      currency,
      dots.filter(dot => !dot.doubtful).map(dot => dot.amount),
    );
  const names: { which: WhichWorth; name: string; note: string; range: Range | null }[] = [
    { which: 'asFound', name: worthNames.asFound, note: '', range: worths.asFound },
    {
      which: 'restored',
      name: worthNames.restored,
      note: worths.restored ? 'net of cost' : '',
      range: worths.restored,
    },
    {
      which: 'originalFinish',
      name: worthNames.originalFinish,
      note: worths.originalFinish?.attainable === false ? 'no longer attainable' : '',
      range: worths.originalFinish,
    },
  ];
  return (
    <div className={classes.strip}>
      <div className={classes.names}>
        {names.map(({ which, name, note }) => {
          const label = (
            <>
              {name}
              {note ? <span className={classes.note}>{note}</span> : null}
            </>
          );
          return onExplain ? (
            <button
              key={which}
              type="button"
              className={`${classes.name} ${classes.explain}`}
              title="Show the sale records behind it"
              onClick={() => onExplain(which)}
            >
              {label}
            </button>
          ) : (
            <div key={which} className={classes.name}>
              {label}
            </div>
          );
        })}
      </div>
      <div className={classes.plot}>
        {axis ? (
          <svg
            className={classes.bars}
            height={stripHeight(measures)}
            role="img"
            aria-label={describeWorths(worths, currency)}
          >
            <GridLines scale={axis} wanted={10} />
            <Lanes worths={worths} scale={axis} measures={measures} hatchId={hatchId} />
          </svg>
        ) : (
          <svg
            className={classes.bars}
            height={stripHeight(measures)}
            role="img"
            aria-label={describeWorths(worths, currency)}
          >
            <EmptyLanes measures={measures} />
          </svg>
        )}
      </div>
      <div className={classes.amounts}>
        {names.map(({ which, range }) => (
          <Figures key={which} range={range} currency={currency} />
        ))}
      </div>
      {axis ? (
        <div className={classes.beneath}>
          <WorthAxis scale={axis} wanted={10} />
          {dots.length > 0 ? (
            <>
              <SaleDots dots={dots} scale={axis} onOpen={onOpenRecord} />
              <DotLegend dots={dots} />
            </>
          ) : null}
        </div>
      ) : null}
      <div className={classes.currency}>{currency}</div>
    </div>
  );
};
