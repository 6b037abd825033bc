import { CholeskyDecomposition, Matrix } from 'ml-matrix';

/**
 * A linear mixed model with nested random intercepts, fitted by restricted maximum likelihood: an independent
 * reference for the engine; its predictions are dense within each group of the topmost level. `levels` come from the
 * topmost down, each group within one group of the level above.
 */
export interface MixedData {
  y: number[];
  x: number[][];
  levels: string[][];
}

interface Block {
  y: Matrix;
  x: Matrix;
  levels: string[][];
}

export interface MixedModel {
  /** Variances of the levels, and last that of one observation. */
  variances: number[];
  beta: number[];
  /** −2 × the restricted log likelihood, as lme4 prints it. */
  criterion: number;
  predict(x: readonly number[], levels: readonly string[]): { mean: number; variance: number };
}

const covariance = (a: readonly string[], b: readonly string[], variances: readonly number[]): number =>
  a.reduce((sum, id, level) => sum + (id === b[level] ? variances[level]! : 0), 0);

/** Of all pairs of rows, those of one observation with itself included. */
const covariances = (levels: readonly string[][], variances: readonly number[]): Matrix =>
  new Matrix(
    levels.map((a, i) =>
      levels.map((b, j) => covariance(a, b, variances) + (i === j ? variances.at(-1)! : 0)),
    ),
  );

const blocksOf = ({ y, x, levels }: MixedData): Block[] =>
  [...Map.groupBy(y.keys(), i => levels[i]![0]!).values()].map(rows => ({
    y: Matrix.columnVector(rows.map(i => y[i]!)),
    x: new Matrix(rows.map(i => x[i]!)),
    levels: rows.map(i => levels[i]!),
  }));

/** Cross products of facts and values under one group of a level, and how many rows count there. */
interface Gathered {
  count: number;
  sums: Float64Array;
}

/** The groups of each level from the lowest up, by their places: the group above of each. */
const treeOf = (levels: readonly (readonly string[])[]): { rows: number[]; above: number[][] } => {
  const depth = levels[0]!.length;
  const places = Array.from({ length: depth }, () => new Map<string, number>());
  const above: number[][] = Array.from({ length: depth }, () => []);
  const rows = levels.map(path => {
    let place = -1;
    for (let level = 0; level < depth; level++) {
      const known = places[level]!;
      const next = known.get(path[level]!) ?? known.size;
      if (next === known.size) {
        known.set(path[level]!, next);
        above[level]!.push(place);
      }
      place = next;
    }
    return place;
  });
  return { rows, above };
};

/**
 * The restricted likelihood at given variances. The inverse of nested covariances is taken level by level: adding
 * τ² to all pairs of a group changes X′V⁻¹X by − τ² / (1 + τ² s) u u′, where s = 1′V⁻¹1 and u = X′V⁻¹1, and the
 * determinant by 1 + τ² s.
 * Source: Sherman & Morrison (1950), Annals of Mathematical Statistics 21.
 */
const likelihoodOf = ({ y, x, levels }: MixedData) => {
  const width = x[0]!.length;
  const all = new Matrix(x.map((row, i) => [...row, y[i]!]));
  const products = all.transpose().mmul(all);
  const tree = treeOf(levels);
  const groups = (count: number): Gathered[] =>
    Array.from({ length: count }, () => ({ count: 0, sums: new Float64Array(width + 1) }));
  const lowest = groups(tree.above.at(-1)!.length);
  tree.rows.forEach((place, i) => {
    const group = lowest[place]!;
    group.count++;
    for (let a = 0; a <= width; a++) group.sums[a]! += all.get(i, a);
  });
  return (variances: readonly number[]) => {
    const within = variances.at(-1)!;
    const left = Matrix.mul(products, 1 / within);
    let logs = y.length * Math.log(within);
    let at: Gathered[] = lowest.map(({ count, sums }) => ({
      count: count / within,
      sums: sums.map(x => x / within),
    }));
    for (let level = tree.above.length - 1; level >= 0; level--) {
      const between = variances[level]!;
      const next = level > 0 ? groups(tree.above[level - 1]!.length) : [];
      at.forEach(({ count, sums }, place) => {
        const grown = 1 + between * count;
        logs += Math.log(grown);
        for (let a = 0; a <= width; a++)
          for (let b = 0; b <= width; b++)
            left.set(a, b, left.get(a, b) - (between / grown) * sums[a]! * sums[b]!);
        const up = next[tree.above[level]![place]!];
        if (!up) return;
        up.count += count / grown;
        for (let a = 0; a <= width; a++) up.sums[a]! += sums[a]! / grown;
      });
      at = next;
    }
    const xx = left.subMatrix(0, width - 1, 0, width - 1);
    const xy = left.subMatrix(0, width - 1, width, width);
    // What rounding leaves of asymmetry the decomposition would refuse.
    const fixed = new CholeskyDecomposition(Matrix.add(xx, xx.transpose()).div(2));
    const beta = fixed.solve(xy);
    for (const one of fixed.lowerTriangularMatrix.diagonal()) logs += 2 * Math.log(one);
    const rest = left.get(width, width) - xy.transpose().mmul(beta).get(0, 0);
    return { criterion: logs + rest + (y.length - width) * Math.log(2 * Math.PI), beta, fixed };
  };
};

/** Nelder & Mead (1965), The Computer Journal 7: the least of a function near a start. */
const least = (f: (at: number[]) => number, start: number[], rounds: number): number[] => {
  let points = [start, ...start.map((_, i) => start.map((v, j) => (i === j ? v + 0.7 : v)))].map(at => ({
    at,
    f: f(at),
  }));
  for (let round = 0; round < rounds; round++) {
    points.sort((a, b) => a.f - b.f);
    const worst = points.at(-1)!;
    const others = points.slice(0, -1);
    const middle = start.map((_, j) => others.reduce((sum, { at }) => sum + at[j]!, 0) / others.length);
    const along = (k: number) => {
      const at = middle.map((m, j) => m + k * (worst.at[j]! - m));
      return { at, f: f(at) };
    };
    const mirrored = along(-1);
    let next = mirrored;
    if (mirrored.f < points[0]!.f) {
      const far = along(-2);
      if (far.f < mirrored.f) next = far;
    } else if (mirrored.f >= others.at(-1)!.f) next = along(mirrored.f < worst.f ? -0.5 : 0.5);
    if (next.f < worst.f) points = [...others, next];
    else
      points = points.map(({ at }, i) => {
        if (i === 0) return points[0]!;
        const closer = at.map((v, j) => (v + points[0]!.at[j]!) / 2);
        return { at: closer, f: f(closer) };
      });
  }
  return points.reduce((a, b) => (b.f < a.f ? b : a)).at;
};

/** Fits the model; `rounds` of the search for the variances. Source: Patterson & Thompson (1971), Biometrika 58. */
export const mixedModel = (data: MixedData, start: readonly number[], rounds = 120): MixedModel => {
  const solvedAt = likelihoodOf(data);
  const of = (logs: readonly number[]) => logs.map(log => Math.max(1e-8, Math.exp(log)));
  const found = least(logs => solvedAt(of(logs)).criterion, start.map(Math.log), rounds);
  const variances = of(found);
  const { criterion, beta, fixed } = solvedAt(variances);
  const blocks = blocksOf(data);
  const roots = blocks.map(({ levels }) => new CholeskyDecomposition(covariances(levels, variances)));
  return {
    variances,
    beta: beta.to1DArray(),
    criterion,
    predict(x, levels) {
      const own = Matrix.columnVector([...x]);
      const all = variances.reduce((sum, one) => sum + one, 0);
      const at = blocks.findIndex(block => block.levels[0]![0] === levels[0]);
      const apart = own.clone();
      let mean = own.transpose().mmul(beta).get(0, 0);
      let variance = all;
      if (at >= 0) {
        const block = blocks[at]!;
        const k = Matrix.columnVector(block.levels.map(one => covariance(one, levels, variances)));
        const solved = roots[at]!.solve(k);
        mean += solved
          .transpose()
          .mmul(Matrix.sub(block.y, block.x.mmul(beta)))
          .get(0, 0);
        variance -= k.transpose().mmul(solved).get(0, 0);
        apart.sub(block.x.transpose().mmul(solved));
      }
      return { mean, variance: variance + apart.transpose().mmul(fixed.solve(apart)).get(0, 0) };
    },
  };
};
