import { Button, Switch } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { Link, Redirect, Route, Switch as Routes, useLocation } from 'wouter';
import type { JobView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useSummary } from '../../api/use-summary.ts';
import { useKeys } from '../../components/keys/use-keys.ts';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { ExportMenu } from '../../components/saved-views/export-menu.tsx';
import { useDeviceChoice } from '../../components/use-device-choice.ts';
import classes from './bench.module.css';
import { FinishScreen } from './finish/finish-screen.tsx';
import { JobPanel } from './job-panel.tsx';
import { isOver } from './job-words.ts';
import { Queue } from './queue.tsx';

const count = (many: number) => `${many} ${many === 1 ? 'car' : 'cars'}`;

/** The queue and the job that is worked on. */
const Workplace = ({ jobs, jobId }: { jobs: readonly JobView[]; jobId: number | null }) => {
  const [, navigate] = useLocation();
  const [large, setLarge] = useDeviceChoice('bench-large');
  const [quiet, setQuiet] = useDeviceChoice('bench-quiet');
  const [showsPast, setShowsPast] = useState(false);
  const queue = jobs.filter(job => !isOver(job));
  const listed = showsPast ? [...queue, ...jobs.filter(isOver)] : queue;
  // What is shown stays, although its clock stops meanwhile.
  const shown = useRef<number | null>(null);
  const job =
    jobs.find(({ id }) => id === jobId) ??
    queue.find(({ id }) => id === shown.current) ??
    queue.find(({ steps }) => steps.some(({ runningSince }) => runningSince !== null)) ??
    queue.find(({ state }) => state === 'open') ??
    queue[0];
  shown.current = job?.id ?? null;
  const walk = (by: number) => {
    const at = queue.findIndex(({ id }) => id === job?.id);
    const next = queue[at + by];
    if (next) navigate(`/${next.id}`);
  };
  useKeys('Bench', [
    { keys: ']', does: 'Next car on the bench', run: () => walk(1) },
    { keys: '[', does: 'Previous car on the bench', run: () => walk(-1) },
    { keys: 'G', does: 'Large type, for a tablet at the bench (on/off)', run: () => setLarge(!large) },
  ]);
  return (
    <div className={classes.screen} data-large={large || undefined}>
      <PageHeader
        title="Bench"
        facts={queue.length === 0 ? 'Nothing to do' : `${count(queue.length)} in the queue`}
        actions={
          <>
            <ExportMenu
              list="jobs"
              rows={() => ({ ids: listed.map(({ id }) => id) })}
              parts={{ shown: 'Jobs shown', whole: 'All jobs' }}
            />
            <Switch
              label="Sound when a step is done"
              checked={!quiet}
              onChange={event => setQuiet(!event.currentTarget.checked)}
            />
            <Switch
              label="Large type"
              checked={large}
              onChange={event => setLarge(event.currentTarget.checked)}
            />
          </>
        }
      />
      <div className={classes.workplace}>
        <Queue jobs={jobs} current={job?.id ?? null} showsPast={showsPast} onPast={setShowsPast} />
        {job ? (
          <JobPanel key={job.id} job={job} jobs={jobs} />
        ) : (
          <EmptyState title="Nothing is left to do" actions={<Link href="~/decide">Choose more cars</Link>}>
            All jobs are done; those that were finished or given up are in the list.
          </EmptyState>
        )}
      </div>
    </div>
  );
};

const Jobs = ({ jobId }: { jobId: number | null }) => {
  const jobs = useQuery({ queryKey: ['bench'], queryFn: () => api.bench.list() });
  if (jobs.error) return <ErrorState error={jobs.error} retry={jobs.refetch} />;
  if (!jobs.data)
    return (
      <>
        <PageHeader title="Bench" />
        <LoadingState label="Looking at the bench" />
      </>
    );
  if (jobs.data.length === 0)
    return (
      <>
        <PageHeader title="Bench" facts="No jobs yet" />
        <div className="page">
          <EmptyState
            title="Nothing is on the bench"
            actions={
              <Button component={Link} href="~/decide" variant="filled">
                Choose cars in Decide
              </Button>
            }
          >
            Choose the cars of a season in Decide and put them on the bench, or put one there from its own
            page. Here each is a list of steps to mark as done, with clocks, notes, photographs, parts and
            materials.
          </EmptyState>
        </div>
      </>
    );
  return <Workplace jobs={jobs.data} jobId={jobId} />;
};

const Finish = ({ carId, jobId }: { carId: number; jobId: number | null }) => {
  const summary = useSummary();
  if (summary.error) return <ErrorState error={summary.error} retry={summary.refetch} />;
  if (!summary.data) return <LoadingState />;
  return (
    <FinishScreen
      carId={carId}
      jobId={jobId}
      currency={summary.data.reportingCurrency}
      today={summary.data.today}
    />
  );
};

const Bench = () => (
  <Routes>
    <Route path="/finish/:carId/:jobId">
      {({ carId, jobId }) => <Finish carId={Number(carId)} jobId={Number(jobId)} />}
    </Route>
    <Route path="/finish/:carId">{({ carId }) => <Finish carId={Number(carId)} jobId={null} />}</Route>
    <Route path="/:id">{({ id }) => <Jobs jobId={Number(id)} />}</Route>
    <Route path="/">
      <Jobs jobId={null} />
    </Route>
    <Route>
      <Redirect to="/" />
    </Route>
  </Routes>
);

export default Bench;
