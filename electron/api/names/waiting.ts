import { nearNames } from '../../../db/import/judges/near-names.ts';
import { inventoryNumbers } from '../../../db/records/cars/cars.ts';
import { type WaitingGroup, waitingNames } from '../../../db/records/names/waiting-names.ts';
import { loadReference } from '../../../db/reference/match.ts';
import { plain } from '../../../db/reference/plain.ts';
import { unknownMaker, unsortedSeries } from '../../../db/reference/unsorted.ts';
import { nearestKnown } from '../../../valuation/reading/names/group-names.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { memo } from '../session/memo.ts';
import type { Session } from '../session/session.ts';
import type { WaitingName } from '../views.ts';
import { gainsOfNames } from './gains.ts';

const mostExamples = 4;

/** The groups of names that wait, remembered until a car, a sale record or what was settled changes. */
export const waitingGroups = memo(({ db }) => waitingNames(db));

/** Where a new casting of this name goes: as its rows say, or else to what is not sorted yet. */
export const homeOf = ({ maker, series }: Pick<WaitingGroup, 'maker' | 'series'>) => ({
  maker: maker ?? unknownMaker,
  series: series ?? unsortedSeries,
});

const seriesNamed = (index: ReferenceIndex, home: { maker: string; series: string }): number | null => {
  for (const casting of index.castings.values())
    if (plain(casting.maker) === plain(home.maker) && plain(casting.series) === plain(home.series))
      return casting.seriesId;
  return null;
};

/** For each casting's own name and those of its releases, the casting. */
const castingsByName = (index: ReferenceIndex): Map<string, number> => {
  const names = new Map<string, number>();
  for (const casting of index.castings.values()) {
    names.set(plain(casting.name), casting.id);
    for (const release of index.releasesOf.get(casting.id) ?? [])
      if (!names.has(plain(release.name))) names.set(plain(release.name), casting.id);
  }
  return names;
};

interface Waiting {
  names: WaitingName[];
  /** Cars that are sure to have a value once all names are settled so; by one name alone it may be fewer. */
  valuedTogether: number;
}

/** The names that wait, each with what it is likely to be and what settling it gives. */
export const waitingList = memo(
  async ({ db, from }): Promise<Waiting> => {
    const groups = await from(waitingGroups);
    if (groups.length === 0) return { names: [], valuedTogether: 0 };
    const index = await from(referenceIndex);
    const known = castingsByName(index);
    const near = nearestKnown(
      groups.flatMap(group => group.texts.map(({ text }) => plain(text))),
      [...known.keys()],
    );
    const shortened = known.size > 0 ? nearNames(await loadReference(db)) : () => null;
    const nearTo = (text: string): string | undefined => {
      const short = near.get(plain(text)) ?? shortened(text);
      return short === null ? undefined : plain(short);
    };
    const shown = groups.flatMap(group => group.carIds.slice(0, mostExamples));
    const numbers = await inventoryNumbers(db, shown);
    const placed = groups.map(group => {
      const name = group.texts.flatMap(({ text }) => nearTo(text) ?? [])[0];
      const casting = index.castings.get((name && known.get(name)) || 0);
      const home = homeOf(group);
      return {
        group,
        casting,
        castingId: casting?.id ?? null,
        seriesId: casting?.seriesId ?? seriesNamed(index, home),
        home: plain(`${home.maker}\u0001${home.series}`),
      };
    });
    const { alone, together } = await gainsOfNames({ db, from }, placed);
    const names = placed.map(
      ({ group, casting }, at): WaitingName => ({
        name: group.text,
        spellings: group.texts.map(({ text, carIds, saleIds }) => ({
          text,
          cars: carIds.length,
          sales: saleIds.length,
        })),
        cars: group.carIds.length,
        sales: group.saleIds.length,
        years: group.years,
        maker: group.maker,
        series: group.series,
        examples: group.carIds.slice(0, mostExamples).flatMap(id => numbers.get(id) ?? []),
        near: casting ? { castingId: casting.id, name: casting.name, series: casting.series } : null,
        valued: alone[at] ?? 0,
      }),
    );
    return { names, valuedTogether: together };
  },
  session => session.today(),
);

/** The group of which a text is a spelling. */
export const groupOfText = async (session: Session, text: string): Promise<WaitingGroup | undefined> =>
  (await waitingGroups(session)).find(group => group.texts.some(one => plain(one.text) === plain(text)));
