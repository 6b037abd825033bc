import { readDate } from '../../../../valuation/reading/date.ts';
import type { SaleLineField } from '../../../../valuation/reading/sale-line/read-sale-line.ts';
import { pricedAt } from '../../../../valuation/reading/sale-line/read-sale-line.ts';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import {
  type FinishState,
  finishStates,
  type Grade,
  gradeLabel,
  type VariationFeature,
} from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import type { GridColumn } from '../../../components/data-grid/types.ts';
import { amountText, dateText } from '../../../components/format.ts';
import { suggestCastings } from '../../../components/inputs/casting-choices.tsx';
import { type Choice, filterChoices } from '../../../components/inputs/choices.ts';
import { currencyChoices } from '../../../components/inputs/currency-field.tsx';
import { FinishState as FinishMark } from '../../../components/marks/finish-state.tsx';
import { readerWords } from '../../../components/words.ts';
import { parseGradeCell, parseParts, parsePrice } from '../sale-edits.ts';
import { featureFields } from './line-edits.ts';
import { MarkedLine } from './marked-line.tsx';
import classes from './paste.module.css';
import { lacking, type PasteRow } from './paste-draft.ts';

const textOf = (row: PasteRow, field: SaleLineField) => row.fields[field] ?? '';

/** What becomes of a line, in a few words. */
export const standingText = (row: PasteRow): string => {
  switch (row.standing) {
    case 'add':
      return row.castingId === null ? 'add, name waits' : 'add';
    case 'lacks':
      return lacking(row);
    case 'no-car':
      return row.not === 'lot' ? 'several cars' : 'not a car';
    case 'recorded':
      return 'recorded already';
    case 'left-out':
      return 'left out';
  }
};

const standingChoices = [
  { value: 'add', label: 'Add' },
  { value: 'leave', label: 'Leave out' },
];

/** The texts that a feature takes among the variations of the line's casting. */
const featureChoices =
  (feature: VariationFeature) =>
  (row: PasteRow | null) =>
  async (text: string): Promise<Choice[]> => {
    if (!row?.castingId) return [];
    const { variationRows } = await api.reference.casting({ id: row.castingId });
    const texts = [...new Set(variationRows.map(({ features }) => features[feature]).filter(Boolean))];
    return filterChoices(
      texts.map(value => ({ value, label: value })),
      text,
    );
  };

const features = Object.entries(featureFields) as [keyof typeof featureFields, SaleLineField][];

const clipped = (text: string) =>
  text ? (
    <span className={classes.text} title={text}>
      {text}
    </span>
  ) : null;

const featureColumns = (): GridColumn<PasteRow>[] =>
  features.map(([feature, field]) => ({
    id: field,
    title: readerWords().features[feature],
    width: 92,
    grow: 1,
    value: row => textOf(row, field),
    render: row => clipped(textOf(row, field)),
    editor: { kind: 'type-ahead', choices: featureChoices(feature), freeText: true },
  }));

const textColumn = (field: SaleLineField, title: string, width: number): GridColumn<PasteRow> => ({
  id: field,
  title,
  width,
  value: row => textOf(row, field),
  render: row => clipped(textOf(row, field)),
  editor: { kind: 'text', maxLength: 200 },
});

const partsColumn = (field: 'missing_parts' | 'reproduction_parts', title: string): GridColumn<PasteRow> => ({
  ...textColumn(field, title, 96),
  value: row => textOf(row, field).replaceAll(',', ', '),
  render: row => clipped(textOf(row, field).replaceAll(',', ', ')),
  editor: { kind: 'text', parse: parseParts },
});

export interface ColumnHabits {
  currency: Currency;
  dates: 'dmy' | 'mdy' | null;
  today: IsoDate;
}

const saleColumns = ({ currency, dates, today }: ColumnHabits): GridColumn<PasteRow>[] => {
  const currencies = currencyChoices();
  const priceOf = (row: PasteRow) =>
    row.fields.price ? pricedAt(row.fields.price, row.fields.currency ?? currency) : null;
  return [
    {
      id: 'sold_on',
      title: 'Sold on',
      width: 92,
      value: row => textOf(row, 'sold_on'),
      render: row =>
        row.fields.sold_on ? dateText(row.fields.sold_on) : <span className={classes.lack}>no date</span>,
      editor: {
        kind: 'text',
        parse: text => {
          const day = readDate(text, dates, today);
          return day.ok ? { value: day.value } : { problem: day.reason };
        },
      },
    },
    {
      id: 'price',
      title: 'Price',
      width: 80,
      align: 'end',
      value: row => priceOf(row)?.minor ?? null,
      text: row => {
        const price = priceOf(row);
        return price ? amountText(price.minor, price.currency) : '';
      },
      render: row => {
        const price = priceOf(row);
        return price ? (
          amountText(price.minor, price.currency)
        ) : (
          <span className={classes.lack}>no price</span>
        );
      },
      editor: { kind: 'number', parse: (text, row) => parsePrice(text, row?.fields.currency ?? currency) },
    },
    {
      id: 'currency',
      title: 'In',
      width: 48,
      value: row => textOf(row, 'currency'),
      render: row => <span className={classes.quiet}>{textOf(row, 'currency')}</span>,
      editor: { kind: 'type-ahead', choices: () => currencies },
    },
  ];
};

const conditionColumns = (): GridColumn<PasteRow>[] => [
  {
    id: 'grade',
    title: 'Grade',
    width: 60,
    value: row => (row.fields.grade ? Number(row.fields.grade) : null),
    text: row => (row.fields.grade ? gradeLabel(Number(row.fields.grade) as Grade) : ''),
    editor: { kind: 'number', parse: parseGradeCell },
  },
  {
    id: 'finish_state',
    title: 'Finish',
    width: 92,
    value: row => textOf(row, 'finish_state'),
    render: row =>
      row.fields.finish_state ? <FinishMark state={row.fields.finish_state as FinishState} /> : null,
    editor: {
      kind: 'select',
      choices: finishStates.map(state => ({ value: state, label: readerWords().spell(state) })),
    },
  },
];

/** The columns of the lines; of the rarer fields those that some line fills, or `all`. */
export const lineColumns = (
  rows: readonly PasteRow[],
  all: boolean,
  habits: ColumnHabits,
): GridColumn<PasteRow>[] => {
  const always = new Set(['colour']);
  const rare = [
    ...featureColumns(),
    ...conditionColumns(),
    partsColumn('missing_parts', 'Missing'),
    partsColumn('reproduction_parts', 'Reproduction'),
    textColumn('source', 'Source', 92),
    textColumn('release_name', 'Release', 96),
    textColumn('release_year', 'Year', 56),
  ].filter(
    ({ id }) =>
      all ||
      always.has(id) ||
      id === 'grade' ||
      id === 'finish_state' ||
      rows.some(row => row.fields[id as SaleLineField]),
  );
  return [
    {
      id: 'standing',
      title: 'What happens',
      width: 128,
      pinned: true,
      value: standingText,
      render: row => (
        <span className={row.standing === 'add' ? classes.text : classes.standing} title={standingText(row)}>
          {standingText(row)}
        </span>
      ),
      editor: { kind: 'select', choices: standingChoices },
      editable: row => row.standing !== 'recorded',
    },
    {
      id: 'line',
      title: 'Line',
      width: 260,
      grow: 6,
      value: row => row.line,
      text: row => row.text,
      render: row => <MarkedLine row={row} />,
    },
    ...saleColumns(habits),
    {
      id: 'casting',
      title: 'Casting',
      width: 128,
      grow: 2,
      value: row => row.fields.casting ?? row.name ?? '',
      render: row =>
        row.castingId === null ? (
          row.name ? (
            <span className={classes.waiting} title="Not in the reference yet: it waits under this name">
              {row.name}
            </span>
          ) : null
        ) : (
          clipped(textOf(row, 'casting'))
        ),
      editor: { kind: 'type-ahead', choices: () => suggestCastings, freeText: true },
    },
    ...rare,
  ];
};
