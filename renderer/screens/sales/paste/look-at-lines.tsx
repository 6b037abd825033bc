import { Button } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useMemo, useRef, useState } from 'react';
import type { ReadSaleLines } from '../../../../electron/api/views.ts';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import type { CellChange, GridHandle, RowState } from '../../../components/data-grid/types.ts';
import { KeyHint } from '../../../components/keys/key-hint.tsx';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { lineColumns, standingText } from './line-columns.tsx';
import { withChanges } from './line-edits.ts';
import { LinesBar, type Show, shows } from './lines-bar.tsx';
import { MarkedLine } from './marked-line.tsx';
import classes from './paste.module.css';
import type { PasteDraft, PasteRow, Standing } from './paste-draft.ts';
import { PasteWords } from './paste-words.tsx';
import { Questions } from './questions.tsx';
import { unreadWords } from './unread-words.ts';
import { fetchCorrected } from './use-lines.ts';

const tones: Record<Standing, RowState | null> = {
  add: null,
  lacks: { tone: 'caution', label: 'Incomplete' },
  'no-car': { tone: 'muted', label: 'No single car' },
  recorded: { tone: 'muted', label: 'Recorded already' },
  'left-out': { tone: 'muted', label: 'Left out' },
};
const rowState = (row: PasteRow) => tones[row.standing];
const rowId = (row: PasteRow) => String(row.line);

const advice = (row: PasteRow): string => {
  switch (row.standing) {
    case 'add':
      return row.castingId === null
        ? 'Will be added. Its name is not in the reference yet and waits to be settled; until then it counts in no value.'
        : 'Will be added.';
    case 'lacks':
      return 'Enter what it lacks in the grid, and it will be added.';
    case 'no-car':
      return row.not === 'lot'
        ? 'Several cars for one price say nothing of one. If it is one car’s sale, choose Add under What happens.'
        : 'A poster, a box or parts, it seems. If it is one car’s sale, choose Add under What happens.';
    case 'recorded':
      return 'This sale is recorded already, or appears earlier in these lines.';
    case 'left-out':
      return 'You left it out.';
  }
};

/** Takes over what is typed into the grid of lines, once what it says of them is read. */
const useLineEdits = ({
  draft,
  rows,
  currency,
  onDraft,
}: {
  draft: PasteDraft;
  rows: readonly PasteRow[];
  currency: Currency;
  onDraft: (draft: PasteDraft) => void;
}) => {
  const client = useQueryClient();
  const latest = useRef({ draft, rows });
  latest.current = { draft, rows };
  return useCallback(
    async (changes: CellChange[]) => {
      const now = latest.current;
      const byId = new Map(now.rows.map(row => [rowId(row), row]));
      const next = await withChanges(now.draft, byId, changes, currency);
      // A cell typed while this one is read must find it.
      latest.current = { ...now, draft: next };
      await fetchCorrected(client, next);
      onDraft(next);
    },
    [client, currency, onDraft],
  );
};

const AddButton = ({ toAdd, adding, onAdd }: { toAdd: number; adding: boolean; onAdd: () => void }) => (
  <Button variant="filled" disabled={toAdd === 0} loading={adding} onClick={onAdd}>
    {toAdd === 0
      ? 'Nothing to add yet'
      : toAdd === 1
        ? 'Add 1 sale record'
        : `Add ${toAdd.toLocaleString()} sale records`}
  </Button>
);

/** The lines as they are read: looked at, corrected, and added. */
export const LookAtLines = ({
  read,
  rows,
  draft,
  reporting,
  today,
  busy,
  adding,
  onDraft,
  onEditText,
  onAdd,
}: {
  read: ReadSaleLines;
  rows: readonly PasteRow[];
  draft: PasteDraft;
  reporting: Currency;
  today: IsoDate;
  busy: boolean;
  adding: boolean;
  onDraft: (draft: PasteDraft) => void;
  onEditText: () => void;
  onAdd: () => void;
}) => {
  const [show, setShow] = useState<Show>('all');
  const [allFields, setAllFields] = useState(false);
  const [cursor, setCursor] = useState<string | null>(null);
  const grid = useRef<GridHandle>(null);
  const counts = useMemo(() => {
    const found = new Map<Show, number>([['all', rows.length]]);
    for (const { standing } of rows) found.set(standing, (found.get(standing) ?? 0) + 1);
    return found;
  }, [rows]);
  const shown = useMemo(
    () => (show === 'all' ? rows : rows.filter(row => row.standing === show)),
    [rows, show],
  );
  const currency = draft.currency ?? reporting;
  const columns = useMemo(
    () => lineColumns(rows, allFields, { currency, dates: draft.dates, today }),
    [rows, allFields, currency, draft.dates, today],
  );
  const edit = useLineEdits({ draft, rows, currency, onDraft });
  const words = useMemo(() => unreadWords(rows), [rows]);
  const [asking, setAsking] = useState(false);
  const toAdd = counts.get('add') ?? 0;
  const add = () => {
    if (toAdd > 0 && !adding) onAdd();
  };
  useKeys('Paste sales', [
    { keys: 'mod+S', does: 'Add the sale records', run: add },
    { keys: 'mod+E', does: 'Edit the text', run: onEditText },
    { keys: 'F8', does: 'Say what texts mean', run: () => words.length > 0 && setAsking(true) },
  ]);
  const row = rows.find(one => rowId(one) === cursor) ?? null;
  const facts = [
    `${rows.length.toLocaleString()} ${rows.length === 1 ? 'line' : 'lines'}`,
    ...shows
      .slice(1)
      .filter(([standing]) => counts.get(standing))
      .map(([standing, words]) => `${counts.get(standing)?.toLocaleString()} ${words.toLowerCase()}`),
  ].join(' · ');
  return (
    <div className="fill" aria-busy={busy}>
      <PageHeader
        title="Paste sales"
        facts={facts}
        back={{ label: 'Sale records', to: '/sales' }}
        actions={
          <>
            <Button onClick={onEditText}>Edit the text</Button>
            <AddButton toAdd={toAdd} adding={adding} onAdd={add} />
            <KeyHint keys="mod+S" />
          </>
        }
      />
      <Questions read={read} draft={draft} onChange={change => onDraft({ ...draft, ...change })} />
      <LinesBar
        show={show}
        counts={counts}
        words={words.length}
        allFields={allFields}
        onShow={value => {
          setShow(value);
          grid.current?.toTop();
        }}
        onAsk={() => setAsking(true)}
        onAllFields={setAllFields}
      />
      <PasteWords words={words} opened={asking} onClose={() => setAsking(false)} />
      <div className={classes.list}>
        <DataGrid
          label="Lines of sales"
          rows={shown}
          columns={columns}
          getRowId={rowId}
          rowState={rowState}
          rowHeight={32}
          startColumn="sold_on"
          autoFocus
          handle={grid}
          onEdit={edit}
          onCursorChange={setCursor}
          footer={
            row ? (
              <div className={classes.foot} aria-live="polite">
                <MarkedLine row={row} named />
                <p>
                  <strong>{standingText(row)}</strong> · {advice(row)}
                </p>
              </div>
            ) : null
          }
          empty={<EmptyState title="No such lines">Choose All to see every line.</EmptyState>}
        />
      </div>
    </div>
  );
};
