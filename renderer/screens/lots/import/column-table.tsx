import { NativeSelect } from '@mantine/core';
import type { ImportPreview } from '../../../../electron/api/views.ts';
import { dateOrders } from '../../../../valuation/reading/date.ts';
import { decimalSigns } from '../../../../valuation/reading/money.ts';
import { dateOrderNames, decimalSignNames } from '../../../../valuation/wording/file-words.ts';
import { readerWords, useWords } from '../../../components/words.ts';
import classes from './import.module.css';
import { columnWords, type ImportChoice, mapHeading } from './import-choice.ts';

type Column = ImportPreview['columns'][number];

const how: Record<Column['how'], string> = {
  'same name': 'by its name',
  recognised: 'recognised',
  'by its cells': 'by what it holds',
  chosen: 'chosen',
  'not used': '',
};

/** Our columns whose amounts, and whose days, can be written in more than one way. */
const amounts = new Set(['price', 'price_paid', 'own_estimate', 'sold_for']);
const days = new Set(['sold_on', 'bought_on']);

const isOneOf = <T extends string>(list: readonly T[], text: string): text is T =>
  (list as readonly string[]).includes(text);

const Format = ({
  column,
  choice,
  onChange,
}: {
  column: Column;
  choice: ImportChoice;
  onChange: (choice: ImportChoice) => void;
}) => {
  const { heading } = column;
  if (column.ours !== null && amounts.has(column.ours))
    return (
      <NativeSelect
        aria-label={`Decimal sign of ${heading}`}
        value={choice.decimal[heading] ?? column.decimal ?? ''}
        data={[
          { value: '', label: 'by each amount' },
          ...decimalSigns.map(value => ({ value, label: decimalSignNames[value] })),
        ]}
        onChange={event => {
          const { [heading]: _, ...decimal } = choice.decimal;
          const sign = event.currentTarget.value;
          onChange({
            ...choice,
            decimal: isOneOf(decimalSigns, sign) ? { ...decimal, [heading]: sign } : decimal,
          });
        }}
      />
    );
  if (column.ours !== null && days.has(column.ours))
    return (
      <NativeSelect
        aria-label={`Order of dates of ${heading}`}
        value={column.dateOrder ?? ''}
        data={[
          { value: '', label: 'by each date' },
          ...dateOrders.map(value => ({ value, label: dateOrderNames[value] })),
        ]}
        onChange={event => {
          const { [heading]: _, ...dateOrder } = choice.dateOrder;
          const order = event.currentTarget.value;
          onChange({
            ...choice,
            dateOrder: isOneOf(dateOrders, order) ? { ...dateOrder, [heading]: order } : dateOrder,
          });
        }}
      />
    );
  return <span className="soft">{readerWords().spell(how[column.how])}</span>;
};

/** Their columns beside ours: what each heading means, with its first values to tell by. */
export const ColumnTable = ({
  preview,
  choice,
  onChange,
}: {
  preview: ImportPreview;
  choice: ImportChoice;
  onChange: (choice: ImportChoice) => void;
}) => {
  const words = useWords();
  const options = [
    { value: '', label: 'not read' },
    ...preview.ourColumns.map(({ name, required }) => ({
      value: name,
      label: columnWords(name) + (required ? ' *' : ''),
    })),
  ];
  const help = new Map(preview.ourColumns.map(({ name, help: text }) => [name, words.spell(text)]));
  return (
    <table className={classes.columns}>
      <thead>
        <tr>
          <th scope="col">In your file</th>
          <th scope="col">First values</th>
          <th scope="col">Here</th>
          <th scope="col">How</th>
        </tr>
      </thead>
      <tbody>
        {preview.columns.map(column => (
          <tr key={column.index} data-unused={column.ours === null || undefined}>
            <th scope="row">{column.heading}</th>
            <td className={classes.samples}>{column.samples.slice(0, 4).join(' · ')}</td>
            <td>
              <NativeSelect
                aria-label={`What ${column.heading} means`}
                title={column.ours ? help.get(column.ours) : undefined}
                value={column.ours ?? ''}
                data={options}
                onChange={event =>
                  onChange(
                    mapHeading(choice, preview.columns, column.heading, event.currentTarget.value || null),
                  )
                }
              />
            </td>
            <td>
              <Format column={column} choice={choice} onChange={onChange} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};
