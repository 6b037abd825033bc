import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { Link } from 'wouter';
import type { ColourView, SeenVariationRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import type { GridColumn, GridHandle } from '../../../components/data-grid/types.ts';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { readerWords } from '../../../components/words.ts';
import classes from './names.module.css';
import { SeenPanel, type SeenPicking } from './seen-panel.tsx';
import { useSettling } from './use-settling.ts';
import { WaitingLink } from './waiting-link.tsx';

const title = 'Variations seen';
const back = { label: 'Reference', to: '/reference' };

const counted = (
  id: 'cars' | 'sales' | 'lesser',
  heading: string,
  width = 56,
): GridColumn<SeenVariationRow> => ({
  id,
  title: heading,
  width,
  align: 'end',
  value: row => row[id],
  render: row => (row[id] === 0 ? <span className="soft">–</span> : row[id]),
});

const columns = (): readonly GridColumn<SeenVariationRow>[] => [
  {
    id: 'casting',
    title: 'Casting',
    width: 152,
    grow: 1,
    pinned: true,
    value: row => row.casting,
    render: row => <span className={classes.name}>{row.casting}</span>,
  },
  {
    id: 'colour',
    title: readerWords().features.colour,
    width: 124,
    grow: 1,
    value: row => row.colour,
    render: row => (row.colour ? <LacquerChip name={row.colour} swatch={row.swatch} /> : ''),
  },
  {
    id: 'told',
    title: 'Other features',
    width: 176,
    grow: 2,
    value: row => row.told,
    render: row => (
      <span className={classes.cell} title={row.told}>
        {row.told}
      </span>
    ),
  },
  { id: 'release', title: 'Release', width: 72, value: row => row.release },
  counted('cars', 'Cars'),
  counted('sales', 'Sales'),
  counted('lesser', 'Less exact', 76),
];

const keyOf = (row: SeenVariationRow): string => row.key;

const Seen = ({ seen, colours }: { seen: readonly SeenVariationRow[]; colours: readonly ColourView[] }) => {
  const { left, settle } = useSettling(seen, keyOf, {
    write: (keys, settlement: Parameters<typeof api.names.settleSeen>[0]['settlement']) =>
      api.names.settleSeen({ keys, settlement }),
    said: ({ cars, sales }) =>
      `Settled: ${cars === 1 ? '1 car' : `${cars} cars`} and ${sales === 1 ? '1 sale record' : `${sales} sale records`} identified further`,
    failure: 'That could not be settled',
  });
  const [selected, setSelected] = useState<readonly string[]>([]);
  const [picking, setPicking] = useState<SeenPicking>(null);
  const [shown] = useState(columns);
  const grid = useRef<GridHandle>(null);
  const chosen = left.filter(row => selected.includes(row.key));
  const leave = () => {
    setPicking(null);
    grid.current?.focus();
  };
  const done = (settlement: Parameters<typeof settle>[1]) => {
    settle(chosen.map(keyOf), settlement);
    leave();
  };
  const add = () => done({ as: 'variation' });
  const canWord = chosen[0]?.colour !== '';
  useKeys(title, [
    { keys: 'Enter', does: 'A new variation, as it was seen' },
    { keys: 'N', does: 'A new variation, as it was seen', run: add },
    { keys: 'S', does: 'The same as an existing variation', run: () => setPicking('same') },
    {
      keys: 'W',
      does: `Another word for a ${readerWords().dialect.colour}`,
      run: () => {
        if (canWord) setPicking('word');
      },
    },
    { keys: 'shift+ArrowDown', does: 'Select several; Ctrl A selects all' },
  ]);
  const castings = new Set(left.map(row => row.castingId)).size;
  return (
    <div className={classes.screen}>
      <PageHeader
        title={title}
        back={back}
        facts={`${left.length.toLocaleString()} of ${castings === 1 ? '1 casting' : `${castings} castings`}, on cars and sale records, that no variation of the reference has`}
        actions={<WaitingLink />}
      />
      <div className={classes.split}>
        <div className={classes.list}>
          <DataGrid
            label={title}
            rows={left}
            columns={shown}
            getRowId={keyOf}
            rowHeight={32}
            autoFocus
            handle={grid}
            onOpen={add}
            onSelectionChange={rows => {
              setSelected(rows);
              setPicking(null);
            }}
          />
        </div>
        <SeenPanel
          chosen={chosen}
          picking={picking}
          setPicking={setPicking}
          colours={colours}
          onVariation={add}
          onSame={variationId => done({ as: 'same', variationId })}
          onWord={colour => done({ as: 'word', colour })}
          onLeave={leave}
        />
      </div>
    </div>
  );
};

/** Colours and features that cars and sale records have and no variation has, to be settled by a key each. */
export const SeenScreen = () => {
  const seen = useQuery({ queryKey: ['variations seen'], queryFn: () => api.names.seen() });
  const colours = useQuery({ queryKey: ['colours'], queryFn: () => api.reference.colours() });
  const error = seen.error ?? colours.error;
  if (error) return <ErrorState error={error} retry={() => void seen.refetch()} />;
  if (!seen.data || !colours.data) return <LoadingState />;
  if (seen.data.length > 0) return <Seen seen={seen.data} colours={colours.data} />;
  return (
    <>
      <PageHeader title={title} facts="None just now" back={back} actions={<WaitingLink />} />
      <EmptyState
        title="Nothing is left to settle"
        actions={
          <Button component={Link} href="~/reference" variant="filled">
            To the reference
          </Button>
        }
      >
        {readerWords().spell('Colours')} and other features of cars and sale records that no variation of
        their casting has gather here. Once they are variations, the cars are identified by them.
      </EmptyState>
    </>
  );
};
