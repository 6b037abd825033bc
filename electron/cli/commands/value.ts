import { spell } from '../../../valuation/wording/dialect.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { conditionLabel } from '../../../valuation/words.ts';
import type { ValuationList } from '../../api/views.ts';
import { decimalRange } from '../amounts.ts';
import { answerLines, answersOf } from '../answers.ts';
import { withCollection } from '../collection.ts';
import { followed } from '../progress-bar.ts';
import { print, table } from '../terminal.ts';

const asDecimals = ({ on, currency, cars }: ValuationList) => ({
  on,
  currency,
  cars: cars.map(({ asFound, restored, originalFinish, evidence, ...car }) => ({
    ...car,
    asFound: decimalRange(asFound, currency),
    restored: decimalRange(restored, currency),
    originalFinish: decimalRange(originalFinish, currency),
    evidence,
  })),
});

type Valued = ReturnType<typeof asDecimals>;

const lines = ({ on, currency, cars }: Valued): string[] => {
  const cell = (range: Valued['cars'][number]['asFound']) =>
    range ? `${range.low} – ${range.mid} – ${range.high}` : 'not enough evidence';
  const rows = cars.map(car => [
    car.inventoryNumber,
    [car.casting ?? 'unidentified', car.variation, car.wornColour && `wears ${car.wornColour}`]
      .filter(Boolean)
      .join(', '),
    spell(conditionLabel(car.grade, car.finishState), plainLocale),
    spell(car.finishState, plainLocale),
    cell(car.asFound),
    cell(car.restored),
    cell(car.originalFinish),
  ]);
  const heads = ['No', 'Car', 'Grade', 'Finish', 'As found', 'Restored', 'Original finish'];
  return [`Values on ${on} in ${currency}: low – mid – high`, '', ...table(heads, rows, [4, 5, 6])];
};

/** `playworn value`: the three values of every car that is not sold. */
export const value = ({
  collection,
  on,
  json,
}: {
  collection: string;
  on?: string;
  json?: boolean;
}): Promise<void> =>
  withCollection({ collection }, async ({ api, signal }) => {
    const list = await followed<ValuationList>(await api.worth.list({ on }, { signal }));
    const helpful = answersOf(await api.young.answers());
    print(json, { ...asDecimals(list), helpful }, shown => [...lines(shown), ...answerLines(helpful)]);
  });
