import { dealPhotos } from '../../../db/photos/deal-photos.ts';
import { addPhoto, type StoredPhoto, storedPhoto } from '../../../db/photos/photos.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { findLot } from '../../../db/records/lots/lots.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { DealingProposal } from '../views.ts';
import { storeFiles } from './store-files.ts';

/**
 * Takes a batch of photographs of a lot into the photo folder and says which car each may show. Nothing is
 * attached: that is `dealOut`, when the owner has looked. A picture that is there twice in the batch is dealt
 * once, and its other file named.
 */
export const proposeDealing = needsCollection
  .input(inputs.proposeDealing)
  .handler(async ({ context, input, signal }): Promise<DealingProposal> => {
    const { session, db } = context;
    if (!(await findLot(db, input.lotId))) throw notFound('lot', input.lotId);
    const cars = (await listCars(db, { lotId: input.lotId })).filter(({ status }) => status !== 'sold');
    const { stored, refused: left } = await storeFiles(session, input.files, signal);
    const first = new Map<string, (typeof stored)[number]>();
    const again: typeof left = [];
    for (const file of stored) {
      const same = first.get(file.photo.sha256);
      if (same) again.push({ name: file.name, reason: `It is the same picture as ${same.name}.` });
      else first.set(file.photo.sha256, file);
    }
    const batch = [...first.values()].map(({ name, photo }) => ({ name, ...photo }));
    const deals = dealPhotos(
      batch,
      cars.map(car => car.inventoryNumber),
    );
    return {
      photos: batch.map(({ name, sha256, takenAt }, i) => {
        const { car, doubtful, reason } = deals[i]!;
        return { name, sha256, takenAt, doubtful, reason, carId: car === null ? null : cars[car]!.id };
      }),
      refused: [...left, ...again],
    };
  });

/**
 * Attaches photographs that were proposed to cars of one lot, as the owner decided; one action. Returns how
 * many.
 */
export const dealOut = needsCollection
  .input(inputs.dealOut)
  .handler(async ({ context, input }): Promise<number> => {
    const { session, db, collection } = context;
    const lot = await findLot(db, input.lotId);
    if (!lot) throw notFound('lot', input.lotId);
    const cars = new Set((await listCars(db, { lotId: lot.id })).map(({ id }) => id));
    const stray = input.photos.find(({ carId }) => !cars.has(carId));
    if (stray) throw refused(`A car is no longer in ${lot.name}. Choose the cars again.`);
    if (new Set(input.photos.map(({ sha256 }) => sha256)).size < input.photos.length)
      throw refused('A photograph can be given to one car only. Choose the cars again.');
    const dealt: { carId: number; photo: StoredPhoto }[] = [];
    for (const { sha256, carId } of input.photos)
      dealt.push({
        carId,
        photo: await storedPhoto(collection.dir, sha256, session.options.workers?.heic),
      });
    const what = dealt.length === 1 ? 'a photograph' : `${dealt.length} photographs`;
    const on = new Set(dealt.map(({ carId }) => carId)).size;
    await session.act(`Added ${what} to ${on === 1 ? 'a car' : `${on} cars`} of ${lot.name}`, async trx => {
      for (const { carId, photo } of dealt) await addPhoto(trx, photo, { carId, at: session.at() });
    });
    return dealt.length;
  });
