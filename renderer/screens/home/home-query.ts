import type { Query } from '@tanstack/react-query';
import type { HomeView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';

/** Asked again so often while the service still works the new figures out. */
const whileWorkingOut = 1000;

/** What Home shows; asked for while its code is still loading. */
export const homeQuery = {
  queryKey: ['home'],
  queryFn: () => api.collection.home(),
  refetchInterval: ({ state }: Query<HomeView>) => (state.data?.workingOut ? whileWorkingOut : false),
};
