import { useRef } from 'react';
import type { CarPage } from '../../../../../electron/api/views.ts';
import type { IsoDate } from '../../../../../valuation/types.ts';
import { ConditionEditor, type ConditionHandle } from '../../../../components/condition/condition-editor.tsx';
import { useKeys } from '../../../../components/keys/use-keys.ts';
import { Section } from '../../../../components/layout/section.tsx';
import { ChecksOverTime } from './checks-over-time.tsx';
import classes from './condition.module.css';

/** The condition part by part as it is now, and how it was at each earlier check. */
export const ConditionSection = ({ car, today }: { car: CarPage; today: IsoDate }) => {
  const editor = useRef<ConditionHandle>(null);
  useKeys('Car', [{ keys: 'N', does: 'New check of its condition', run: () => editor.current?.focus() }]);
  return (
    <Section
      id="condition"
      title="Condition"
      aside={
        car.checks.length === 0
          ? 'not checked yet'
          : `${car.checks.length} ${car.checks.length === 1 ? 'check' : 'checks'}; what you change is saved as a check dated today`
      }
    >
      <div className={classes.condition}>
        <ConditionEditor
          carId={car.id}
          grade={car.grade}
          checks={car.checks}
          castingParts={car.castingParts}
          today={today}
          handle={editor}
          withNotes
        />
        <ChecksOverTime checks={car.checks} />
      </div>
    </Section>
  );
};
