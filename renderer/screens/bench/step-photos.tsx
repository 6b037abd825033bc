import { Button, SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import type { JobView } from '../../../electron/api/views.ts';
import { type PhotoMoment, photoMoments } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { pictureTypes, useFilePicker } from '../../components/files/use-file-picker.tsx';
import { photographsAdded, tellRefused } from '../../components/photo/added.ts';
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
  const add = useAction(
    (files: File[]) => api.bench.addPhotos({ jobId: job.id, stepId: step.id, moment, files }),
    {
      label: (_, { added }) => photographsAdded(added),
      failure: 'Not added',
      onDone: ({ refused }) => tellRefused(refused),
    },
  );
  const picker = useFilePicker({
    label: `Photographs of ${step.name}`,
    accept: pictureTypes,
    multiple: true,
    testId: `photos-of-${step.step}`,
    onFiles: files => add.mutate(files),
  });
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
          {picker.field}
          <Button loading={add.isPending} onClick={picker.choose}>
            Add photographs
          </Button>
        </>
      )}
    </div>
  );
};
