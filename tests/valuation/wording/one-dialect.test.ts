import { expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { spell, spellings } from '../../../valuation/wording/dialect.ts';
import { adjustmentText } from '../../../valuation/wording/values/record-text.ts';
import { stepCallText } from '../../../valuation/wording/work/step-call-text.ts';
import { workReasonText } from '../../../valuation/wording/work/work-text.ts';
import { finishStates } from '../../../valuation/words.ts';
import { startingSteps } from '../../../valuation/work/steps/index.ts';

const british = new RegExp(`\\b(?:${spellings.map(([word]) => word).join('|')}|bonnet|boot|bonnets)\\b`, 'i');
const mixed = (texts: string[]) => texts.filter(text => british.test(text));

it('says everything of a plan to an American reader in American words', () => {
  const us = 'en-US';
  const steps = startingSteps('USD');
  const texts = [
    ...steps.map(({ name }) => spell(name, us)),
    ...steps.map(step => stepCallText(step, us)),
    ...finishStates.map(finishState => workReasonText({ kind: 'finish-state', finishState }, us)),
    ...finishStates.flatMap(to =>
      finishStates.map(from => adjustmentText({ kind: 'finish-state', from, to, grade: 9 }, us)),
    ),
    ...defaultAssumptions('USD').standardPlan.restore.lines.map(({ name }) => spell(name, us)),
  ];
  expect(texts.length).toBeGreaterThan(100);
  expect(mixed(texts)).toEqual([]);
  expect(mixed([workReasonText({ kind: 'finish-state', finishState: 'customised' }, 'en-GB')])).toHaveLength(
    1,
  );
});
