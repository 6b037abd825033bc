import { useMemo } from 'react';
import { useLocation, useSearch } from 'wouter';
import { decideFilterIn } from '../../../valuation/reading/list-address.ts';
import { type Filter, writeFilter } from './filter/filter.ts';

/** The filter that the address asks for, and the car that it names; null where it names none. */
export const useDecideFilter = () => {
  const query = useSearch();
  const [, navigate] = useLocation();
  const filter = useMemo(() => decideFilterIn(query), [query]);
  const setFilter = (next: Filter) => {
    const text = writeFilter(next);
    navigate(text === '' ? '~/decide' : `~/decide?${text}`, { replace: true });
  };
  const asked = Number(new URLSearchParams(query).get('car'));
  return { filter, setFilter, named: Number.isSafeInteger(asked) && asked > 0 ? asked : null };
};
