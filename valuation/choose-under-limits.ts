import highsModule, { type Highs, type Model } from 'highs';
import { checkBetween, checkNumbers } from './check-input.ts';

/** What each candidate gains, and how much of each limited thing it uses: `uses` has one row per limit. */
export interface Choice {
  gains: readonly number[];
  uses: readonly (readonly number[])[];
  limits: readonly number[];
}

export interface ChoiceOptions {
  /** Relative distance from the optimum at which to stop: 0.001 for a tenth of a per cent. 0 when left out. */
  gap?: number;
  /** Seconds of solving in all; the best choice found by then is given. */
  timeLimit?: number;
  /** Looked at between solves; a host that solves in a worker uses `cancelled` to stop within one. */
  signal?: AbortSignal;
  /** Asked often while solving, say of a flag in shared memory; true ends it with an AbortError. */
  cancelled?: () => boolean;
}

export interface Chosen {
  chosen: boolean[];
  /** Sum of the gains of the chosen. */
  gain: number;
  /** What one unit more of each limit would add to the gain. */
  worthOfOneMore: number[];
  /** Relative distance from the optimum that is not ruled out; left out when the choice is proved best. */
  gapLeft?: number;
}

/** The loader is the default export itself; the package's types, being CommonJS, put it one level lower. */
const loadHighs = highsModule as unknown as typeof highsModule.default;

let solver: Promise<Highs> | undefined;
/** The solver is compiled once per process; a failed attempt is not kept. */
const loadSolver = (): Promise<Highs> => {
  const loading = solver ?? loadHighs();
  solver = loading;
  loading.catch(() => {
    solver = undefined;
  });
  return loading;
};

const checkChoice = ({ gains, uses, limits }: Choice): void => {
  checkNumbers(gains, 'gains');
  checkNumbers(limits, 'limits');
  if (uses?.length !== limits.length)
    throw new RangeError(
      `uses must have one row for each of the ${limits.length} limits, and has ${uses?.length}`,
    );
  uses.forEach((row, i) => {
    checkNumbers(row, `uses[${i}]`);
    if (row.length !== gains.length)
      throw new RangeError(`uses[${i}] has ${row.length} entries where gains has ${gains.length}`);
  });
};

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** The power of two that brings the largest of `values` to between 1 and 2, so that scaling rounds nothing. */
const powerOfTwo = (values: readonly number[]): number => {
  const largest = Math.max(...values.map(Math.abs));
  return largest > 0 ? 2 ** -Math.floor(Math.log2(largest)) : 1;
};

/** Candidates as columns, limits as rows, each scaled to its largest entry so that tolerances are relative. */
const buildModel = (highs: Highs, { gains, uses, limits }: Choice, scales: number[]) => {
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  uses.forEach((row, i) => {
    row.forEach((use, j) => {
      if (use === 0) return;
      indices.push(j);
      values.push(use * scales[i]!);
    });
    starts.push(indices.length);
  });
  const objectiveScale = 1024 * powerOfTwo(gains);
  return highs.createModel({
    numCols: gains.length,
    numRows: limits.length,
    sense: highs.constants.objectiveSense.maximize,
    colCost: gains.map(gain => gain * objectiveScale),
    colLower: gains.map(() => 0),
    colUpper: gains.map(() => 1),
    rowLower: limits.map(() => -highs.infinity),
    rowUpper: limits.map((limit, i) => limit * scales[i]!),
    matrix: { format: 'csr', numRows: limits.length, numCols: gains.length, starts, indices, values },
    integrality: gains.map(() => highs.constants.variableType.integer),
  });
};

const aborted = (signal?: AbortSignal): unknown =>
  signal?.reason ?? new DOMException('The choice was cancelled', 'AbortError');

/** Runs the model once, within `seconds` more of its clock; the chosen columns, or null where none was found in time. */
const solveOnce = (highs: Highs, model: Model, seconds: number, options: ChoiceOptions) => {
  const { modelStatus: status, callbackType } = highs.constants;
  const stop = () => options.signal?.aborted || options.cancelled?.();
  if (stop()) throw aborted(options.signal);
  model.options.set({ time_limit: Math.min(1e9, model.getRunTime() + seconds) });
  model.run({
    [callbackType.mipInterrupt](event) {
      if (stop()) event.interrupt();
    },
  });
  const ended = model.getModelStatus();
  if (stop() || ended === status.interrupted) throw aborted(options.signal);
  if (ended === status.infeasible || ended === status.unboundedOrInfeasible)
    throw new RangeError('limits cannot be kept by any choice');
  if (ended !== status.optimal && ended !== status.timeLimit)
    throw new Error(`The solver ended with status ${ended}`);
  const found = Number(model.info.get('primal_solution_status')) === 2;
  return {
    columns: found ? Array.from(model.getSolution().colValue, value => value > 0.5) : null,
    gap: Number(model.info.get('mip_gap')),
  };
};

/**
 * The candidates to choose for the largest sum of gains, each whole or not at all, with every limit kept: a 0–1 programme
 * in several knapsacks, solved by branch and cut. Candidates that gain nothing and free nothing are sorted out first.
 *
 * `worthOfOneMore[i]` is the gain with limit i one unit higher, less the gain: each found by solving again from the choice, to the same
 * gap; so with a gap, or when time runs out, it is what was found, good to within the gap, and never below zero. Choose the unit of
 * a limit with that in mind (an hour, a part, a hundred of money). Without a time limit the same input gives the same answer.
 *
 * Rejects with RangeError on empty, mismatched or non-finite input, on limits that no choice can keep, and with the signal's reason or an
 * AbortError when cancelled. Solving holds its thread: run large cases in a worker. Source of the solver: HiGHS, highs.dev.
 */
export const chooseUnderLimits = async (choice: Choice, options: ChoiceOptions = {}): Promise<Chosen> => {
  checkChoice(choice);
  const { gap = 0, timeLimit = 1e9 } = options;
  checkBetween(gap, 0, 1, 'gap');
  checkBetween(timeLimit, 0, Number.MAX_VALUE, 'timeLimit');
  const { gains, uses, limits } = choice;
  const candidates = gains.map((_, j) => j).filter(j => gains[j]! > 0 || uses.some(row => row[j]! < 0));
  const pick = (values: readonly number[]) => candidates.map(j => values[j]!);
  const kept: Choice = { gains: pick(gains), uses: uses.map(pick), limits };
  if (candidates.length === 0) {
    if (limits.some(limit => limit < 0)) throw new RangeError('limits cannot be kept by any choice');
    return { chosen: gains.map(() => false), gain: 0, worthOfOneMore: limits.map(() => 0) };
  }
  const highs = await loadSolver();
  const scales = kept.uses.map(powerOfTwo);
  const model = buildModel(highs, kept, scales);
  try {
    model.options.set({
      output_flag: false,
      mip_rel_gap: gap,
      mip_abs_gap: 1e-9,
      mip_feasibility_tolerance: 1e-9,
    });
    const first = solveOnce(highs, model, timeLimit / 2, options);
    let best = first.columns ?? kept.gains.map(() => false);
    if (!first.columns && limits.some(limit => limit < 0))
      throw new Error('No choice was found in the time given');
    const gainOf = (columns: readonly boolean[]) => sum(kept.gains.filter((_, j) => columns[j]));
    const usesAtMost = (i: number) => sum(kept.uses[i]!.filter(use => use > 0));
    const gainsWithMore: number[] = [];
    for (let i = 0; i < limits.length; i++) {
      if (usesAtMost(i) <= limits[i]!) {
        gainsWithMore.push(0);
        continue;
      }
      // Lets an abort that waits in the event loop arrive.
      await new Promise(resolve => setTimeout(resolve));
      model.changeRowBounds(i, -highs.infinity, (limits[i]! + 1) * scales[i]!);
      model.setSolution({ colValue: best.map(Number) });
      const { columns } = solveOnce(highs, model, timeLimit / 2 / limits.length, options);
      model.changeRowBounds(i, -highs.infinity, limits[i]! * scales[i]!);
      gainsWithMore.push(columns ? gainOf(columns) : 0);
      // Within a gap the wider problem can turn up a better choice for the narrower one.
      const fits = columns && sum(kept.uses[i]!.filter((_, j) => columns[j])) <= limits[i]!;
      if (fits && gainOf(columns) > gainOf(best)) best = columns;
    }
    const gain = gainOf(best);
    const chosenSet = new Set(candidates.filter((_, k) => best[k]));
    return {
      chosen: gains.map((_, j) => chosenSet.has(j)),
      gain,
      worthOfOneMore: gainsWithMore.map(more => Math.max(0, more - gain)),
      ...(first.gap > 1e-12 ? { gapLeft: first.gap } : {}),
    };
  } finally {
    model.dispose();
  }
};
