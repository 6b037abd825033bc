import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { Link } from 'wouter';
import type { WaitingName } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import type { GridHandle } from '../../../components/data-grid/types.ts';
import { counted } from '../../../components/format.ts';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { NamePanel, type Picking } from './name-panel.tsx';
import classes from './names.module.css';
import { useNamesColumns } from './names-columns.tsx';
import { useSettling } from './use-settling.ts';
import { SeenLink, useSeenCount } from './waiting-link.tsx';
import { keyOf, rowsText, said } from './waiting-words.ts';

const back = { label: 'Reference', to: '/reference' };
const title = 'Names that wait';

const NothingWaits = ({ hasCastings }: { hasCastings: boolean }) => (
  <>
    <PageHeader title={title} facts="None just now" back={back} />
    <EmptyState
      title={hasCastings ? 'Every name is settled' : 'No name waits yet'}
      actions={
        <>
          <SeenLink filled />
          <Button component={Link} href="~/lots/import" variant={useSeenCount() > 0 ? 'default' : 'filled'}>
            Import a spreadsheet
          </Button>
          {hasCastings ? (
            <Button component={Link} href="~/reference">
              To the reference
            </Button>
          ) : null}
        </>
      }
    >
      Names of cars and sale records that the reference does not know gather here, like spellings together.
      Say once what each is, and all its cars and sale records are identified.
    </EmptyState>
  </>
);

const Names = ({ waiting, withCastings }: { waiting: readonly WaitingName[]; withCastings: boolean }) => {
  const {
    left: names,
    settle,
    hasSettled,
  } = useSettling(waiting, keyOf, {
    write: (texts, settlement: Parameters<typeof api.names.settle>[0]['settlement']) =>
      api.names.settle({ texts, settlement }),
    said,
    failure: 'That name could not be settled',
  });
  const hasCastings = withCastings || hasSettled;
  const columns = useNamesColumns(waiting);
  const [selected, setSelected] = useState<readonly string[]>([]);
  const [picking, setPicking] = useState<Picking>(null);
  const grid = useRef<GridHandle>(null);
  const field = useRef<HTMLInputElement>(null);
  const chosen = names.filter(name => selected.includes(keyOf(name)));
  const texts = chosen.map(keyOf);
  const leave = () => {
    setPicking(null);
    grid.current?.focus();
  };
  const done = (...[settlement]: [Parameters<typeof settle>[1]]) => {
    settle(texts, settlement);
    leave();
  };
  const asCasting = (name?: string) => done({ as: 'casting', name });
  const picked = (castingId: number) => done({ as: picking ?? 'same', castingId });
  const proposed = () => {
    const near = chosen.length === 1 ? chosen[0]?.near : null;
    if (near) done({ as: 'same', castingId: near.castingId });
    else asCasting();
  };
  useKeys(title, [
    { keys: 'Enter', does: 'Settle as proposed: a new casting, or the one that is spelled like it' },
    { keys: 'N', does: 'A new casting', run: () => asCasting() },
    { keys: 'E', does: 'Change its name first', run: () => field.current?.select() },
    ...(hasCastings
      ? [
          { keys: 'S', does: 'The same as an existing casting', run: () => setPicking('same') },
          { keys: 'R', does: 'Another release of a casting', run: () => setPicking('release') },
        ]
      : []),
    { keys: 'X', does: 'Not a car', run: () => done({ as: 'not a car' }) },
    { keys: 'shift+ArrowDown', does: 'Select several, to settle them together' },
  ]);
  const cars = names.reduce((sum, name) => sum + name.cars, 0);
  const sales = names.reduce((sum, name) => sum + name.sales, 0);
  return (
    <div className={classes.screen}>
      <PageHeader
        title={title}
        back={back}
        actions={<SeenLink />}
        facts={`${counted(names.length, 'name')} of ${rowsText(cars, sales)}`}
      />
      <div className={classes.split}>
        <div className={classes.list}>
          <DataGrid
            label="Names"
            rows={names}
            columns={columns}
            getRowId={keyOf}
            rowHeight={32}
            autoFocus
            handle={grid}
            onOpen={proposed}
            onSelectionChange={rows => {
              setSelected(rows);
              setPicking(null);
            }}
          />
        </div>
        <NamePanel
          chosen={chosen}
          picking={picking}
          setPicking={setPicking}
          field={field}
          hasCastings={hasCastings}
          onCasting={asCasting}
          onPicked={picked}
          onNotACar={() => done({ as: 'not a car' })}
          onLeave={leave}
        />
      </div>
    </div>
  );
};

/** The names that the reference does not know, to be settled by a key each. */
export const NamesScreen = () => {
  const waiting = useQuery({ queryKey: ['names'], queryFn: () => api.names.waiting() });
  const castings = useQuery({ queryKey: ['castings'], queryFn: () => api.reference.castings() });
  const error = waiting.error ?? castings.error;
  if (error) return <ErrorState error={error} retry={() => void waiting.refetch()} />;
  if (!waiting.data || !castings.data) return <LoadingState />;
  const hasCastings = castings.data.length > 0;
  if (waiting.data.names.length === 0) return <NothingWaits hasCastings={hasCastings} />;
  return <Names waiting={waiting.data.names} withCastings={hasCastings} />;
};
