import { nearness } from '../../../valuation/reading/names/likeness.ts';
import { nameKey } from '../../../valuation/reading/names/name-key.ts';
import type { CastingRow, WaitingName } from '../../api/views.ts';
import { type Api, withCollection } from '../collection.ts';
import { print, Refused, table } from '../terminal.ts';

interface Common {
  collection: string;
  json?: boolean;
}

const spellings = ({ spellings: all }: WaitingName): string =>
  all
    .slice(1)
    .map(({ text }) => text)
    .join('; ');

/** `playworn names`: the names that wait for the reference, like spellings together. */
export const names = ({ collection, json }: Common): Promise<void> =>
  withCollection({ collection }, async ({ api }) => {
    const waiting = await api.names.waiting();
    print(json, waiting, shown =>
      shown.names.length === 0
        ? ['No name waits: the reference knows every casting that is named.']
        : [
            ...table(
              ['Name', 'Cars', 'Sales', 'Year', 'Also written', 'Spelled like'],
              shown.names.map(name => [
                name.name,
                String(name.cars),
                String(name.sales),
                name.years.join(', '),
                spellings(name),
                name.near?.name ?? '',
              ]),
              [1, 2],
            ),
            '',
            'Settle one with: playworn settle NAME --as casting | --as "not a car" | --same-as CASTING | --release-of CASTING',
          ],
    );
  });

export interface SettleOptions extends Common {
  as?: 'casting' | 'not a car';
  sameAs?: string;
  releaseOf?: string;
  maker?: string;
  series?: string;
}

const nearestOf = (text: string, known: readonly string[]): string => {
  const key = nameKey(text);
  const near = [...known]
    .map(name => ({ name, near: nearness(key, nameKey(name)) }))
    .filter(one => one.near > 0.4)
    .sort((a, b) => b.near - a.near)
    .slice(0, 3);
  return near.length > 0 ? ` Near it: ${near.map(({ name }) => name).join(', ')}.` : '';
};

const same = (a: string, b: string): boolean => nameKey(a).joined === nameKey(b).joined;

const castingNamed = (castings: readonly CastingRow[], text: string): number => {
  const found = castings.filter(({ name, series }) => same(name, text) || same(`${series} ${name}`, text));
  const [one, another] = found;
  if (!one)
    throw new Refused(
      `There is no casting "${text}" in the reference.${nearestOf(
        text,
        castings.map(({ name }) => name),
      )}`,
    );
  if (another)
    throw new Refused(
      `Several castings are named "${text}": put the series before it, such as "${one.series} ${one.name}".`,
    );
  return one.id;
};

const settlementOf = async (api: Api, { as, sameAs, releaseOf, maker, series }: SettleOptions) => {
  const said = [as, sameAs, releaseOf].filter(one => one !== undefined).length;
  if (said !== 1) throw new Refused('Give one of --as, --same-as and --release-of.');
  if (as === 'casting') return { as, maker, series };
  if (as !== undefined) return { as };
  const castings = await api.reference.castings();
  return sameAs === undefined
    ? { as: 'release' as const, castingId: castingNamed(castings, releaseOf ?? '') }
    : { as: 'same' as const, castingId: castingNamed(castings, sameAs) };
};

const counted = (number: number, what: string): string => `${number} ${number === 1 ? what : `${what}s`}`;

/** `playworn settle`: says what a name that waits means; all spellings of its group at once. */
export const settle = (name: string, options: SettleOptions): Promise<void> =>
  withCollection({ collection: options.collection }, async ({ api }) => {
    const { names: waiting } = await api.names.waiting();
    const group = waiting.find(one => one.spellings.some(({ text }) => same(text, name)));
    if (!group)
      throw new Refused(
        `No car and no sale record waits under the name "${name}".${nearestOf(
          name,
          waiting.map(one => one.name),
        )}`,
      );
    const settlement = await settlementOf(api, options);
    const done = await api.names.settle({ texts: [group.spellings[0]?.text ?? name], settlement });
    print(options.json, done, ({ name: text, casting, cars, sales }) => [
      casting === null
        ? `${text} is not a car; it waits no longer.`
        : `${text} is the casting ${casting}: ${counted(cars, 'car')} and ${counted(sales, 'sale record')} identified.`,
    ]);
  });
