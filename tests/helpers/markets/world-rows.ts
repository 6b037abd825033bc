import { jackknife, ratioOfSums } from '../ratio.ts';
import type { Promised } from './judge-promises.ts';
import type { JudgedWorld, WorldCar } from './judge-world.ts';

/** So many of so many. */
interface Share {
  of: number;
  to: number;
}

/** What is kept of one market of a world, as JSON. */
export interface WorldRow {
  world: string;
  seed: number;
  /** Way of taking time that was used. */
  index: string;
  /** Cars inside their 80 % ranges: all, with 0 / 1–2 / 3+ sales, of C1–2.5 / C3–6.5 / C7+. */
  covered: Share;
  bySales: Share[];
  byGrade: Share[];
  /** Sums over the cars of CRPS: ours, and of the reference mixed model. */
  crps: number;
  reference: number;
  medianError: number;
  /** Sums of cars and gains of seasons inside their ranges, and brought ÷ said, added up. */
  sums: Share & { ofMean: number };
  seasons: Share & { ofMean: number };
  promise: Promised;
  workKnown: Promised;
  regret: number;
  behindFloors: number;
  thumbs: Record<string, number>;
}

const shareOf = (list: readonly { covered: boolean }[]): Share => ({
  of: list.filter(({ covered }) => covered).length,
  to: list.length,
});
const sumOf = <T>(list: readonly T[], of: (one: T) => number) => list.reduce((sum, one) => sum + of(one), 0);

export const worldRow = (world: string, seed: number, judged: JudgedWorld): WorldRow => {
  const { cars, sums, seasons, ...rest } = judged;
  const some = (of: (car: WorldCar) => boolean) => shareOf(cars.filter(of));
  const errors = cars.map(({ error }) => Math.abs(error)).toSorted((a, b) => a - b);
  return {
    world,
    seed,
    covered: shareOf(cars),
    bySales: [
      some(({ sales }) => sales === 0),
      some(({ sales }) => sales > 0 && sales < 3),
      some(({ sales }) => sales > 2),
    ],
    byGrade: [
      some(({ grade }) => grade <= 2.5),
      some(({ grade }) => grade > 2.5 && grade < 7),
      some(({ grade }) => grade >= 7),
    ],
    crps: sumOf(cars, car => car.crps),
    reference: sumOf(cars, car => car.reference),
    medianError: errors[errors.length >> 1] ?? 0,
    sums: { ...shareOf(sums), ofMean: sumOf(sums, one => one.ofMean) },
    seasons: { ...shareOf(seasons), ofMean: sumOf(seasons, one => one.ofMid) },
    ...rest,
  };
};

type Statistic = (rows: readonly WorldRow[]) => number;
const share =
  (of: (row: WorldRow) => Share): Statistic =>
  rows =>
    ratioOfSums(rows.map(of));
const regret =
  (of: 'regret' | 'behindFloors'): Statistic =>
  rows => {
    const thumbs = Object.keys(rows[0]!.thumbs).map(key => sumOf(rows, row => row.thumbs[key]!));
    return sumOf(rows, row => row[of]) / Math.min(...thumbs);
  };

/** The columns of the table: what is wanted, and how a figure is printed. */
const figures: { name: string; of: Statistic; percent?: true; digits?: number }[] = [
  { name: 'coverage of 80 %', of: share(row => row.covered), percent: true },
  ...['0 sales', '1–2', '3+'].map((name, i) => ({
    name,
    of: share(row => row.bySales[i]!),
    percent: true as const,
  })),
  { name: 'CRPS', of: rows => sumOf(rows, row => row.crps) / sumOf(rows, row => row.covered.to), digits: 4 },
  {
    name: '÷ mixed model’s',
    of: rows => sumOf(rows, row => row.crps) / sumOf(rows, row => row.reference),
    digits: 3,
  },
  { name: 'sums hold', of: share(row => row.sums), percent: true },
  { name: 'brought ÷ mean', of: share(({ sums }) => ({ of: sums.ofMean, to: sums.to })) },
  { name: 'promised ÷ came', of: share(row => row.promise) },
  { name: 'workmanship as the world’s', of: share(row => row.workKnown) },
  { name: 'regret', of: regret('regret') },
  { name: 'behind floors', of: regret('behindFloors') },
];

const numberOf = (value: number, { percent, digits = 2 }: (typeof figures)[number]) =>
  percent ? (100 * value).toFixed(1) : value.toFixed(digits);

const lineOf = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;

/** Rows by world, in the order of the first of each. */
export const byWorld = (rows: readonly WorldRow[]) => [...Map.groupBy(rows, row => row.world)];

/** A table of all worlds, every figure with its standard error over the markets. */
export const tableOf = (rows: readonly WorldRow[]): string => {
  const lines = byWorld(rows).map(([world, own]) => {
    const cells = figures.map(figure => {
      const { value, error } = jackknife(own, figure.of);
      return `${numberOf(value, figure)} ± ${numberOf(error, figure)}`;
    });
    return lineOf([`${world} (${own.length})`, ...cells]);
  });
  const heads = ['world (seeds)', ...figures.map(({ name }) => name)];
  return [lineOf(heads), lineOf(heads.map(() => '---')), ...lines].join('\n');
};

/**
 * What changed between two runs on the same markets: now less before, with the standard error of the difference
 * of pairs. Markets that only one of them has are left out.
 */
export const changesOf = (before: readonly WorldRow[], now: readonly WorldRow[]): string => {
  const known = new Map(before.map(row => [`${row.world} ${row.seed}`, row]));
  const lines = byWorld(now).flatMap(([world, own]) => {
    const pairs = own.flatMap(row => {
      const was = known.get(`${world} ${row.seed}`);
      return was ? [{ was, is: row }] : [];
    });
    if (pairs.length < 2) return [];
    const cells = figures.map(figure => {
      const { value, error } = jackknife(
        pairs,
        some => figure.of(some.map(({ is }) => is)) - figure.of(some.map(({ was }) => was)),
      );
      return `${value > 0 ? '+' : ''}${numberOf(value, figure)} ± ${numberOf(error, figure)}`;
    });
    return [lineOf([`${world} (${pairs.length})`, ...cells])];
  });
  const heads = ['change', ...figures.map(({ name }) => name)];
  return [lineOf(heads), lineOf(heads.map(() => '---')), ...lines].join('\n');
};
