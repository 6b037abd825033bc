import { expect, it } from 'vitest';
import type { CarPage, JobView } from '../../../electron/api/views.ts';
import { beginFinish, impliedDepartures } from '../../../renderer/screens/bench/finish/finish-draft.ts';

const part = (name: string, grade: number, note: string) => ({
  part: name,
  grade,
  originality: 'original',
  note,
});
const car = {
  variationId: 1,
  features: { colour: 'Ember' },
  finishState: 'original',
  wornColour: '',
  wornFinish: '',
  restorerMark: '',
  castingParts: ['body finish', 'roof', 'base', 'wheels'],
  checks: [
    {
      id: 1,
      checkedOn: '2026-01-05',
      grade: 3,
      finishState: 'original',
      notes: 'As found',
      parts: [
        part('body finish', 2, 'toned nearly brown'),
        part('roof', 2, 'bare at the edge'),
        part('base', 3, 'bent at the tail'),
        part('wheels', 4, 'one chipped'),
      ],
    },
  ],
} as unknown as CarPage;
const jobOf = (done: [step: string, part: string | null][], kind: JobView['kind'] = 'restore') =>
  ({
    kind,
    who: 'E. Tarrow',
    colour: '',
    uses: [{ name: 'Hubs', part: { part: 'wheels', originality: 'reproduction', quantity: 4 } }],
    steps: done.map(([step, of], i) => ({ id: i + 1, step, part: of, state: 'done', seconds: 60 })),
  }) as unknown as JobView;
const found = (job: JobView | null) =>
  Object.fromEntries(
    beginFinish(car, job, '2026-03-14').condition.parts.map(one => [
      one.part,
      [one.grade, one.originality, one.note],
    ]),
  );

it('carries nothing of the old paint, or of a part that was replaced, into the check of a painted car', () => {
  expect(
    found(
      jobOf([
        ['strip', 'body finish'],
        ['brighten-base', 'base'],
      ]),
    ),
  ).toMatchObject({
    'body finish': ['', 'original', ''],
    roof: ['', 'original', ''],
    base: ['', 'original', 'bent at the tail'],
    wheels: ['', 'reproduction', ''],
  });
});

it('begins with the closure of a car that was opened: the one that is done, else the one that is planned', () => {
  const job = (done: [string, null][], state: 'to do' | 'left out' = 'to do') => ({
    ...jobOf(done),
    steps: [...jobOf(done).steps, { id: 99, step: 'close-rivet', part: null, state, seconds: 0 }],
  });
  const begun = (one: unknown) => beginFinish(car, one as JobView, '2026-03-14');
  expect(begun(job([['drill-posts', null]])).closure).toBe('rivet');
  expect(
    begun(
      job([
        ['drill-posts', null],
        ['close-screw', null],
      ]),
    ).closure,
  ).toBe('screw');
  expect(begun(job([['wash', null]])).closure).toBe('');
  // Where nobody says how it is closed, that it was opened is said all the same.
  const open = begun(job([['drill-posts', null]], 'left out'));
  expect(open.closure).toBe('');
  expect(impliedDepartures(open, 'Ember')).toEqual(
    ['visible post closure', 'reproduction wheels'].toSorted(),
  );
  expect(impliedDepartures({ ...open, closure: 'as made' }, 'Ember')).toEqual(['reproduction wheels']);
});

it('leaves roof and paint as they were where nothing was painted', () => {
  expect(found(jobOf([['clean-wheels', 'wheels']], 'conserve'))).toMatchObject({
    'body finish': ['C2', 'original', 'toned nearly brown'],
    roof: ['C2', 'original', 'bare at the edge'],
  });
  expect(found(null)).toMatchObject({ roof: ['C2', 'original', 'bare at the edge'] });
});

it('begins with who did it and how long the clock ran', () => {
  expect(beginFinish(car, jobOf([['strip', 'body finish']]), '2026-03-14')).toMatchObject({
    who: 'E. Tarrow',
    minutes: '1',
    finishState: 'restored',
  });
});
