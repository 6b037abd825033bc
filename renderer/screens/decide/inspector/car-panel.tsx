import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import type { CarPage, DecisionSummary } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { colourNow } from '../../../../valuation/wording/cars/disclosure-text.ts';
import { helpText, ownRestText } from '../../../../valuation/wording/values/evidence-text.ts';
import { turningText } from '../../../../valuation/wording/values/reason-text.ts';
import type { BasePaint } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { CautionList } from '../../../components/cautions/caution-list.tsx';
import { BreakEven, Guards } from '../../../components/decision/reasons.tsx';
import { deltaText, percentText } from '../../../components/format.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { GradeBadge } from '../../../components/marks/grade-badge.tsx';
import { RecommendationGlyph } from '../../../components/marks/recommendation-mark.tsx';
import { Photo } from '../../../components/photo/photo.tsx';
import { readerWords } from '../../../components/words.ts';
import { carName } from '../car-words.ts';
import classes from './inspector.module.css';
import { useSettled } from './use-settled.ts';

/** The options in short: what each is expected to gain, and how likely it beats leaving. */
const ShortOptions = ({ car, currency }: { car: CarPage; currency: Currency }) => (
  <table className={classes.short}>
    <caption className="heard">The options in short</caption>
    <thead className="heard">
      <tr>
        <th scope="col">Option</th>
        <th scope="col">Gain expected</th>
        <th scope="col">Beats leaving</th>
      </tr>
    </thead>
    <tbody>
      {car.decision.options
        .filter(({ option }) => option !== 'leave')
        .map(({ option, expectedGain, probability, guards }) => (
          <tr key={option} data-recommended={option === car.decision.recommendation || undefined}>
            <th scope="row">
              <RecommendationGlyph recommendation={option} /> {readerWords().option(option).name}
              {guards.some(guard => !guard.overruled) ? (
                <span className={classes.guarded}>guarded</span>
              ) : null}
            </th>
            <td className="amount">{deltaText(expectedGain, currency)}</td>
            <td className={classes.chance}>
              <span className={classes.bar} aria-hidden="true">
                <span style={{ width: `${probability * 100}%` }} />
              </span>
              {percentText(probability)}
            </td>
          </tr>
        ))}
    </tbody>
  </table>
);

/** The car under the cursor: what it is, what its options come to, and the way to all of it. */
export const CarPanel = ({ weighed, currency }: { weighed: DecisionSummary | null; currency: Currency }) => {
  const settled = useSettled(weighed?.car.id ?? null, 120);
  const { data, isPending } = useQuery({
    queryKey: ['car', settled],
    queryFn: () => api.cars.get({ id: settled ?? 0 }),
    enabled: settled !== null,
  });
  if (!weighed) return <p className="soft">Go to a car in the list or the chart to see its options.</p>;
  const { car } = weighed;
  const page = data?.id === car.id ? data : null;
  return (
    <div className={classes.panel} aria-busy={settled !== car.id || isPending}>
      <div className={classes.head}>
        <Photo sha256={car.photo} alt="" width={88} height={56} />
        <div className={classes.identity}>
          <div className={classes.name}>
            <Link href={`~/cars/${car.id}`}>{carName(car)}</Link>
            <span className="soft">{car.inventoryNumber}</span>
          </div>
          <div className={classes.facts}>
            <GradeBadge grade={car.grade} finishState={car.finishState} />
            {car.features.colour || car.wornColour ? (
              <LacquerChip
                name={colourNow(car.features.colour, car.wornColour)}
                swatch={car.swatch}
                basePaint={car.features.basePaint as BasePaint | ''}
              />
            ) : null}
          </div>
        </div>
      </div>
      {weighed.onBench ? (
        <p className="soft grid-text">
          It is <Link href="~/bench">on the bench</Link> already. The best set leaves it out, unless it is in
          the season or you require it.
        </p>
      ) : null}
      {page && page.decision.options.length > 0 ? (
        <>
          <ShortOptions car={page} currency={currency} />
          {car.worths.restsOn ? (
            <p className="soft grid-text">Its value {ownRestText[car.worths.restsOn].full}.</p>
          ) : null}
          <BreakEven decision={page.decision} currency={currency} />
          <Guards decision={page.decision} />
          <CautionList hazards={page.hazards} />
        </>
      ) : (
        <p className="soft">
          {page && page.help.length > 0
            ? page.help.map(helpText).join(' ')
            : turningText(weighed.turnsOn, readerWords().reader(currency))}
        </p>
      )}
    </div>
  );
};
