/** Long work in steps: whoever runs it may do something else after each. */
export type InTurns<Result> = Generator<undefined, Result, undefined>;

/** Runs all steps one after the other. */
export const atOnce = <Result>(work: InTurns<Result>): Result => {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
};
