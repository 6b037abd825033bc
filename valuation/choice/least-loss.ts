import type { Choice } from './limits-model.ts';

/** One thing that can be done instead of what is best at the prices of the limits. */
interface Change {
  group: number;
  /** Place of the candidate; -1 for none of the group. */
  candidate: number;
  /** What it loses at the prices. */
  loss: number;
  /** How much more of each limit it uses than what it stands in for. */
  more: number[];
}

/** A choice near the best, if one was found, and how near. */
export interface LeastLoss {
  /** A choice that keeps all limits; null where none was found. */
  chosen: boolean[] | null;
  /** No choice gains more than this. */
  bound: number;
}

export interface LossSearch {
  choice: Choice;
  /** The price of one unit of each limit, zero or more; those of the relaxation make the bound sharpest. */
  prices: readonly number[];
  /** Relative distance from the optimum that is good enough. */
  gap: number;
  /** How many sets of changes may be looked at: work and not time. */
  most: number;
  halted: () => boolean;
}

/** How often the caller is asked whether it still wants an answer: once in so many sets. */
const askEvery = 4096;
/**
 * Sets of so many changes are looked at first, then larger ones, at last all: with many changes that lose little, a
 * choice is among the small sets, and walking deep would be long in finding it.
 */
const smallSets = [3, 4, 5, 6, 7, Number.POSITIVE_INFINITY];
/** Rounding of sums, relative to a limit. */
const tiny = 1e-9;

interface Ground {
  /** What stands at the prices, by group. */
  base: number[];
  /** The cheapest first. */
  changes: Change[];
  /** What is left of each limit where the base stands; below zero where it goes beyond it. */
  left: number[];
  bound: number;
}

/** What is best of each group at the prices, and everything that can be done instead. */
const groundOf = ({ gains, uses, limits, groups = [] }: Choice, prices: readonly number[]): Ground => {
  const grouped = new Set(groups.flatMap(({ members }) => members));
  const all = [
    ...groups,
    ...gains.flatMap((_, j) => (grouped.has(j) ? [] : [{ members: [j], needed: false }])),
  ];
  const netOf = (j: number) =>
    j < 0 ? 0 : gains[j]! - uses.reduce((sum, row, i) => sum + prices[i]! * row[j]!, 0);
  const amountFor = (i: number, j: number) => (j < 0 ? 0 : uses[i]![j]!);
  const left = [...limits];
  let bound = limits.reduce((sum, limit, i) => sum + prices[i]! * limit, 0);
  const changes: Change[] = [];
  const base = all.map(({ members, needed }, group) => {
    const places = needed ? [...members] : [-1, ...members];
    const best = places.reduce((one, j) => (netOf(j) > netOf(one) ? j : one));
    const net = netOf(best);
    bound += net;
    limits.forEach((_, i) => {
      left[i]! -= amountFor(i, best);
    });
    for (const candidate of places)
      if (candidate !== best)
        changes.push({
          group,
          candidate,
          loss: net - netOf(candidate),
          more: limits.map((_, i) => amountFor(i, candidate) - amountFor(i, best)),
        });
    return best;
  });
  changes.sort((a, b) => a.loss - b.loss || a.candidate - b.candidate || a.group - b.group);
  return { base, changes, left, bound };
};

/** For each limit, the sum of an amount over the changes before each place, and its most from there on. */
const totals = (
  changes: readonly Change[],
  limits: number,
  amountOf: (change: Change, i: number) => number,
) =>
  Array.from({ length: limits }, (_, i) => {
    const before = [0];
    for (const change of changes) before.push(before.at(-1)! + Math.max(0, amountOf(change, i)));
    const most = new Array<number>(changes.length + 1).fill(0);
    for (let at = changes.length - 1; at >= 0; at--)
      most[at] = Math.max(most[at + 1]!, amountOf(changes[at]!, i));
    return { before, most };
  });

/** The most that changes between two places can come to, where the budget pays for so many of them. */
const reach = (
  { before, most }: { before: number[]; most: number[] },
  from: number,
  end: number,
  times: number,
): number => Math.min(before[end]! - before[from]!, times * most[from]!);

/**
 * Looks for a choice whose loss against the bound of the prices is `budget` at most: a depth-first walk
 * through sets of at most `deepest` changes, which turns back where what may still be changed can neither keep a
 * limit nor use enough of it. `found` is undefined where there is none; `looked` says how many sets that took, `cut`
 * whether there are larger ones.
 */
const within = (
  { changes, left, base }: Ground,
  { choice: { limits }, prices, halted }: LossSearch,
  { budget, deepest, most }: { budget: number; deepest: number; most: number },
): { found: number[] | undefined; looked: number; cut: boolean } => {
  const count = changes.findIndex(({ loss }) => loss > budget);
  const open = count < 0 ? changes : changes.slice(0, count);
  const freed = totals(open, limits.length, ({ more }, i) => -more[i]!);
  const taken = totals(open, limits.length, ({ more }, i) => more[i]!);
  const slack = [...left];
  const rounding = limits.map(limit => tiny * Math.max(1, Math.abs(limit)));
  const busy = new Uint8Array(base.length);
  const set: number[] = [];
  let looked = 0;
  let stopped = false;
  let cut = false;

  /** The first place, from `from`, of a change that the rest of the budget does not pay for. */
  const paidUpTo = (from: number, rest: number): number => {
    let [low, end] = [from, open.length];
    while (low < end) {
      const middle = (low + end) >> 1;
      if (open[middle]!.loss <= rest) low = middle + 1;
      else end = middle;
    }
    return low;
  };
  const walk = (from: number, lost: number): boolean => {
    looked += 1;
    if (looked > most || (looked % askEvery === 0 && halted())) {
      stopped = true;
      return false;
    }
    const end = paidUpTo(from, budget - lost);
    const cheapest = from < end ? open[from]!.loss : 0;
    const times = cheapest > 0 ? Math.floor((budget - lost) / cheapest) : open.length;
    let now = lost;
    let least = lost;
    let keeps = true;
    for (let i = 0; i < slack.length; i++) {
      const room = slack[i]!;
      if (room < -rounding[i]!) keeps = false;
      if (room + reach(freed[i]!, from, end, times) < -rounding[i]!) return false;
      now += prices[i]! * Math.max(0, room);
      least += prices[i]! * Math.max(0, room - reach(taken[i]!, from, end, times));
    }
    if (keeps && now <= budget) return true;
    if (least > budget) return false;
    if (set.length === deepest) {
      cut = true;
      return false;
    }
    for (let at = from; at < end; at++) {
      const { group, loss, more } = open[at]!;
      if (busy[group]) continue;
      busy[group] = 1;
      set.push(at);
      for (let i = 0; i < more.length; i++) slack[i]! -= more[i]!;
      if (walk(at + 1, lost + loss)) return true;
      for (let i = 0; i < more.length; i++) slack[i]! += more[i]!;
      set.pop();
      busy[group] = 0;
      if (stopped) return false;
    }
    return false;
  };
  return { found: walk(0, 0) ? set : undefined, looked, cut };
};

/**
 * A choice within `gap` of the optimum, by what it loses against the bound that prices of the limits give
 * (Lagrange): the gain of a choice that keeps the limits is the bound, less the losses of its changes and the
 * price of what it leaves unused, each zero or more. Sets of changes are walked through by that loss, one gap
 * after the other, so that the first choice found is good enough, and a walk without any lowers the bound.
 * For a few hundred candidates whose gains follow what they use, where branching proves little. The same input
 * gives the same answer. Source: Fisher (1981), Management Science 27; Pisinger (1997), Operations Research 45.
 */
export const leastLoss = (search: LossSearch): LeastLoss => {
  const { choice, prices, gap, most, halted } = search;
  const ground = groundOf(choice, prices);
  const { bound, base, changes } = ground;
  let left = most;
  /** No choice loses less than this. */
  let proved = 0;
  while (left > 0 && proved < bound && !halted()) {
    // Whatever loses this at most is within the gap of whatever loses what is proved.
    const budget = proved + ((bound - proved) * gap) / (1 + gap);
    for (const deepest of smallSets) {
      const { found, looked, cut } = within(ground, search, { budget, deepest, most: left });
      left -= looked;
      if (found) {
        const done = [...base];
        for (const at of found) done[changes[at]!.group] = changes[at]!.candidate;
        const chosen = choice.gains.map(() => false);
        for (const j of done) if (j >= 0) chosen[j] = true;
        return { chosen, bound: bound - proved };
      }
      if (left <= 0 || !cut) break;
    }
    if (left > 0) proved = budget;
  }
  return { chosen: null, bound: bound - proved };
};
