import type { QueryClient } from '@tanstack/react-query';
import type { CarRow } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { colourNow } from '../../../../valuation/wording/cars/disclosure-text.ts';
import type { BasePaint } from '../../../../valuation/words.ts';
import { Amount } from '../../../components/amounts/amount.tsx';
import type { GridColumn } from '../../../components/data-grid/types.ts';
import { amountText, readerLocale } from '../../../components/format.ts';
import { parseMoney, separatorsOf } from '../../../components/inputs/parse-money.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { GradeBadge } from '../../../components/marks/grade-badge.tsx';
import { FinishCell } from '../../../components/own-words/finish-cell.tsx';
import type { OwnMeanings } from '../../../components/own-words/own-meanings.ts';
import { UnreadMark } from '../../../components/own-words/unread-mark.tsx';
import { Photo } from '../../../components/photo/photo.tsx';
import { readerWords } from '../../../components/words.ts';
import type { WorthScale } from '../../../components/worth-strip/scale.ts';
import { stripWorths } from '../../../components/worth-strip/strip-worths.ts';
import { WorthAxis } from '../../../components/worth-strip/worth-axis.tsx';
import { WorthStrip } from '../../../components/worth-strip/worth-strip.tsx';
import { basePaintChoices, choicesByCasting, finishStateChoices, suggestCastings } from './car-choices.tsx';
import { castingText, featureText, parseGradeText, releaseText } from './car-edits.ts';
import classes from './lot.module.css';

const words = (text: string, sure: boolean) =>
  text ? <span className={sure ? classes.text : classes.written}>{text}</span> : null;

const identityColumns = (client: QueryClient, means: OwnMeanings): GridColumn<CarRow>[] => {
  const choices = choicesByCasting(client);
  return [
    {
      id: 'casting',
      title: 'Casting',
      width: 124,
      grow: 2,
      value: castingText,
      render: row => words(castingText(row), row.castingId !== null),
      editor: { kind: 'type-ahead', choices: () => suggestCastings, freeText: true },
    },
    {
      id: 'release',
      title: 'Release',
      width: 96,
      grow: 1,
      value: releaseText,
      render: row => words(releaseText(row), row.releaseName !== null),
      editor: { kind: 'type-ahead', choices: choices.release, freeText: true },
    },
    {
      id: 'colour',
      title: readerWords().features.colour,
      width: 112,
      grow: 1,
      value: row => featureText(row, 'colour'),
      render: row => {
        const colour = featureText(row, 'colour');
        if (!colour && !row.wornColour) return null;
        return (
          <LacquerChip
            name={colourNow(colour, row.wornColour)}
            swatch={row.swatch}
            basePaint={row.variationId === null ? '' : (row.features.basePaint as BasePaint | '')}
          />
        );
      },
      editor: { kind: 'type-ahead', choices: choices.colour, freeText: true },
      means: means('colour'),
    },
    {
      id: 'basePaint',
      title: 'Base paint',
      width: 88,
      value: row => featureText(row, 'basePaint'),
      editor: { kind: 'select', choices: basePaintChoices },
      means: means('base_paint'),
    },
    {
      id: 'rearEnd',
      title: 'Rear end',
      width: 84,
      grow: 1,
      value: row => featureText(row, 'rearEnd'),
      render: row => words(featureText(row, 'rearEnd'), true),
      editor: { kind: 'type-ahead', choices: choices.rearEnd, freeText: true },
      means: means('rear_end'),
    },
  ];
};

const shareText = (row: CarRow): string =>
  row.cost === null || row.costCurrency === null ? '' : amountText(row.cost, row.costCurrency);

/**
 * The columns of a lot's grid. `scale` is shared by its worth strips, which are in the reporting currency.
 */
export const carColumns = ({
  client,
  lotCurrency,
  currency,
  scale,
  means,
}: {
  client: QueryClient;
  lotCurrency: Currency;
  currency: Currency;
  scale: WorthScale | null;
  means: OwnMeanings;
}): GridColumn<CarRow>[] => [
  {
    id: 'number',
    title: 'No',
    width: 60,
    pinned: true,
    value: row => row.inventoryNumber,
    editor: { kind: 'text', maxLength: 60 },
  },
  {
    id: 'photo',
    title: 'Photo',
    width: 68,
    value: row => row.photoCount,
    text: () => '',
    render: row => (
      <span className={classes.thumb}>
        <Photo sha256={row.photo} alt="" width={52} height={31} />
        {row.photoCount > 1 ? <span className={classes.count}>{row.photoCount}</span> : null}
      </span>
    ),
  },
  ...identityColumns(client, means),
  {
    id: 'grade',
    title: 'Grade',
    width: 112,
    value: row => row.grade,
    text: row => (row.grade === null ? '' : `C${row.grade}`),
    render: row =>
      row.grade === null && row.unread.some(({ field }) => field === 'grade') ? (
        <UnreadMark unread={row.unread} field="grade" />
      ) : (
        <GradeBadge grade={row.grade} finishState={row.finishState} />
      ),
    editor: { kind: 'number', parse: parseGradeText },
    means: means('grade'),
  },
  {
    id: 'finishState',
    title: 'Finish',
    width: 96,
    value: row => row.finishState,
    render: row => <FinishCell row={row} />,
    editor: { kind: 'select', choices: finishStateChoices() },
    means: means('finish_state'),
  },
  {
    id: 'location',
    title: 'Location',
    width: 72,
    grow: 1,
    value: row => row.location,
    render: row => words(row.location, true),
    editor: { kind: 'text', maxLength: 200 },
  },
  {
    id: 'notes',
    title: 'Notes',
    width: 72,
    grow: 2,
    value: row => row.notes,
    render: row => (
      <>
        <UnreadMark unread={row.unread} />
        {row.unread.length > 0 && row.notes ? ' · ' : null}
        {words(row.notes, true)}
      </>
    ),
    editor: { kind: 'text' },
  },
  {
    id: 'cost',
    title: 'Share',
    heading: lotCurrency,
    width: 76,
    align: 'end',
    value: row => row.cost,
    text: shareText,
    render: row => (
      <span
        className={row.costFixed ? classes.fixed : undefined}
        title={row.costFixed ? 'Fixed by hand' : undefined}
      >
        <Amount minor={row.cost} currency={lotCurrency} />
        {row.costFixed ? <span className="heard">, fixed by hand</span> : null}
      </span>
    ),
    editor: {
      kind: 'number',
      parse: text => {
        const parsed = parseMoney(text, lotCurrency, separatorsOf(readerLocale()));
        if ('problem' in parsed) return parsed;
        return parsed.minor !== null && parsed.minor < 0
          ? { problem: 'Enter zero or more' }
          : { value: parsed.minor };
      },
    },
  },
  {
    id: 'worth',
    title: `Value, ${currency}`,
    heading: scale ? <WorthAxis scale={scale} /> : undefined,
    width: 152,
    grow: 2,
    value: row => row.worths.asFound?.mid ?? null,
    text: row => (row.worths.asFound ? amountText(row.worths.asFound.mid, currency) : ''),
    render: row =>
      row.status === 'sold' ? (
        <span className="soft">sold</span>
      ) : (
        <WorthStrip worths={stripWorths(row.worths)} currency={currency} scale={scale} />
      ),
  },
];
