import { Button } from '@mantine/core';
import type { CarPlanView } from '../../../../../../electron/api/views.ts';
import type { Currency, PartChoice, PlanWishes } from '../../../../../../valuation/types.ts';
import { departureText, workReasonText } from '../../../../../../valuation/wording/work/work-text.ts';
import {
  type DeviationKind,
  deviationKinds,
  deviationLabel,
  deviationOfColour,
  deviationOfOpening,
  deviationOfReproduction,
} from '../../../../../../valuation/words.ts';
import { percentText } from '../../../../../components/format.ts';
import { AmountCell } from '../../../../../components/inputs/three-cells.tsx';
import { points, withPoint } from '../../../../../components/inputs/three-point.ts';
import { useWords } from '../../../../../components/words.ts';
import planClasses from '../plan.module.css';
import classes from './steps.module.css';
import { withDeparture, withFit } from './wishes.ts';

interface Part {
  view: CarPlanView;
  wishes: PlanWishes;
  onChange: (wishes: PlanWishes) => void;
}

/** What an owner can want besides, which no part or step brings. */
const followed = new Set<DeviationKind>([deviationOfOpening, ...Object.values(deviationOfReproduction)]);
const wanted = deviationKinds.filter(kind => !followed.has(kind));

/** The parts that the plan fits: where each comes from, and what it costs. */
export const PlanParts = ({ view, wishes, currency, onChange }: Part & { currency: Currency }) => {
  const words = useWords();
  const { parts } = view.plan;
  return (
    <fieldset className={planClasses.parts}>
      <legend>Parts</legend>
      {parts.length === 0 ? <p className="soft">No part is replaced.</p> : null}
      {parts.map(({ part, from, name, originality, cost, why }) => {
        const fits = view.shelf.filter(one => one.part === part);
        const value =
          from === 'shelf' ? `shelf:${name}` : from === 'buy' ? `buy:${originality}` : 'leave off';
        const choose = (chosen: string) => {
          const [source, ...rest] = chosen.split(':');
          const what = rest.join(':');
          if (source === 'shelf') onChange(withFit(wishes, part, { from: 'shelf', name: what }));
          else if (source === 'buy')
            onChange(
              withFit(wishes, part, {
                from: 'buy',
                originality: what as Extract<PartChoice, { from: 'buy' }>['originality'],
                cost,
              }),
            );
          else onChange(withFit(wishes, part, 'leave off'));
        };
        return (
          <div key={part} className={classes.part}>
            <span>
              {words.spell(part)}
              <span className={classes.because}>{workReasonText(why, words.locale)}</span>
            </span>
            <select
              className={planClasses.cell}
              aria-label={`Where the ${part} come from`}
              value={value}
              onChange={event => choose(event.currentTarget.value)}
            >
              {fits.map(one => (
                <option key={one.name} value={`shelf:${one.name}`}>
                  {one.name}, from the shelf ({one.originality})
                </option>
              ))}
              <option value="buy:reproduction">reproduction, to buy</option>
              <option value="buy:period replacement">period replacement, to buy</option>
              <option value="buy:original">original, to buy</option>
              <option value="leave off">leave off</option>
            </select>
            {from === 'buy' ? (
              <span className={planClasses.three}>
                {points.map(point => (
                  <AmountCell
                    key={point}
                    label={`${point} price of ${part}`}
                    currency={currency}
                    value={cost[point]}
                    onChange={minor =>
                      onChange(
                        withFit(wishes, part, {
                          from: 'buy',
                          originality: originality === 'missing' ? 'reproduction' : originality,
                          cost: withPoint(cost, point, minor),
                        }),
                      )
                    }
                  />
                ))}
              </span>
            ) : null}
          </div>
        );
      })}
    </fieldset>
  );
};

/** Where the car will depart from its factory specification, and what brings each departure. */
export const PlanDepartures = ({ view, wishes, onChange }: Part) => {
  const words = useWords();
  const { plan, fidelity } = view;
  return (
    <fieldset className={planClasses.deviations}>
      <legend>Departures from the factory specification</legend>
      {plan.departures.length === 0 ? (
        <p className="soft">None: to specification.</p>
      ) : (
        <ul className={classes.departures}>
          {plan.departures.map(one => (
            <li key={one.kind}>{departureText(one, plan, words.locale)}</li>
          ))}
        </ul>
      )}
      {wishes.colour ? (
        <p>
          {words.spell('Colour')}: <strong>{wishes.colour}</strong>{' '}
          <Button
            variant="subtle"
            size="compact-xs"
            onClick={() => {
              const { colour: _, ...rest } = wishes;
              onChange(withDeparture(rest, deviationOfColour, false));
            }}
          >
            {words.spell('Its own colour')}
          </Button>
        </p>
      ) : null}
      {fidelity ? (
        <p className="soft">
          {fidelity.grade}: {percentText(fidelity.factor)} of the value of one restored to specification
        </p>
      ) : null}
      <details>
        <summary>You want another departure</summary>
        {wanted.map(kind => (
          <label key={kind}>
            <input
              type="checkbox"
              checked={wishes.departures?.includes(kind) ?? false}
              onChange={event => onChange(withDeparture(wishes, kind, event.currentTarget.checked))}
            />
            {words.spell(deviationLabel(kind))}
          </label>
        ))}
      </details>
    </fieldset>
  );
};
