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

/** Writes rows of reference and returns each variation's id by its place, and each casting's by "series/name". */
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
  ['Slipwinds', 'Dart', 'Dart', 1968, { colour: 'Ember', rearEnd: 'twin lamps', basePaint: 'full' }],
  ['Slipwinds', 'Dart', 'Dart', 1968, { colour: 'Ember', rearEnd: 'bar lamp', basePaint: 'rear quarter' }],
  ['Slipwinds', 'Dart', 'Night Dart', 1971, { colour: 'Inkwell' }],
  ['Slipwinds', 'Dart', 'Night Dart', 1973, { colour: 'Plum' }],
  ['Night Fair', 'Osprey', 'Osprey', 1969, { colour: 'Sky' }],
  ['Slipwinds', 'Osprey', 'Osprey', 1970, { colour: 'Straße' }],
];

const matching = async () => {
  const collection = await newCollection();
  const { castings, variations } = await fill(collection, rows);
  return { castings, variations, match: await loadMatcher(collection.db) };
};

describe('matching text to the reference', () => {
  it('takes any case, spaces and full-width letters for the same', async () => {
    const { match, variations } = await matching();
    const written = { casting: '  ｄart ', colour: 'EMBER', rear_end: ' Twin   Lamps' };
    expect(match(written)).toMatchObject({ variationId: variations[0], candidates: [] });
    expect(match({ casting: 'OSPREY', series: 'slipwinds', colour: 'STRASSE' }).variationId).toBeNull();
    expect(match({ casting: 'OSPREY', series: 'slipwinds', colour: 'straße' }).variationId).toBe(
      variations[5],
    );
  });

  it('leaves open what more than one fits, and never guesses', async () => {
    const { match, castings, variations } = await matching();
    expect(match({ casting: 'Dart', colour: 'Ember' })).toMatchObject({
      castingId: castings.get('Slipwinds/Dart'),
      variationId: null,
      candidates: [variations[0], variations[1]],
    });
    // The casting alone narrows nothing: all of its variations are open, and none is listed.
    expect(match({ casting: 'Dart' })).toMatchObject({ variationId: null, releaseId: null, candidates: [] });
    expect(match({ casting: 'Osprey' })).toEqual({
      castingId: null,
      releaseId: null,
      variationId: null,
      candidates: [],
    });
    expect(match({ casting: 'Osprey', series: 'Night Fair' }).variationId).toBe(variations[4]);
  });

  it('keeps the casting of a row whose variation is not known', async () => {
    const { match, castings } = await matching();
    const dart = castings.get('Slipwinds/Dart');
    const unknown = { castingId: dart, variationId: null, candidates: [] };
    expect(match({ casting: 'Dart', colour: 'Embr' })).toMatchObject(unknown);
    expect(match({ casting: 'Dart', colour: 'Ember', roof: 'vinyl' })).toMatchObject(unknown);
    expect(match({ casting: 'Dart', release_year: '1999', colour: 'Ember' })).toMatchObject(unknown);
  });

  it('knows a casting by the name of a re-release, and a release by its year', async () => {
    const { match, variations } = await matching();
    expect(match({ casting: 'Night Dart', colour: 'Inkwell' }).variationId).toBe(variations[2]);
    expect(match({ casting: 'Night Dart', release_year: '1973' }).variationId).toBe(variations[3]);
    expect(match({ casting: 'Dart', release_name: 'night dart' })).toMatchObject({
      variationId: null,
      candidates: [variations[2], variations[3]],
    });
    expect(match({ release_name: 'Night Dart', colour: 'plum' }).variationId).toBe(variations[3]);
  });

  it('reads base paint as owners write it', async () => {
    const { match, variations } = await matching();
    expect(match({ casting: 'Dart', base_paint: 'Rear-Quarter' }).variationId).toBe(variations[1]);
    expect(match({ casting: 'Dart', base_paint: 'fully painted' }).variationId).toBe(variations[0]);
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
    const labels = variationLabels(await listVariations(collection.db));
    return variations.map(id => labels.get(id));
  };
  const dart = (features: object, year: number | null = 1968): Row => ['A', 'Dart', 'Dart', year, features];

  it('says colour, base paint and rear end where they differ, and only as much more as is needed', async () => {
    expect(
      await labelled([
        dart({ colour: 'Ember', basePaint: 'none', rearEnd: 'twin lamps', interior: 'white', roof: 'clear' }),
        dart({ colour: 'Moss', basePaint: 'full', rearEnd: 'twin lamps', interior: 'white', roof: 'clear' }),
        dart({ colour: 'Moss', basePaint: 'full', rearEnd: 'twin lamps', interior: 'black', roof: 'clear' }),
      ]),
    ).toEqual(['Ember, bare base', 'Moss, full base paint, white', 'Moss, full base paint, black']);
  });

  it('falls back to the release, and to its name where nothing else is recorded', async () => {
    expect(
      await labelled([dart({ colour: 'Ember' }, 1968), dart({ colour: 'Ember' }, 1970), dart({}, 1971)]),
    ).toEqual(['Ember (Dart 1968)', 'Ember (Dart 1970)', 'Dart']);
  });
});
