import { decimalToMinor, minorToDecimal } from '../../../valuation/money.ts';
import { cautionLine, hazardsOf } from '../../../valuation/wording/cautions.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { reasonText } from '../../../valuation/wording/reason-text.ts';
import { conditionLabel } from '../../../valuation/words.ts';
import type { DecideRow } from '../../api/views.ts';
import { decimalRange } from '../amounts.ts';
import { answerLines, answersOf } from '../answers.ts';
import { type Api, withCollection } from '../collection.ts';
import { print, table } from '../terminal.ts';

/**
 * Leaving gains nothing over leaving; what the best work that was not recommended would bring
 * stands under `best`.
 */
const decided = ({ car, decision }: DecideRow, currency: string) => {
  const { recommendation, best, reasons } = decision;
  const gain = minorToDecimal(decision.expectedGain, currency);
  const known = recommendation !== 'not-enough-evidence';
  const leave = recommendation === 'leave';
  return {
    inventoryNumber: car.inventoryNumber,
    grade: car.grade,
    finishState: car.finishState,
    recommendation,
    expectedGain: leave ? minorToDecimal(0, currency) : known ? gain : null,
    probability: leave ? 0 : known ? decision.probability : null,
    cost: known ? decimalRange(leave ? nothing : decision.cost, currency) : unknown,
    ...(leave &&
      best !== 'leave' && { best: { option: best, expectedGain: gain, probability: decision.probability } }),
    reasons: reasons.map(reason => reasonText(reason, { locale: plainLocale, currency })),
  };
};

const nothing = { low: 0, mid: 0, high: 0 };
const unknown = { low: null, mid: null, high: null };

interface Limits {
  hours?: number;
  cash?: string;
}

/** Which of the cars to take within the hours and the cash; without limits, none is asked for. */
const choose = async (api: Api, rows: DecideRow[], { hours, cash }: Limits, currency: string) => {
  if (hours === undefined && cash === undefined) return {};
  const numbers = new Map(rows.map(({ car }) => [car.id, car.inventoryNumber]));
  const { chosen, gain, used } = await api.decisions.choose({
    carIds: rows.map(({ car }) => car.id),
    hours: hours ?? null,
    cash: cash === undefined ? null : decimalToMinor(cash, currency),
  });
  return {
    chosen: chosen.map(id => numbers.get(id) ?? String(id)),
    gain: minorToDecimal(gain, currency),
    used: { hours: used.hours, cash: minorToDecimal(used.cash, currency) },
  };
};

const needsCaution = ({ recommendation }: ReturnType<typeof decided>): boolean =>
  recommendation !== 'not-enough-evidence' && hazardsOf(recommendation).length > 0;

const lines =
  (currency: string) => (shown: { cars: ReturnType<typeof decided>[]; chosen?: string[]; gain?: string }) => {
    const rows = shown.cars.map(car => [
      car.inventoryNumber,
      spell(conditionLabel(car.grade, car.finishState), plainLocale),
      spell(car.recommendation, plainLocale),
      car.expectedGain ?? '–',
      car.probability === null ? '–' : `${Math.round(car.probability * 100)} %`,
      car.cost.mid ?? '–',
      car.reasons[0] ?? '',
    ]);
    const heads = ['No', 'Condition', 'Recommendation', 'Gain', 'Probability', 'Cost', 'Why'];
    return [
      `Expected gain over leaving, in ${currency}`,
      '',
      ...table(heads, rows, [3, 4, 5]),
      ...(shown.chosen
        ? ['', `Within the limits: ${shown.chosen.join(', ') || 'none'} (gain ${shown.gain})`]
        : []),
      ...(shown.cars.some(needsCaution) ? ['', cautionLine] : []),
    ];
  };

/** `playworn decide`: leave, conserve, restore, customise or use as a donor, car by car. */
export const decide = ({
  collection,
  json,
  ...limits
}: Limits & { collection: string; json?: boolean }): Promise<void> =>
  withCollection({ collection }, async ({ api }) => {
    const { reportingCurrency } = await api.collection.summary();
    const rows = await api.decisions.list({});
    const cars = rows.map(row => decided(row, reportingCurrency));
    const helpful = answersOf(await api.young.answers());
    const shown = { cars, ...(await choose(api, rows, limits, reportingCurrency)), helpful };
    print(json, shown, all => [...lines(reportingCurrency)(all), ...answerLines(helpful)]);
  });
