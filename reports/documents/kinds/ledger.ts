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
   * Of the reporting currency for one of the other, as its owner entered it, and the day for which it was
   * entered; null in the reporting currency, and where none is known for the day.
   */
  rate: { rate: string; on: IsoDate } | null;
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
  /** What was bought on a day that is not known, and so stands in no year; in its own currency. */
  undated: { what: string; minor: Minor; currency: string }[];
  /** Cars that are marked as sold without a sale that says when and for how much. */
  soldUnrecorded: number;
}

const heads: Record<LedgerLine['kind'], string> = {
  bought: 'Bought',
  spent: 'Spent on cars',
  sold: 'Sold, after fees',
};

const sumOf = (lines: LedgerLine[]): Minor => lines.reduce((sum, line) => sum + (line.reported ?? 0), 0);

const decimalsOf = (text: string): number => text.split('.')[1]?.length ?? 0;

const rateOf = ({ rate }: { rate: string }, reader: Reader): string =>
  numberText(Number(rate), decimalsOf(rate), reader.locale);

const rateText = ({ rate, currency }: LedgerLine, reader: Reader): string =>
  currency === reader.currency ? '' : rate === null ? 'no rate' : rateOf(rate, reader);

const realisedOf = (lines: LedgerLine[], reader: Reader): string => {
  const known = lines.flatMap(({ realised }) => realised ?? []);
  return known.length === 0 && lines.length > 0
    ? 'not known'
    : signedText(
        known.reduce((sum, minor) => sum + minor, 0),
        reader,
      );
};

const section = (kind: LedgerLine['kind'], { lines, reader }: Ledger): DocumentBlock[] => {
  const own = lines.filter(line => line.kind === kind);
  const sold = kind === 'sold';
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
            ...(sold ? [realisedOf(own, reader)] : []),
          ],
        },
  ];
};

const whereRatesAreFrom = 'entered by the owner';

/** Every rate that an amount of the year was brought by, once, with its day and where it is from. */
const ratesUsed = ({ lines, reader }: Ledger): DocumentBlock[] => {
  const used = new Map(
    lines.flatMap(({ rate, currency }) =>
      rate ? [[`${currency} ${rate.on}`, { ...rate, currency }] as const] : [],
    ),
  );
  if (used.size === 0) return [];
  const rows = [...used].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, rate]) => rate);
  return [
    { kind: 'heading', level: 2, text: 'Rates used' },
    {
      kind: 'table',
      columns: [
        { title: 'Currency' },
        { title: `${reader.currency} for one`, align: 'right' },
        { title: 'Rate of' },
        { title: 'Source', width: 'wide' },
      ],
      rows: rows.map(rate => [
        rate.currency,
        rateOf(rate, reader),
        dayText(rate.on, reader.locale),
        whereRatesAreFrom,
      ]),
    },
  ];
};

/** What cannot stand in the year, and what is missing for it. */
const leftOut = ({ lines, undated, soldUnrecorded, reader }: Ledger): DocumentBlock[] => {
  const without = lines.filter(line => line.reported === null);
  const currencies = [...new Set(without.map(line => line.currency))].sort().join(', ');
  const unknown = lines.filter(line => line.kind === 'sold' && line.realised === null).length;
  const amounts = undated
    .map(({ what, minor, currency }) => `${what} (${currency} ${moneyText(minor, { ...reader, currency })})`)
    .join('; ');
  const said = [
    without.length > 0 &&
      `${counted(without.length, 'entry has', 'entries have')} no exchange rate for the day (${currencies}) and ${without.length === 1 ? 'stands' : 'stand'} in no total. Enter the rate under Settings.`,
    unknown > 0 &&
      spell(
        `What was realised is not known for ${counted(unknown, 'sale')}: the car’s cost, the day on which it was bought, or a rate, is missing.`,
        reader.locale,
      ),
    undated.length > 0 &&
      `${counted(undated.length, 'purchase has', 'purchases have')} no day and ${undated.length === 1 ? 'stands' : 'stand'} in no year: ${amounts}.`,
    soldUnrecorded > 0 &&
      `${counted(soldUnrecorded, 'car is', 'cars are')} marked as sold without a sale that says when and for how much, and ${soldUnrecorded === 1 ? 'stands' : 'stand'} in no year.`,
  ];
  return said.flatMap((text): DocumentBlock[] =>
    text ? [{ kind: 'paragraph', tone: 'caution', text }] : [],
  );
};

/** The sums of the year, of the entries that could be brought to the reporting currency. */
const sums = ({ lines, reader }: Ledger): DocumentBlock => {
  const of = (kind: LedgerLine['kind']) => lines.filter(line => line.kind === kind);
  const total = (kind: LedgerLine['kind']) => ({
    label: heads[kind],
    value: `${reader.currency} ${moneyText(sumOf(of(kind)), reader)}`,
  });
  return {
    kind: 'facts',
    facts: [
      total('bought'),
      total('spent'),
      total('sold'),
      { label: spell('Realised', reader.locale), value: realisedOf(of('sold'), reader) },
    ],
  };
};

/** A year's records of buying, spending and selling as a document; records, not tax advice. */
export const ledgerDocument = (ledger: Ledger): PaperDocument => {
  const { reader } = ledger;
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
      ...leftOut(ledger),
      sums(ledger),
      ...section('bought', ledger),
      ...section('spent', ledger),
      ...section('sold', ledger),
      ...ratesUsed(ledger),
      { kind: 'paragraph', tone: 'quiet', text: footerText },
    ],
  };
};

/** What is to be known of an entry, so that an empty cell is not taken for nothing. */
const noteOf = ({ kind, reported, realised }: LedgerLine, locale: string): string =>
  [
    reported === null && 'no rate for the day: in no total',
    kind === 'sold' && realised === null && spell('what was realised is not known', locale),
    'a record, not tax advice',
  ]
    .filter(Boolean)
    .join('; ');

const columns = (reader: Reader): readonly ListColumn<LedgerLine>[] => [
  { name: 'date', width: 12, value: line => dateCell(line.on) },
  { name: 'kind', width: 10, value: line => textCell(line.kind) },
  { name: 'what', width: 40, value: line => textCell(line.what) },
  { name: 'amount', width: 12, value: line => amountCell(line.minor, line.currency) },
  { name: 'currency', width: 10, value: line => textCell(line.currency) },
  { name: 'rate', width: 10, value: line => numberCell(line.rate ? Number(line.rate.rate) : null) },
  { name: 'rate_date', width: 12, value: line => dateCell(line.rate?.on ?? null) },
  { name: 'rate_source', width: 20, value: line => textCell(line.rate ? whereRatesAreFrom : '') },
  { name: 'reported', width: 12, value: line => amountCell(line.reported, reader.currency) },
  { name: 'realised', width: 12, value: line => amountCell(line.realised, reader.currency) },
  { name: 'reporting_currency', width: 12, value: () => textCell(reader.currency) },
  { name: 'note', width: 30, value: line => textCell(noteOf(line, reader.locale)) },
];

/** The same as a table, a line an entry. */
export const ledgerTable = ({ lines, reader }: Ledger): DataTable =>
  listTable('Ledger', columns(reader), lines);
