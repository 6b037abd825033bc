import { useQuery } from '@tanstack/react-query';
import type { BeliefView } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { api } from '../../api/client.ts';
import { ErrorState } from '../layout/error-state.tsx';
import { LoadingState } from '../layout/loading-state.tsx';
import { Section } from '../layout/section.tsx';
import { type AskedBelief, BeliefForm, type BeliefSubject } from './belief-form.tsx';
import { BeliefList } from './belief-list.tsx';
import classes from './beliefs.module.css';

/** "What you believe": a form, and what was said before of the cars that it is about. */
export const Beliefs = ({
  subjects,
  reporting,
  isAbout,
  asked,
}: {
  /** Null while they are being loaded. */
  subjects: readonly BeliefSubject[] | null;
  reporting: Currency;
  /** Which beliefs to list; without it, all. */
  isAbout?: (belief: BeliefView) => boolean;
  /** What its reader was asked about on the way here. */
  asked?: AskedBelief | undefined;
}) => {
  const all = useQuery({ queryKey: ['beliefs'], queryFn: () => api.beliefs.list() });
  const content = () => {
    if (all.error) return <ErrorState error={all.error} retry={() => void all.refetch()} />;
    if (!all.data || !subjects) return <LoadingState part />;
    const listed = isAbout ? all.data.filter(isAbout) : all.data;
    return (
      <>
        <p className={classes.lead}>
          Say what you know from experience: what such a complete car brings, from and to, in eight cases of
          ten. It counts beside the records and what you paid, as one sale unless the assumptions say
          otherwise. Each value says how much of it rests on this, and sale records overrule it as they come.
        </p>
        {subjects.length === 0 ? (
          <p className="soft grid-text">The reference has no castings yet.</p>
        ) : (
          <BeliefForm
            key={asked && `${asked.of} ${asked.grade}`}
            subjects={subjects}
            reporting={reporting}
            asked={asked}
          />
        )}
        {listed.length > 0 ? (
          <BeliefList beliefs={listed} subjects={subjects} reporting={reporting} />
        ) : (
          <p className="soft grid-text">Nothing said yet.</p>
        )}
      </>
    );
  };
  return (
    <Section id="beliefs" title="What you believe" aside="counts beside sale records">
      {content()}
    </Section>
  );
};
