import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { PartStock } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { DataGrid } from '../../components/data-grid/data-grid.tsx';
import type { GridColumn } from '../../components/data-grid/types.ts';
import { amountText, readerLocale } from '../../components/format.ts';
import { parseMoney, separatorsOf } from '../../components/inputs/parse-money.ts';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { newPart, type PartDraft, partChanges } from './part-edits.ts';
import classes from './settings.module.css';

const columnsOf = (reporting: Currency): GridColumn<PartStock>[] => [
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
  const columns = useMemo(() => columnsOf(currency), [currency]);
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
        from them.
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
