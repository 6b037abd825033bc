import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { CastingRow } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { api } from '../../api/client.ts';
import type { BeliefSubject } from '../../components/beliefs/belief-form.tsx';
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

/** What the owner believes of anything in the reference. */
export const BeliefsSection = ({ currency }: { currency: Currency }) => {
  const { data: castings } = useQuery({
    queryKey: ['castings'],
    queryFn: () => api.reference.castings(),
  });
  const subjects = useMemo(() => castings && subjectsOf(castings), [castings]);
  return <Beliefs subjects={subjects ?? null} reporting={currency} />;
};
