import { Button, Modal } from '@mantine/core';
import { useRef, useState } from 'react';
import type { DealingProposal, LotPage } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { photographsAdded } from '../../../components/photo/added.ts';
import classes from './dealing.module.css';
import { carOfNumber, dealtCounts } from './dealing.ts';
import { SheetPhoto } from './sheet-photo.tsx';

/** How far to the same place in the next row: how many stand in the first. */
const inRow = (fields: readonly HTMLInputElement[]): number => {
  const top = (field: HTMLInputElement) => field.closest('li')?.offsetTop;
  return fields.filter(field => top(field) === top(fields[0]!)).length;
};

/**
 * The contact sheet of a batch: each photograph with the car that it is thought to show. Nothing is attached
 * before the owner says so; then all of it is one action.
 */
export const DealPhotos = ({
  lot,
  proposal,
  onClose,
}: {
  lot: LotPage;
  proposal: DealingProposal;
  onClose: () => void;
}) => {
  const { photos } = proposal;
  const [cars, setCars] = useState(() => photos.map(({ carId }) => carId));
  const [settled, setSettled] = useState<ReadonlySet<number>>(new Set());
  const past = useRef<{ cars: typeof cars; settled: typeof settled; place: number }[]>([]);
  const list = useRef<HTMLUListElement>(null);
  const fieldsNow = () => [...(list.current?.querySelectorAll('input') ?? [])];
  const focus = (place: number) => {
    const field = fieldsNow()[place];
    field?.focus();
    field?.select();
  };
  const add = useAction(
    (chosen: { sha256: string; carId: number }[]) => api.photos.dealOut({ lotId: lot.id, photos: chosen }),
    { label: (_, count) => photographsAdded(count), failure: 'Not added', onDone: onClose },
  );
  const give = (place: number, carId: number | null) => {
    past.current.push({ cars, settled, place });
    setCars(cars.with(place, carId));
    setSettled(new Set([...settled, place]));
  };
  const undo = () => {
    const before = past.current.pop();
    if (!before) return;
    setCars(before.cars);
    setSettled(before.settled);
    focus(before.place);
  };
  const counts = dealtCounts(photos, cars, settled);
  const chosen = photos.flatMap(({ sha256 }, i) => {
    const carId = cars[i] ?? null;
    return carId === null ? [] : [{ sha256, carId }];
  });
  return (
    <Modal
      opened
      onClose={onClose}
      closeOnClickOutside={false}
      size="min(1200px, 96vw)"
      title={`Photographs of ${lot.name}`}
    >
      <p className={classes.guide}>
        Type the number of the car under each photograph and press Enter. The arrow keys go from one to the
        next, Ctrl Z takes back the last number. What is left empty is not added.
      </p>
      <ul ref={list} className={classes.sheet} aria-label="Contact sheet">
        {photos.map((photo, place) => (
          <SheetPhoto
            key={photo.sha256}
            photo={photo}
            row={lot.rows.find(({ id }) => id === cars[place]) ?? null}
            settled={settled.has(place)}
            find={text => carOfNumber(lot.rows, text)}
            onGive={carId => give(place, carId)}
            onMove={(x, y) =>
              focus(Math.max(0, Math.min(photos.length - 1, place + x + y * inRow(fieldsNow()))))
            }
            onUndo={undo}
          />
        ))}
      </ul>
      <div className={classes.foot}>
        <span role="status">
          {counts.dealt} of {photos.length} have a car
          {counts.doubtful > 0 ? (
            <strong className={classes.doubt}> · {counts.doubtful} to check</strong>
          ) : null}
        </span>
        <Button onClick={onClose}>Cancel</Button>
        <Button
          variant="filled"
          disabled={chosen.length === 0}
          loading={add.isPending}
          onClick={() => add.mutate(chosen)}
        >
          {chosen.length === 1 ? 'Add 1 photograph' : `Add ${chosen.length} photographs`}
        </Button>
      </div>
    </Modal>
  );
};
