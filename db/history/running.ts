import { AsyncLocalStorage } from 'node:async_hooks';

const actions = new AsyncLocalStorage<string>();

/** Runs `work` as the action that is running in a collection's folder, for whatever it calls and awaits. */
export const asAction = <T>(dir: string, work: () => Promise<T>): Promise<T> => actions.run(dir, work);

/** Throws when the calling code runs inside an action of this collection. */
export const refuseInsideAction = (dir: string, message: string): void => {
  if (actions.getStore() === dir) throw new Error(message);
};
