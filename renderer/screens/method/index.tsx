import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { api } from '../../api/client.ts';
import { useSummary } from '../../api/use-summary.ts';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { StickyIndex } from '../../components/layout/sticky-index.tsx';
import { Example } from './example/example.tsx';
import { Limits } from './limits.tsx';
import classes from './method.module.css';
import { Steps } from './steps.tsx';
import { WhatItIs } from './what-it-is.tsx';

const entries = [
  { id: 'what', label: 'What a value is' },
  { id: 'example', label: 'One car, worked through' },
  { id: 'steps', label: 'The steps' },
  { id: 'advice', label: 'What to do with a car' },
  { id: 'limits', label: 'Limits' },
];

const MethodScreen = () => {
  const assumptions = useQuery({ queryKey: ['assumptions'], queryFn: () => api.collection.assumptions() });
  const { data: summary } = useSummary();
  if (assumptions.error)
    return <ErrorState error={assumptions.error} retry={() => void assumptions.refetch()} />;
  if (!assumptions.data || !summary) return <LoadingState />;
  const { body } = assumptions.data;
  return (
    <>
      <PageHeader
        title="How values are estimated"
        facts="From sale records, by rules that you can read and change"
        actions={<Link href="~/settings">The assumptions, in Settings</Link>}
      />
      <StickyIndex entries={entries} />
      <div className={`page ${classes.body}`}>
        <WhatItIs currency={summary.reportingCurrency} gain={body.decision.conserveGain} />
        <Example currency={summary.reportingCurrency} />
        <Steps assumptions={body} currency={summary.reportingCurrency} />
        <Limits />
      </div>
    </>
  );
};

export default MethodScreen;
