import type { Transaction } from 'kysely';
import type { IsoDate } from '../../valuation/types.ts';
import type { Schema } from '../schema.ts';

export interface PhotoChanges {
  view?: string | undefined;
  caption?: string | undefined;
  state?: string | undefined;
  takenOn?: IsoDate | null | undefined;
  /** Place among the photographs of its car, lot or variation; lower comes first. */
  position?: number | undefined;
}

/** Changes what is kept of a photograph besides its bytes. */
export const updatePhoto = async (
  trx: Transaction<Schema>,
  id: number,
  { view, caption, state, takenOn, position }: PhotoChanges,
): Promise<void> => {
  const values = {
    ...(view !== undefined && { view }),
    ...(caption !== undefined && { caption }),
    ...(state !== undefined && { state }),
    ...(takenOn !== undefined && { taken_on: takenOn }),
    ...(position !== undefined && { position }),
  };
  if (Object.keys(values).length > 0)
    await trx.updateTable('photo').set(values).where('id', '=', id).execute();
};

/** Takes a photograph off its car, lot or variation; the file stays in the photo folder. */
export const removePhoto = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx.deleteFrom('photo').where('id', '=', id).execute();
};
