import { api } from '../../api/client.ts';
import { untilWorkedOut } from '../../components/layout/of-before.tsx';

/** What Home shows; asked for while its code is still loading. */
export const homeQuery = {
  queryKey: ['home'],
  queryFn: () => api.collection.home(),
  refetchInterval: untilWorkedOut,
};
