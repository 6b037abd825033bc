import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CarPlanView, PlanSource } from '../../../../../../electron/api/views.ts';
import type { Currency } from '../../../../../../valuation/types.ts';
import { gradesText } from '../../../../../../valuation/wording/work/work-text.ts';
import { type FinishState, type WorkKind, workKinds } from '../../../../../../valuation/words.ts';
import { api } from '../../../../../api/client.ts';
import { AmountDelta, RangeText } from '../../../../../components/amounts/amount.tsx';
import { percentText } from '../../../../../components/format.ts';
import { useWords } from '../../../../../components/words.ts';
import planClasses from '../plan.module.css';
import classes from './steps.module.css';
import { CostText, hoursText } from './three-text.tsx';

type Asked = Parameters<typeof api.plans.view>[0];

/** This plan beside another one: as proposed, of another kind, a template, or as another car was done. */
export const Compare = ({
  carId,
  view,
  before,
  sources,
  currency,
}: {
  carId: number;
  /** The finish that the car has now. */
  before: FinishState;
  view: CarPlanView;
  sources: readonly PlanSource[];
  currency: Currency;
}) => {
  const words = useWords();
  const [chosen, setChosen] = useState('');
  const choices: { key: string; name: string; asked: Asked }[] = [
    ...workKinds.map((kind: WorkKind) => ({
      key: `kind:${kind}`,
      name: `${words.option(kind).name}, as proposed`,
      asked: { carId, kind, wishes: {} },
    })),
    ...sources.map(({ id, carId: from, name, kind, wishes }) => ({
      key: `source:${id ?? ''}:${from ?? ''}`,
      name,
      asked: { carId, kind, wishes: wishes as Asked['wishes'] },
    })),
  ];
  const choice = choices.find(({ key }) => key === chosen);
  const other = useQuery({
    queryKey: ['car-plan', carId, 'beside', choice?.asked],
    queryFn: () => api.plans.view(choice!.asked),
    enabled: choice !== undefined,
  });
  const rows: [string, (one: CarPlanView) => React.ReactNode][] = [
    ['Your hours', ({ plan }) => hoursText(plan.hours)],
    ['Materials and parts', ({ plan }) => <CostText cost={plan.cost} currency={currency} />],
    ['Can end in', ({ plan }) => (plan.kind === 'donor' ? '–' : gradesText(plan, before, words.locale))],
    ['Departures', ({ plan }) => plan.departures.length],
    ['Chance of spoiling it', ({ plan }) => percentText(plan.spoilChance)],
    ['Value after', ({ outcome }) => <RangeText range={outcome?.worth ?? null} currency={currency} />],
    [
      'Gain expected',
      ({ outcome }) => <AmountDelta minor={outcome?.expectedGain ?? null} currency={currency} />,
    ],
    [
      'For each of your hours',
      ({ outcome }) => <AmountDelta minor={outcome?.gainPerHour ?? null} currency={currency} />,
    ],
  ];
  const names = (one: CarPlanView) => one.plan.lines.map(({ name }) => name);
  const only = (a: CarPlanView, b: CarPlanView) => names(a).filter(name => !names(b).includes(name));
  return (
    <details className={classes.compare}>
      <summary>Compare with another plan</summary>
      <select
        className={planClasses.cell}
        aria-label="Plan to compare with"
        value={chosen}
        onChange={event => setChosen(event.currentTarget.value)}
      >
        <option value="">choose a plan…</option>
        {choices.map(({ key, name }) => (
          <option key={key} value={key}>
            {name}
          </option>
        ))}
      </select>
      {choice && other.data ? (
        <div className={classes.scroll}>
          <table className={planClasses.lines}>
            <thead>
              <tr>
                <td />
                <th scope="col">This plan</th>
                <th scope="col">{choice.name}</th>
              </tr>
            </thead>
            <tbody>
              {rows.map(([name, cell]) => (
                <tr key={name}>
                  <th scope="row" className="soft">
                    {name}
                  </th>
                  <td>{cell(view)}</td>
                  <td>{cell(other.data)}</td>
                </tr>
              ))}
              <tr>
                <th scope="row" className="soft">
                  Steps only here
                </th>
                {[only(view, other.data), only(other.data, view)].map((list, i) => (
                  <td key={i === 0 ? 'this' : 'other'} className={classes.name}>
                    {list.map(words.spell).join('; ') || '–'}
                  </td>
                ))}
              </tr>
            </tbody>
          </table>
        </div>
      ) : null}
    </details>
  );
};
