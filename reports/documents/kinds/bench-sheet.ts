import type { WorkPlan } from '../../../valuation/types.ts';
import { disclosureText } from '../../../valuation/wording/cars/disclosure-text.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { moneyText, numberText, type Reader } from '../../../valuation/wording/reader.ts';
import { cautions, generalCautions } from '../../../valuation/wording/work/cautions.ts';
import {
  closureText,
  departureText,
  gradesText,
  plannedPartText,
  workReasonText,
} from '../../../valuation/wording/work/work-text.ts';
import { type CarFacts, carName, conditionText, footerText, identityFacts } from '../car-facts.ts';
import type { DocumentBlock, PaperDocument } from '../document.ts';
import type { Edition } from './dossier.ts';

const cautionBlocks = (plan: WorkPlan, locale: string): DocumentBlock[] => [
  { kind: 'heading', level: 2, text: 'Cautions' },
  ...plan.hazards.map((hazard): DocumentBlock => {
    const { title, sentences, authority } = cautions[hazard];
    return {
      kind: 'paragraph',
      tone: 'caution',
      text: spell(`${title}. ${sentences.join(' ')} Look it up: ${authority}.`, locale),
    };
  }),
  { kind: 'paragraph', tone: 'quiet', text: spell(generalCautions.join(' '), locale) },
];

/**
 * A plan for the bench: parts to have ready, each step to tick with why it is there, cautions, the
 * look before closing, which is the bench's own list of the casting's parts.
 */
export const benchSheetDocument = (
  car: CarFacts,
  plan: WorkPlan,
  edition: Edition,
  lookAt: readonly string[] = [],
): PaperDocument => {
  const { reader } = edition;
  const { locale } = reader;
  const disclosed = disclosureText(car.disclosure, locale);
  const hours = (value: number) => numberText(value, 1, locale);
  return {
    title: `Bench sheet, ${car.inventoryNumber}`,
    subtitle: `${carName(car)}, ${conditionText(car, locale)}`,
    author: edition.owner,
    footer: footerText,
    paper: edition.paper,
    blocks: [
      ...(disclosed ? [{ kind: 'paragraph' as const, tone: 'statement' as const, text: disclosed }] : []),
      { kind: 'facts', facts: identityFacts(car, locale) },
      {
        kind: 'facts',
        facts: [
          { label: 'Own time', value: `${hours(plan.hours.low)} to ${hours(plan.hours.high)} hours` },
          { label: 'Waiting', value: `${hours(plan.waiting.low)} to ${hours(plan.waiting.high)} hours` },
          { label: 'Cost', value: costText(plan, reader) },
          // A donor is in pieces afterwards: it ends in no grade.
          ...(plan.kind === 'donor'
            ? []
            : [{ label: 'Can end as', value: gradesText(plan, car.finishState, locale) }]),
          ...(plan.closure ? [{ label: 'Closing', value: closureText(plan.closure) }] : []),
        ],
      },
      ...(plan.parts.length > 0
        ? [
            { kind: 'heading' as const, level: 2 as const, text: 'Parts to have ready' },
            { kind: 'checklist' as const, items: plan.parts.map(part => plannedPartText(part, locale)) },
          ]
        : []),
      { kind: 'heading', level: 2, text: 'Steps' },
      {
        kind: 'checklist',
        items: plan.lines.map(line => {
          const why = workReasonText(line.why, locale);
          return spell(why ? `${line.name} (${why})` : line.name, locale);
        }),
      },
      ...(lookAt.length > 0
        ? [
            { kind: 'heading' as const, level: 2 as const, text: 'Before it is closed' },
            { kind: 'checklist' as const, items: lookAt.map(text => spell(text, locale)) },
          ]
        : []),
      ...(plan.departures.length > 0
        ? [
            { kind: 'heading' as const, level: 2 as const, text: 'What must be recorded of it afterwards' },
            {
              kind: 'checklist' as const,
              items: plan.departures.map(departure => departureText(departure, plan, locale)),
            },
          ]
        : []),
      ...(plan.hazards.length > 0 ? cautionBlocks(plan, locale) : []),
    ],
  };
};

const costText = ({ cost }: WorkPlan, reader: Reader): string =>
  `${reader.currency} ${moneyText(cost.low, reader)} to ${moneyText(cost.high, reader)}`;
