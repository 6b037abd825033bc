/**
 * Runs works one after the other, in the order in which they were asked for; one that fails holds up none.
 */
export const oneAtATime = () => {
  let turn: Promise<unknown> = Promise.resolve();
  return <T>(work: () => Promise<T>): Promise<T> => {
    const result = turn.then(work);
    turn = result.catch(() => {});
    return result;
  };
};
