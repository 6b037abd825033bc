import { CholeskyDecomposition, Matrix } from 'ml-matrix';

/**
 * A linear mixed model with nested random intercepts, fitted by restricted maximum likelihood: an independent
 * reference for the engine, dense within each group of the topmost level. `levels` come from the topmost down.
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

const blocksOf = ({ y, x, levels }: MixedData): Block[] =>
  [...Map.groupBy(y.keys(), i => levels[i]![0]!).values()].map(rows => ({
    y: Matrix.columnVector(rows.map(i => y[i]!)),
    x: new Matrix(rows.map(i => x[i]!)),
    levels: rows.map(i => levels[i]!),
  }));

const solvedAt = (blocks: readonly Block[], variances: readonly number[], count: number) => {
  const width = blocks[0]!.x.columns;
  const xx = Matrix.zeros(width, width);
  const xy = Matrix.zeros(width, 1);
  let yy = 0;
  let logs = 0;
  const roots = blocks.map(({ x, y, levels }) => {
    const v = new Matrix(
      levels.map((a, i) =>
        levels.map((b, j) => covariance(a, b, variances) + (i === j ? variances.at(-1)! : 0)),
      ),
    );
    const root = new CholeskyDecomposition(v);
    const solved = root.solve(x);
    const ofY = root.solve(y);
    xx.add(x.transpose().mmul(solved));
    xy.add(x.transpose().mmul(ofY));
    yy += y.transpose().mmul(ofY).get(0, 0);
    for (const one of root.lowerTriangularMatrix.diagonal()) logs += 2 * Math.log(one);
    return root;
  });
  // What rounding leaves of asymmetry the decomposition would refuse.
  const fixed = new CholeskyDecomposition(Matrix.add(xx, xx.transpose()).div(2));
  const beta = fixed.solve(xy);
  for (const one of fixed.lowerTriangularMatrix.diagonal()) logs += 2 * Math.log(one);
  const rest = yy - xy.transpose().mmul(beta).get(0, 0);
  return { criterion: logs + rest + (count - width) * Math.log(2 * Math.PI), beta, fixed, roots };
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
  const blocks = blocksOf(data);
  const count = data.y.length;
  const of = (logs: readonly number[]) => logs.map(log => Math.max(1e-8, Math.exp(log)));
  const found = least(logs => solvedAt(blocks, of(logs), count).criterion, start.map(Math.log), rounds);
  const variances = of(found);
  const { criterion, beta, fixed, roots } = solvedAt(blocks, variances, count);
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
