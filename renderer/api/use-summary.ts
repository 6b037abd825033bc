import { type UseQueryResult, useQuery } from '@tanstack/react-query';
import type { CollectionSummary } from '../../electron/api/views.ts';
import { api } from './client.ts';

/** The open collection at a glance: its name, reporting currency, effective date and counts. */
export const useSummary = (): UseQueryResult<CollectionSummary> =>
  useQuery({ queryKey: ['summary'], queryFn: () => api.collection.summary() });
