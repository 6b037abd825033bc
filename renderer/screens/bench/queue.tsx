import { ActionIcon } from '@mantine/core';
import { IconArrowDown, IconArrowUp } from '@tabler/icons-react';
import { useEffect, useRef } from 'react';
import { Link } from 'wouter';
import type { JobView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { Photo } from '../../components/photo/photo.tsx';
import { readerWords } from '../../components/words.ts';
import classes from './bench.module.css';
import { isOver, progressOf } from './job-words.ts';
import own from './queue.module.css';

const Entry = ({ job, current }: { job: JobView; current: boolean }) => {
  const { over, all } = progressOf(job);
  return (
    <Link href={`/${job.id}`} className={own.entry} aria-current={current ? 'page' : undefined}>
      <span className={own.entryPhoto}>
        <Photo sha256={job.photo} alt="" width={64} height={42} />
      </span>
      <span className={own.entryText}>
        <span>
          <strong>{job.inventoryNumber}</strong> {job.casting}
        </span>
        <span className={classes.soft}>
          {readerWords().spell(job.kind)} · {isOver(job) || job.state === 'paused' ? `${job.state} · ` : ''}
          {over} of {all} steps
        </span>
        <span className={own.rule} aria-hidden="true">
          <span style={{ width: `${all === 0 ? 0 : (over / all) * 100}%` }} />
        </span>
      </span>
    </Link>
  );
};

/** The cars on the bench in the order in which they are to be done; below, the jobs that are over. */
export const Queue = ({
  jobs,
  current,
  showsPast,
  onPast,
}: {
  jobs: readonly JobView[];
  current: number | null;
  /** Whether the jobs that are over are in sight. */
  showsPast: boolean;
  onPast: (shows: boolean) => void;
}) => {
  const queue = jobs.filter(job => !isOver(job));
  const past = jobs.filter(isOver);
  const reorder = useAction((ids: number[]) => api.bench.reorder({ ids }), { label: 'Bench reordered' });
  const shift = (at: number, by: number) => {
    const ids = queue.map(({ id }) => id);
    const [moved] = ids.splice(at, 1);
    if (moved === undefined) return;
    ids.splice(at + by, 0, moved);
    reorder.mutate(ids);
  };
  const list = useRef<HTMLOListElement>(null);
  // Where the queue is a strip, the car that is worked on is in sight; nothing but the strip moves.
  // biome-ignore lint/correctness/useExhaustiveDependencies: whenever another car is worked on
  useEffect(() => {
    const frame = list.current?.getBoundingClientRect();
    const card = list.current?.querySelector('[aria-current]')?.getBoundingClientRect();
    if (!list.current || !frame || !card) return;
    if (card.left < frame.left || card.right > frame.right) list.current.scrollLeft += card.left - frame.left;
  }, [current]);
  return (
    <nav className={own.queue} aria-label="Cars on the bench">
      <ol ref={list}>
        {queue.map((job, at) => (
          <li key={job.id}>
            <Entry job={job} current={job.id === current} />
            <span className={own.shift}>
              <ActionIcon
                aria-label={`${job.inventoryNumber} earlier`}
                disabled={at === 0}
                onClick={() => shift(at, -1)}
              >
                <IconArrowUp size={14} />
              </ActionIcon>
              <ActionIcon
                aria-label={`${job.inventoryNumber} later`}
                disabled={at === queue.length - 1}
                onClick={() => shift(at, 1)}
              >
                <IconArrowDown size={14} />
              </ActionIcon>
            </span>
          </li>
        ))}
      </ol>
      {past.length > 0 ? (
        <details open={showsPast} onToggle={event => onPast(event.currentTarget.open)}>
          <summary>Over: {past.length}</summary>
          <ol>
            {past.map(job => (
              <li key={job.id}>
                <Entry job={job} current={job.id === current} />
              </li>
            ))}
          </ol>
        </details>
      ) : null}
    </nav>
  );
};
