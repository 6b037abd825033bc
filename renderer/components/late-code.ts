import { type ComponentType, lazy, useState } from 'react';

/** A component whose code is fetched when it is first shown, or before. */
export interface LateCode<Props extends object> {
  Later: ComponentType<Props>;
  /** Once it is there. */
  fetched: ComponentType<Props> | null;
  /** Fetches it, so that showing it waits for nothing; a failure shows itself when it is shown. */
  fetchAhead: () => Promise<void>;
}

export const lateCode = <Props extends object>(
  load: () => Promise<{ default: ComponentType<Props> }>,
): LateCode<Props> => {
  const code: LateCode<Props> = {
    Later: lazy(load) as unknown as ComponentType<Props>,
    fetched: null,
    fetchAhead: () =>
      load().then(
        module => {
          code.fetched = module.default;
        },
        () => undefined,
      ),
  };
  return code;
};

/**
 * The component itself where its code is there, else one that waits for it. React's `lazy` alone would wait
 * in either case, and a place that waits, however shortly, is kept on its fallback for 300 ms.
 */
export const useLate = <Props extends object>(code: LateCode<Props>): ComponentType<Props> =>
  // The one of the first time stays: what is shown would lose its state if the other took over.
  useState<ComponentType<Props>>(() => code.fetched ?? code.Later)[0];
