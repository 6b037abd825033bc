import { Button, SegmentedControl } from '@mantine/core';
import { useRef, useState } from 'react';
import type { JobView } from '../../../electron/api/views.ts';
import { type PhotoMoment, photoMoments } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { Photo } from '../../components/photo/photo.tsx';
import classes from './bench.module.css';

type Step = JobView['steps'][number];

/** Before the first step and after the last, else during the work. */
const usualMoment = (job: JobView, step: Step): PhotoMoment =>
  step === job.steps[0] ? 'before' : step === job.steps.at(-1) ? 'after' : 'during';

/** The photographs that were taken at a step, and adding more. */
export const StepPhotos = ({ job, step, disabled }: { job: JobView; step: Step; disabled: boolean }) => {
  const photos = job.photos.filter(({ stepId }) => stepId === step.id);
  const [moment, setMoment] = useState(() => usualMoment(job, step));
  const picker = useRef<HTMLInputElement>(null);
  const add = useAction(
    (files: File[]) => api.bench.addPhotos({ jobId: job.id, stepId: step.id, moment, files }),
    {
      label: files => (files.length === 1 ? 'Photograph added' : `${files.length} photographs added`),
      failure: 'Not added',
    },
  );
  if (disabled && photos.length === 0) return null;
  return (
    <div className={classes.photos}>
      {photos.map(photo => (
        <figure key={photo.id}>
          <Photo sha256={photo.sha256} alt={`${step.name}, ${photo.moment}`} width={96} height={64} />
          <figcaption>{photo.moment}</figcaption>
        </figure>
      ))}
      {disabled ? null : (
        <>
          <SegmentedControl
            aria-label="When they are taken"
            data={[...photoMoments]}
            value={moment}
            onChange={value => setMoment(value as PhotoMoment)}
          />
          <input
            ref={picker}
            type="file"
            accept="image/jpeg,image/png,image/webp,image/avif,image/tiff,image/gif"
            multiple
            hidden
            data-testid={`photos-of-${step.step}`}
            onChange={event => {
              const files = [...(event.currentTarget.files ?? [])];
              event.currentTarget.value = '';
              if (files.length > 0) add.mutate(files);
            }}
          />
          <Button loading={add.isPending} onClick={() => picker.current?.click()}>
            Add photographs
          </Button>
        </>
      )}
    </div>
  );
};
