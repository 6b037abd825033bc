import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import type { CarPage, CarPlanView } from '../../../../../../electron/api/views.ts';
import type { PlanWishes } from '../../../../../../valuation/types.ts';
import { paintsCar, type WorkKind } from '../../../../../../valuation/words.ts';
import { api } from '../../../../../api/client.ts';
import { useAction } from '../../../../../components/actions/use-action.ts';

type Sent = NonNullable<Parameters<typeof api.plans.view>[0]['wishes']>;

/**
 * A car's plan as it is changed: what is wished, the plan that comes of it, and how it is saved or dropped.
 */
export const usePlanDraft = (car: CarPage, first: CarPlanView) => {
  const [chosen, setChosen] = useState<WorkKind | null>(null);
  const kind = chosen ?? first.kind;
  // A change that is not saved yet.
  const [draft, setDraft] = useState<PlanWishes | null>(null);
  const kept = useQuery({
    queryKey: ['car-plan', car.id, kind, null],
    queryFn: () => api.plans.view({ carId: car.id, kind }),
    ...(kind === first.kind && { placeholderData: first }),
  });
  // What is saved of this kind of work, or is made from the car.
  const base = kept.data ?? null;
  // Wishes that were taken over from a plan of another kind, until that kind is shown.
  const waiting = useRef<PlanWishes | null>(null);
  const [notes, setNotes] = useState(first.notes);
  const savedText = JSON.stringify(base && [base.saved, base.kind, base.wishes, base.notes]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is saved has changed, here or by an undo
  useEffect(() => {
    if (!base) return;
    setDraft(waiting.current);
    waiting.current = null;
    setNotes(base.notes);
  }, [savedText]);
  const asked = useQuery({
    queryKey: ['car-plan', car.id, kind, draft],
    queryFn: () => api.plans.view({ carId: car.id, kind, ...(draft && { wishes: draft as Sent }) }),
    placeholderData: keepPreviousData,
  });
  const view = asked.data?.kind === kind ? asked.data : (base ?? asked.data ?? first);
  const wishes = draft ?? view.wishes;
  const save = useAction(() => api.plans.save({ carId: car.id, kind, wishes: wishes as Sent, notes }), {
    label: 'Plan saved',
    onDone: () => setDraft(null),
  });
  const drop = useAction(() => api.plans.remove({ carId: car.id, kind }), {
    label: 'Back to the proposed plan',
  });
  const unsaved = draft !== null && JSON.stringify(draft) !== JSON.stringify(base?.wishes);
  return {
    carId: car.id,
    /** Whether it is known what is saved of this kind of work. */
    isKnown: base !== null,
    isSaved: base?.saved === 'steps',
    view,
    kind,
    paints: paintsCar(kind),
    wishes,
    notes,
    setNotes,
    /** Whether what it is made of is changed; `changed` counts the notes too. */
    unsaved,
    changed: unsaved || notes !== (base?.notes ?? ''),
    isWorking: asked.isPlaceholderData,
    change: setDraft,
    /** To a kind of work, with wishes taken over from elsewhere or what is saved of it. */
    go: (to: WorkKind, wished: PlanWishes | null) => {
      if (to === kind) return setDraft(wished);
      waiting.current = wished;
      setDraft(null);
      setChosen(to);
    },
    discard: () => {
      setDraft(null);
      setNotes(base?.notes ?? '');
    },
    save,
    drop,
  };
};

export type PlanDraft = ReturnType<typeof usePlanDraft>;

/** Saves what is wished of a plan as a template. */
export const useSaveTemplate = ({ carId, kind, wishes }: PlanDraft, onDone: () => void) =>
  useAction(
    (name: string) => api.plans.saveTemplate({ name, kind, wishes: wishes as Sent, fromCarId: carId }),
    {
      label: name => `Saved the template “${name}”`,
      onDone,
    },
  );
