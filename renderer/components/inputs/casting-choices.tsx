import type { BasePaint } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { LacquerChip } from '../lacquer-chip/lacquer-chip.tsx';
import type { Choice } from './choices.ts';

/** What was picked of the reference: a casting, and its variation where the words told of one. */
export interface PickedCasting {
  castingId: number;
  variationId: number | null;
}

/** Castings, and variations once enough is typed to tell one. Read the choice with `pickedCasting`. */
export const suggestCastings = async (text: string): Promise<Choice[]> =>
  (await api.reference.suggest({ text })).map(found => ({
    value: `${found.castingId}:${found.variationId ?? ''}`,
    label: found.label,
    detail: found.detail,
    ...(found.kind === 'variation' && {
      mark: <LacquerChip name="" swatch={found.swatch} basePaint={found.basePaint} nameless />,
    }),
  }));

export const pickedCasting = (choice: Choice | null): PickedCasting | null => {
  const [casting, variation] = choice?.value.split(':') ?? [];
  return casting ? { castingId: Number(casting), variationId: variation ? Number(variation) : null } : null;
};

/** The variations of one casting, by their telling features. */
export const variationChoices = async (castingId: number): Promise<Choice[]> => {
  const { variationRows, name } = await api.reference.casting({ id: castingId });
  return variationRows.map(row => ({
    value: String(row.id),
    label: row.label,
    detail: [row.releaseName === name ? '' : row.releaseName, row.releaseYear].filter(Boolean).join(' · '),
    mark: (
      <LacquerChip
        name=""
        swatch={row.swatch}
        basePaint={row.features.basePaint as BasePaint | ''}
        nameless
      />
    ),
  }));
};
