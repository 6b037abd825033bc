import { Link } from 'wouter';
import type { LotRow } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { Amount } from '../../components/amounts/amount.tsx';
import type { GridColumn } from '../../components/data-grid/types.ts';
import { dateText, worthText } from '../../components/format.ts';
import { Photo } from '../../components/photo/photo.tsx';
import classes from './lots.module.css';

const Done = ({ of, done, word }: { of: number; done: number; word: string }) => (
  <span className={classes.done} data-whole={done === of || undefined}>
    <span className={classes.doneLine}>
      <span>{of === 0 ? '–' : done === of ? 'all' : done}</span>
      {of === 0 || done === of ? null : <span className={classes.doneOf}>of {of}</span>}
    </span>
    <span className={classes.doneBar} aria-hidden="true">
      <span style={{ width: of ? `${(100 * done) / of}%` : 0 }} />
    </span>
    <span className="heard">{word}</span>
  </span>
);

/** Worth of the cars still here beside the lot's cost, both as bars on one scale. */
const Against = ({ lot, most, currency }: { lot: LotRow; most: number; currency: Currency }) => {
  const unsold = lot.carCount - lot.soldCount;
  const comparable = lot.currency === currency;
  if (unsold === 0 && lot.carCount > 0) return <span className="soft">all sold</span>;
  if (lot.valuedCount === 0)
    return <span className="soft">{lot.carCount === 0 ? 'no cars yet' : 'not enough evidence'}</span>;
  return (
    <span className={classes.against}>
      <span className={classes.bars} aria-hidden="true">
        <span className={classes.worthBar} style={{ width: `${(100 * lot.worth) / most}%` }} />
        {comparable ? (
          <span className={classes.costMark} style={{ left: `${(100 * lot.cost) / most}%` }} />
        ) : null}
      </span>
      <span className={classes.worth}>
        {worthText(lot.worth, currency)}
        {lot.valuedCount < unsold ? (
          <span className={classes.under}>
            {lot.valuedCount} of {unsold} valued
          </span>
        ) : null}
      </span>
    </span>
  );
};

const progress = (id: 'identified' | 'graded' | 'photographed', title: string): GridColumn<LotRow> => ({
  id,
  title,
  width: id === 'photographed' ? 116 : 92,
  value: lot => (lot.carCount ? lot[`${id}Count`] / lot.carCount : 0),
  text: lot => `${lot[`${id}Count`]} of ${lot.carCount}`,
  render: lot => <Done of={lot.carCount} done={lot[`${id}Count`]} word={id} />,
});

/** The columns of the list of lots; the bars of worth and cost share one scale. */
export const lotColumns = (lots: readonly LotRow[], currency: Currency): GridColumn<LotRow>[] => {
  const most = Math.max(
    1,
    ...lots.flatMap(lot => (lot.currency === currency ? [lot.worth, lot.cost] : [lot.worth])),
  );
  return [
    {
      id: 'photo',
      title: 'Photograph',
      width: 112,
      sortable: false,
      value: () => null,
      text: () => '',
      render: lot => (
        <span className={classes.picture}>
          <Photo sha256={lot.photo} alt="" width={84} height={52} />
        </span>
      ),
    },
    {
      id: 'name',
      title: 'Lot',
      width: 180,
      grow: 2,
      value: lot => lot.name,
      render: lot => (
        <span className={classes.two}>
          <Link href={`/${lot.id}`} className={classes.lotName} tabIndex={-1}>
            {lot.name}
          </Link>
          <span className={classes.under}>{lot.seller || 'seller not noted'}</span>
        </span>
      ),
    },
    {
      id: 'boughtOn',
      title: 'Bought',
      width: 108,
      value: lot => lot.boughtOn,
      text: lot => (lot.boughtOn ? dateText(lot.boughtOn) : lot.isSeen ? 'seen only' : ''),
      render: lot =>
        lot.boughtOn ? (
          dateText(lot.boughtOn)
        ) : (
          <span className="soft">{lot.isSeen ? 'seen only' : 'no date'}</span>
        ),
    },
    {
      id: 'cost',
      title: 'Cost',
      width: 100,
      align: 'end',
      value: lot => lot.cost,
      render: lot => (
        <span className={classes.cost}>
          <Amount minor={lot.cost} currency={lot.currency} />
          <span className={classes.under}>{lot.currency}</span>
        </span>
      ),
    },
    { id: 'cars', title: 'Cars', width: 60, align: 'end', value: lot => lot.carCount },
    progress('identified', 'Identified'),
    progress('graded', 'Graded'),
    progress('photographed', 'Photographed'),
    {
      id: 'worth',
      title: 'Value as found',
      heading: (
        <span className={classes.key}>
          <span className={classes.keyMark} aria-hidden="true" /> against cost, {currency}
        </span>
      ),
      width: 224,
      grow: 2,
      value: lot => (lot.valuedCount ? lot.worth : null),
      text: lot => (lot.valuedCount ? worthText(lot.worth, currency) : ''),
      render: lot => <Against lot={lot} most={most} currency={currency} />,
    },
    {
      id: 'sold',
      title: 'Sold',
      width: 72,
      align: 'end',
      value: lot => lot.soldCount,
      render: lot => (lot.soldCount === 0 ? <span className="soft">–</span> : lot.soldCount),
    },
  ];
};
