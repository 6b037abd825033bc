import type { CastingPage } from '../../../../electron/api/views.ts';
import { useSummary } from '../../../api/use-summary.ts';
import type { BeliefSubject } from '../../../components/beliefs/belief-form.tsx';
import { Beliefs } from '../../../components/beliefs/beliefs.tsx';

/** What the owner believes of a casting, of its series, and of each of its variations. */
export const CastingBeliefs = ({ casting }: { casting: CastingPage }) => {
  const { data: summary } = useSummary();
  if (!summary) return null;
  const { id, name, series, seriesId, variationRows } = casting;
  const subjects: BeliefSubject[] = [
    { level: 'casting', of: id, label: `A common ${name}` },
    { level: 'series', of: seriesId, label: `A common car of the series ${series}` },
    ...variationRows.map((row): BeliefSubject => ({ level: 'variation', of: row.id, label: row.label })),
  ];
  return (
    <Beliefs
      subjects={subjects}
      reporting={summary.reportingCurrency}
      isAbout={belief => belief.castingId === id || (belief.level === 'series' && belief.of === seriesId)}
    />
  );
};
