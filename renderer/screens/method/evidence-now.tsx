import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { evidenceCountText } from '../../../valuation/wording/values/evidence-text.ts';
import { api } from '../../api/client.ts';

/** What of each kind of evidence counts in this collection, and how many values rest mainly on it. */
export const EvidenceNow = () => {
  const { data } = useQuery({ queryKey: ['evidence now'], queryFn: () => api.worth.evidence() });
  return (
    <p aria-busy={data === undefined}>
      {data ? evidenceCountText(data) : null} <Link href="~/lots">Your lots</Link> say which purchases count,{' '}
      <Link href="~/settings?part=beliefs">Settings</Link> what you believe.
    </p>
  );
};
