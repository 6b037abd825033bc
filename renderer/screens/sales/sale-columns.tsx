import type { SaleRow } from '../../../electron/api/views.ts';
import { finishStates, gradeLabel } from '../../../valuation/words.ts';
import type { GridColumn } from '../../components/data-grid/types.ts';
import { amountText, dateText } from '../../components/format.ts';
import { suggestCastings, variationChoices } from '../../components/inputs/casting-choices.tsx';
import { type Choice, filterChoices } from '../../components/inputs/choices.ts';
import { currencyChoices } from '../../components/inputs/currency-field.tsx';
import { LacquerChip } from '../../components/lacquer-chip/lacquer-chip.tsx';
import { GradeBadge } from '../../components/marks/grade-badge.tsx';
import { FinishCell } from '../../components/own-words/finish-cell.tsx';
import type { OwnMeanings } from '../../components/own-words/own-meanings.ts';
import { UnreadMark } from '../../components/own-words/unread-mark.tsx';
import { readerWords } from '../../components/words.ts';
import { doubtText } from './doubt-text.ts';
import { parseDay, parseGradeCell, parseParts, parsePrice, partsText } from './sale-edits.ts';
import { doubtPhrase } from './sale-filter.ts';
import classes from './sales.module.css';

const foreign = (row: SaleRow): boolean => !row.own;

const clipped = (text: string, quiet = false) =>
  text ? (
    <span className={quiet ? classes.quiet : classes.text} title={text}>
      {text}
    </span>
  ) : null;

const Standing = ({ row }: { row: SaleRow }) => {
  switch (row.state) {
    case 'counted':
      return <span className={classes.quiet}>{row.own ? 'your own sale' : 'counts'}</span>;
    case 'left out':
      return clipped(row.excludedWhy ? `left out: ${row.excludedWhy}` : 'left out', true);
    default:
      return (
        <span className={classes.doubt} title={doubtText(row)}>
          {row.state === 'doubtful' ? 'doubtful: ' : 'set aside: '}
          {doubtPhrase(row) ?? doubtText(row)}
        </span>
      );
  }
};

const partsColumn = (id: 'missingParts' | 'reproductionParts', title: string): GridColumn<SaleRow> => ({
  id,
  title,
  width: title.length > 8 ? 104 : 76,
  value: row => partsText(row[id]),
  render: row => clipped(partsText(row[id])),
  editor: { kind: 'text', parse: parseParts },
  editable: foreign,
});

/** When it was sold, and for how much. */
const priceColumns = (): GridColumn<SaleRow>[] => {
  const currencies = currencyChoices();
  return [
    {
      id: 'soldOn',
      title: 'Sold on',
      width: 92,
      pinned: true,
      value: row => row.soldOn,
      render: row => dateText(row.soldOn),
      editor: { kind: 'text', parse: parseDay },
      editable: foreign,
    },
    {
      id: 'price',
      title: 'Price',
      width: 80,
      align: 'end',
      value: row => row.price,
      text: row => amountText(row.price, row.currency),
      editor: { kind: 'number', parse: (text, row) => parsePrice(text, row?.currency ?? 'USD') },
      editable: foreign,
    },
    {
      id: 'currency',
      title: 'In',
      width: 48,
      value: row => row.currency,
      render: row => <span className={classes.quiet}>{row.currency}</span>,
      editor: { kind: 'type-ahead', choices: () => currencies },
      editable: foreign,
    },
  ];
};

/** What was sold. */
const identityColumns = (): GridColumn<SaleRow>[] => [
  {
    id: 'casting',
    title: 'Casting',
    width: 112,
    grow: 2,
    value: row => row.casting,
    render: row => (row.castingId === null ? clipped(row.casting, true) : clipped(row.casting)),
    editor: { kind: 'type-ahead', choices: () => suggestCastings },
    editable: foreign,
  },
  {
    id: 'variation',
    title: 'Variation',
    width: 180,
    grow: 4,
    value: row => row.variation,
    render: row =>
      row.variation ? (
        <LacquerChip name={row.variation} swatch={row.swatch} />
      ) : (
        <span className={classes.quiet}>any</span>
      ),
    editor: {
      kind: 'type-ahead',
      choices: row => async text =>
        row?.castingId ? filterChoices(await variationChoices(row.castingId), text) : [],
    },
    editable: row => foreign(row) && row.castingId !== null,
  },
];

/** The state that it was in. */
const conditionColumns = (means: OwnMeanings): GridColumn<SaleRow>[] => [
  {
    id: 'grade',
    title: 'Grade',
    width: 96,
    value: row => row.grade,
    text: row => (row.grade === null ? '' : gradeLabel(row.grade)),
    render: row =>
      row.grade === null ? (
        <UnreadMark unread={row.unread} field="grade" />
      ) : (
        <GradeBadge grade={row.grade} finishState={row.finishState} />
      ),
    editor: { kind: 'number', parse: parseGradeCell },
    means: means('grade'),
    editable: foreign,
  },
  {
    id: 'finishState',
    title: 'Finish',
    width: 96,
    value: row => row.finishState,
    render: row => <FinishCell row={row} />,
    editor: {
      kind: 'select',
      choices: finishStates.map(state => ({ value: state, label: readerWords().spell(state) })),
    },
    means: means('finish_state'),
    editable: foreign,
  },
  partsColumn('missingParts', 'Missing'),
  partsColumn('reproductionParts', 'Reproduction'),
];

/** Where the record comes from, and whether it counts. */
const recordColumns = (sources: readonly Choice[]): GridColumn<SaleRow>[] => [
  {
    id: 'source',
    title: 'Source',
    width: 72,
    value: row => row.source,
    render: row => clipped(row.source),
    editor: { kind: 'type-ahead', choices: () => sources, freeText: true },
    editable: foreign,
  },
  {
    id: 'reference',
    title: 'Reference',
    width: 88,
    grow: 2,
    value: row => row.reference,
    render: row => clipped(row.reference, true),
    editor: { kind: 'text', maxLength: 200 },
    editable: foreign,
  },
  {
    id: 'state',
    title: 'Status',
    width: 176,
    grow: 3,
    value: row => row.state,
    render: row => (
      <>
        {row.unread.length === 0 ? null : (
          <>
            <UnreadMark unread={row.unread} />
            <span className={classes.quiet}>; </span>
          </>
        )}
        <Standing row={row} />
      </>
    ),
  },
];

/**
 * The columns of the list of sale records; `sources` are those in use. What each sorts by is the service's
 * (`sale-list.ts`).
 */
export const saleColumns = (sources: readonly Choice[], means: OwnMeanings): GridColumn<SaleRow>[] => [
  ...priceColumns(),
  ...identityColumns(),
  ...conditionColumns(means),
  ...recordColumns(sources),
];
