import type { DecisionSummary } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { deltaText, percentText, readerLocale, worthText } from '../../../components/format.ts';
import { GradeBadge } from '../../../components/marks/grade-badge.tsx';
import { RecommendationGlyph } from '../../../components/marks/recommendation-mark.tsx';
import { carName, shownPhrase } from '../car-words.ts';
import type { Dot, PlotSize } from './dots.ts';
import classes from './scatter.module.css';

/** What a dot stands for, beside it. */
export const DotCard = ({
  dot,
  weighed,
  size,
  currency,
}: {
  dot: Dot;
  /** Its car. */
  weighed: DecisionSummary;
  size: PlotSize;
  currency: Currency;
}) => {
  const { car, shown } = weighed;
  if (!shown) return null;
  const right = dot.x > size.width * 0.62;
  const low = dot.y > size.height * 0.55;
  return (
    <div
      className={classes.card}
      style={{
        ...(right ? { right: size.width - dot.x + dot.r + 10 } : { left: dot.x + dot.r + 10 }),
        ...(low ? { bottom: size.height - dot.y - 8 } : { top: dot.y - 8 }),
      }}
    >
      <div className={classes.cardHead}>
        <RecommendationGlyph recommendation={dot.recommendation} />
        <strong>{carName(car)}</strong>
        <span className="soft">{car.inventoryNumber}</span>
        <GradeBadge grade={car.grade} finishState={car.finishState} />
      </div>
      <div>
        {shownPhrase(weighed)}: {deltaText(shown.expectedGain, currency)}, beats leaving in{' '}
        {percentText(shown.probability)}
      </div>
      <div className="soft">cost about {worthText(shown.cost.mid, currency)}</div>
      {dot.cars > 1 ? (
        <div className="soft">
          and {(dot.cars - 1).toLocaleString(readerLocale())} more like it close by, drawn as this mark
        </div>
      ) : null}
    </div>
  );
};
