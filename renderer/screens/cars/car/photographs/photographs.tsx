import { Button, Modal } from '@mantine/core';
import { useState } from 'react';
import type { CarPage } from '../../../../../electron/api/views.ts';
import { carTitle } from '../../../../../valuation/wording/cars/car-names.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { useFileDrop } from '../../../../components/files/use-file-drop.ts';
import { pictureTypes, useFilePicker } from '../../../../components/files/use-file-picker.tsx';
import { dateText } from '../../../../components/format.ts';
import { useKeys } from '../../../../components/keys/use-keys.ts';
import { photographsAdded, tellRefused } from '../../../../components/photo/added.ts';
import { Photo } from '../../../../components/photo/photo.tsx';
import { BeforeAfter } from './before-after.tsx';
import { photoName, photoPairs } from './pairs.ts';
import { PhotoTools } from './photo-details.tsx';
import classes from './photographs.module.css';

/**
 * A car's photographs: one large, the others beside it, before against after where both were taken; files can
 * be dropped on it.
 */
export const Photographs = ({ car }: { car: CarPage }) => {
  const photos = car.photos;
  const pairs = photoPairs(photos);
  const [chosen, setChosen] = useState<number | 'compare' | null>(null);
  const [enlarged, setEnlarged] = useState(false);
  const add = useAction((files: File[]) => api.photos.add({ carId: car.id, files }), {
    label: (_: File[], { added }) => photographsAdded(added.length),
    failure: 'Not added',
    onDone: ({ added, refused }) => {
      setChosen(added[0]?.id ?? null);
      tellRefused(refused);
    },
  });
  const move = useAction((ids: number[]) => api.photos.reorder({ ids }), { label: 'Photographs reordered' });
  const [pair] = pairs;
  const comparing = pair !== undefined && (chosen === 'compare' || chosen === null);
  const shown = photos.find(photo => photo.id === chosen) ?? photos[0];
  const place = shown ? photos.indexOf(shown) : 0;
  const name = carTitle(car);
  const take = (files: File[]) => add.mutate(files);
  const { over, handlers } = useFileDrop(take);
  const { choose, field } = useFilePicker({
    label: 'Photographs to add',
    accept: pictureTypes,
    multiple: true,
    onFiles: take,
  });
  const compare = () => setChosen('compare');
  useKeys('Car', [
    { keys: 'P', does: 'Add photographs', run: choose },
    ...(pair ? [{ keys: 'B', does: 'Compare before and after', run: compare }] : []),
  ]);
  const shift = (by: number) => {
    const ids = photos.map(photo => photo.id);
    const [moved] = ids.splice(place, 1);
    if (moved === undefined) return;
    ids.splice(place + by, 0, moved);
    setChosen(moved);
    move.mutate(ids);
  };
  return (
    <div className={classes.photographs} data-over={over || undefined} {...handlers}>
      <div className={classes.large}>
        {comparing ? (
          <BeforeAfter pair={pair} car={name} />
        ) : shown ? (
          <button
            type="button"
            className={classes.enlarge}
            aria-label={`Enlarge ${photoName(shown)}`}
            onClick={() => setEnlarged(true)}
          >
            <Photo sha256={shown.sha256} size="screen" alt={`${name}, ${photoName(shown)}`} height="100%" />
          </button>
        ) : (
          <div className={classes.none}>
            <Photo sha256={null} alt="" height="100%" />
            <span>Drop photographs here, or choose them</span>
          </div>
        )}
        {shown && !comparing ? (
          <span className={classes.caption}>
            {photoName(shown)}
            {shown.takenOn ? <span className="soft"> · {dateText(shown.takenOn)}</span> : null}
          </span>
        ) : null}
      </div>
      <div className={classes.row}>
        {pair ? (
          <button type="button" className={classes.compareThumb} aria-pressed={comparing} onClick={compare}>
            before | after
          </button>
        ) : null}
        {photos.map(photo => (
          <button
            key={photo.id}
            type="button"
            className={classes.thumb}
            aria-label={photoName(photo)}
            aria-pressed={!comparing && photo === shown}
            title={photoName(photo)}
            onClick={() => setChosen(photo.id)}
          >
            <Photo sha256={photo.sha256} alt="" width={72} height={48} />
          </button>
        ))}
        {field}
        <div className={classes.tools}>
          {shown && !comparing ? (
            <PhotoTools photo={shown} place={place} of={photos.length} onMove={shift} />
          ) : null}
          <Button
            variant={photos.length === 0 ? 'filled' : 'default'}
            loading={add.isPending}
            onClick={choose}
          >
            Add photographs
          </Button>
        </div>
      </div>
      {shown ? (
        <Modal
          opened={enlarged}
          onClose={() => setEnlarged(false)}
          title={`${name}, ${photoName(shown)}`}
          size="90vw"
        >
          <Photo
            sha256={shown.sha256}
            size="large"
            alt={`${name}, ${photoName(shown)}`}
            fit="contain"
            height="78vh"
          />
        </Modal>
      ) : null}
    </div>
  );
};
