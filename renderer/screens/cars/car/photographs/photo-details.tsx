import { ActionIcon, Autocomplete, Button, Popover, Select, TextInput } from '@mantine/core';
import { DateInput } from '@mantine/dates';
import { IconArrowLeft, IconArrowRight, IconPencil, IconTrash } from '@tabler/icons-react';
import { useState } from 'react';
import type { PhotoView } from '../../../../../electron/api/views.ts';
import { storedView } from '../../../../../valuation/wording/view-text.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { useWords } from '../../../../components/words.ts';
import classes from './photographs.module.css';

const views = ['near side', 'off side', 'front', 'rear', 'top', 'base', 'detail', 'packaging'];
const states = [
  { value: 'before', label: 'before the work' },
  { value: 'during', label: 'during the work' },
  { value: 'after', label: 'after the work' },
];

type Details = Pick<PhotoView, 'view' | 'caption' | 'state' | 'takenOn'>;

const DetailsForm = ({ photo, onDone }: { photo: PhotoView; onDone: () => void }) => {
  const words = useWords();
  const [draft, setDraft] = useState<Details>({
    view: photo.view,
    caption: photo.caption,
    state: photo.state,
    takenOn: photo.takenOn,
  });
  const save = useAction((details: Details) => api.photos.update({ id: photo.id, ...details }), {
    label: 'Photograph described',
    onDone,
  });
  return (
    <form
      className={classes.details}
      onSubmit={event => {
        event.preventDefault();
        save.mutate(draft);
      }}
    >
      <Autocomplete
        label="View"
        data={views.map(words.view)}
        value={words.view(draft.view)}
        onChange={view => setDraft({ ...draft, view: storedView(view, words.locale) })}
        comboboxProps={{ withinPortal: false }}
        data-autofocus
      />
      <Select
        label="State"
        placeholder="neither before nor after"
        data={states}
        value={draft.state || null}
        clearable
        onChange={state => setDraft({ ...draft, state: state ?? '' })}
        comboboxProps={{ withinPortal: false }}
      />
      <TextInput
        label="Caption"
        value={draft.caption}
        maxLength={200}
        onChange={event => setDraft({ ...draft, caption: event.currentTarget.value })}
      />
      <DateInput
        label="Taken on"
        value={draft.takenOn}
        clearable
        onChange={takenOn => setDraft({ ...draft, takenOn })}
        popoverProps={{ withinPortal: false }}
      />
      <div className={classes.formActions}>
        <Button type="submit" variant="filled" loading={save.isPending}>
          Save
        </Button>
        <Button variant="subtle" onClick={onDone}>
          Cancel
        </Button>
      </div>
    </form>
  );
};

/** What can be done with the photograph in view. */
export const PhotoTools = ({
  photo,
  place,
  of,
  onMove,
}: {
  photo: PhotoView;
  place: number;
  of: number;
  onMove: (by: number) => void;
}) => {
  const [editing, setEditing] = useState(false);
  const remove = useAction(() => api.photos.remove({ id: photo.id }), { label: 'Photograph removed' });
  return (
    <>
      {of > 1 ? (
        <>
          <ActionIcon aria-label="Move left" disabled={place === 0} onClick={() => onMove(-1)}>
            <IconArrowLeft size={16} stroke={1.75} />
          </ActionIcon>
          <ActionIcon aria-label="Move right" disabled={place === of - 1} onClick={() => onMove(1)}>
            <IconArrowRight size={16} stroke={1.75} />
          </ActionIcon>
        </>
      ) : null}
      <Popover opened={editing} onChange={setEditing} position="bottom-end" trapFocus width={300}>
        <Popover.Target>
          <ActionIcon
            aria-label="Describe this photograph"
            title="Describe"
            onClick={() => setEditing(!editing)}
          >
            <IconPencil size={16} stroke={1.75} />
          </ActionIcon>
        </Popover.Target>
        <Popover.Dropdown>
          <DetailsForm key={photo.id} photo={photo} onDone={() => setEditing(false)} />
        </Popover.Dropdown>
      </Popover>
      <ActionIcon aria-label="Remove this photograph" title="Remove" onClick={() => remove.mutate()}>
        <IconTrash size={16} stroke={1.75} />
      </ActionIcon>
    </>
  );
};
