import type { PartName, WorkKind } from '../../../valuation/words.ts';
import { type LookItem, lookBeforeClosing } from '../../../valuation/work/look-before-closing.ts';
import type { CarRow } from '../views.ts';

type Described = Pick<CarRow, 'variationId' | 'features'>;

/** Parts that a car of an identified variation never had, by what its variation says. */
const neverHad = ({ variationId, features }: Described): PartName[] =>
  variationId !== null && /^(|none|no|-)$/i.test(features.accessory) ? ['accessory'] : [];

/**
 * What to look at before a car is closed that is painted; nothing for other work. `parts` are those of its
 * casting.
 */
export const lookListOf = (
  kind: WorkKind,
  car: Described,
  parts: readonly { part: PartName; lookAt: string }[],
): LookItem[] => (kind === 'restore' || kind === 'customise' ? lookBeforeClosing(parts, neverHad(car)) : []);
