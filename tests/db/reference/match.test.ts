import { describe, expect, it } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { runAction } from '../../../db/history/history.ts';
import { loadMatcher, plainBasePaint } from '../../../db/reference/match.ts';
import { listVariations } from '../../../db/reference/reference.ts';
import { variationLabels } from '../../../db/reference/reference-label.ts';
import { saveCasting, saveVariation } from '../../../db/reference/reference-write.ts';
import { at, newCollection } from '../../helpers/collections.ts';

const blank = { bodyType: 'saloon', firstYear: null, lengthMm: null, materials: '', markings: '', notes: '' };

type Row = [series: string, casting: string, release: string, year: number | null, features: object];

/**
 * Writes rows of reference and returns each variation's id by its place, and each casting's by "series/name".
 */
const fill = async (collection: Collection, rows: Row[]) => {
  const castings = new Map<string, number>();
  const variations = await runAction(collection, 'Filled the reference', at, async trx => {
    const ids: number[] = [];
    for (const [series, name, releaseName, releaseYear, features] of rows) {
      const key = `${series}/${name}`;
      const castingId =
        castings.get(key) ?? (await saveCasting(trx, { maker: 'Quillon Toys', series, name, ...blank }));
      castings.set(key, castingId);
      const variation = { castingId, releaseName, releaseYear, rarity: null, factorySpecification: '' };
      ids.push(await saveVariation(trx, { ...variation, features }));
    }
    return ids;
  });
  return { castings, variations };
};

const rows: Row[] = [
  ['Slipwinds', 'Dovetail', 'Dovetail', 1968, { colour: 'Ember', rearEnd: 'twin lamps', basePaint: 'full' }],
  [
    'Slipwinds',
    'Dovetail',
    'Dovetail',
    1968,
    { colour: 'Ember', rearEnd: 'bar lamp', basePaint: 'rear quarter' },
  ],
  ['Slipwinds', 'Dovetail', 'Night Dovetail', 1971, { colour: 'Inkwell' }],
  ['Slipwinds', 'Dovetail', 'Night Dovetail', 1973, { colour: 'Plum' }],
  ['Night Fair', 'Oxbow', 'Oxbow', 1969, { colour: 'Sky' }],
  ['Slipwinds', 'Oxbow', 'Oxbow', 1970, { colour: 'Straße' }],
];

const matching = async () => {
  const collection = await newCollection();
  const { castings, variations } = await fill(collection, rows);
  return { castings, variations, match: await loadMatcher(collection.read.db) };
};

describe('matching text to the reference', () => {
  it('takes any case, spaces and full-width letters for the same', async () => {
    const { match, variations } = await matching();
    const written = { casting: '  ｄovetail ', colour: 'EMBER', rear_end: ' Twin   Lamps' };
    expect(match(written)).toMatchObject({ variationId: variations[0], candidates: [] });
    expect(match({ casting: 'OXBOW', series: 'slipwinds', colour: 'STRASSE' }).variationId).toBeNull();
    expect(match({ casting: 'OXBOW', series: 'slipwinds', colour: 'straße' }).variationId).toBe(
      variations[5],
    );
  });

  it('takes a part of a maker’s or a series’ name for it, and no other name', async () => {
    const { match, castings } = await matching();
    for (const within of [
      { maker: 'Quillon' },
      { maker: 'Quillon Toys Ltd' },
      { series: 'Slipwind' },
      { maker: 'QUILLON', series: 'Slipwinds series' },
    ] as Record<string, string>[])
      expect(match({ casting: 'Dovetail', ...within }).castingId, JSON.stringify(within)).toBe(
        castings.get('Slipwinds/Dovetail'),
      );
    for (const within of [
      { maker: 'Quill' },
      { maker: 'Toys' },
      { maker: 'Bronley' },
      { series: 'Night' },
    ] as Record<string, string>[])
      expect(match({ casting: 'Dovetail', ...within }).castingId, JSON.stringify(within)).toBeNull();
    // Of two castings of one name the series still tells, whole or in part.
    expect(match({ casting: 'Oxbow', series: 'Fair' }).castingId).toBe(castings.get('Night Fair/Oxbow'));
    expect(match({ casting: 'Oxbow', maker: 'Quillon' }).castingId).toBeNull();
  });

  it('leaves open what more than one fits, and never guesses', async () => {
    const { match, castings, variations } = await matching();
    expect(match({ casting: 'Dovetail', colour: 'Ember' })).toMatchObject({
      castingId: castings.get('Slipwinds/Dovetail'),
      variationId: null,
      candidates: [variations[0], variations[1]],
    });
    // The casting alone narrows nothing: all of its variations are open, and none is listed.
    expect(match({ casting: 'Dovetail' })).toMatchObject({
      variationId: null,
      releaseId: null,
      candidates: [],
    });
    expect(match({ casting: 'Oxbow' })).toEqual({
      castingId: null,
      releaseId: null,
      variationId: null,
      candidates: [],
    });
    expect(match({ casting: 'Oxbow', series: 'Night Fair' }).variationId).toBe(variations[4]);
  });

  it('keeps the casting of a row whose variation is not known', async () => {
    const { match, castings } = await matching();
    const dovetail = castings.get('Slipwinds/Dovetail');
    const unknown = { castingId: dovetail, variationId: null, candidates: [] };
    expect(match({ casting: 'Dovetail', colour: 'Embr' })).toMatchObject(unknown);
    expect(match({ casting: 'Dovetail', colour: 'Ember', roof: 'vinyl' })).toMatchObject(unknown);
    expect(match({ casting: 'Dovetail', release_year: '1999', colour: 'Ember' })).toMatchObject(unknown);
  });

  it('knows a casting by the name of a re-release, and a release by its year', async () => {
    const { match, variations } = await matching();
    expect(match({ casting: 'Night Dovetail', colour: 'Inkwell' }).variationId).toBe(variations[2]);
    expect(match({ casting: 'Night Dovetail', release_year: '1973' }).variationId).toBe(variations[3]);
    expect(match({ casting: 'Dovetail', release_name: 'night dovetail' })).toMatchObject({
      variationId: null,
      candidates: [variations[2], variations[3]],
    });
    expect(match({ release_name: 'Night Dovetail', colour: 'plum' }).variationId).toBe(variations[3]);
  });

  it('reads base paint as owners write it', async () => {
    const { match, variations } = await matching();
    expect(match({ casting: 'Dovetail', base_paint: 'Rear-Quarter' }).variationId).toBe(variations[1]);
    expect(match({ casting: 'Dovetail', base_paint: 'fully painted' }).variationId).toBe(variations[0]);
    expect(plainBasePaint('back quarter')).toBe('rear quarter');
    expect(plainBasePaint('Striped')).toBe('striped');
  });

  it('finds nothing in nothing', async () => {
    const { match } = await matching();
    const texts: Record<string, string>[] = [
      {},
      { casting: ' ' },
      { colour: 'Ember' },
      { casting: 'Whoosh' },
    ];
    for (const written of texts)
      expect(match(written)).toEqual({ castingId: null, releaseId: null, variationId: null, candidates: [] });
  });
});

describe('naming variations', () => {
  const labelled = async (ofCasting: Row[]) => {
    const collection = await newCollection();
    const { variations } = await fill(collection, ofCasting);
    const labels = variationLabels(await listVariations(collection.read.db));
    return variations.map(id => labels.get(id)?.label);
  };
  it('tells what is not the colour apart, whatever signs the colour has', async () => {
    const collection = await newCollection();
    const { variations } = await fill(collection, [
      dovetail({ colour: 'Ember, one white stripe', basePaint: 'none' }),
      dovetail({ colour: 'Moss', basePaint: 'full' }),
      dovetail({ basePaint: 'full', roof: 'clear' }),
    ]);
    const labels = variationLabels(await listVariations(collection.read.db));
    expect(variations.map(id => labels.get(id))).toEqual([
      { label: 'Ember, one white stripe, bare base', beyondColour: 'bare base' },
      { label: 'Moss, full base paint', beyondColour: 'full base paint' },
      { label: 'full base paint', beyondColour: 'full base paint' },
    ]);
  });

  const dovetail = (features: object, year: number | null = 1968): Row => [
    'A',
    'Dovetail',
    'Dovetail',
    year,
    features,
  ];

  it('says colour, base paint and rear end where they differ, and only as much more as is needed', async () => {
    expect(
      await labelled([
        dovetail({
          colour: 'Ember',
          basePaint: 'none',
          rearEnd: 'twin lamps',
          interior: 'white',
          roof: 'clear',
        }),
        dovetail({
          colour: 'Moss',
          basePaint: 'full',
          rearEnd: 'twin lamps',
          interior: 'white',
          roof: 'clear',
        }),
        dovetail({
          colour: 'Moss',
          basePaint: 'full',
          rearEnd: 'twin lamps',
          interior: 'black',
          roof: 'clear',
        }),
      ]),
    ).toEqual(['Ember, bare base', 'Moss, full base paint, white', 'Moss, full base paint, black']);
  });

  it('falls back to the release, and to its name where nothing else is recorded', async () => {
    expect(
      await labelled([
        dovetail({ colour: 'Ember' }, 1968),
        dovetail({ colour: 'Ember' }, 1970),
        dovetail({}, 1971),
      ]),
    ).toEqual(['Ember (Dovetail 1968)', 'Ember (Dovetail 1970)', 'Dovetail']);
  });
});

it('a name that differs by accents, hyphens and spaces alone is the same, and one that fits two is none', async () => {
  const collection = await newCollection();
  const { castings } = await fill(collection, [
    ['Slipwinds', 'Corriemuir Coupe', 'Corriemuir Coupe', 1969, { colour: 'Ember' }],
    ['Slipwinds', 'Night-Parcel', 'Night-Parcel', 1969, { colour: 'Ember' }],
    ['Slipwinds', 'Night Parcel', 'Night Parcel', 1970, { colour: 'Ember' }],
  ]);
  const match = await loadMatcher(collection.read.db);
  const coupe = castings.get('Slipwinds/Corriemuir Coupe');
  for (const casting of ['Corriemuir Coupé', 'CORRIEMUIR-COUPE', 'CorriemuirCoupe'])
    expect(match({ casting, colour: 'Ember' })).toMatchObject({
      castingId: coupe,
      variationId: expect.any(Number),
    });
  expect(match({ casting: 'Night Parcel' }).castingId).toBe(castings.get('Slipwinds/Night Parcel'));
  expect(match({ casting: 'NightParcel' }).castingId).toBeNull();
  expect(match({ casting: 'Corriemuir Coupes' }).castingId).toBeNull();
});
