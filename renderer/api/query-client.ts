import { QueryClient } from '@tanstack/react-query';

/**
 * The service is on this machine: what it said stays true until something is written, then
 * everything is asked anew.
 */
export const queryClient = new QueryClient({
  defaultOptions: {
    queries: {
      staleTime: Number.POSITIVE_INFINITY,
      retry: false,
      refetchOnWindowFocus: false,
      networkMode: 'always',
    },
    mutations: { retry: false, networkMode: 'always' },
  },
});

/** After a write everything shown is asked anew, but for photographs, whose names say what they hold. */
export const askEverythingAnew = (client: QueryClient): Promise<void> =>
  client.invalidateQueries({ predicate: query => query.meta?.immutable !== true });
