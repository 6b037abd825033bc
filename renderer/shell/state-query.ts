import { api } from '../api/client.ts';

/** Whether a collection is open, and which. */
export const stateQuery = { queryKey: ['collection state'], queryFn: () => api.collection.state() };
