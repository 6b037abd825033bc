import { listPhotos } from '../../../db/photos/photo-lists.ts';
import { addPhoto, readPhoto, removePhoto, updatePhoto } from '../../../db/photos/photos.ts';
import { findLot } from '../../../db/records/lots/lots.ts';
import * as inputs from '../inputs.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { AddedPhotos, PhotoView } from '../views.ts';
import { findCar } from './find-car.ts';
import { dealOut, proposeDealing } from './photo-dealing.ts';
import { photoView } from './photo-view.ts';
import { storeFiles } from './store-files.ts';

/**
 * Adds photographs to one car, lot or variation as one action. They are stored before it; a file that is
 * refused is named, and the others are added. Refused where none is left.
 */
const add = needsCollection
  .input(inputs.addPhotos)
  .handler(async ({ context, input, signal }): Promise<AddedPhotos> => {
    const { session, db } = context;
    const { carId, lotId, variationId, files, view, caption, state } = input;
    if ([carId, lotId, variationId].filter(id => id !== undefined).length !== 1)
      throw refused('A photograph belongs to one car, one lot or one variation.');
    const of =
      carId !== undefined
        ? (await findCar(db, carId)).inventoryNumber
        : lotId !== undefined
          ? (await findLot(db, lotId))?.name
          : (await referenceIndex(session)).variations.get(variationId ?? 0)?.label;
    if (of === undefined)
      throw notFound(lotId === undefined ? 'variation' : 'lot', lotId ?? variationId ?? 0);
    const { stored, refused: left } = await storeFiles(session, files, signal);
    const what = stored.length === 1 ? 'a photograph' : `${stored.length} photographs`;
    const ids = await session.act(`Added ${what} to ${of}`, async trx => {
      const added: number[] = [];
      for (const { photo } of stored)
        added.push(
          await addPhoto(trx, photo, {
            ...(carId !== undefined && { carId }),
            ...(lotId !== undefined && { lotId }),
            ...(variationId !== undefined && { variationId }),
            view,
            caption,
            state,
            at: session.at(),
          }),
        );
      return added;
    });
    return { added: (await listPhotos(db, { ids })).map(photoView), refused: left };
  });

const read = needsCollection.input(inputs.readPhoto).handler(async ({ context, input }): Promise<File> => {
  const { session, collection } = context;
  const { bytes, contentType } = await readPhoto(
    collection.dir,
    input.sha256,
    input.size,
    session.options.workers?.heic,
  );
  const ending = contentType.split('/')[1] ?? 'bin';
  return new File([new Uint8Array(bytes)], `${input.sha256.slice(0, 12)}.${ending}`, { type: contentType });
});

/** The photographs that hang on a variation itself, such as those of a reference example, in their order. */
const ofVariation = needsCollection
  .input(inputs.byId)
  .handler(
    async ({ context, input }): Promise<PhotoView[]> =>
      (await listPhotos(context.db, { variationId: input.id })).map(photoView),
  );

const update = needsCollection.input(inputs.updatePhoto).handler(async ({ context, input }) => {
  const { id, ...changes } = input;
  const [photo] = await listPhotos(context.db, { ids: [id] });
  if (!photo) throw notFound('photograph', id);
  await context.session.act('Changed a photograph', trx => updatePhoto(trx, id, changes));
});

/** Puts the photographs of one car, lot or variation in the given order, as one action. */
const reorder = needsCollection.input(inputs.reorderPhotos).handler(async ({ context, input }) => {
  const photos = await listPhotos(context.db, { ids: input.ids });
  const gone = input.ids.find(id => !photos.some(photo => photo.id === id));
  if (gone !== undefined) throw notFound('photograph', gone);
  const owners = new Set(
    photos.map(({ carId, lotId, variationId }) => [carId, lotId, variationId].join('/')),
  );
  if (owners.size > 1) throw refused('Photographs are put in order within one car, lot or variation.');
  await context.session.act('Reordered photographs', async trx => {
    for (const [position, id] of input.ids.entries()) await updatePhoto(trx, id, { position });
  });
});

/** Removes a photograph; its file stays in the folder, so that undo brings it back. */
const remove = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const [photo] = await listPhotos(context.db, { ids: [input.id] });
  if (!photo) throw notFound('photograph', input.id);
  await context.session.act('Removed a photograph', trx => removePhoto(trx, input.id));
});

export const photos = { add, proposeDealing, dealOut, read, ofVariation, update, reorder, remove };
