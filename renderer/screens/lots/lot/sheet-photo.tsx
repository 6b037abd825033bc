import { TextInput } from '@mantine/core';
import { type KeyboardEvent, useState } from 'react';
import type { CarRow, DealtPhoto } from '../../../../electron/api/views.ts';
import { Photo } from '../../../components/photo/photo.tsx';
import classes from './dealing.module.css';
import { sourceText } from './dealing.ts';

const steps: Record<string, [number, number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** One photograph of the contact sheet, with the number of its car to type. */
export const SheetPhoto = ({
  photo,
  row,
  settled,
  find,
  onGive,
  onMove,
  onUndo,
}: {
  photo: DealtPhoto;
  row: CarRow | null;
  /** True where the owner has decided it. */
  settled: boolean;
  /** The car that a typed number means, or null. */
  find: (text: string) => CarRow | null;
  onGive: (carId: number | null) => void;
  onMove: (x: number, y: number) => void;
  onUndo: () => void;
}) => {
  const [draft, setDraft] = useState<string | null>(null);
  const wrong = draft !== null && draft.trim() !== '' && find(draft) === null;
  const commit = (evenSame: boolean): boolean => {
    if (wrong) return false;
    const carId = draft === null ? (row?.id ?? null) : (find(draft)?.id ?? null);
    setDraft(null);
    if (evenSame || carId !== (row?.id ?? null)) onGive(carId);
    return true;
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const step = steps[event.key];
    const isUndo = (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z';
    if (!step && !isUndo && event.key !== 'Enter') return;
    event.preventDefault();
    event.stopPropagation();
    if (step) onMove(...step);
    else if (event.key === 'Enter') {
      if (commit(photo.doubtful && !settled)) onMove(1, 0);
    } else if (draft === null) onUndo();
    else setDraft(null);
  };
  const doubtful = photo.doubtful && !settled;
  return (
    <li className={classes.photo} data-doubtful={doubtful || undefined}>
      <Photo sha256={photo.sha256} alt={photo.name} height={120} fit="contain" />
      <span className={classes.name} title={photo.name}>
        {photo.name}
      </span>
      <TextInput
        aria-label={`Car of ${photo.name}`}
        placeholder="Number of the car"
        value={draft ?? row?.inventoryNumber ?? ''}
        error={wrong ? 'No such car in this lot' : null}
        onChange={event => setDraft(event.currentTarget.value)}
        onFocus={event => event.currentTarget.select()}
        onBlur={() => commit(false)}
        onKeyDown={onKeyDown}
      />
      <span className={classes.source}>
        {settled ? (row?.casting ?? 'Not added') : sourceText(photo, row)}
      </span>
    </li>
  );
};
