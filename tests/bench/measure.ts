/** One line of the bench: a piece of work, what it took, and what it is to be at most. */
export interface Measure {
  work: string;
  value: number;
  unit: 'ms' | 's' | 'MB' | 'kB' | 'rows';
  /** What is run beside it on the same machine, in the same unit, to compare machines and runs by. */
  beside?: { what: string; value: number };
  /** At most this: of the value, or of its ratio to what is run beside it. Null where nothing is promised. */
  goal: number | null;
  goalOf?: 'value' | 'ratio';
}

export const ratioOf = ({ value, beside }: Measure): number | null =>
  beside && beside.value > 0 ? value / beside.value : null;

export const isMissed = (measure: Measure): boolean => {
  const reached = measure.goalOf === 'ratio' ? ratioOf(measure) : measure.value;
  return measure.goal !== null && reached !== null && reached > measure.goal;
};

const number = (value: number) => value.toFixed(value < 10 ? 2 : value < 100 ? 1 : 0);

/** "Home after one edit   41.2 ms   ≤ 50 ms", with the ratio to what is run beside it. */
export const lineOf = (measure: Measure): string => {
  const { work, value, unit, beside, goal, goalOf } = measure;
  const ratio = ratioOf(measure);
  return [
    work.padEnd(58),
    `${number(value)} ${unit}`.padStart(12),
    (goal === null ? '' : `≤ ${goal}${goalOf === 'ratio' ? ' ×' : ` ${unit}`}`).padStart(12),
    isMissed(measure) ? '  MISSED' : '        ',
    beside && ratio !== null ? `  ${number(ratio)} × ${beside.what} (${number(beside.value)} ${unit})` : '',
  ]
    .join('')
    .trimEnd();
};

/**
 * Prints a measure, and hands it to `run.ts` where that started this program. A missed goal is told by the
 * exit code.
 */
export const measured = (measure: Measure): void => {
  console.log(lineOf(measure));
  process.send?.(measure);
  if (isMissed(measure)) process.exitCode = 1;
};

/**
 * What some work takes in processor time of this process, all its threads counted, which a busy machine
 * distorts least.
 */
export const timed = async <T>(work: () => T | Promise<T>): Promise<{ result: T; ms: number }> => {
  const before = process.cpuUsage();
  const result = await work();
  const { user, system } = process.cpuUsage(before);
  return { result, ms: (user + system) / 1000 };
};
