import { useState } from 'react';
import type { CarRow, PhotoView } from '../../../../electron/api/views.ts';
import { useFileDrop } from '../../../components/files/use-file-drop.ts';
import { pictureTypes, useFilePicker } from '../../../components/files/use-file-picker.tsx';
import { Photo } from '../../../components/photo/photo.tsx';
import { useWords } from '../../../components/words.ts';
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
  const words = useWords();
  const [chosen, setChosen] = useState<number | null>(null);
  const { over, handlers } = useFileDrop(onAdd);
  const { choose, field } = useFilePicker({
    label: 'Photographs to add',
    accept: pictureTypes,
    multiple: true,
    onFiles: onAdd,
  });
  const current = photos?.find(photo => photo.id === chosen) ?? photos?.[0] ?? null;
  return (
    <section className={classes.photos} aria-label="Photographs" data-over={over || undefined} {...handlers}>
      <Photo
        sha256={current?.sha256 ?? row.photo}
        size="screen"
        alt={
          row.photo
            ? [row.inventoryNumber, words.view(current?.view ?? ''), current?.caption]
                .filter(Boolean)
                .join(', ')
            : ''
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
                aria-label={`Photograph ${index + 1}${photo.view ? `, ${words.view(photo.view)}` : ''}`}
                aria-pressed={photo.id === current?.id}
                onClick={() => setChosen(photo.id)}
              >
                <Photo sha256={photo.sha256} alt="" width={52} height={34} />
              </button>
            ))
          : null}
        <button type="button" className={classes.addPhoto} onClick={choose}>
          Add photographs
        </button>
        {field}
      </div>
    </section>
  );
};
