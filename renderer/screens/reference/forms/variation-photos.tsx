import { Button, FileButton } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { VariationRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { pictureTypes } from '../../../components/files/use-file-picker.tsx';
import { photographsAdded, tellRefused } from '../../../components/photo/added.ts';
import { Photo } from '../../../components/photo/photo.tsx';
import classes from '../reference.module.css';

/** Photographs of an example of the variation, to compare a car with. */
export const VariationPhotos = ({ variation }: { variation: VariationRow }) => {
  const { data: photos } = useQuery({
    queryKey: ['variation photos', variation.id],
    queryFn: () => api.photos.ofVariation({ id: variation.id }),
  });
  const add = useAction((files: File[]) => api.photos.add({ variationId: variation.id, files }), {
    label: (_: File[], { added }) => photographsAdded(added.length),
    onDone: ({ refused }) => tellRefused(refused),
    failure: 'The photographs could not be added',
  });
  const remove = useAction((id: number) => api.photos.remove({ id }), { label: 'Photograph removed' });
  return (
    <fieldset className={classes.photos}>
      <legend>Photographs of an example</legend>
      {photos && photos.length > 0 ? (
        <ul className={classes.photoList}>
          {photos.map((photo, index) => (
            <li key={photo.id}>
              <Photo
                sha256={photo.sha256}
                size="screen"
                alt={photo.caption || `Example ${index + 1}`}
                height={84}
              />
              <Button
                variant="subtle"
                size="compact-xs"
                aria-label={`Remove photograph ${index + 1}`}
                onClick={() => remove.mutate(photo.id)}
              >
                Remove
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
      <FileButton
        accept={pictureTypes}
        multiple
        onChange={files => {
          if (files.length > 0) add.mutate(files);
        }}
      >
        {props => (
          <Button {...props} loading={add.isPending}>
            Add photographs …
          </Button>
        )}
      </FileButton>
    </fieldset>
  );
};
