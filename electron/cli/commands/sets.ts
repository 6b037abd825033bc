import { minorToDecimal } from '../../../valuation/money.ts';
import type { Range } from '../../../valuation/types.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { counted, plainLocale } from '../../../valuation/wording/reader.ts';
import { carGradeLabel, type Grade, gradeLabel } from '../../../valuation/words.ts';
import type { SetPage } from '../../api/lists/casting-sets.ts';
import { withCollection } from '../collection.ts';
import { print, Refused, table } from '../terminal.ts';

interface SetOptions {
  collection: string;
  grade?: Grade;
  json?: boolean;
}

const shown = ({ name, grade, currency, members, missing, withoutEvidence, completing }: SetPage) => {
  const money = (range: Range | null) =>
    range && {
      low: minorToDecimal(range.low, currency),
      mid: minorToDecimal(range.mid, currency),
      high: minorToDecimal(range.high, currency),
    };
  return {
    name,
    grade,
    currency,
    castings: members.length,
    missing,
    /** Of the missing ones of which a price can be said. */
    completing: money(completing),
    withoutEvidence,
    members: members.map(({ casting, series, year, cars, best, price }) => ({
      casting,
      series,
      year,
      cars,
      best: best && {
        number: best.inventoryNumber,
        grade: best.grade,
        finishState: best.finishState,
        value: money(best.worth),
      },
      price: money(price),
    })),
  };
};

type Shown = ReturnType<typeof shown>;

const completingLine = ({ completing, missing, withoutEvidence, grade, currency }: Shown): string =>
  missing === 0
    ? 'Complete.'
    : completing === null
      ? `${counted(missing, 'casting')} missing; no price can be said of any.`
      : `${counted(missing, 'casting')} missing; at ${gradeLabel(grade)} expected to cost ${completing.mid} ${currency} in all (${completing.low} to ${completing.high})${withoutEvidence.length > 0 ? `, without ${withoutEvidence.join(', ')}, of which no price can be said` : ''}.`;

const linesOf = (set: Shown): string[] => [
  set.name,
  ...table(
    ['Casting', 'Year', 'Cars', 'Best', 'Value', `Price at ${gradeLabel(set.grade)}`],
    set.members.map(({ casting, year, cars, best, price }) => [
      casting,
      year === null ? '' : String(year),
      String(cars),
      best === null
        ? 'missing'
        : `${best.number}, ${best.grade === null ? `not graded, ${best.finishState}` : spell(carGradeLabel(best.grade, best.finishState), plainLocale)}`,
      best?.value?.mid ?? '',
      best === null ? (price?.mid ?? 'not enough evidence') : '',
    ]),
    [2, 4, 5],
  ),
  completingLine(set),
];

/** `playworn sets`: every set, or one by its name: what is there, what is missing, what that would cost. */
export const sets = (name: string | undefined, { collection, grade, json }: SetOptions): Promise<void> =>
  withCollection({ collection }, async ({ api }) => {
    const all = await api.castingSets.list();
    const pageOf = async (id: number) =>
      shown(await api.castingSets.page({ id, ...(grade !== undefined && { grade }) }));
    if (name === undefined) {
      const pages = await Promise.all(all.map(({ id }) => pageOf(id)));
      return print<Shown[]>(json, pages, list =>
        list.length === 0
          ? ['No set is saved yet: make one on Sets.']
          : table(
              ['Set', 'Castings', 'Missing', 'To complete'],
              list.map(set => [
                set.name,
                String(set.castings),
                String(set.missing),
                set.completing === null ? '' : `${set.completing.mid} ${set.currency}`,
              ]),
              [1, 2, 3],
            ),
      );
    }
    const one = all.find(set => set.name.toLowerCase() === name.toLowerCase());
    if (!one)
      throw new Refused(
        `No set is called ${name}.${all.length > 0 ? ` There are: ${all.map(set => set.name).join(', ')}.` : ''}`,
      );
    print(json, await pageOf(one.id), linesOf);
  });
