import { jobDetails, listJobPhotos } from '../../../db/records/bench/job-details.ts';
import { listJobs } from '../../../db/records/bench/jobs.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { listSeasons } from '../../../db/records/decisions/seasons.ts';
import { castingDetails } from '../../../db/reference/reference-details.ts';
import { carRows } from '../cars/car-rows.ts';
import { lookListOf } from '../cars/look-list.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { CarRow, JobView } from '../views.ts';

/** The jobs with their cars, photographs, notes and what to look at before closing. */
export const jobViews = async (session: Session): Promise<JobView[]> => {
  const { db } = openOf(session).read;
  const jobs = await listJobs(db);
  if (jobs.length === 0) return [];
  const ids = [...new Set(jobs.map(({ carId }) => carId))];
  const rows = new Map((await carRows(session, await listCars(db, { ids }))).map(row => [row.id, row]));
  const details = await jobDetails(db);
  const index = await referenceIndex(session);
  const photos = Map.groupBy(await listJobPhotos(db), photo => photo.jobId);
  const seasons = new Map((await listSeasons(db)).map(season => [season.id, season.name]));
  const castings = new Map<number, Awaited<ReturnType<typeof castingDetails>>>();
  for (const { castingId } of rows.values())
    if (castingId !== null && !castings.has(castingId))
      castings.set(castingId, await castingDetails(db, castingId));

  const partsOf = ({ castingId }: CarRow) =>
    (castingId === null ? undefined : castings.get(castingId)?.parts) ?? [];
  return jobs.flatMap(job => {
    const car = rows.get(job.carId);
    if (!car) return [];
    const { notes, who, lookedAt } = details.get(job.id) ?? { notes: '', who: '', lookedAt: [] };
    return [
      {
        ...job,
        inventoryNumber: car.inventoryNumber,
        casting: car.casting,
        features: car.features,
        wornColour: car.wornColour,
        swatch: car.swatch,
        paintSwatch: job.colour === '' ? null : index.swatchOf(job.colour),
        grade: car.grade,
        finishState: car.finishState,
        photo: car.photo,
        season: job.seasonId === null ? null : (seasons.get(job.seasonId) ?? null),
        notes,
        who,
        lookList: lookListOf(job.kind, car, partsOf(car)),
        lookedAt,
        assembly: car.castingId === null ? '' : (castings.get(car.castingId)?.assembly ?? ''),
        photos: (photos.get(job.id) ?? []).map(({ jobId: _, ...photo }) => photo),
      },
    ];
  });
};
