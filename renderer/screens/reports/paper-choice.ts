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
  grade: number;
  year: number;
  table: boolean;
  sheet: string;
  start: number;
  list: MakeExport['list'];
  format: MakeExport['format'];
}

export const startingPaper = (today: IsoDate): PaperChoice => ({
  what: 'worksheet',
  lotId: null,
  grade: 6,
  year: Number(today.slice(0, 4)),
  table: false,
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
    help: 'A lot that you saw, and the highest bid that leaves you a fifth.',
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

/** The choice as the service takes it, to be worded for the reader. */
export const paperInput = ({ what, lotId, grade, year, table }: PaperChoice): MakePaper => ({
  kind: what as MakePaper['kind'],
  locale: readerLocale(),
  preview: true,
  paper: usualPaper(readerLocale()),
  grade,
  ...(lotId !== null && (what === 'bid' || what === 'worksheet') && { lotId }),
  ...(what === 'ledger' && {
    from: `${year}-01-01`,
    to: `${year}-12-31`,
    format: table ? ('csv' as const) : ('pdf' as const),
  }),
});
