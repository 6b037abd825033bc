import { type DragEvent, useRef, useState } from 'react';
import type { CarRow, PhotoView } from '../../../../electron/api/views.ts';
import { Photo } from '../../../components/photo/photo.tsx';
import classes from './inspector.module.css';

/** The photographs of a car, large, with the means to add some: by choosing files or dropping them here. */
export const CarPhotos = ({
  row,
  photos,
  onAdd,
}: {
  row: CarRow;
  photos: readonly PhotoView[] | null;
  onAdd: (files: File[]) => void;
}) => {
  const [chosen, setChosen] = useState<number | null>(null);
  const [over, setOver] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const current = photos?.find(photo => photo.id === chosen) ?? photos?.[0] ?? null;
  const drag = (event: DragEvent, is: boolean) => {
    if (!event.dataTransfer.types.includes('Files')) return;
    event.preventDefault();
    setOver(is);
  };
  return (
    <section
      className={classes.photos}
      aria-label="Photographs"
      data-over={over || undefined}
      onDragOver={event => drag(event, true)}
      onDragLeave={() => setOver(false)}
      onDrop={event => {
        drag(event, false);
        onAdd([...event.dataTransfer.files]);
      }}
    >
      <Photo
        sha256={current?.sha256 ?? row.photo}
        size="screen"
        alt={
          row.photo ? [row.inventoryNumber, current?.view, current?.caption].filter(Boolean).join(', ') : ''
        }
        fit="cover"
        height={196}
      />
      <div className={classes.strip}>
        {photos && photos.length > 1
          ? photos.map((photo, index) => (
              <button
                key={photo.id}
                type="button"
                className={classes.pick}
                aria-label={`Photograph ${index + 1}${photo.view ? `, ${photo.view}` : ''}`}
                aria-pressed={photo.id === current?.id}
                onClick={() => setChosen(photo.id)}
              >
                <Photo sha256={photo.sha256} alt="" width={52} height={34} />
              </button>
            ))
          : null}
        <button type="button" className={classes.addPhoto} onClick={() => field.current?.click()}>
          Add photographs
        </button>
        <input
          ref={field}
          className={classes.heard}
          type="file"
          accept="image/*"
          multiple
          tabIndex={-1}
          aria-label="Photographs to add"
          onChange={event => {
            onAdd([...(event.currentTarget.files ?? [])]);
            event.currentTarget.value = '';
          }}
        />
      </div>
    </section>
  );
};
