import { useQuery } from '@tanstack/react-query';
import type { Currency } from '../../../valuation/types.ts';
import { workReasonText } from '../../../valuation/wording/work/work-text.ts';
import type { WorkKind } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { readerLocale, worthText } from '../format.ts';
import { useWords } from '../words.ts';
import classes from './work-list.module.css';

const hoursText = (hours: number): string => (Math.round(hours * 10) / 10).toLocaleString(readerLocale());

/** The steps that an option takes a car through, each with why it is there; its hours and cost in short. */
export const WorkList = ({
  carId,
  kind,
  currency,
}: {
  carId: number;
  kind: WorkKind;
  currency: Currency;
}) => {
  const words = useWords();
  const { data } = useQuery({
    queryKey: ['car-plan', carId, kind, null],
    queryFn: () => api.plans.view({ carId, kind }),
  });
  if (data?.kind !== kind) return null;
  const { plan, saved } = data;
  const { hours, cost } = plan;
  return (
    <details className={classes.list}>
      <summary>
        {plan.lines.length} steps to {words.option(kind).infinitive} it
        {saved === 'nothing' ? '' : ', by your plan'}:{' '}
        <span className="soft">
          {hoursText(hours.likely)} h ({hoursText(hours.low)} – {hoursText(hours.high)}), materials and parts{' '}
          {worthText(Math.round(cost.likely), currency)} {currency}
        </span>
      </summary>
      <ol>
        {plan.lines.map(line => (
          <li key={line.id}>
            {words.spell(line.name)} <span className="soft">{workReasonText(line.why, words.locale)}</span>
          </li>
        ))}
      </ol>
    </details>
  );
};
