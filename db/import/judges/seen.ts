import { statusText } from '../../../valuation/wording/cars/status-text.ts';
import type { LotRecord } from '../../records/lots/lots.ts';
import type { Purchases } from '../purchases.ts';
import type { RowReader } from './judge.ts';

/** The lot of cars that were only seen, where their rows name none. */
const unnamed = 'Seen, not bought';

const seenText = /^seen(?:[\s,]+(?:only|not (?:yet )?bought))?(?:\s*;\s*(.*))?$/i;

/** Whether a row says that its car was only seen; what else its status says is left to be read. */
export const takeSeen = (row: RowReader): boolean => {
  const said = seenText.exec(row.text('status'));
  if (said) row.replace('status', said[1] ?? '');
  return said !== null;
};

/** Where a row's car goes: a lot of the collection, or one to be made of cars that were only seen. */
export interface LotOfRow {
  lot: LotRecord | null;
  seenLot: string | null;
}

/**
 * The lot of the collection that a row names. A car that was only seen goes to a lot that was only seen: the one
 * that its row names, the one that the file is imported into, or one that is made. Where the row or its lot says that
 * it was bought, that stands, and that it was seen is left open.
 */
export const lotReader = (
  lots: readonly LotRecord[],
  { purchases, seen, mainId }: { purchases: Purchases; seen: ReadonlySet<number>; mainId: number | null },
) => {
  const byName = new Map(lots.map(lot => [lot.name, lot]));
  return (row: RowReader, saysSeen: boolean, wasBought: boolean): LotOfRow => {
    const name = row.takeText('lot');
    const lot = byName.get(name) ?? null;
    const isOpen = saysSeen && !wasBought && (lot === null || seen.has(lot.id));
    if (!isOpen) {
      if (name !== '' && !lot) purchases.unknownLots.add(name);
      if (saysSeen)
        row.hold(
          'status',
          wasBought
            ? 'the row also says that the car was bought or sold, so it is taken as bought'
            : `the lot "${name}" was bought, so the car is taken as bought`,
        );
      return { lot, seenLot: null };
    }
    row.fields.status = row.fields.status ?? statusText('seen');
    if (lot !== null || (name === '' && mainId !== null && seen.has(mainId))) return { lot, seenLot: null };
    const other = byName.get(unnamed);
    if (name === '' && other && seen.has(other.id)) return { lot: other, seenLot: null };
    return { lot: null, seenLot: name || unnamed };
  };
};
