import type { DefinedPaper } from '../../../electron/api/reports/definitions.ts';
import type { IsoDate } from '../../../electron/api/views.ts';
import type { Api } from '../../api/client.ts';
import { readerLocale } from '../../components/format.ts';
import { usualPaper } from '../../components/usual-paper.ts';

type MakePaper = Parameters<Api['papers']['make']>[0];
type MakeExport = Parameters<Api['exports']['make']>[0];

/** A paper or a list beside the collection report, as it is chosen. */
export interface PaperChoice {
  what: 'worksheet' | 'want-list' | 'ledger' | 'bid' | 'labels' | 'list' | 'share';
  lotId: number | null;
  /** Of a want list: the set of which it is, or null for the whole reference. */
  setId: number | null;
  grade: number;
  /** Of a ledger: its first and last day. */
  from: IsoDate;
  to: IsoDate;
  table: boolean;
  withoutValues: boolean;
  sheet: string;
  start: number;
  list: MakeExport['list'];
  format: MakeExport['format'];
}

export const startingPaper = (today: IsoDate): PaperChoice => ({
  what: 'worksheet',
  lotId: null,
  setId: null,
  grade: 6,
  from: `${today.slice(0, 4)}-01-01`,
  to: `${today.slice(0, 4)}-12-31`,
  table: false,
  withoutValues: false,
  sheet: usualPaper(readerLocale()) === 'a4' ? 'a4-3x8' : 'letter-3x10',
  start: 1,
  list: 'cars',
  format: 'xlsx',
});

/** What each is for, in a few words. */
export const papers: { value: PaperChoice['what']; label: string; help: string }[] = [
  {
    value: 'worksheet',
    label: 'Decision worksheet',
    help: 'Why each car is to be left or restored, and where restoring begins to pay.',
  },
  {
    value: 'want-list',
    label: 'Want list',
    help: 'For a fair, in pocket size: what the reference knows and the collection lacks.',
  },
  {
    value: 'bid',
    label: 'Bid sheet',
    help: 'A lot that you saw, and the highest bid for it, on the terms saved on the lot’s page.',
  },
  { value: 'labels', label: 'Labels', help: 'For drawers and boxes: number, name and a QR code.' },
  {
    value: 'ledger',
    label: 'Ledger of a year',
    help: 'What was bought, spent and sold. Records, not tax advice.',
  },
  { value: 'list', label: 'A whole list', help: 'As a spreadsheet, CSV or JSON lines.' },
  {
    value: 'share',
    label: 'Market to share',
    help: 'Sale records and reference as one file for a friend, with nothing of your cars.',
  },
];

/** What each kind of paper is called in lists. */
export const paperNames: Record<string, string> = {
  worksheet: 'Decision worksheet',
  dossier: 'Dossier',
  'sale-sheet': 'Sale sheet',
  claim: 'Claim sheet',
  'want-list': 'Want list',
  'bench-sheet': 'Bench sheet',
  bid: 'Bid sheet',
  ledger: 'Ledger',
};

/** The choice as the service takes it, to be worded for the reader. */
export const paperInput = ({
  what,
  lotId,
  setId,
  grade,
  from,
  to,
  table,
  withoutValues,
}: PaperChoice): MakePaper => ({
  kind: what as MakePaper['kind'],
  locale: readerLocale(),
  preview: true,
  paper: usualPaper(readerLocale()),
  grade,
  ...(what === 'want-list' && { withoutValues }),
  ...(what === 'want-list' && setId !== null && { setId }),
  ...(lotId !== null && (what === 'bid' || what === 'worksheet') && { lotId }),
  ...(what === 'ledger' && {
    from,
    to,
    format: table ? ('csv' as const) : ('pdf' as const),
  }),
});

/** The papers of which the choices can be saved under a name. */
export const isNamed = ({ what }: PaperChoice): boolean =>
  what === 'worksheet' || what === 'want-list' || what === 'bid' || what === 'ledger';

/**
 * What is saved of a choice: without its days, so that a ledger is that of the year in which it is made
 * again.
 */
export const definedPaper = (choice: PaperChoice): DefinedPaper => {
  const { from: _, to: __, preview: ___, ...wanted } = paperInput(choice);
  return { ...wanted, ...(choice.what === 'ledger' && { yearBegins: choice.from.slice(5) }) };
};

/** A saved paper as a choice. */
export const paperChoiceOf = (wanted: DefinedPaper, today: IsoDate): PaperChoice => ({
  ...startingPaper(today),
  ...(papers.some(({ value }) => value === wanted.kind) && { what: wanted.kind as PaperChoice['what'] }),
  lotId: wanted.lotId ?? null,
  setId: wanted.setId ?? null,
  withoutValues: wanted.withoutValues ?? false,
  ...(wanted.grade !== undefined && { grade: wanted.grade }),
  table: wanted.format === 'csv',
});
