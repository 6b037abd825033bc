import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import { useSearch } from 'wouter';
import type { CastingRow } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { grades } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import type { AskedBelief, BeliefSubject } from '../../components/beliefs/belief-form.tsx';
import { Beliefs } from '../../components/beliefs/beliefs.tsx';

/** Every series, then every casting; variations are on their casting's own page. */
const subjectsOf = (castings: readonly CastingRow[]): BeliefSubject[] => {
  const series = new Map(castings.map(casting => [casting.seriesId, casting]));
  return [
    ...[...series].map(
      ([of, { maker, series: name }]): BeliefSubject => ({
        level: 'series',
        of,
        label: `Series ${name}, ${maker}`,
      }),
    ),
    ...castings.map(
      ({ id, name, series: its }): BeliefSubject => ({
        level: 'casting',
        of: id,
        label: `${name}, ${its}`,
      }),
    ),
  ];
};

/** The belief that the address asks for; undefined where it asks for none that can be said. */
const askedIn = (query: URLSearchParams, subjects: readonly BeliefSubject[]): AskedBelief | undefined => {
  const of = Number(query.get('series'));
  const grade = Number(query.get('grade'));
  const isKnown = subjects.some(subject => subject.level === 'series' && subject.of === of);
  return isKnown && grades.some(one => one === grade) ? { level: 'series', of, grade } : undefined;
};

/** What the owner believes of anything in the reference. */
export const BeliefsSection = ({ currency }: { currency: Currency }) => {
  const { data: castings } = useQuery({
    queryKey: ['castings'],
    queryFn: () => api.reference.castings(),
  });
  const subjects = useMemo(() => castings && subjectsOf(castings), [castings]);
  const query = useSearch();
  const asked = useMemo(() => subjects && askedIn(new URLSearchParams(query), subjects), [query, subjects]);
  return <Beliefs subjects={subjects ?? null} reporting={currency} asked={asked} />;
};
