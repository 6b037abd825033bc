import { Select } from '@mantine/core';
import type { CastingPage, VariationRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';

/** Makes a variation the same as another one of its casting. */
export const SameVariation = ({
  casting,
  variation,
  onMerged,
}: {
  casting: CastingPage;
  variation: VariationRow;
  onMerged: () => void;
}) => {
  const merge = useAction(
    (into: number) => api.names.merge({ what: 'variation', into, from: variation.id }),
    { label: `${variation.label} merged into another variation`, onDone: onMerged },
  );
  const others = casting.variationRows.filter(other => other.id !== variation.id);
  if (others.length === 0) return null;
  return (
    <Select
      label="The same as"
      description="Its cars, sale records and photographs become those of the other, at once; undo separates them again"
      placeholder="a variation of its own"
      value={null}
      data={others.map(other => ({ value: String(other.id), label: other.label }))}
      onChange={value => {
        if (value !== null) merge.mutate(Number(value));
      }}
    />
  );
};
