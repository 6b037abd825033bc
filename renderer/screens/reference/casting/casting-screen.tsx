import { Button, Menu } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useMemo, useRef, useState } from 'react';
import { Link, useLocation, useSearch } from 'wouter';
import type { CastingPage, CastingRow, VariationRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import type { GridHandle } from '../../../components/data-grid/types.ts';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { Section } from '../../../components/layout/section.tsx';
import { ExportMenu } from '../../../components/saved-views/export-menu.tsx';
import { readerWords } from '../../../components/words.ts';
import { CastingForm } from '../forms/casting-form.tsx';
import { MergeForm } from '../forms/merge-form.tsx';
import { VariationForm } from '../forms/variation-form.tsx';
import classes from '../reference.module.css';
import { CastingBeliefs } from './casting-beliefs.tsx';
import { CastingFacts } from './casting-facts.tsx';
import { IdentifyBar } from './identify-bar.tsx';
import { narrow, type Seen, sharedFeatures } from './narrow.ts';
import { OwnCars } from './own-cars.tsx';
import { variationColumns } from './variation-columns.tsx';

const rowId = (row: VariationRow) => String(row.id);

const Variations = ({
  casting,
  onOpen,
  onAdd,
}: {
  casting: CastingPage;
  onOpen: (id: number) => void;
  onAdd: () => void;
}) => {
  const [seen, setSeen] = useState<Seen>({});
  const asked = new URLSearchParams(useSearch()).get('variation');
  const { variationRows: rows, name } = casting;
  const { remaining, choices } = useMemo(() => narrow(rows, seen), [rows, seen]);
  const columns = useMemo(() => variationColumns(rows, name), [rows, name]);
  const alike = useMemo(() => sharedFeatures(rows), [rows]);
  const grid = useRef<GridHandle>(null);
  if (rows.length === 0)
    return (
      <EmptyState
        title="No variations yet"
        actions={
          <Button variant="filled" onClick={onAdd}>
            Add a variation
          </Button>
        }
      >
        A variation is one {readerWords().dialect.colour} with its other features, as it left the factory. A
        car is identified when its variation is known.
      </EmptyState>
    );
  return (
    <>
      {choices.length > 0 ? (
        <IdentifyBar
          choices={choices}
          seen={seen}
          remaining={remaining.length}
          all={rows.length}
          onChange={setSeen}
        />
      ) : null}
      <DataGrid
        handle={grid}
        label={`Variations of ${name}`}
        rows={remaining}
        columns={columns}
        getRowId={rowId}
        rowHeight={32}
        height={Math.min(520, 34 + 32 * Math.max(2, remaining.length))}
        startAt={asked}
        onOpen={id => onOpen(Number(id))}
        empty={<p className="soft">No variation has all of these. Start again, or add it.</p>}
      />
      <div className={classes.under}>
        {alike.length > 0 ? (
          <p className={classes.alike}>
            The same on all:{' '}
            {alike
              .map(({ feature, value }) => `${readerWords().features[feature].toLowerCase()} ${value}`)
              .join(', ')}
            .
          </p>
        ) : null}
        <ExportMenu
          list="reference"
          rows={() => ({
            ids: (grid.current?.rowIds() ?? []).map(Number),
            of: 'variations',
          })}
          parts={{ shown: 'These variations', whole: 'Whole reference' }}
        />
      </div>
    </>
  );
};

const Head = ({
  casting,
  onEdit,
  onMerge,
  onAdd,
}: {
  casting: CastingPage;
  onEdit: () => void;
  onMerge: () => void;
  onAdd: () => void;
}) => {
  const [, navigate] = useLocation();
  const remove = useAction(() => api.reference.removeCasting({ id: casting.id }), {
    label: `${casting.name} removed`,
    failure: `${casting.name} stays`,
    thenGo: () => navigate('/'),
  });
  return (
    <PageHeader
      title={casting.name}
      facts={
        <>
          {casting.maker} · {casting.series}
          {casting.firstYear ? ` · from ${casting.firstYear}` : ''} ·{' '}
          {casting.variations === 1 ? '1 variation' : `${casting.variations} variations`} ·{' '}
          {casting.cars > 0 ? (
            <Link href={`~/cars?casting=${casting.id}`}>{casting.cars} of yours</Link>
          ) : (
            'none of yours'
          )}{' '}
          ·{' '}
          {casting.saleRecords > 0 ? (
            <Link href={`~/sales?casting=${casting.id}`}>{casting.saleRecords} sale records</Link>
          ) : (
            'no sale records'
          )}
        </>
      }
      actions={
        <>
          <Menu position="bottom-end">
            <Menu.Target>
              <Button>More</Button>
            </Menu.Target>
            <Menu.Dropdown>
              <Menu.Item onClick={onEdit}>Edit the casting …</Menu.Item>
              <Menu.Item onClick={onMerge}>Merge another into it …</Menu.Item>
              <Menu.Item color="brick" onClick={() => remove.mutate()}>
                Remove the casting
              </Menu.Item>
            </Menu.Dropdown>
          </Menu>
          <Button variant="filled" onClick={onAdd}>
            Add a variation
          </Button>
        </>
      }
    />
  );
};

/** One casting: what it is, in which variations it was sold, and which of them a car in hand can be. */
export const CastingScreen = ({ id, castings }: { id: number; castings: readonly CastingRow[] }) => {
  const page = useQuery({ queryKey: ['casting', id], queryFn: () => api.reference.casting({ id }) });
  const [editing, setEditing] = useState(false);
  const [merging, setMerging] = useState(false);
  /** The variation whose form is open; 'new' for one to be added. */
  const [variation, setVariation] = useState<number | 'new' | null>(null);
  useKeys('Casting', [
    { keys: 'E', does: 'Edit the casting', run: () => setEditing(true) },
    { keys: 'M', does: 'Merge another casting into it', run: () => setMerging(true) },
    { keys: 'V', does: 'Add a variation', run: () => setVariation('new') },
  ]);
  if (page.error) return <ErrorState error={page.error} retry={() => void page.refetch()} />;
  if (!page.data) return <LoadingState />;
  const casting = page.data;
  return (
    <>
      <Head
        casting={casting}
        onEdit={() => setEditing(true)}
        onMerge={() => setMerging(true)}
        onAdd={() => setVariation('new')}
      />
      <div className="page">
        <Section title="Variations" aside="Enter opens one">
          <Variations casting={casting} onOpen={setVariation} onAdd={() => setVariation('new')} />
        </Section>
        <CastingBeliefs casting={casting} />
        <OwnCars castingId={id} />
        <CastingFacts casting={casting} />
      </div>
      <CastingForm opened={editing} casting={casting} castings={castings} onClose={() => setEditing(false)} />
      <MergeForm opened={merging} casting={casting} onClose={() => setMerging(false)} />
      <VariationForm
        casting={casting}
        variation={
          variation === 'new' ? null : (casting.variationRows.find(row => row.id === variation) ?? null)
        }
        opened={variation !== null}
        onClose={() => setVariation(null)}
      />
    </>
  );
};
