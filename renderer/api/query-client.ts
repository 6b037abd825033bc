import { QueryClient } from '@tanstack/react-query';

/**
 * The service is on this machine: what it said stays true until something is written, then
 * everything is asked again.
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

/** After a write everything shown is asked again, but for photographs, whose names say what they hold. */
export const askEverythingAgain = (client: QueryClient): Promise<void> =>
  client.invalidateQueries({ predicate: query => query.meta?.immutable !== true });
