import { minorToDecimal } from '../../../valuation/money.ts';
import type { ThreePoint, WorkPlan } from '../../../valuation/types.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { cautions, generalCautions } from '../../../valuation/wording/work/cautions.ts';
import {
  departureText,
  gradesText,
  heldDownText,
  plannedPartText,
  workReasonText,
} from '../../../valuation/wording/work/work-text.ts';
import { type FinishState, finishAfter, type WorkKind } from '../../../valuation/words.ts';
import { withCollection } from '../collection.ts';
import { carNumbered } from '../named.ts';
import { print, table } from '../terminal.ts';

const points = ({ low, likely, high }: ThreePoint, text: (value: number) => string) =>
  ({ low: text(low), likely: text(likely), high: text(high) }) as const;

const minutes = ({ low, likely, high }: ThreePoint): string =>
  high === 0 ? '' : `${Math.round(low)}–${Math.round(likely)}–${Math.round(high)}`;

/** `before`: the finish state that the car has now. */
const shown = (plan: WorkPlan, before: FinishState, currency: string) => ({
  kind: plan.kind,
  finishAfter: finishAfter(plan.kind, before),
  steps: plan.lines.map(line => ({
    step: line.id,
    name: line.name,
    why: workReasonText(line.why, plainLocale),
    minutes: line.hands,
    waitingMinutes: line.waiting,
    hazards: line.hazards,
  })),
  parts: plan.parts.map(part => plannedPartText(part, plainLocale)),
  departures: plan.departures.map(one => departureText(one, plan, plainLocale)),
  hours: plan.hours,
  cost: points(plan.cost, minor => minorToDecimal(Math.round(minor), currency)),
  grades: plan.grades,
  canEndIn: gradesText(plan, before, plainLocale),
  spoilChance: plan.spoilChance,
  cautions: plan.hazards.map(hazard => {
    const { title, sentences, authority } = cautions[hazard];
    return {
      title: spell(title, plainLocale),
      sentences: sentences.map(sentence => spell(sentence, plainLocale)),
      lookItUpIn: spell(authority, plainLocale),
    };
  }),
  held: heldDownText(plan, plainLocale),
});

/** The plan as it is printed, line by line. */
const lines = (plan: ReturnType<typeof shown>, currency: string): string[] => [
  ...table(
    ['Step', 'Minutes', 'Why'],
    plan.steps.map(step => [step.name, minutes(step.minutes), step.why]),
    [1],
  ),
  '',
  `Hours of your own: ${plan.hours.low.toFixed(1)}–${plan.hours.likely.toFixed(1)}–${plan.hours.high.toFixed(1)}`,
  `Cost: ${plan.cost.low}–${plan.cost.likely}–${plan.cost.high} ${currency}`,
  // A donor is in pieces afterwards: it ends in no grade.
  ...(plan.kind === 'donor' ? [] : [`It can end in ${plan.canEndIn}. ${plan.held}`.trim()]),
  ...(plan.parts.length > 0 ? [`Parts: ${plan.parts.join('; ')}`] : []),
  ...(plan.departures.length > 0
    ? [`Departures from the factory specification: ${plan.departures.join('; ')}`]
    : []),
  ...(plan.cautions.length === 0
    ? []
    : [
        '',
        'Before you begin (from memory; look it up):',
        ...plan.cautions.flatMap(({ title, sentences, lookItUpIn }) => [
          '',
          `${title}: ${sentences.join(' ')} (${lookItUpIn})`,
        ]),
        '',
        ...generalCautions.map(sentence => spell(sentence, plainLocale)),
      ]),
];

/** The whole answer in words. */
export const planLines = (plan: WorkPlan, before: FinishState, currency: string): string[] =>
  lines(shown(plan, before, currency), currency);

/**
 * `playworn plan`: what is to be done to a car, made from the car, with why, hours, cost, grades,
 * departures and cautions.
 */
export const plan = ({
  collection,
  json,
  car,
  to,
}: {
  collection: string;
  json?: boolean;
  car: string;
  to: WorkKind;
}): Promise<void> =>
  withCollection({ collection }, async ({ api }) => {
    const { reportingCurrency } = await api.collection.summary();
    const id = await carNumbered(api, car);
    const { finishState } = await api.cars.get({ id });
    const found = await api.work.plan({ carId: id, kind: to });
    print(json, shown(found, finishState, reportingCurrency), () =>
      planLines(found, finishState, reportingCurrency),
    );
  });
