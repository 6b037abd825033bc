import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { planLines } from '../../electron/cli/commands/plan.ts';
import { CautionList } from '../../renderer/components/cautions/caution-list.tsx';
import type { CarFacts } from '../../reports/documents/car-facts.ts';
import { benchSheetDocument } from '../../reports/documents/kinds/bench-sheet.ts';
import { defaultAssumptions } from '../../valuation/default-assumptions.ts';
import type { WorkPlan, WorkStep } from '../../valuation/types.ts';
import { spell } from '../../valuation/wording/dialect.ts';
import { plainLocale } from '../../valuation/wording/reader.ts';
import { cautions, hazardsOf } from '../../valuation/wording/work/cautions.ts';
import { variationFeatures } from '../../valuation/words.ts';
import { planFromCar } from '../../valuation/work/plan-from-car.ts';
import { startingSteps } from '../../valuation/work/steps/index.ts';
import { subjectOf } from '../helpers/markets/market-arbitrary.ts';
import { readmeParts } from '../helpers/readme-cautions.ts';

const hazardous = startingSteps('USD').filter(step => step.hazards.length > 0);

/** A plan of a step alone. */
const planOf = (step: WorkStep): WorkPlan => {
  const assumptions = defaultAssumptions('USD');
  const kind = step.kinds[0]!;
  const everything = startingSteps('USD').map(({ id }) => id);
  return planFromCar(
    subjectOf({ grade: 4 }),
    { ...assumptions, work: { ...assumptions.work, steps: startingSteps('USD') } },
    kind,
    { without: everything.filter(id => id !== step.id), also: [step.id] },
  );
};

/** All texts of a value, whatever holds them. */
const textsIn = (value: unknown): string =>
  typeof value === 'string'
    ? value
    : value !== null && typeof value === 'object'
      ? Object.values(value).map(textsIn).join('\n')
      : '';

const plain = (html: string): string =>
  html.replaceAll('&#x27;', "'").replaceAll('&quot;', '"').replaceAll('&amp;', '&').replaceAll('&gt;', '>');

const facts: CarFacts = {
  inventoryNumber: 'Q-1',
  series: null,
  casting: 'Tallow',
  releaseName: null,
  releaseYear: null,
  features: Object.fromEntries(variationFeatures.map(name => [name, ''])) as CarFacts['features'],
  asWritten: {},
  rarity: null,
  grade: 4,
  finishState: 'original',
  disclosure: {
    finishState: 'original',
    madeColour: '',
    wornColour: '',
    wornFinish: '',
    parts: [],
    mark: '',
    work: null,
  },
  parts: [],
};

describe('the cautions of every step that can injure', () => {
  it('are many', () => expect(hazardous.length).toBeGreaterThan(20));

  it.each(hazardous.map(step => [step.id, step] as const))(
    '%s: app, paper, README and command line',
    (_, step) => {
      const plan = planOf(step);
      expect(plan.lines.map(({ id }) => id)).toEqual([step.id]);
      expect(plan.hazards.toSorted()).toEqual([...step.hazards].toSorted());
      const app = plain(
        renderToStaticMarkup(
          createElement(CautionList, { hazards: hazardsOf(plan.kind, [], plan.hazards), open: true }),
        ),
      );
      const paper = textsIn(
        benchSheetDocument(facts, plan, {
          owner: '',
          paper: 'a4',
          reader: { locale: plainLocale, currency: 'USD' },
        } as never),
      );
      const command = planLines(plan, 'original', 'USD').join('\n');
      const { section } = readmeParts();
      for (const hazard of step.hazards) {
        const { sentences, authority } = cautions[hazard];
        for (const text of [...sentences, authority]) {
          const said = spell(text, plainLocale);
          expect(paper).toContain(said);
          expect(command).toContain(said);
          expect([said, text].some(one => app.includes(one))).toBe(true);
          expect(section).toContain(text);
        }
      }
      // Each names where it comes from.
      expect(app).toContain('From memory; look it up in');
      expect(command).toContain('from memory; look it up');
    },
  );
});
