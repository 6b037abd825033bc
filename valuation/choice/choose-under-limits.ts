import { checkBetween, checkNumbers } from '../statistics/check-input.ts';
import {
  type Choice,
  type LimitsModel,
  loadSolver,
  openLimitsModel,
  type Solved,
  type Stop,
} from './limits-model.ts';

export interface ChoiceOptions {
  /**
   * Relative distance from the optimum at which to stop: 0 proves the choice best however long that takes,
   * 0.001 is a tenth of a per cent. Left out, the choice is proved best where that takes a bounded amount of
   * work, as it does for tens or hundreds of cars.
   */
  gap?: number;
  /**
   * Simplex iterations in all, about; the best choice found by then is given. Work and not time, so that the
   * answer does not depend on how busy the machine is. Left out, bounded by the number of candidates without
   * a gap, unbounded with one.
   */
  work?: number;
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

/**
 * Simplex iterations that a choice may take in all when no gap is asked for: a few seconds, as they cost more
 * among many candidates.
 */
const workInAll = (candidates: number): number => Math.min(40_000, 2_000_000 / candidates);
/** A gap that is good enough once half of that has not closed it. */
const goodEnough = 0.001;
/**
 * Candidates left open, those about whose choice the relaxation is least sure, when looking for a
 * choice to start from.
 */
const openAtFirst = 20;

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

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, x, j) => sum + x * b[j]!, 0);

const impossible = () => new RangeError('limits cannot be kept by any choice');
const noneFound = () => new Error('No choice was found in the work given');

/** Solves, and turns a halt or an impossible case into the error it stands for. */
const solveOrThrow = (
  model: LimitsModel,
  stop: Stop,
  signal?: AbortSignal,
  start?: readonly number[],
): Solved => {
  const solved = model.solve(stop, start);
  if (solved === 'halted') throw signal?.reason ?? new DOMException('The choice was cancelled', 'AbortError');
  if (solved === 'impossible') throw impossible();
  return solved;
};

/**
 * A good choice to start from: the relaxation's, with only the candidates whose standing is least sure left
 * to decide.
 * Undefined where there are too few candidates to be worth it, and where none was found.
 */
const firstChoice = ({
  model,
  relaxed,
  relaxedGain,
  work,
  stop,
}: {
  model: LimitsModel;
  relaxed: Solved;
  relaxedGain: number;
  work: number;
  stop: Stop;
}): number[] | undefined => {
  const count = relaxed.reducedCosts.length;
  if (count <= 2 * openAtFirst) return undefined;
  const sureness = relaxed.reducedCosts.map(Math.abs);
  const order = sureness.map((_, j) => j).sort((a, b) => sureness[a]! - sureness[b]! || a - b);
  const open = new Set(order.slice(0, openAtFirst));
  const settled = relaxed.shares!.map(Math.round);
  model.setBounds(
    settled.map((share, j) => (open.has(j) ? 0 : share)),
    settled.map((share, j) => (open.has(j) ? 1 : share)),
  );
  const enough = (iterations: number) => iterations > Math.min(work, workInAll(count)) / 10;
  const solved = model.solve({ ...stop, enough, target: relaxedGain * (1 - goodEnough / 2) });
  model.setBounds(new Array<number>(count).fill(0), new Array<number>(count).fill(1));
  return typeof solved === 'object' ? (solved.shares ?? undefined) : undefined;
};

/** Solves with one more of limit `i`, and puts the limit back. */
const solveWithMore = (
  model: LimitsModel,
  limits: readonly number[],
  i: number,
  solve: () => Solved,
): Solved => {
  model.setLimit(i, limits[i]! + 1);
  const solved = solve();
  model.setLimit(i, limits[i]!);
  return solved;
};

/** Lets what waits in the event loop, such as an abort, happen. */
const breathe = () => new Promise(resolve => setTimeout(resolve));

/** `chooseUnderLimits` for candidates that are all worth a thought, with the models open. */
const solveChoice = async (
  { gains, uses, limits }: Choice,
  { gap, work: given, signal, cancelled }: ChoiceOptions,
  whole: LimitsModel,
  relaxation: LimitsModel,
) => {
  const halted = () => signal?.aborted === true || cancelled?.() === true;
  const work = given ?? (gap === undefined ? workInAll(gains.length) : Number.POSITIVE_INFINITY);
  const brief: Stop = { gap: gap ?? 0, halted };
  const relaxed = solveOrThrow(relaxation, brief, signal);
  if (!relaxed.shares) throw noneFound();
  const relaxedGain = dot(gains, relaxed.shares);
  const start = firstChoice({ model: whole, relaxed, relaxedGain, work, stop: brief });
  const longest: Stop = {
    ...brief,
    enough: (iterations, gapSoFar) =>
      gap === undefined && gapSoFar <= goodEnough ? iterations > work / 2 : iterations > (work * 3) / 4,
  };
  const solved = solveOrThrow(whole, longest, signal, start);
  if (!solved.shares) throw noneFound();
  const shares = solved.shares;
  const gain = dot(gains, shares);
  const proved = solved.gap < 1e-9;

  const each: Stop = {
    ...brief,
    enough: iterations => iterations > (work - solved.iterations) / limits.length,
  };
  const worthOfOneMore: number[] = [];
  for (let i = 0; i < limits.length; i++) {
    const mostUsed = uses[i]!.reduce((sum, use) => sum + Math.max(0, use), 0);
    let worth = 0;
    if (mostUsed > limits[i]!) {
      await breathe();
      const exact =
        proved && !gap
          ? solveWithMore(whole, limits, i, () => solveOrThrow(whole, each, signal, shares))
          : undefined;
      if (exact?.shares && exact.gap < 1e-9) worth = dot(gains, exact.shares) - gain;
      else {
        const partly = solveWithMore(relaxation, limits, i, () => solveOrThrow(relaxation, each, signal));
        worth = partly.shares ? dot(gains, partly.shares) - relaxedGain : 0;
      }
    }
    worthOfOneMore.push(Math.max(0, worth));
  }
  return { shares, gain, worthOfOneMore, gapLeft: proved ? undefined : solved.gap };
};

/**
 * The candidates to choose for the largest sum of gains, each whole or not at all, with every limit kept: a
 * 0–1 programme of several knapsacks, solved by branch and cut. Candidates that gain nothing and free nothing
 * are sorted out first.
 *
 * `worthOfOneMore[i]` is the gain with limit i one unit higher, less the gain: exactly, by solving again,
 * where both are proved best; otherwise (with a gap, in which such a difference would drown, or after too
 * much work) the same difference in the relaxation, in which candidates may be chosen in part. Choose the
 * unit of each limit with that in mind: an hour, a part, a hundred of money.
 * The same input gives the same answer.
 *
 * Rejects with RangeError on empty, mismatched or non-finite input and on limits that no choice can keep, and
 * with the signal's reason or an AbortError when cancelled; with Error where the work given leaves none
 * found. Solving holds its thread: run large cases in a worker.
 * Source: HiGHS (highs.dev); the start from the least certain candidates follows Balas & Zemel (1980),
 * Operations Research 28.
 */
export const chooseUnderLimits = async (choice: Choice, options: ChoiceOptions = {}): Promise<Chosen> => {
  checkChoice(choice);
  if (options.gap !== undefined) checkBetween(options.gap, 0, 1, 'gap');
  if (options.work !== undefined) checkBetween(options.work, 0, 1e9, 'work');
  const { gains, uses, limits } = choice;
  const candidates = gains.map((_, j) => j).filter(j => gains[j]! > 0 || uses.some(row => row[j]! < 0));
  if (candidates.length === 0) {
    if (limits.some(limit => limit < 0)) throw impossible();
    return { chosen: gains.map(() => false), gain: 0, worthOfOneMore: limits.map(() => 0) };
  }
  const pick = (values: readonly number[]) => candidates.map(j => values[j]!);
  const kept: Choice = { gains: pick(gains), uses: uses.map(pick), limits };
  const highs = await loadSolver();
  const whole = openLimitsModel(highs, kept, true);
  const relaxation = openLimitsModel(highs, kept, false);
  try {
    const { shares, gain, worthOfOneMore, gapLeft } = await solveChoice(kept, options, whole, relaxation);
    const chosen = gains.map(() => false);
    candidates.forEach((j, k) => {
      chosen[j] = shares[k] === 1;
    });
    return { chosen, gain, worthOfOneMore, ...(gapLeft === undefined ? {} : { gapLeft }) };
  } finally {
    whole.dispose();
    relaxation.dispose();
  }
};
