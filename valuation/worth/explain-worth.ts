import type { FittedMarket } from '../market/fitted-market.ts';
import type { PreparedSale } from '../market/prepare-sales.ts';
import { supplyOf } from '../market/rarity-chances.ts';
import { doubtfulFrom } from '../market/robust-weight.ts';
import type { AdjustedRecord, Adjustment, AdjustmentCause, Subject } from '../types.ts';
import { finishStates, grades, type WhichWorth } from '../words.ts';
import {
  type Condition,
  foundCondition,
  ladderLogs,
  originalCondition,
  plannedCondition,
  plannedConditions,
  worthOfEnds,
} from './car-worths.ts';
import { recordWeights } from './record-weights.ts';
import { proposedPlan } from './standard-plan.ts';
import { ladderOf, type SubjectPlace, subjectPlace } from './subject-place.ts';

const steps = grades.length;

/**
 * What the records are brought to. `workLog`: what the grades in which a plan can end make of the worth at
 * the grade aimed at.
 */
interface Explained {
  condition: Condition;
  workLog: number;
}

const explained = (
  fitted: FittedMarket,
  subject: Subject,
  which: WhichWorth,
  place: SubjectPlace,
): Explained => {
  const { assumptions } = fitted;
  if (which === 'asFound') return { condition: foundCondition(subject, assumptions), workLog: 0 };
  if (which === 'originalFinish') return { condition: originalCondition(subject, assumptions), workLog: 0 };
  const plan = subject.plan ?? proposedPlan(subject, assumptions);
  const condition = plannedCondition(plan, assumptions);
  const appraise = (one: Condition) => ladderLogs(ladderOf(fitted, place), one);
  const expected = worthOfEnds(plannedConditions(plan, assumptions), appraise);
  return { condition, workLog: expected.logMean - appraise(condition).logMean };
};

/** The variations that a car may be, each with its chance; an unknown variation of the casting is −1. */
export const variationChances = (
  fitted: FittedMarket,
  place: SubjectPlace,
): { variation: number; chance: number }[] => {
  if (place.variation >= 0) return [{ variation: place.variation, chance: 1 }];
  if (place.candidates.length > 0)
    return place.candidates.map(variation => ({ variation, chance: 1 / place.candidates.length }));
  const { castingVariations, variationRarity } = fitted.inside.index;
  const places = castingVariations[place.casting]!;
  if (places.length === 0) return [{ variation: -1, chance: 1 }];
  const total = places.reduce((sum, v) => sum + supplyOf(variationRarity[v]!), 0);
  return places.map(variation => ({
    variation,
    chance: supplyOf(variationRarity[variation]!) / total,
  }));
};

/**
 * Every adjustment of a sale to the condition, in the order in which they apply; those that change
 * nothing are left out.
 */
const adjust = (
  fitted: FittedMarket,
  sale: PreparedSale,
  { condition: to, workLog }: Explained,
  rarityLog: number,
): Adjustment[] => {
  const { curve, indexSpan, timeLog, ungraded, sourceLog } = fitted.inside;
  const { record } = sale;
  const toState = finishStates.indexOf(to.state);
  const at = (state: number, step: number) => curve[state * steps + step]!;
  const lines: Adjustment[] = [];
  const line = (what: Adjustment['what'], log: number, cause: AdjustmentCause) => {
    if (Math.abs(log) > 1e-12) lines.push({ what, factor: Math.exp(log), cause });
  };
  if (record.currency !== fitted.reportingCurrency)
    lines.push({
      what: 'currency',
      factor: Math.exp(sale.currencyLog),
      cause: {
        kind: 'exchange-rate',
        from: record.currency,
        to: fitted.reportingCurrency,
        on: record.soldOn,
      },
    });
  const span = indexSpan(record.soldOn);
  if (span) line('date', sale.dateLog, { kind: 'index', ...span });
  const byTime = fitted.time.used === 'steps' ? ('steps' as const) : ('trend' as const);
  line('date', timeLog(sale.age), { kind: byTime, years: sale.age });
  line('source', -sourceLog(record.source), { kind: 'source', source: record.source });
  line('rarity', rarityLog, { kind: 'rarity' });
  const toGrade = grades[to.step]!;
  const doubt = (to.gradeKnown ? 0 : ungraded.log) - (record.grade === null ? ungraded.log : 0);
  line('grade', at(sale.state, to.step) - at(sale.state, sale.step) + doubt, {
    kind: 'grade',
    from: grades[sale.step]!,
    ungraded: record.grade === null,
    to: toGrade,
    finishState: record.finishState,
  });
  line('finish state', at(toState, to.step) - at(sale.state, to.step), {
    kind: 'finish-state',
    from: record.finishState,
    to: to.state,
    grade: toGrade,
  });
  line('parts', -sale.partsLog, {
    kind: 'made-complete',
    missing: record.missingParts,
    reproductions: record.reproductionParts,
  });
  line('parts', to.partsLog, { kind: 'own-parts' });
  line('fidelity', to.fidelityLog, { kind: 'departures' });
  line('grade', workLog, { kind: 'workmanship', aim: toGrade });
  return lines;
};

/**
 * The adjustment grid: the sale records behind a worth, each brought to the car line by line, sorted by
 * weight. The weights are the shares of the records in the estimate, through the variation, its casting, its
 * series and all; with all records they sum to 1, and the weighted geometric mean of the adjusted prices is
 * the mid of the worth but for the smoothing over grades. `most` bounds the list, the weightiest first. Empty
 * where nothing is known of what the car is.
 */
export const explainWorth = (
  fitted: FittedMarket,
  subject: Subject,
  which: WhichWorth,
  most = 500,
): AdjustedRecord[] => {
  const place = subjectPlace(fitted, subject);
  if (!place) return [];
  const { index, tree, sales, slots, rarities, rarityLog, departures, saleRarity } = fitted.inside;
  const target = explained(fitted, subject, which, place);
  const { condition } = target;
  const variations = variationChances(fitted, place);
  const weights = new Float64Array(sales.length);
  let subjectRarity = 0;
  for (const { variation, chance } of variations) {
    recordWeights(fitted, variation, place.casting, condition.step).forEach((w, i) => {
      weights[i]! += chance * w;
    });
    subjectRarity += chance * rarityLog.get(variation < 0 ? null : rarities[variation]!)!;
  }
  const own = new Set(place.variation >= 0 ? [place.variation] : place.candidates);
  const mislabelled = new Set(fitted.mislabelled.map(({ id }) => id));
  const series = index.castingSeries[place.casting]!;
  const order = Array.from(weights.keys())
    .filter(i => weights[i]! > 0)
    .sort((a, b) => weights[b]! - weights[a]! || a - b)
    .slice(0, most);
  return order.map(i => {
    const sale = sales[i]!;
    const adjustments = adjust(fitted, sale, target, subjectRarity - saleRarity[i]!);
    const price = Math.max(1, sale.record.price);
    const log = adjustments.reduce((sum, { factor }) => sum + Math.log(factor), Math.log(price));
    const level = own.has(slots[i]!)
      ? 'variation'
      : sale.casting === place.casting
        ? 'casting'
        : tree.castingSeries[sale.casting] === series
          ? 'series'
          : 'everything';
    return {
      id: sale.record.id,
      ...(sale.from && { from: sale.from }),
      price: sale.record.price,
      currency: sale.record.currency,
      adjustments,
      adjusted: Math.round(Math.exp(log)),
      weight: weights[i]!,
      level,
      doubtful: Math.abs(departures[i]!) >= doubtfulFrom || mislabelled.has(sale.record.id),
    };
  });
};
