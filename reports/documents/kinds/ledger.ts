import type { IsoDate, Minor } from '../../../valuation/types.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import {
  counted,
  dayText,
  moneyText,
  numberText,
  type Reader,
  signedText,
} from '../../../valuation/wording/reader.ts';
import {
  amountCell,
  type DataTable,
  dateCell,
  type ListColumn,
  listTable,
  numberCell,
  textCell,
} from '../../tables/data-table.ts';
import { footerText } from '../car-facts.ts';
import type { DocumentBlock, PaperDocument } from '../document.ts';

/** What happened, on its day, in its own currency and in the reporting one. */
export interface LedgerLine {
  on: IsoDate;
  kind: 'bought' | 'spent' | 'sold';
  what: string;
  minor: Minor;
  currency: string;
  /**
   * Of the reporting currency for one of the other; 1 in the reporting currency, null where none is
   * known for the day.
   */
  rate: number | null;
  /** In the reporting currency, null without a rate. */
  reported: Minor | null;
  /**
   * Of a sale: proceeds − fees − what the car cost with all spending on it; null where that is not all known.
   */
  realised: Minor | null;
}

export interface Ledger {
  owner: string;
  /** First and last day of the year. */
  from: IsoDate;
  to: IsoDate;
  reader: Reader;
  paper: 'a4' | 'us-letter';
  lines: LedgerLine[];
}

const heads: Record<LedgerLine['kind'], string> = {
  bought: 'Bought',
  spent: 'Spent on cars',
  sold: 'Sold, after fees',
};

const sumOf = (lines: LedgerLine[]): Minor => lines.reduce((sum, line) => sum + (line.reported ?? 0), 0);

const rateText = ({ rate, currency }: LedgerLine, reader: Reader): string =>
  currency === reader.currency ? '' : rate === null ? 'no rate' : numberText(rate, 4, reader.locale);

const section = (kind: LedgerLine['kind'], { lines, reader }: Ledger): DocumentBlock[] => {
  const own = lines.filter(line => line.kind === kind);
  const sold = kind === 'sold';
  const realised = own.reduce((sum, line) => sum + (line.realised ?? 0), 0);
  const rows = own.map(line => [
    dayText(line.on, reader.locale),
    line.what,
    `${line.currency} ${moneyText(line.minor, { ...reader, currency: line.currency })}`,
    rateText(line, reader),
    line.reported === null ? '–' : moneyText(line.reported, reader),
    ...(sold ? [line.realised === null ? 'not known' : signedText(line.realised, reader)] : []),
  ]);
  return [
    { kind: 'heading', level: 2, text: heads[kind] },
    own.length === 0
      ? { kind: 'paragraph', text: 'Nothing in this year.', tone: 'quiet' }
      : {
          kind: 'table',
          columns: [
            { title: 'Day' },
            { title: 'What', width: 'wide' },
            { title: 'Amount', align: 'right' },
            { title: 'Rate', align: 'right' },
            { title: reader.currency, align: 'right' },
            ...(sold ? [{ title: spell('Realised', reader.locale), align: 'right' as const }] : []),
          ],
          rows,
          total: [
            '',
            counted(own.length, 'entry', 'entries'),
            '',
            '',
            moneyText(sumOf(own), reader),
            ...(sold ? [signedText(realised, reader)] : []),
          ],
        },
  ];
};

/** A year's records of buying, spending and selling as a document; records, not tax advice. */
export const ledgerDocument = (ledger: Ledger): PaperDocument => {
  const { reader, lines } = ledger;
  const without = lines.filter(line => line.reported === null).length;
  const unknown = lines.filter(line => line.kind === 'sold' && line.realised === null).length;
  return {
    title: 'Ledger of the year',
    subtitle: `${dayText(ledger.from, reader.locale)} to ${dayText(ledger.to, reader.locale)}, in ${reader.currency}`,
    author: ledger.owner,
    footer: 'Records of the owner, not tax advice',
    paper: ledger.paper,
    blocks: [
      {
        kind: 'paragraph',
        text: 'What was bought, spent and sold, each on its day, brought to one currency at the last rate that was entered for that day or before. These are records, not tax advice: what of them is taxable, and in which year, is for your local rules and your adviser.',
      },
      ...(without > 0
        ? [
            {
              kind: 'paragraph' as const,
              tone: 'caution' as const,
              text: `${counted(without, 'entry has', 'entries have')} no exchange rate for the day and ${without === 1 ? 'stands' : 'stand'} in no total. Enter the rate under Settings.`,
            },
          ]
        : []),
      ...(unknown > 0
        ? [
            {
              kind: 'paragraph' as const,
              tone: 'caution' as const,
              text: spell(
                `What was realised is not known for ${counted(unknown, 'sale')}: the car’s cost, or a rate, is missing.`,
                reader.locale,
              ),
            },
          ]
        : []),
      ...section('bought', ledger),
      ...section('spent', ledger),
      ...section('sold', ledger),
      { kind: 'paragraph', tone: 'quiet', text: footerText },
    ],
  };
};

const columns = (reader: Reader): readonly ListColumn<LedgerLine>[] => [
  { name: 'date', width: 12, value: line => dateCell(line.on) },
  { name: 'kind', width: 10, value: line => textCell(line.kind) },
  { name: 'what', width: 40, value: line => textCell(line.what) },
  { name: 'amount', width: 12, value: line => amountCell(line.minor, line.currency) },
  { name: 'currency', width: 10, value: line => textCell(line.currency) },
  { name: 'rate', width: 10, value: line => numberCell(line.rate) },
  { name: 'reported', width: 12, value: line => amountCell(line.reported, reader.currency) },
  { name: 'realised', width: 12, value: line => amountCell(line.realised, reader.currency) },
  { name: 'reporting_currency', width: 12, value: () => textCell(reader.currency) },
];

/** The same as a table, a line an entry. */
export const ledgerTable = ({ lines, reader }: Ledger): DataTable =>
  listTable('Ledger', columns(reader), lines);
