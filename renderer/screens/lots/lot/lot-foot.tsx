import type { LotPage } from '../../../../electron/api/views.ts';
import { amountText } from '../../../components/format.ts';
import classes from './lot.module.css';
import { type Lack, lacks } from './row-state.ts';

/** The foot of the grid: whether the shares come to the cost, and what the cars still lack, each a filter. */
export const LotFoot = ({
  lot,
  lack,
  onLack,
  shareAnew,
}: {
  lot: LotPage;
  lack: Lack | null;
  onLack: (lack: Lack | null) => void;
  shareAnew: () => Promise<unknown>;
}) => {
  const here = lot.rows.filter(row => row.status !== 'sold');
  const whole = lot.shared === lot.cost;
  const fixed = lot.rows.filter(row => row.costFixed).length;
  return (
    <div className={classes.foot}>
      {lot.rows.length > 0 && lot.costs.length > 0 ? (
        <span className={whole ? undefined : 'caution'}>
          shared {amountText(lot.shared, lot.currency)} {whole ? '=' : '≠'}{' '}
          {amountText(lot.cost, lot.currency)} {lot.currency} {whole ? '✓' : ''}
          {fixed > 0 ? ` · ${fixed} fixed by hand` : ''}
          <button
            type="button"
            className={classes.footButton}
            onClick={() => void shareAnew()}
            title="In proportion to today’s values as found; shares fixed by hand stay"
          >
            Share again by value
          </button>
        </span>
      ) : (
        <span>
          {lot.costs.length === 0 ? 'No cost entered yet' : 'The cost is shared out once there are cars'}
        </span>
      )}
      <span className={classes.lacks}>
        {(Object.keys(lacks) as Lack[]).map(word => {
          const count = here.filter(lacks[word]).length;
          if (count === 0 && lack !== word) return null;
          return (
            <button
              key={word}
              type="button"
              className={classes.lack}
              aria-pressed={lack === word}
              onClick={() => onLack(lack === word ? null : word)}
            >
              {count.toLocaleString()} {word}
            </button>
          );
        })}
        {lack === null ? null : (
          <button type="button" className={classes.footButton} onClick={() => onLack(null)}>
            Show all {lot.rows.length.toLocaleString()}
          </button>
        )}
      </span>
    </div>
  );
};
