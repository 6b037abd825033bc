import fc from 'fast-check';
import { expect, it } from 'vitest';
import { tableHashes } from '../../../../db/backup/manifest.ts';
import { trackedTables } from '../../../../db/history/tracking.ts';
import {
  closures,
  deviationKinds,
  finishStates,
  grades,
  partNames,
  workKinds,
} from '../../../../valuation/words.ts';
import { addReference, newCollectionService } from '../../../helpers/api.ts';

/**
 * A car on the bench with a saved plan, a clock that runs and parts on the shelf; one car to take parts from.
 */
const benched = async () => {
  const service = await newCollectionService();
  const { api, session, clock } = service;
  const { variations } = await addReference(api);
  const { ids } = await api.cars.create({
    lotId: null,
    cars: [
      { inventoryNumber: 'U-1', variationId: variations.emberTwin, grade: 3 },
      { inventoryNumber: 'U-2', variationId: variations.mossTwin, grade: 2 },
    ],
  });
  const [carId = 0, donorCarId = 0] = ids;
  await api.cars.saveCheck({ carId, checkedOn: '2026-01-05', grade: 3, notes: 'As found', parts: [] });
  await api.decisions.savePlan({ carId, targetGrade: 9, hours: { low: 2, likely: 4, high: 6 } });
  await api.collection.savePart({ name: 'Hub', inStock: 4, unit: 95, currency: 'USD' });
  await api.bench.add({ cars: [{ carId }] });
  const [job] = await api.bench.list();
  const [shelf] = await api.collection.parts();
  await api.bench.start({ stepIds: [job!.steps[0]!.id] });
  clock.now = new Date(clock.now.getTime() + 40 * 60_000);
  const rows = () => {
    const { sqlite } = session.collection!.read;
    const hashes = tableHashes(sqlite);
    return Object.fromEntries(trackedTables(sqlite).map(({ name }) => [name, hashes[name]]));
  };
  return { ...service, carId, donorCarId, jobId: job!.id, shelfId: shelf!.id, rows };
};

const word = fc.constantFrom('', 'Teal', 'Ember', 'say "so"; שלום');
const finished = fc
  .record({
    kind: fc.constantFrom(...workKinds),
    finishedOn: fc.constantFrom('2025-11-30', '2026-01-05', '2026-03-14'),
    finishState: fc.constantFrom(...finishStates),
    grade: fc.constantFrom(null, ...grades),
    parts: fc.uniqueArray(
      fc.record({
        part: fc.constantFrom(...partNames),
        grade: fc.constantFrom(null, ...grades),
        originality: fc.constantFrom('original', 'period replacement', 'reproduction'),
      }),
      { selector: ({ part }) => part, maxLength: 5 },
    ),
    colour: word,
    bodyFinish: word,
    closure: fc.constantFrom('', 'not opened', ...closures),
    axles: word,
    departures: fc.subarray([...deviationKinds], { maxLength: 3 }),
    leftAsWas: word,
    mark: word,
    minutes: fc.constantFrom(null, 0, 260),
    costs: fc.array(
      fc.record({
        what: fc.constantFrom('Paint', 'Stripper'),
        minor: fc.nat(5000),
        currency: fc.constantFrom('USD', 'JPY'),
      }),
      { maxLength: 2 },
    ),
  })
  .filter(
    ({ kind, finishState }) => finishState !== 'original' || (kind !== 'restore' && kind !== 'customise'),
  );

it('finishing work and undoing it leaves every row as it was, the shelf included', {
  timeout: 600_000,
}, async () => {
  const { api, carId, donorCarId, jobId, shelfId, rows } = await benched();
  const bare = rows();
  // What finishing writes to is among what is compared; a table that history forgot would be missed by both.
  for (const table of [
    'car',
    'condition_check',
    'part_grade',
    'finished_work',
    'restoration_plan',
    'job',
    'job_step',
    'job_time',
    'job_part',
    'expense',
    'part',
  ])
    expect(bare).toHaveProperty(table);
  await fc.assert(
    fc.asyncProperty(
      finished,
      fc.record({ onJob: fc.boolean(), taken: fc.integer({ min: 0, max: 4 }), donor: fc.boolean() }),
      async (done, { onJob, taken, donor }) => {
        const part = { jobId, currency: 'USD', part: 'wheels' as const };
        let acts = 0;
        if (taken > 0) {
          await api.bench.addPart({
            ...part,
            name: 'Hub',
            originality: 'reproduction',
            shelfId,
            quantity: taken,
          });
          acts++;
        }
        if (donor) {
          await api.bench.addPart({ ...part, name: 'Axle', originality: 'original', donorCarId });
          acts++;
        }
        const before = rows();
        await api.cars.finishWork({ ...done, carId, jobId: onJob ? jobId : null });
        const after = rows();
        expect(after).not.toEqual(before);
        await api.collection.undo();
        expect(rows()).toEqual(before);
        await api.collection.redo();
        expect(rows()).toEqual(after);
        for (let i = 0; i <= acts; i++) await api.collection.undo();
        expect(rows()).toEqual(bare);
        expect((await api.collection.parts())[0]?.inStock).toBe(4);
      },
    ),
    { numRuns: 40 },
  );
});
