import type { PlanView } from '../../../../../electron/api/views.ts';
import type { ThreePoint } from '../../../../../valuation/types.ts';
import { type Originality, type PartName, partsToShow } from '../../../../../valuation/words.ts';

export type PlanLine = PlanView['lines'][number];
export type PlanDraft = Omit<PlanView, 'standard'>;

export const lineKinds = ['part', 'material', 'tool', 'other'] as const satisfies readonly PlanLine['kind'][];

export const emptyLine: PlanLine = {
  name: '',
  kind: 'material',
  cost: { low: 0, likely: 0, high: 0 },
};

/**
 * The parts of a car that a plan says something of: those that its casting has, and those that were looked at or
 * that the plan names; not the finish, which the plan makes again by itself, nor what it came in.
 */
export const partsOfPlan = (
  castingParts: readonly PartName[] | null,
  seen: readonly PartName[],
): PartName[] =>
  partsToShow(castingParts, seen).filter(part => part !== 'body finish' && part !== 'packaging');

export const draftOfPlan = ({ standard: _, ...plan }: PlanView): PlanDraft => plan;

/** How a part will be after the work: what the plan says, and original where it says nothing. */
export const partAfter = (draft: PlanDraft, part: PartName): Originality =>
  draft.partsAfter.find(state => state.part === part)?.originality ?? 'original';

export const withPartAfter = (draft: PlanDraft, part: PartName, originality: Originality): PlanDraft => {
  const others = draft.partsAfter.filter(state => state.part !== part);
  return {
    ...draft,
    partsAfter: originality === 'original' ? others : [...others, { part, grade: null, originality }],
  };
};

const rises = ({ low, likely, high }: ThreePoint): boolean => low <= likely && likely <= high;

/** Why a plan cannot be kept yet, or null. */
export const planProblem = (draft: PlanDraft): string | null => {
  const nameless = draft.lines.findIndex(line => line.name.trim() === '');
  if (nameless >= 0) return `Line ${nameless + 1} needs a name. Name it or remove it.`;
  const falling = draft.lines.find(line => !rises(line.cost));
  if (falling) return `Costs of “${falling.name}” must rise from low to likely to high.`;
  if (!rises(draft.hours)) return 'The hours must rise from low to likely to high.';
  return null;
};

/** What the lines come to, point by point; hours are apart. */
export const lineTotal = (draft: Pick<PlanDraft, 'lines'>): ThreePoint =>
  draft.lines.reduce(
    (sum, { cost }) => ({
      low: sum.low + cost.low,
      likely: sum.likely + cost.likely,
      high: sum.high + cost.high,
    }),
    { low: 0, likely: 0, high: 0 },
  );

/** What `decisions.savePlan` takes; a line draws on the shelf only where it names a part. */
export const planInput = (carId: number, draft: PlanDraft) => ({
  carId,
  kind: draft.kind,
  targetGrade: draft.targetGrade,
  deviations: draft.deviations,
  partsAfter: draft.partsAfter,
  hours: draft.hours,
  spoilChance: draft.spoilChance,
  spoiledShare: draft.spoiledShare,
  lines: draft.lines.map(({ name, kind, cost, part, quantity }) => ({
    name: name.trim(),
    kind,
    cost,
    ...(part?.trim() ? { part: part.trim(), quantity: quantity ?? 1 } : {}),
  })),
  notes: draft.notes,
});
