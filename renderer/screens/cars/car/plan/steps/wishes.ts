import type {
  LineChange,
  OwnLine,
  PartChoice,
  PlanWishes,
  ThreePoint,
  WorkLine,
} from '../../../../../../valuation/types.ts';
import type { DeviationKind, PartName } from '../../../../../../valuation/words.ts';

const isOwn = (wishes: PlanWishes, id: string): boolean => (wishes.added ?? []).some(own => own.id === id);

const filled = (wishes: PlanWishes): PlanWishes =>
  Object.fromEntries(
    Object.entries(wishes).filter(([, value]) =>
      Array.isArray(value)
        ? value.length > 0
        : typeof value === 'object'
          ? Object.keys(value).length > 0
          : value !== undefined,
    ),
  );

/** Without a line: an own one goes, one of the steps is not to be done. */
export const withoutLine = (wishes: PlanWishes, id: string): PlanWishes => {
  if (isOwn(wishes, id))
    return filled({ ...wishes, added: (wishes.added ?? []).filter(own => own.id !== id) });
  if (wishes.also?.includes(id)) return filled({ ...wishes, also: wishes.also.filter(one => one !== id) });
  return { ...wishes, without: [...(wishes.without ?? []), id] };
};

/** With a step: one that was taken out comes back, another is done though nothing calls for it. */
export const withStep = (wishes: PlanWishes, id: string): PlanWishes =>
  wishes.without?.includes(id)
    ? filled({ ...wishes, without: wishes.without.filter(one => one !== id) })
    : { ...wishes, also: [...(wishes.also ?? []), id] };

export const withOwnLine = (wishes: PlanWishes, name: string): PlanWishes => {
  const taken = new Set((wishes.added ?? []).map(({ id }) => id));
  let number = taken.size + 1;
  while (taken.has(`own-${number}`)) number += 1;
  const own: OwnLine = {
    id: `own-${number}`,
    name,
    part: null,
    hands: { low: 5, likely: 10, high: 20 },
    waiting: { low: 0, likely: 0, high: 0 },
    cost: { low: 0, likely: 0, high: 0 },
    hazards: [],
    behind: null,
  };
  return { ...wishes, added: [...(wishes.added ?? []), own] };
};

/** What a line costs in materials, the sum of them. */
export const materialCost = ({ materials }: Pick<WorkLine, 'materials'>): ThreePoint =>
  materials.reduce(
    (sum, { cost }) => ({
      low: sum.low + cost.low,
      likely: sum.likely + cost.likely,
      high: sum.high + cost.high,
    }),
    { low: 0, likely: 0, high: 0 },
  );

export const withChange = (wishes: PlanWishes, id: string, change: LineChange): PlanWishes =>
  isOwn(wishes, id)
    ? { ...wishes, added: (wishes.added ?? []).map(own => (own.id === id ? { ...own, ...change } : own)) }
    : { ...wishes, changed: { ...wishes.changed, [id]: { ...wishes.changed?.[id], ...change } } };

/** Where an own line stands. */
export const withPlace = (wishes: PlanWishes, id: string, behind: string | null): PlanWishes => ({
  ...wishes,
  added: (wishes.added ?? []).map(own => (own.id === id ? { ...own, behind } : own)),
});

/** True where the owner changed, added or asked for a line. */
export const isChanged = (wishes: PlanWishes, id: string): boolean =>
  wishes.changed?.[id] !== undefined || isOwn(wishes, id) || (wishes.also?.includes(id) ?? false);

/** A line of a step as the step has it again. */
export const unchanged = (wishes: PlanWishes, id: string): PlanWishes => {
  const { [id]: _, ...changed } = wishes.changed ?? {};
  return filled({ ...wishes, changed });
};

/** A part from elsewhere; `null` leaves it to the plan, `'leave off'` leaves the car without. */
export const withFit = (
  wishes: PlanWishes,
  part: PartName,
  choice: PartChoice | 'leave off' | null,
): PlanWishes => {
  const { [part]: _, ...fit } = wishes.fit ?? {};
  const leaveOff = (wishes.leaveOff ?? []).filter(one => one !== part);
  if (choice === 'leave off') return filled({ ...wishes, fit, leaveOff: [...leaveOff, part] });
  return filled({ ...wishes, leaveOff, fit: choice === null ? fit : { ...fit, [part]: choice } });
};

export const withDeparture = (wishes: PlanWishes, kind: DeviationKind, on: boolean): PlanWishes => {
  const others = (wishes.departures ?? []).filter(one => one !== kind);
  return filled({ ...wishes, departures: on ? [...others, kind] : others });
};
