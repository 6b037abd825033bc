import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { PartStock } from '../../../electron/api/views.ts';
import { readGrade } from '../../../valuation/reading/words.ts';
import type { Currency } from '../../../valuation/types.ts';
import { gradeLabel, partNames } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { DataGrid } from '../../components/data-grid/data-grid.tsx';
import type { GridColumn } from '../../components/data-grid/types.ts';
import { amountText, readerLocale } from '../../components/format.ts';
import { suggestCastings } from '../../components/inputs/casting-choices.tsx';
import type { Choice } from '../../components/inputs/choices.ts';
import { parseMoney, separatorsOf } from '../../components/inputs/parse-money.ts';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { readerWords } from '../../components/words.ts';
import { fittable, newPart, type PartDraft, partChanges } from './part-edits.ts';
import classes from './settings.module.css';

const wordChoices = (words: readonly string[]): Choice[] =>
  words.map(word => ({ value: word, label: readerWords().spell(word) }));

const columnsOf = (reporting: Currency, donors: readonly Choice[]): GridColumn<PartStock>[] => [
  {
    id: 'name',
    title: 'Part',
    width: 240,
    grow: 3,
    value: part => part.name,
    editor: { kind: 'text', maxLength: 200 },
  },
  {
    id: 'inStock',
    title: 'On the shelf',
    width: 100,
    align: 'end',
    value: part => part.inStock,
    editor: {
      kind: 'number',
      parse: text =>
        /^\d{1,6}$/.test(text) ? { value: Number(text) } : { problem: `“${text}” is not a whole number` },
    },
  },
  {
    id: 'part',
    title: 'Fits as',
    width: 120,
    value: part => part.part,
    text: part => readerWords().spell(part.part),
    editor: { kind: 'select', choices: wordChoices(partNames) },
  },
  {
    id: 'casting',
    title: 'On the casting',
    width: 140,
    grow: 1,
    value: part => part.casting,
    editor: { kind: 'type-ahead', choices: () => suggestCastings },
  },
  {
    id: 'originality',
    title: 'Origin',
    width: 130,
    value: part => part.originality,
    text: part => readerWords().spell(part.originality),
    editor: { kind: 'select', choices: wordChoices(fittable) },
  },
  {
    id: 'grade',
    title: 'Grade',
    width: 64,
    align: 'end',
    value: part => part.grade,
    text: part => (part.grade === null ? '' : gradeLabel(part.grade)),
    editor: {
      kind: 'number',
      parse: text => {
        const grade = readGrade(text);
        return grade.ok ? { value: grade.value } : { problem: `“${text}” is not a grade from C1 to C10` };
      },
    },
  },
  {
    id: 'donor',
    title: 'From the car',
    width: 110,
    value: part => part.donorNumber,
    editor: { kind: 'type-ahead', choices: () => donors },
  },
  {
    id: 'planned',
    title: 'Planned for',
    width: 100,
    align: 'end',
    value: part => part.planned,
    render: part =>
      part.planned > part.inStock ? (
        <span className="caution">
          {part.planned}, {part.planned - part.inStock} short
        </span>
      ) : (
        part.planned || <span className="soft">–</span>
      ),
  },
  {
    id: 'unit',
    title: 'Price of one',
    width: 120,
    align: 'end',
    value: part => part.unit,
    text: part => (part.unit === null || part.currency === null ? '' : amountText(part.unit, part.currency)),
    editor: {
      kind: 'number',
      parse: (text, part) => {
        const parsed = parseMoney(text, part?.currency ?? reporting, separatorsOf(readerLocale()));
        if ('problem' in parsed) return parsed;
        return parsed.minor !== null && parsed.minor < 0
          ? { problem: 'Enter zero or more' }
          : { value: parsed.minor };
      },
    },
  },
  {
    id: 'currency',
    title: 'In',
    width: 64,
    value: part => part.currency,
    render: part => <span className="soft">{part.currency}</span>,
  },
];

const partId = (part: PartStock) => String(part.id);

/** The spare parts at hand, what they cost, and how many the plans ask for. */
export const PartsSection = ({ currency }: { currency: Currency }) => {
  const { data: parts, isPending } = useQuery({ queryKey: ['parts'], queryFn: () => api.collection.parts() });
  const { data: donors } = useQuery({ queryKey: ['donors'], queryFn: () => api.bench.donors() });
  const columns = useMemo(
    () =>
      columnsOf(
        currency,
        (donors ?? []).map(({ id, inventoryNumber, casting }) => ({
          value: String(id),
          label: inventoryNumber,
          ...(casting !== null && { detail: casting }),
        })),
      ),
    [currency, donors],
  );
  const { mutateAsync: save } = useAction(
    async (drafts: PartDraft[]) => {
      for (const draft of drafts) await api.collection.savePart(draft);
    },
    { label: drafts => (drafts.length === 1 ? 'Parts shelf changed' : `${drafts.length} parts changed`) },
  );
  if (!parts) return isPending ? <LoadingState part /> : null;
  return (
    <>
      <p className={classes.lead}>
        Parts named in plans are counted here. When they are scarce, Decide chooses the cars that earn most
        from them. Say which part of which casting one is, and plans of its cars take it from the shelf before
        they buy.
        {parts.length === 0
          ? ' No part is on the shelf yet: type the name of the first one in the empty line below.'
          : ''}
      </p>
      <DataGrid
        label="Parts shelf"
        rows={parts}
        columns={columns}
        getRowId={partId}
        rowHeight={30}
        height={Math.min(380, 34 + 31 * (parts.length + 1))}
        onEdit={changes => save(partChanges(parts, changes, currency))}
        onAppend={rows => save(rows.flatMap(cells => newPart(cells, currency) ?? []))}
      />
    </>
  );
};
