import { type CredibilityGroup, summariseGroups } from './credibility-groups.ts';

export interface ChildGroup extends CredibilityGroup {
  /** Key of the parent, such as the casting of a variation. */
  parent: string | number;
}

export interface HierarchicalCredibility {
  within: number;
  /**
   * Variance of children about their parent, and of parents about the collective; 0 where
   * the estimate vanishes.
   */
  betweenChildren: number;
  betweenParents: number;
  collective: number;
  /** In the order in which the parents first appear among the groups. */
  parents: { parent: string | number; estimate: number; credibility: number }[];
  /** In the order of the groups. */
  children: { estimate: number; credibility: number }[];
}

/**
 * Mean (less the centre of the node above) and weight of each node of one level, with the index
 * of the node above.
 */
interface Level {
  means: number[];
  weights: number[];
  above: number[];
}

/**
 * Credibilities of a level's nodes given its variance and that below, and the level above that they make up.
 */
const climb = (level: Level, between: number, below: number, nodesAbove: number) => {
  const { means, weights, above } = level;
  const credibility = weights.map(weight =>
    between === 0 ? 0 : (between * weight) / (between * weight + below || 1),
  );
  // With no variance here the natural weights go up, and the variance below stays the one that counts.
  const carried = between === 0 ? weights : credibility;
  const sums = new Array<number>(nodesAbove).fill(0);
  const weightsAbove = new Array<number>(nodesAbove).fill(0);
  for (let i = 0; i < means.length; i++) {
    sums[above[i]!]! += carried[i]! * means[i]!;
    weightsAbove[above[i]!]! += carried[i]!;
  }
  const meansAbove = sums.map((sum, p) => (weightsAbove[p]! > 0 ? sum / weightsAbove[p]! : 0));
  let squares = 0;
  for (let i = 0; i < means.length; i++) {
    if (weights[i]! > 0) squares += credibility[i]! * (means[i]! - meansAbove[above[i]!]!) ** 2;
  }
  return { credibility, meansAbove, weightsAbove, squares };
};

/**
 * Repeats `next` from `start` until it stands still. A value that sinks below a trillionth of
 * its start is zero.
 */
const settle = (start: number, next: (between: number) => number): number => {
  let between = start;
  for (let round = 0; round < 10_000 && between > start * 1e-12; round++) {
    const following = next(between);
    if (Math.abs(following - between) <= 1e-14 * between) return following;
    between = following;
  }
  return between > start * 1e-12 ? between : 0;
};

/**
 * Plain variance of the nodes of some weight about the mean of their parent, from which the iteration starts.
 */
const startVariance = ({ means, weights, above }: Level, nodesAbove: number, freedom: number): number => {
  const natural = climb({ means, weights, above }, 0, 0, nodesAbove).meansAbove;
  let squares = 0;
  for (let i = 0; i < means.length; i++)
    if (weights[i]! > 0) squares += (means[i]! - natural[above[i]!]!) ** 2;
  return freedom > 0 ? squares / freedom : 0;
};

/**
 * Hierarchical credibility of two levels (Jewell), with the iterative pseudo-estimators of
 * the variances between.
 *
 * zᵢⱼ = a wᵢⱼ / (a wᵢⱼ + s²) for child j of parent i; zᵢ = b zᵢ· / (b zᵢ· + a) with zᵢ· = Σⱼ zᵢⱼ;
 * a = Σᵢⱼ zᵢⱼ (Xᵢⱼ − Xᵢ)² / Σᵢ (Jᵢ − 1) about the credibility-weighted parent mean Xᵢ;
 * b = Σᵢ zᵢ (Xᵢ − X)² / (I − 1) about the credibility-weighted collective X; each solved by repeated
 * substitution.
 * Parent: zᵢ Xᵢ + (1 − zᵢ) X. Child: zᵢⱼ Xᵢⱼ + (1 − zᵢⱼ) × its parent's estimate.
 * A variance that vanishes, or that nothing can tell (one child per parent, one parent), is 0: that level
 * then pools wholly.
 * Children whose weights are all zero take their parent's estimate.
 *
 * Throws RangeError on empty, mismatched, negative-weight or non-finite input, and when no group has two
 * observations.
 * No valuation calls it; what `buhlmannStraub` says of that holds here too.
 * Source: Jewell (1975); Goulet et al., package actuar, credibility vignette, method "iterative".
 */
export const hierarchicalCredibility = (groups: readonly ChildGroup[]): HierarchicalCredibility => {
  const keys = [...new Set((groups ?? []).map(({ parent }) => parent))];
  if (keys.some(key => typeof key !== 'string' && !Number.isFinite(key)))
    throw new RangeError('parent of every group must be a name or a finite number');
  const places = new Map(keys.map((key, i) => [key, i]));
  const above = (groups ?? []).map(({ parent }) => places.get(parent)!);
  const { scale, summaries, centres, within } = summariseGroups(groups, above);
  const children: Level = {
    means: summaries.map(({ mean }) => mean),
    weights: summaries.map(({ weight }) => weight),
    above,
  };
  const parentCentres = keys.map((_, p) => centres[above.indexOf(p)]!);
  const seenParents = new Set(children.above.filter((_, i) => children.weights[i]! > 0)).size;
  const childFreedom = children.weights.filter(weight => weight > 0).length - seenParents;
  const betweenChildren = settle(
    startVariance(children, keys.length, childFreedom),
    between => climb(children, between, within, keys.length).squares / childFreedom,
  );
  const up = climb(children, betweenChildren, within, keys.length);
  // Counted from the centre of the weightiest parent, as its children are from their parent's.
  const centre = parentCentres[up.weightsAbove.indexOf(Math.max(...up.weightsAbove))]!;
  const parents: Level = {
    means: up.meansAbove.map((mean, p) => parentCentres[p]! - centre + mean),
    weights: up.weightsAbove,
    above: keys.map(() => 0),
  };
  const below = betweenChildren === 0 ? within : betweenChildren;
  const betweenParents = settle(
    startVariance(parents, 1, seenParents - 1),
    between => climb(parents, between, below, 1).squares / (seenParents - 1),
  );
  const top = climb(parents, betweenParents, below, 1);
  const collective = top.meansAbove[0]!;
  const value = (mean: number) => scale * (centre + mean);
  const parentMeans = parents.means.map((mean, p) => collective + top.credibility[p]! * (mean - collective));
  return {
    within: within * scale * scale,
    betweenChildren: betweenChildren * scale * scale,
    betweenParents: betweenParents * scale * scale,
    collective: value(collective),
    parents: keys.map((parent, p) => ({
      parent,
      estimate: value(parentMeans[p]!),
      credibility: top.credibility[p]!,
    })),
    children: children.means.map((mean, i) => {
      const p = above[i]!;
      const parent = parentMeans[p]!;
      const own = parentCentres[p]! - centre + mean;
      return {
        estimate: value(parent + up.credibility[i]! * (own - parent)),
        credibility: up.credibility[i]!,
      };
    }),
  };
};
