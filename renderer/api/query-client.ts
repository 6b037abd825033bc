import { type Query, QueryClient } from '@tanstack/react-query';

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

/**
 * Asks again. What is on its way for the first time is asked once more when it is there: it may be from
 * before the write, and the library takes it for an answer that came after.
 */
const askAgain = async (client: QueryClient, which: (query: Query) => boolean): Promise<void> => {
  const first = client
    .getQueryCache()
    .findAll({ fetchStatus: 'fetching', predicate: query => query.state.data === undefined && which(query) });
  await client.invalidateQueries({ predicate: which });
  if (first.length === 0) return;
  await Promise.allSettled(first.map(query => query.promise));
  await client.invalidateQueries({ predicate: query => first.includes(query) });
};

/** After a write everything shown is asked again, but for photographs, whose names say what they hold. */
export const askEverythingAgain = (client: QueryClient): Promise<void> =>
  askAgain(client, query => query.meta?.immutable !== true);

/** After a write that changes nothing but these: the first word of what they are asked by. */
export const askOnlyAgain = (client: QueryClient, ...subjects: string[]): Promise<void> =>
  askAgain(client, ({ queryKey: [subject] }) => subjects.includes(String(subject)));
