import highsModule, { type Highs } from 'highs';

/** What each candidate gains, and how much of each limited thing it uses: `uses` has one row per limit. */
export interface Choice {
  gains: readonly number[];
  uses: readonly (readonly number[])[];
  limits: readonly number[];
  /**
   * Candidates of which one at most can be chosen, as lists of their places; just one of those that are
   * `needed`.
   */
  groups?: readonly { members: readonly number[]; needed: boolean }[];
}

/** When to stop a solve before the optimum is proved. */
export interface Stop {
  /** Relative gap that is good enough. */
  gap: number;
  /** Gain that is good enough. */
  target?: number;
  /**
   * True when the choice found, `gap` from the optimum at most, is good enough after so
   * many simplex iterations.
   */
  enough?: (iterations: number, gap: number) => boolean;
  /** True when the caller no longer wants an answer. */
  halted: () => boolean;
}

export interface Solved {
  /** Share 0…1 of each candidate, whole in a choice; null where none was found before the stop. */
  shares: number[] | null;
  /** What each candidate's gain exceeds its use of the limits by, at their prices; of a relaxation only. */
  reducedCosts: number[];
  /** What one more unit of each limit would add; of a relaxation only. */
  prices: number[];
  gap: number;
  iterations: number;
}

/**
 * A choice under limits inside the solver, to be solved, changed and solved again. Its owner disposes of it.
 */
export interface LimitsModel {
  solve: (stop: Stop, start?: readonly number[]) => Solved | 'halted' | 'impossible';
  setLimit: (index: number, limit: number) => void;
  /** Bounds of each candidate's share. */
  setBounds: (lower: readonly number[], upper: readonly number[]) => void;
  dispose: () => void;
}

/** The solver takes no infinity for a target; none of our gains comes near this. */
const beyondReach = 1e300;

/** The loader is the default export itself; the package's types, being CommonJS, put it one level lower. */
const loadHighs = highsModule as unknown as typeof highsModule.default;

let solver: Promise<Highs> | undefined;
/** The solver, compiled once per process; a failed attempt is not kept. */
export const loadSolver = (): Promise<Highs> => {
  const loading = solver ?? loadHighs();
  solver = loading;
  loading.catch(() => {
    solver = undefined;
  });
  return loading;
};

/**
 * The power of two that brings the largest of `values` to between 1 and 2, so that scaling rounds nothing.
 */
const powerOfTwo = (values: readonly number[]): number => {
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return largest > 0 ? 2 ** -Math.floor(Math.log2(largest)) : 1;
};

/**
 * Opens a model of the choice; with `whole` false, of its relaxation, in which candidates may be chosen in
 * part.
 * Each limit is scaled to its largest use, so that the solver's tolerances are relative.
 */
export const openLimitsModel = (
  highs: Highs,
  { gains, uses, limits, groups = [] }: Choice,
  whole: boolean,
): LimitsModel => {
  const { modelStatus, callbackType, variableType, objectiveSense } = highs.constants;
  const scales = uses.map(powerOfTwo);
  const gainScale = 1024 * powerOfTwo(gains);
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
  for (const { members } of groups) {
    for (const j of members) {
      indices.push(j);
      values.push(1);
    }
    starts.push(indices.length);
  }
  const rows = limits.length + groups.length;
  const model = highs.createModel({
    numCols: gains.length,
    numRows: rows,
    sense: objectiveSense.maximize,
    colCost: gains.map(gain => gain * gainScale),
    colLower: gains.map(() => 0),
    colUpper: gains.map(() => 1),
    rowLower: [
      ...limits.map(() => -highs.infinity),
      ...groups.map(({ needed }) => (needed ? 1 : -highs.infinity)),
    ],
    rowUpper: [...limits.map((limit, i) => limit * scales[i]!), ...groups.map(() => 1)],
    matrix: { format: 'csr', numRows: rows, numCols: gains.length, starts, indices, values },
    integrality: gains.map(() => (whole ? variableType.integer : variableType.continuous)),
  });
  model.options.set({ output_flag: false, mip_abs_gap: 1e-9, mip_feasibility_tolerance: 1e-9 });

  const solve: LimitsModel['solve'] = (stop, start) => {
    if (stop.halted()) return 'halted';
    model.options.set({
      mip_rel_gap: stop.gap,
      objective_target: stop.target === undefined ? beyondReach : stop.target * gainScale,
    });
    if (start) model.setSolution({ colValue: [...start] });
    model.run({
      [callbackType.mipInterrupt](event) {
        const { mip_total_lp_iterations: iterations, mip_gap: gap } = event.data;
        const enough = stop.enough?.(Number(iterations ?? 0), gap ?? Number.POSITIVE_INFINITY);
        if (enough || stop.halted()) event.interrupt();
      },
    });
    if (stop.halted()) return 'halted';
    const status = model.getModelStatus();
    if (status === modelStatus.infeasible || status === modelStatus.unboundedOrInfeasible)
      return 'impossible';
    const expected = [modelStatus.optimal, modelStatus.interrupted, modelStatus.objectiveTarget];
    if (!expected.some(one => one === status)) throw new Error(`The solver ended with status ${status}`);
    const found = Number(model.info.get('primal_solution_status')) === 2;
    const { colValue, colDual, rowDual } = model.getSolution();
    return {
      shares: found ? Array.from(colValue, x => (whole ? Math.round(x) : x)) : null,
      reducedCosts: Array.from(colDual),
      prices: scales.map((scale, i) => (Math.abs(rowDual[i] ?? 0) * scale) / gainScale),
      gap: whole ? Number(model.info.get('mip_gap')) : 0,
      iterations: Number(model.info.get('simplex_iteration_count')),
    };
  };
  return {
    solve,
    setLimit: (index, limit) => {
      model.changeRowBounds(index, -highs.infinity, limit * scales[index]!);
    },
    setBounds: (lower, upper) => {
      const all = { kind: 'range', from: 0, to: gains.length - 1 } as const;
      model.changeColsBounds(all, [...lower], [...upper]);
    },
    dispose: () => model.dispose(),
  };
};
