import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { LotPage } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { api } from '../../../api/client.ts';
import { useSummary } from '../../../api/use-summary.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { useOwnMeanings } from '../../../components/own-words/own-meanings.ts';
import { worthScale } from '../../../components/worth-strip/scale.ts';
import { stripWorths } from '../../../components/worth-strip/strip-worths.ts';
import { Inspector } from '../inspector/inspector.tsx';
import { carColumns } from './car-columns.tsx';
import classes from './lot.module.css';
import { LotFoot } from './lot-foot.tsx';
import { LotHeader } from './lot-header.tsx';
import { carRowState, type Lack, lacks } from './row-state.ts';
import { useDealing } from './use-dealing.tsx';
import { useInspector } from './use-inspector.ts';
import { useLotWrites } from './use-lot-writes.ts';

/** What the inspector shows beside the grid, the grid leaves out where room is short. */
const besides = new Set(['release', 'location', 'notes']);

const LotWork = ({
  lot,
  version,
  currency,
}: {
  lot: LotPage;
  /** Changes whenever the lot is asked for again. */
  version: number;
  currency: Currency;
}) => {
  const client = useQueryClient();
  const [, navigate] = useLocation();
  const writes = useLotWrites(lot.id);
  const dealing = useDealing(lot);
  const inspector = useInspector();
  const [carId, setCarId] = useState<number | null>(null);
  const [lack, setLack] = useState<Lack | null>(null);
  const scale = useMemo(
    () =>
      worthScale(
        lot.rows.map(row => stripWorths(row.worths)),
        currency,
      ),
    [lot.rows, currency],
  );
  const means = useOwnMeanings();
  const columns = useMemo(() => {
    const all = carColumns({ client, lotCurrency: lot.currency, currency, scale, means });
    return inspector.shown && !inspector.roomy ? all.filter(column => !besides.has(column.id)) : all;
  }, [client, lot.currency, currency, scale, means, inspector.shown, inspector.roomy]);
  const rows = useMemo(
    () => (lack === null ? lot.rows : lot.rows.filter(row => lacks[lack](row) && row.status !== 'sold')),
    [lot.rows, lack],
  );
  useKeys('Lot', [
    { keys: 'alt+I', does: 'Show or hide the inspector', run: inspector.toggle },
    { keys: 'F6', does: 'Between the grid and the inspector', run: inspector.swapFocus },
  ]);
  const current = lot.rows.find(row => row.id === carId) ?? null;
  return (
    <div className={`fill ${classes.whole}`} data-over={dealing.over || undefined} {...dealing.handlers}>
      <LotHeader lot={lot} currency={currency} inspector={inspector} dealing={dealing} />
      {dealing.sheet}
      <div className={classes.work}>
        <div className={classes.gridSide}>
          <DataGrid
            label={`Cars of ${lot.name}`}
            rows={rows}
            columns={columns}
            getRowId={row => String(row.id)}
            rowHeight={40}
            startColumn="casting"
            autoFocus
            handle={inspector.grid}
            rowState={carRowState}
            onEdit={writes.edit}
            onAppend={writes.append}
            onOpen={id => navigate(`~/cars/${id}`)}
            onCursorChange={id => setCarId(id === null ? null : Number(id))}
            onDelete={writes.remove}
            onDropFiles={writes.addPhotos}
            footer={<LotFoot lot={lot} lack={lack} onLack={setLack} shareAnew={writes.shareAnew} />}
          />
        </div>
        {inspector.shown ? (
          <Inspector
            panel={inspector.panel}
            row={current}
            lot={lot}
            version={version}
            currency={currency}
            writes={writes}
          />
        ) : null}
      </div>
    </div>
  );
};

/** The working surface of one purchase: its cars in a grid, the car under the cursor beside it. */
export const LotScreen = ({ id }: { id: number }) => {
  const lot = useQuery({ queryKey: ['lot', id], queryFn: () => api.lots.get({ id }) });
  const { data: summary } = useSummary();
  if (lot.error)
    return (
      <ErrorState error={lot.error} retry={() => void lot.refetch()} title="This lot could not be shown" />
    );
  if (!lot.data || !summary) return <LoadingState />;
  return <LotWork lot={lot.data} version={lot.dataUpdatedAt} currency={summary.reportingCurrency} />;
};
