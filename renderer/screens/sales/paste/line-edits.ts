import { featureColumns } from '../../../../valuation/reading/feature-columns.ts';
import type { SaleLineField } from '../../../../valuation/reading/sale-line/read-sale-line.ts';
import { priceText } from '../../../../valuation/reading/sale-line/read-sale-line.ts';
import type { VariationFeature } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import type { CellChange } from '../../../components/data-grid/types.ts';
import { pickedCasting } from '../../../components/inputs/casting-choices.tsx';
import type { LineCorrection, PasteDraft, PasteRow } from './paste-draft.ts';

const { bodyFinish: _, ...ofLines } = featureColumns;

/** The field of a line that a feature of a variation is; a line does not tell the finish of the body. */
export const featureFields = ofLines satisfies Partial<Record<VariationFeature, SaleLineField>>;

const correct = (said: LineCorrection | undefined, more: Partial<LineCorrection>): LineCorrection => ({
  ...said,
  ...more,
  fields: { ...said?.fields, ...more.fields },
});

/**
 * A casting from the list, with the features of its variation where one was picked; or a name
 * as it was typed.
 */
const pickCasting = async (
  said: LineCorrection | undefined,
  { value, choice }: CellChange,
): Promise<LineCorrection> => {
  const picked = pickedCasting(choice);
  const { castingId: _, ...rest } = said ?? { fields: {} };
  if (!picked) return correct(rest, { fields: { casting: value === null ? '' : String(value) } });
  const { casting: __, ...fields } = rest.fields;
  const page = await api.reference.casting({ id: picked.castingId });
  const variation = page.variationRows.find(({ id }) => id === picked.variationId);
  const features = Object.entries(featureFields).flatMap(([feature, field]) => {
    const text = variation?.features[feature as VariationFeature];
    return text ? [[field, text] as const] : [];
  });
  return { ...rest, castingId: picked.castingId, fields: { ...fields, ...Object.fromEntries(features) } };
};

/** The draft after an edit, a fill or a paste in the grid. */
export const withChanges = async (
  draft: PasteDraft,
  rows: ReadonlyMap<string, PasteRow>,
  changes: readonly CellChange[],
  currency: string,
): Promise<PasteDraft> => {
  const corrections = new Map(draft.corrections);
  for (const change of changes) {
    const { rowId, columnId, value } = change;
    const row = rows.get(rowId);
    if (!row) continue;
    const said = corrections.get(row.key);
    const text = value === null ? '' : String(value);
    if (columnId === 'standing') {
      const next: LineCorrection = { ...said, fields: said?.fields ?? {} };
      if (text === 'leave') next.take = 'leave';
      else if (row.not === 'lot' || row.not === 'not a car') next.take = 'add';
      else next.take = undefined;
      corrections.set(row.key, next);
    } else if (columnId === 'casting') corrections.set(row.key, await pickCasting(said, change));
    else if (columnId === 'price') {
      const price =
        typeof value === 'number'
          ? priceText({ minor: value, currency: row.fields.currency ?? currency })
          : '';
      corrections.set(row.key, correct(said, { fields: { price } }));
    } else {
      const parts = columnId === 'missing_parts' || columnId === 'reproduction_parts';
      corrections.set(
        row.key,
        correct(said, { fields: { [columnId]: parts ? text.replaceAll(', ', ',') : text } }),
      );
    }
  }
  return { ...draft, corrections };
};
