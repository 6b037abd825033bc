import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { ReportDefinitionView } from '../../../electron/api/reports/definitions.ts';
import type { ReportResult } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { askOnlyAgain } from '../../api/query-client.ts';
import { useProgress } from '../../api/use-progress.ts';
import { useSummary } from '../../api/use-summary.ts';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { WorkProgress } from '../../components/notices/work-progress.tsx';
import { MadePaper } from '../../components/papers/made-paper.tsx';
import { GallerySection } from './gallery-section.tsx';
import { NothingToReport } from './nothing-to-report.tsx';
import { OtherPapers } from './other-papers.tsx';
import { choiceOf, type ReportChoice, reportInput, startingChoice } from './report-choice.ts';
import { ReportForm } from './report-form.tsx';
import classes from './reports.module.css';
import { SavedReports } from './saved-reports.tsx';
import { Sheet } from './sheet.tsx';

const ReportsScreen = () => {
  const summary = useSummary();
  const lots = useQuery({ queryKey: ['lots'], queryFn: () => api.lots.list() });
  const [own, setOwn] = useState<ReportChoice | null>(null);
  const [definition, setDefinition] = useState<string | undefined>(undefined);
  const [again, setAgain] = useState<ReportDefinitionView | null>(null);
  const [times, setTimes] = useState(0);
  const work = useProgress<ReportResult>();
  const client = useQueryClient();
  const failed = summary.error ?? lots.error;
  if (failed) return <ErrorState error={failed} retry={summary.error ? summary.refetch : lots.refetch} />;
  if (!summary.data || !lots.data) return <LoadingState />;
  const choice = own ?? startingChoice(summary.data);
  const change = (next: Partial<ReportChoice>) => {
    setOwn({ ...choice, ...next });
    setDefinition(undefined);
    if (work.state.is !== 'running') work.reset();
  };
  const makeAgain = (chosen: ReportDefinitionView) => {
    const { name, wanted } = chosen;
    if ('kind' in wanted) {
      setAgain(chosen);
      setTimes(times + 1);
      return;
    }
    const again = { ...startingChoice(summary.data), ...choiceOf(wanted) };
    setOwn(again);
    setDefinition(name);
    window.scrollTo({ top: 0 });
    void work.start(signal => api.reports.make({ ...reportInput(again), preview: true }, { signal }));
  };
  const { cars, seenCars, castings, saleRecords } = summary.data.counts;
  if (cars + seenCars === 0)
    return (
      <>
        <NothingToReport />
        {castings + saleRecords > 0 ? (
          <OtherPapers today={summary.data.today} lots={lots.data} again={null} withoutCars />
        ) : null}
      </>
    );
  return (
    <>
      <PageHeader
        title="Reports"
        facts="For an insurer, an heir or a buyer: what there is, its condition, its value, and how that was found"
      />
      <div className={`page ${classes.split}`}>
        <div>
          <ReportForm
            choice={choice}
            lots={lots.data}
            today={summary.data.today}
            busy={work.state.is === 'running'}
            onChange={change}
            onMake={() =>
              void work.start(signal =>
                api.reports.make({ ...reportInput(choice), preview: true }, { signal }),
              )
            }
          />
          <div className={classes.outcome} aria-live="polite">
            <WorkProgress work={work} label="Making the report" />
            {work.state.is === 'done' ? (
              <MadePaper
                result={work.state.result}
                definition={definition}
                onSaved={() => void askOnlyAgain(client, 'reports-kept')}
              />
            ) : null}
          </div>
        </div>
        <Sheet
          choice={choice}
          summary={summary.data}
          lot={lots.data.find(lot => lot.id === choice.lotId) ?? null}
        />
      </div>
      <SavedReports choice={choice} onChoose={makeAgain} />
      <OtherPapers key={times} today={summary.data.today} lots={lots.data} again={again} />
      <GallerySection summary={summary.data} lots={lots.data} />
    </>
  );
};

export default ReportsScreen;
