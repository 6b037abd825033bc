import { decimalToMinor, minorToDecimal } from '../../../valuation/money.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { reasonText } from '../../../valuation/wording/values/reason-text.ts';
import { cautionLine, hazardsOf } from '../../../valuation/wording/work/cautions.ts';
import { conditionLabel, type WorkKind } from '../../../valuation/words.ts';
import type { DecideRow } from '../../api/views.ts';
import { type DecimalRange, decimalRange } from '../amounts.ts';
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
  const texts = reasons.map(reason => reasonText(reason, { locale: plainLocale, currency }));
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
    /** The weightiest reason, and what holds a car back whose work would gain. */
    why: texts.filter((_, at) => isInShort(reasons, at)).join(' '),
    reasons: texts,
  };
};

type Reasons = DecideRow['decision']['reasons'];

const holdsBack = (reason: Reasons[number] | undefined): boolean =>
  reason?.kind === 'under-least-gain' || reason?.kind === 'under-least-probability';

/** True of the first reason, and of one that holds a car back, with the gain that it is said of. */
const isInShort = (reasons: Reasons, at: number): boolean =>
  at === 0 || holdsBack(reasons[at]) || (reasons[at]?.kind === 'gain' && holdsBack(reasons[at + 1]));

const nothing = { low: 0, mid: 0, high: 0 };
const unknown = { low: null, mid: null, high: null };

interface Limits {
  hours?: number;
  cash?: string;
}

/** A car that was taken, or that would come next, and what is to be done with it. */
interface Taken {
  inventoryNumber: string;
  option: WorkKind;
  gain: string;
}

/** What was chosen within the limits. Amounts as decimals. */
interface ChosenWithin {
  chosen: Taken[];
  gain: string;
  gainRange: DecimalRange;
  used: { hours: number; cash: string };
  next: (Taken & { adds: string; needs: { hours: number; cash: string } })[];
}

/**
 * What to do within the hours and the cash, of all that can be done with each car; without limits, none is
 * asked for.
 */
const choose = async (api: Api, rows: DecideRow[], { hours, cash }: Limits, currency: string) => {
  if (hours === undefined && cash === undefined) return { season: null };
  const numbers = new Map(rows.map(({ car }) => [car.id, car.inventoryNumber]));
  const { taken, gain, range, used, next } = await api.decisions.season({
    carIds: rows.map(({ car }) => car.id),
    hours: hours ?? null,
    cash: cash === undefined ? null : decimalToMinor(cash, currency),
  });
  const named = (list: { id: number; option: WorkKind; gain: number }[]): Taken[] =>
    list.map(one => ({
      inventoryNumber: numbers.get(one.id) ?? String(one.id),
      option: one.option,
      gain: minorToDecimal(one.gain, currency),
    }));
  const season: ChosenWithin = {
    chosen: named(taken),
    gain: minorToDecimal(gain, currency),
    gainRange: decimalRange(range, currency),
    next: next.map(one => ({
      ...named([one])[0]!,
      adds: minorToDecimal(one.adds, currency),
      needs: { hours: one.needs.hours, cash: minorToDecimal(one.needs.cash, currency) },
    })),
    used: { hours: used.hours, cash: minorToDecimal(used.cash, currency) },
  };
  return { season };
};

const needsCaution = ({ recommendation }: ReturnType<typeof decided>): boolean =>
  recommendation !== 'not-enough-evidence' && hazardsOf(recommendation).length > 0;

/** The season that was chosen, in lines. */
const seasonLines = ({ chosen, gain, gainRange, next }: ChosenWithin): string[] => {
  const what = ({ inventoryNumber, option }: Taken) => `${inventoryNumber} ${spell(option, plainLocale)}`;
  return [
    `Within the limits: ${chosen.map(what).join(', ') || 'none'}`,
    ...(chosen.length > 0 ? [`Gain ${gain} (${gainRange.low} to ${gainRange.high})`] : []),
    ...next.slice(0, 1).map(one => {
      const { hours, cash } = one.needs;
      const needs = [
        ...(hours > 0 ? [`${Math.ceil(hours * 10) / 10} h more`] : []),
        ...(Number(cash) > 0 ? [`${cash} more`] : []),
      ];
      return `Next: ${what(one)}, adds ${one.adds}, needs ${needs.join(' and ') || 'room'}`;
    }),
  ];
};

const lines =
  (currency: string) =>
  (shown: { cars: ReturnType<typeof decided>[] } & Awaited<ReturnType<typeof choose>>): string[] => {
    const rows = shown.cars.map(car => [
      car.inventoryNumber,
      spell(conditionLabel(car.grade, car.finishState), plainLocale),
      spell(car.recommendation, plainLocale),
      car.expectedGain ?? '–',
      car.probability === null ? '–' : `${Math.round(car.probability * 100)} %`,
      car.cost.mid ?? '–',
      car.why,
    ]);
    const heads = ['No', 'Condition', 'Recommendation', 'Gain', 'Probability', 'Cost', 'Why'];
    return [
      `Expected gain over leaving, in ${currency}`,
      '',
      ...table(heads, rows, [3, 4, 5]),
      ...(shown.season ? ['', ...seasonLines(shown.season)] : []),
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
    const { season } = await choose(api, rows, limits, reportingCurrency);
    const shown = { cars, ...season, helpful };
    print(json, shown, () => [...lines(reportingCurrency)({ cars, season }), ...answerLines(helpful)]);
  });
