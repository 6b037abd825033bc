import { useCallback } from 'react';
import type { CarPatch } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import type { CellChange, NewRow } from '../../../components/data-grid/types.ts';
import { photographsAdded, tellRefused } from '../../../components/photo/added.ts';
import { carChanges, newCar, shareChanges } from './car-edits.ts';

const cars = (count: number) => (count === 1 ? 'Car' : `${count} cars`);

/** Everything that the working surface of a lot writes; each call is one action in history. */
export const useLotWrites = (lotId: number) => {
  const update = useAction((changes: { id: number; patch: CarPatch }[]) => api.cars.update({ changes }), {
    label: changes => `${cars(changes.length)} changed`,
  });
  const share = useAction(
    (fixed: { carId: number; minor: number | null }[]) => api.lots.shareCost({ id: lotId, fixed }),
    {
      label: fixed =>
        fixed.length === 0
          ? 'Cost shared again'
          : fixed.every(({ minor }) => minor === null)
            ? 'Share no longer fixed, cost shared again'
            : 'Share fixed, the rest shared again',
    },
  );
  const create = useAction((added: CarPatch[]) => api.cars.create({ lotId, cars: added }), {
    label: added => `${cars(added.length)} added`,
  });
  const removal = useAction((ids: number[]) => api.cars.remove({ ids }), {
    label: ids => `${cars(ids.length)} removed`,
  });
  const photos = useAction(
    ({ carId, files }: { carId: number; files: File[] }) => api.photos.add({ carId, files }),
    {
      label: (_, { added }) => photographsAdded(added.length),
      onDone: ({ refused }) => tellRefused(refused),
    },
  );
  const { mutateAsync: updateCars } = update;
  const { mutateAsync: shareCost } = share;
  const { mutateAsync: createCars } = create;
  const { mutate: removeCars } = removal;
  const { mutate: addFiles } = photos;
  const edit = useCallback(
    async (changes: CellChange[]) => {
      const patches = carChanges(changes);
      if (patches.length > 0) await updateCars(patches);
      const shares = shareChanges(changes);
      if (shares.length > 0) await shareCost(shares);
    },
    [updateCars, shareCost],
  );
  return {
    edit,
    update: useCallback((id: number, patch: CarPatch) => updateCars([{ id, patch }]), [updateCars]),
    append: useCallback((rows: NewRow[]) => createCars(rows.map(newCar)), [createCars]),
    remove: useCallback((ids: string[]) => removeCars(ids.map(Number)), [removeCars]),
    addPhotos: useCallback(
      (id: string, files: File[]) => {
        if (files.length > 0) addFiles({ carId: Number(id), files });
      },
      [addFiles],
    ),
    fixShare: useCallback(
      (carId: number, minor: number | null) => shareCost([{ carId, minor }]),
      [shareCost],
    ),
    shareAnew: useCallback(() => shareCost([]), [shareCost]),
  };
};

export type LotWrites = ReturnType<typeof useLotWrites>;
