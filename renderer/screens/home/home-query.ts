import { api } from '../../api/client.ts';

/** What Home shows; asked for while its code is still loading. */
export const homeQuery = { queryKey: ['home'], queryFn: () => api.collection.home() };
